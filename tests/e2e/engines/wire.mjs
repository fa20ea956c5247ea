// Two ways to carry the commands of W3C WebDriver: HTTP to a driver program, and Gecko's own socket, which takes the same
// commands with the same parameters.
import http from 'node:http';
import net from 'node:net';

/** Each command that is used here: how it is sent over HTTP, and its name on Gecko's socket. */
const COMMANDS = {
  navigate: ['POST', '/url', 'WebDriver:Navigate'],
  execute: ['POST', '/execute/sync', 'WebDriver:ExecuteScript'],
  actions: ['POST', '/actions', 'WebDriver:PerformActions'],
  window: ['POST', '/window/rect', 'WebDriver:SetWindowRect'],
  screenshot: ['GET', '/screenshot', 'WebDriver:TakeScreenshot'],
};

/** No command of these tests may take longer. */
const LONGEST = 60_000;

/** One question over a connection of its own: WebKit's driver may leave a second one on the same connection unanswered. */
const request = (method, address, body) => new Promise((done, fail) => {
  const text = body === undefined ? '' : JSON.stringify(body);
  const headers = { 'content-type': 'application/json', 'content-length': Buffer.byteLength(text), connection: 'close' };
  const asked = http.request(address, { method, headers, agent: false, timeout: LONGEST }, (response) => {
    let said = '';
    response.setEncoding('utf8').on('data', (chunk) => { said += chunk; }).on('end', () => done([response.statusCode, said])).on('error', fail);
  });
  asked.on('timeout', () => asked.destroy(new Error(`no answer within ${LONGEST / 1000} s`))).on('error', fail);
  asked.end(text);
});

/** A session over HTTP. `send` rejects with what the driver says. */
export async function overHttp(address, capabilities) {
  const ask = async (method, path, body) => {
    const [status, said] = await request(method, address + path, body).catch((error) => { throw new Error(`${method} ${path}: ${error.message}`); });
    const { value } = JSON.parse(said);
    if (status !== 200) throw new Error(`${method} ${path}: ${value.error}: ${value.message}`);
    return value;
  };
  const { sessionId, capabilities: given } = await ask('POST', '/session', { capabilities: { alwaysMatch: capabilities } });
  const session = `/session/${sessionId}`;
  const send = (command, parameters = {}) => {
    const [method, path] = COMMANDS[command];
    return ask(method, session + path, method === 'POST' ? parameters : undefined);
  };
  return { send, version: given.browserVersion, ask: (method, path, body) => ask(method, session + path, body), end: () => ask('DELETE', session) };
}

/**
 * A session over Gecko's socket (Marionette, protocol 3): `length:[0, id, name, parameters]` there,
 * `length:[1, id, error, result]` back. Lengths are in bytes.
 */
export async function overSocket(port, capabilities) {
  const socket = net.connect(port, '127.0.0.1');
  const waiting = new Map();
  let bytes = Buffer.alloc(0);
  let greet;
  const greeted = new Promise((done, fail) => { greet = done; socket.on('error', fail); });
  const take = (message) => {
    if (!Array.isArray(message)) { greet(message); return; }
    const [, id, error, result] = message;
    const [done, fail, name] = waiting.get(id);
    waiting.delete(id);
    if (error) fail(new Error(`${name}: ${error.error}: ${error.message}`)); else done(result);
  };
  socket.on('data', (chunk) => {
    bytes = Buffer.concat([bytes, chunk]);
    for (;;) {
      const colon = bytes.indexOf(':');
      const end = colon + 1 + Number(bytes.subarray(0, Math.max(0, colon)));
      if (colon < 0 || bytes.length < end) return;
      take(JSON.parse(bytes.subarray(colon + 1, end)));
      bytes = bytes.subarray(end);
    }
  });
  const lost = (why) => { waiting.forEach(([, fail, name]) => fail(new Error(`${name}: ${why}`))); waiting.clear(); };
  socket.on('error', (error) => lost(error.message));
  socket.on('close', () => lost('the browser has gone'));
  let last = 0;
  const ask = (name, parameters = {}) => new Promise((done, fail) => {
    const late = setTimeout(() => fail(new Error(`${name}: no answer within ${LONGEST / 1000} s`)), LONGEST);
    const settle = (then) => (value) => { clearTimeout(late); then(value); };
    last += 1;
    waiting.set(last, [settle(done), settle(fail), name]);
    const text = JSON.stringify([0, last, name, parameters]);
    socket.write(`${Buffer.byteLength(text)}:${text}`);
  });
  await greeted;
  const { capabilities: given } = await ask('WebDriver:NewSession', { capabilities: { alwaysMatch: capabilities } });
  // Some results stand in `value`, as over HTTP, and some are the result.
  const send = async (command, parameters) => {
    const result = await ask(COMMANDS[command][2], parameters);
    return result && 'value' in result ? result.value : result;
  };
  return { send, version: given.browserVersion, ask, end: () => socket.destroy() };
}
