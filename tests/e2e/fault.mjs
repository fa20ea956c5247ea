// What the tests of faults share: a server that changes what it sends, a look into the journal, campaigns that are counted.
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import http from 'node:http';
import path from 'node:path';
import { chromium } from 'playwright-core';
import { CHROMIUM, KINDS } from './page.mjs';

/** The long form of each test: `cargo task soak`. */
export const SOAK = process.env.HP_SOAK === '1';

/** Serves a folder with some bytes changed on the way; `change` gives null for a file that is not there. */
export async function changed(dist, change) {
  const state = { change };
  const server = http.createServer((request, response) => {
    const name = request.url.split('?')[0].replace(/\/$/, '/index.html');
    const file = path.join(dist, name);
    const bytes = state.change(name, fs.existsSync(file) ? fs.readFileSync(file) : null);
    if (!bytes) { response.writeHead(404).end(); return; }
    response.writeHead(200, { 'content-type': KINDS[path.extname(name)] ?? 'application/octet-stream', 'cache-control': 'no-cache' });
    response.end(bytes);
  });
  // A test that fails must not keep the run alive.
  server.unref().on('connection', (socket) => socket.unref());
  await new Promise((done) => server.listen(0, '127.0.0.1', done));
  return { url: `http://127.0.0.1:${server.address().port}/`, state, close: () => { server.close(); server.closeAllConnections(); } };
}

export const title = (page) => page.locator('#title').inputValue();

/** Does something that changes what is kept, and waits until the journal has it: 'Saving' may have come and gone before the driver looks. */
export async function keep(page, act) {
  await page.evaluate(() => {
    window.kept = new Promise((done) => {
      let begun = false;
      new MutationObserver((_, observer) => {
        const said = document.querySelector('.saved')?.textContent ?? '';
        begun ||= said.startsWith('Saving');
        if (begun && said === 'Saved') { observer.disconnect(); done(); }
      }).observe(document.body, { childList: true, characterData: true, subtree: true });
    });
  });
  await act();
  await page.evaluate(() => window.kept);
}

export const keepTitle = (page, text) => keep(page, () => page.locator('#title').fill(text));

/** A browser of its own, as a maker has it and without the driver's settings, that can be killed like one whose battery is empty. */
export async function mortal(profile) {
  const { child, connected } = await launched(profile, 3);
  const [context] = connected.contexts();
  const kill = async () => {
    const gone = new Promise((done) => child.on('exit', done));
    process.kill(-child.pid, 'SIGKILL');
    await gone;
    await connected.close().catch(() => {});
  };
  return { context, kill };
}

/** Starts it, again with another port if it ends by itself before anybody could speak to it: the port was taken, say. */
async function launched(profile, tries) {
  const port = 20_000 + Math.floor(Math.random() * 20_000);
  const switches = ['--headless=new', '--no-sandbox', '--disable-gpu', '--no-first-run', `--user-data-dir=${profile}`, `--remote-debugging-port=${port}`, 'about:blank'];
  const child = spawn(CHROMIUM.executablePath, switches, { stdio: 'ignore', detached: true });
  for (let n = 0; ; n += 1) {
    try {
      return { child, connected: await chromium.connectOverCDP(`http://127.0.0.1:${port}`) };
    } catch (error) {
      const ended = child.exitCode !== null || n > 300;
      if (ended) {
        // One that goes on would keep the run from its end.
        if (child.exitCode === null) process.kill(-child.pid, 'SIGKILL');
        if (tries <= 1) throw error;
        return launched(profile, tries - 1);
      }
    }
    await new Promise((done) => setTimeout(done, SOAK ? 500 : 100));
  }
}

/** Waits without frames: a tab behind another one draws none. */
export const until = (page, holds, argument) => page.waitForFunction(holds, argument, { polling: 50 });

/** Runs in the page: reads or changes the stores of the journal. */
export const journal = (page, work, argument = null) => page.evaluate(`new Promise((done, fail) => {
  const opened = indexedDB.open('hundred-parts');
  opened.onerror = () => fail(opened.error);
  opened.onsuccess = () => {
    const transaction = opened.result.transaction(['heads', 'bodies', 'steps'], 'readwrite');
    let result;
    ((transaction, argument, give) => { ${work} })(transaction, ${JSON.stringify(argument)}, (value) => { result = value; });
    transaction.oncomplete = () => { opened.result.close(); done(result); };
    transaction.onabort = () => fail(transaction.error);
  };
})`);

/** Every text that the journal holds. */
export const everything = (page) => journal(page, `
  const all = [];
  for (const name of ['heads', 'bodies', 'steps']) transaction.objectStore(name).getAll().onsuccess = (event) => { all.push(...event.target.result); give(all.join('\\n')); };
`);

/** The rows of all stores with their keys, to be put back by `restore`. */
export const snapshot = (page) => journal(page, `
  const all = {};
  for (const name of ['heads', 'bodies', 'steps']) {
    const rows = all[name] = [];
    transaction.objectStore(name).openCursor().onsuccess = (event) => {
      const cursor = event.target.result;
      if (cursor) { rows.push([cursor.key, cursor.value]); cursor.continue(); } else give(all);
    };
  }`);

export const restore = (page, rows) => journal(page, `
  for (const [name, all] of Object.entries(argument)) {
    const store = transaction.objectStore(name);
    store.clear();
    for (const [key, value] of all) store.put(value, key);
  }`, rows);

/** From its next start on the journal takes its time to open, as on a busy tablet. */
export const lateJournal = (page, wait) => page.addInitScript((wait) => {
  const real = IDBFactory.prototype.open;
  const late = (request, name) => {
    let call = null;
    Object.defineProperty(request, name, { get: () => call, set: (to) => { call = to; } });
    request.addEventListener(name.slice(2), (event) => setTimeout(() => call?.call(request, event), wait));
  };
  IDBFactory.prototype.open = function (...all) { const request = real.apply(this, all); late(request, 'onsuccess'); return request; };
}, wait);

/** The stores take nothing any more, as where the disk is full; and they do again. */
export const noRoom = (page) => page.evaluate(() => {
  const full = () => { throw new DOMException('no room', 'QuotaExceededError'); };
  window.room = { put: IDBObjectStore.prototype.put, set: Storage.prototype.setItem };
  IDBObjectStore.prototype.put = full;
  Storage.prototype.setItem = full;
});
export const roomAgain = (page) => page.evaluate(() => { IDBObjectStore.prototype.put = window.room.put; Storage.prototype.setItem = window.room.set; });
/** One line for the report of a campaign. */
export const told = (campaign, figures) => console.log(`# ${campaign}: ${Object.entries(figures).map(([name, n]) => `${name} ${n}`).join(', ')}`);
