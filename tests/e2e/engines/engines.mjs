// The engines that browsers are made of, and how each is started with a profile of its own.
import fs from 'node:fs';
import path from 'node:path';
import { CHROMIUM } from '../page.mjs';
import { answer, folder, freePort, start, stop } from './children.mjs';
import { Page } from './driven.mjs';
import { overHttp, overSocket } from './wire.mjs';

/** A driver program that answers over HTTP. */
async function driver(program, args, env) {
  const port = await freePort();
  const child = start(program, [`--port=${port}`, ...args], { env });
  const address = `http://127.0.0.1:${port}`;
  await answer(child, () => fetch(`${address}/status`).then((response) => response.ok, () => false), program);
  return { child, address };
}

/** The proxy as W3C WebDriver asks for it. */
const through = (proxy) => ({ proxyType: 'manual', httpProxy: proxy, sslProxy: proxy, noProxy: ['127.0.0.1'] });

const chromium = async (proxy) => {
  const { child, address } = await driver(process.env.CHROMEDRIVER ?? 'chromedriver', []);
  const session = await overHttp(address, {
    browserName: 'chrome', proxy: through(proxy), 'goog:loggingPrefs': { browser: 'ALL' },
    'goog:chromeOptions': { binary: CHROMIUM.executablePath, args: [...CHROMIUM.args, '--headless=new', `--user-data-dir=${folder('chromium')}`] },
  });
  const log = async () => (await session.ask('POST', '/se/log', { type: 'browser' })).filter(({ level }) => level === 'SEVERE').map(({ message }) => `log: ${message}`);
  return new Page(session, { log, close: () => stop(child) });
};

/** A screen that nobody sees: WebKit's browser knows no other. */
let screen = null;
async function display() {
  if (!screen) {
    const child = start(process.env.XVFB ?? 'Xvfb', ['-displayfd', '3', '-screen', '0', '1400x1600x24', '-nolisten', 'tcp'], { stdio: ['ignore', 'ignore', 'ignore', 'pipe'] });
    let said = '';
    child.stdio[3].on('data', (chunk) => { said += chunk; });
    // The number ends with its line.
    const number = await answer(child, async () => said.match(/^(\d+)\n/)?.[1], 'Xvfb');
    screen = `:${number}`;
  }
  return screen;
}

const webkit = async (proxy) => {
  const env = { DISPLAY: await display(), GDK_BACKEND: 'x11', LIBGL_ALWAYS_SOFTWARE: '1', NO_AT_BRIDGE: '1' };
  const { child, address } = await driver(process.env.WEBKIT_DRIVER ?? 'WebKitWebDriver', ['--host=127.0.0.1'], env);
  // Not as a capability: a list of hosts that go without makes this browser crash at one start in four.
  const args = ['--automation', `--proxy=http://${proxy}`, '--ignore-host=127.0.0.1'];
  // A document can be watched from its first line on only if nobody waits until it is whole.
  const session = await overHttp(address, { pageLoadStrategy: 'none', 'webkitgtk:browserOptions': { args } });
  return new Page(session, { close: () => stop(child) });
};

/** What a first start would ask or fetch. */
const QUIET = {
  'marionette.port': 0, 'app.update.disabledForTesting': true, 'browser.aboutwelcome.enabled': false, 'browser.shell.checkDefaultBrowser': false,
  'browser.startup.homepage': 'about:blank', 'browser.startup.page': 0, 'datareporting.policy.dataSubmissionEnabled': false,
  'toolkit.telemetry.enabled': false, 'network.captive-portal-service.enabled': false, 'network.connectivity-service.enabled': false,
};

/** Runs in the browser itself, not in the page: every error that its console holds of pages, refusals by their policies too. */
const CONSOLE = `
  return Services.console.getMessageArray()
    .filter((one) => one instanceof Ci.nsIScriptError && !(one.flags & Ci.nsIScriptError.warningFlag) && /^https?:/.test(one.sourceName))
    .map((one) => 'log: ' + one.errorMessage + ' ' + one.sourceName + ':' + one.lineNumber);`;

const gecko = async (proxy) => {
  const profile = folder('gecko');
  fs.writeFileSync(path.join(profile, 'user.js'), Object.entries(QUIET).map(([name, value]) => `user_pref(${JSON.stringify(name)}, ${JSON.stringify(value)});\n`).join(''));
  const program = process.env.FIREFOX ?? 'firefox-esr';
  const child = start(program, ['--marionette', '--remote-allow-system-access', '--headless', '--no-remote', '--profile', profile]);
  const file = path.join(profile, 'MarionetteActivePort');
  const port = await answer(child, async () => fs.existsSync(file) && Number(fs.readFileSync(file, 'utf8')), program, 60);
  const session = await overSocket(port, { proxy: through(proxy) });
  const log = async () => {
    await session.ask('Marionette:SetContext', { value: 'chrome' });
    const { value } = await session.ask('WebDriver:ExecuteScript', { script: CONSOLE, args: [] });
    await session.ask('Marionette:SetContext', { value: 'content' });
    return value;
  };
  return new Page(session, { log, close: async () => { session.end(); await stop(child); } });
};

/**
 * Each by its name. `start` gives an empty page in a browser of its own, which asks this proxy for all that is not on this
 * machine. One that `talks` asks for something by itself, too, so there the proxy does not tell of the page.
 */
export const ENGINES = { WebKit: { start: webkit }, Gecko: { start: gecko }, Chromium: { start: chromium, talks: true } };
