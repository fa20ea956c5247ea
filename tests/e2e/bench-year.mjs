// A simulated year in the finished page: start, search, traces both ways, backup, storage; and a recall drill over 500 batches.
// The files are made by `cargo task bench`, always the same. A benchmark tells; it does not judge.
import assert from 'node:assert/strict';
import fs from 'node:fs';
import path from 'node:path';
import { bringAll, browser, closeOverlay, fromMenu, go, open, overlay, plain, saved } from './page.mjs';
import { host, pack } from './host.mjs';
import { at, ms, watch } from './times.mjs';

const FILES = process.env.HP_YEAR;
const YEAR = fs.readFileSync(path.join(FILES, 'year.json'), 'utf8');
const DRILL = fs.readFileSync(path.join(FILES, 'drill.json'), 'utf8');
const FRAME = 1000 / 60;
const STARTS = 9;

const row = (what, text) => console.log(`${what.padEnd(48)} ${text}`);
const frames = (times) => `${ms(at(times, 0.5))} median, ${at(times, 0.95).toFixed(1)} ms p95; ${(at(times, 0.5) / FRAME).toFixed(2)} frames`;

/** The lot of a file that went into most batches, and their codes: read from the file, without the program. */
function widest(text) {
  const went = new Map();
  for (const { entries } of JSON.parse(text).formulas.flatMap(({ records }) => records)) {
    const { code } = entries.find(({ event }) => event === 'begun');
    for (const { lot } of entries.filter(({ event }) => event === 'weighed')) {
      if (lot) went.set(lot, (went.get(lot) ?? new Set()).add(code));
    }
  }
  return [...went].reduce((most, one) => (one[1].size > most[1].size ? one : most));
}

async function slow(page, rate) {
  page.session ??= await page.context().newCDPSession(page);
  await page.session.send('Emulation.setCPUThrottlingRate', { rate });
}

async function start(page) {
  await page.reload({ waitUntil: 'commit' });
  const moment = await page.evaluate(() => window.usable);
  // What it still works on would be counted with the next one.
  await page.locator('.jump').waitFor();
  await page.waitForTimeout(1000);
  return moment;
}

/** How long the page works on each of these texts in the search, layout included. */
const searched = (page, texts) => page.evaluate(async (texts) => {
  const field = document.querySelector('#find-batch');
  const times = [];
  for (const text of texts) {
    field.value = text;
    const begun = performance.now();
    field.dispatchEvent(new Event('input', { bubbles: true }));
    await new Promise((done) => { const { port1, port2 } = new MessageChannel(); port1.onmessage = done; port2.postMessage(0); });
    document.body.getBoundingClientRect();
    times.push(performance.now() - begun);
  }
  return times;
}, texts);

/** The same for a press; something tells when what it opens is there. */
const pressed = (page, button, there) => page.evaluate(async ([button, there]) => {
  const begun = performance.now();
  [...document.querySelectorAll('.overlay li button')].find((one) => one.innerText.includes(button)).click();
  let waited = 0;
  while (!document.querySelector(there)) {
    waited += 1;
    if (waited > 10_000) throw new Error(`${there} never came`);
    await new Promise((done) => { const { port1, port2 } = new MessageChannel(); port1.onmessage = done; port2.postMessage(0); });
  }
  document.body.getBoundingClientRect();
  return performance.now() - begun;
}, [button, there]);

/** Opens the list of batches and waits until every record has been read for its lots. */
async function batches(page) {
  const begun = Date.now();
  await fromMenu(page, 'Batches');
  await page.locator('.overlay ul.list button').first().waitFor();
  const listed = Date.now() - begun;
  await page.locator('#find-batch').fill('L');
  await page.locator('.traced button').first().waitFor({ timeout: 120_000 });
  return { listed, read: Date.now() - begun };
}

async function filled(chrome, url, text) {
  const context = await chrome.newContext({ viewport: { width: 390, height: 844 }, acceptDownloads: true });
  await watch(context);
  const page = await open(context, url);
  page.setDefaultTimeout(180_000);
  await saved(page);
  await page.evaluate(() => navigator.serviceWorker.ready);
  const begun = Date.now();
  if (text) await bringAll(page, text);
  return { context, page, took: Date.now() - begun };
}

