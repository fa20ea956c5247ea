// A static host as they are: it sends every file compressed (Brotli).
import { once } from 'node:events';
import fs from 'node:fs';
import http from 'node:http';
import path from 'node:path';
import zlib from 'node:zlib';
import { KINDS } from './page.mjs';

const quality = { params: { [zlib.constants.BROTLI_PARAM_QUALITY]: 11 } };

/** Every file of a folder by its address, compressed. */
export const pack = (folder) => new Map(files(folder).map((name) => [name, zlib.brotliCompressSync(fs.readFileSync(path.join(folder, name)), quality)]));

function files(folder, under = '') {
  return fs.readdirSync(folder, { withFileTypes: true }).flatMap((entry) => entry.isDirectory()
    ? files(path.join(folder, entry.name), `${under}${entry.name}/`) : [`${under}${entry.name}`]);
}

/** Serves them until `end` is called. */
export async function host(packed) {
  const server = http.createServer((request, response) => {
    const name = request.url.split(/[?#]/)[0].slice(1) || 'index.html';
    const body = packed.get(name);
    if (!body) { response.writeHead(404).end(); return; }
    response.writeHead(200, { 'content-type': KINDS[path.extname(name)] ?? 'application/octet-stream', 'content-encoding': 'br', 'content-length': body.length, 'cache-control': 'no-cache' });
    response.end(body);
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  return { url: `http://127.0.0.1:${server.address().port}/`, end: () => { server.close(); server.closeAllConnections(); } };
}
