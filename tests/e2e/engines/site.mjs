// The finished page as a host serves it that hears of every refusal, and a way to the rest of the world on which nobody gets far.
import fs from 'node:fs';
import http from 'node:http';
import path from 'node:path';
import { serve } from '../page.mjs';

/** Where browsers tell what the policy refused, from the first line of the document on. */
const REFUSED = '/refused';

/** Serves the page with the policy of `_headers`. `refused` grows by what browsers report. `close`: the server is dead. */
export async function site(dist = process.env.HP_DIST) {
  const [, policy] = fs.readFileSync(path.join(dist, '_headers'), 'utf8').match(/Content-Security-Policy: (.*)/);
  const refused = [];
  const each = (request, response) => {
    response.setHeader('content-security-policy', `${policy}; report-uri ${REFUSED}`);
    if (request.url !== REFUSED) return;
    let text = '';
    request.on('data', (chunk) => { text += chunk; });
    request.on('end', () => { refused.push(`refused: ${text}`); });
  };
  return { ...await serve(dist, each), refused };
}

/** A proxy for all that is not on this machine: it notes who was asked for, as far as that can be read, and lets nobody through. */
export async function elsewhere() {
  const asked = [];
  const server = http.createServer((request, response) => { asked.push(`request to ${request.url}`); response.writeHead(502).end(); });
  server.on('connect', (request, socket) => { asked.push(`request to ${request.url}`); socket.on('error', () => {}).end('HTTP/1.1 502 Bad Gateway\r\n\r\n'); });
  server.on('clientError', (error, socket) => { asked.push('request to elsewhere, encrypted'); socket.destroy(); });
  // A browser may keep its connection to the end.
  server.unref().on('connection', (socket) => socket.unref());
  await new Promise((done) => server.listen(0, '127.0.0.1', done));
  return { asked, proxy: `127.0.0.1:${server.address().port}` };
}