async function year(chrome, url) {
  const empty = await filled(chrome, url, null);
  const full = await filled(chrome, url, YEAR);
  const { page } = full;
  row('a year: file of everything, taken in', `${ms(full.took)}; ${(YEAR.length / 1e6).toFixed(1)} MB`);
  const [none, all] = [[], []];
  for (const one of [empty.page, page]) await slow(one, 4);
  // Turn by turn, as the machine may be busy with other work for a while.
  for (let n = 0; n < STARTS; n += 1) {
    none.push(await start(empty.page));
    all.push(await start(page));
  }
  await empty.context.close();
  const more = at(all, 0.5) - at(none, 0.5);
  row('start to usable, 4x, an empty store', `${ms(at(none, 0.5))} median of ${STARTS}`);
  row('  with the year in it', `${ms(at(all, 0.5))} median, ${more.toFixed(1)} ms more (limit 100); ratio ${(at(all, 0.5) / at(none, 0.5)).toFixed(2)}`);
  const opened = await batches(page);
  row('list of 300 batches, 4x', `${ms(opened.listed)}; with every record read for its lots ${opened.read} ms`);
  const codes = Array.from({ length: 60 }, (_, n) => `Y0${String(100 + n * 3)}`);
  row('  search by code, work a key', frames(await searched(page, codes)));
  const lots = Array.from({ length: 60 }, (_, n) => `L${String(n * 15).padStart(4, '0')}`);
  row('  lot to its batches', frames(await searched(page, lots)));
  const traced = [];
  for (let n = 0; n < 15; n += 1) {
    await page.locator('#find-batch').fill(lots[n]);
    await page.locator('.traced button', { hasText: lots[n] }).first().waitFor();
    traced.push(await pressed(page, `Lot ${lots[n]}`, '#trace-title'));
    await page.getByRole('button', { name: 'Back' }).click();
    await page.locator('#trace-title').waitFor({ state: 'detached' });
  }
  row('  to packs and recall sheet', frames(traced));
  const records = [];
  for (let n = 0; n < 15; n += 1) {
    await page.locator('#find-batch').fill(codes[n]);
    await page.waitForFunction(() => document.querySelectorAll('.overlay ul.list button').length === 1);
    records.push(await pressed(page, codes[n], '.course'));
    await closeOverlay(page);
    await fromMenu(page, 'Batches');
    await page.locator('.overlay ul.list button').first().waitFor();
  }
  row('  code to its record with every lot', frames(records));
  await closeOverlay(page);
  for (const [place, ready] of [['Shelf', '.store [role=status], .store h3'], ['Proof', '.pulls button'], ['Batch', '.shopping']]) {
    const begun = Date.now();
    await go(page, place);
    await page.locator(ready).first().waitFor();
    row(`place ${place}, 4x`, ms(Date.now() - begun));
  }
  await slow(page, 1);
  const begun = Date.now();
  await fromMenu(page, 'Export and share');
  const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: /Export all|everything/i }).first().click()]);
  const copy = fs.readFileSync(await file.path(), 'utf8');
  row('backup of everything, 1x', `${ms(Date.now() - begun)}; ${(copy.length / 1e6).toFixed(1)} MB`);
  const told = JSON.parse(copy);
  assert.equal(told.formulas.flatMap(({ records: all_ }) => all_ ?? []).length, 300, 'every batch is in the backup');
  assert.equal(told.studies.length, 60);
  const { usage } = await page.evaluate(() => navigator.storage.estimate());
  row('storage used', `${(usage / 1e6).toFixed(1)} MB; ${(usage / copy.length).toFixed(1)} times the backup`);
  assert.deepEqual(page.wrong, []);
  await full.context.close();
}

/** From the bottle in the hand to a sheet with every batch, by the page alone, against what the file says. */
async function drill(chrome, url) {
  const { context, page } = await filled(chrome, url, DRILL);
  await page.evaluate(() => { window.print = () => { window.printed = true; }; });
  const [lot, codes] = widest(DRILL);
  const expected = [...codes];
  await slow(page, 4);
  const begun = Date.now();
  await fromMenu(page, 'Batches');
  await page.locator('#find-batch').fill(lot);
  await overlay(page).getByRole('button', { name: new RegExp(`^Lot ${lot} of`) }).click();
  await page.locator('#trace-title').waitFor();
  const shown = plain(await overlay(page).innerText());
  await page.getByRole('button', { name: 'Print recall sheet' }).click();
  await page.waitForFunction(() => window.printed === true);
  const took = Date.now() - begun;
  for (const code of expected) assert.ok(shown.includes(code), `${code} of ${expected.length}`);
  const told = new Set(shown.match(/Y\d{4}/g));
  assert.equal(told.size, expected.length, 'and no other');
  row('recall drill over 500 batches, 4x', `${ms(took)} from the menu to the printed sheet; ${told.size} of ${expected.length} batches found, no other`);
  assert.deepEqual(page.wrong, []);
  await context.close();
}

const chrome = await browser();
const server = await host(pack(process.env.HP_DIST));
try {
  await year(chrome, server.url);
  await drill(chrome, server.url);
} finally {
  await chrome.close();
  server.end();
}
