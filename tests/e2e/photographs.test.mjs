// Photographs of samples: taken in a pull and looked at before they are kept, side by side, large, printed, without a network;
// in the file of everything and back; refused where there is no room, with nothing lost; and gone with their study.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { browser, fromMenu, go, offer, open, plain, saved, serve } from './page.mjs';
import { noRoom, roomAgain } from './fault.mjs';
import { begin, choose, fromCamera, jar, keep, looked, named, photograph, pull, stored } from './photographs.mjs';

const URL_ = process.env.HP_URL;
const SHOTS = process.env.HP_SHOTS;
let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());
const fresh = (viewport = { width: 820, height: 1180 }) => chrome.newContext({ viewport, timezoneId: 'Europe/Oslo', locale: 'en-GB', acceptDownloads: true });
const shot = async (page, name) => { if (SHOTS) await page.screenshot({ path: `${SHOTS}/${name}-${page.viewportSize().width}.png` }); };
const ROOM = /^Room, day 0/;
const done = async (context, page) => { assert.deepEqual(page.wrong, []); await context.close(); };
const written = async (page, press) => {
  const [file] = await Promise.all([page.waitForEvent('download'), press()]);
  return JSON.parse(fs.readFileSync(await file.path(), 'utf8'));
};
const everything = async (page) => {
  await fromMenu(page, 'Export and share');
  return written(page, () => page.getByRole('button', { name: /Export all|everything/i }).first().click());
};
/** Waits until the photographs that are shown small are as many, each of them read. */
const small = (page, number) => page.waitForFunction((number) => {
  const all = [...document.querySelectorAll('.shots-card .shot img')];
  return all.length === number && all.every((one) => one.complete && one.naturalWidth > 0);
}, number);

for (const width of [390, 820]) {
  test(`photographs: kept in a pull, beside each other, over the page, without a network and in print, ${width} px wide`, async () => {
    const server = await serve();
    const context = await fresh({ width, height: width === 390 ? 844 : 1180 });
    const page = await open(context, server.url);
    await page.clock.install({ time: new Date('2026-11-30T10:00:00Z') });
    await page.reload();
    await begin(page);
    await pull(page, ROOM).click();
    for (const id of ['take', 'choose']) {
      const box = await page.locator(`label:has(#photograph-${id})`).boundingBox();
      assert.ok(box.height >= 48 && box.width >= 48, `${id} is ${box.width} by ${box.height}`);
    }
    await choose(page, await jar(page, { width: 3000, height: 2250 }), '#photograph-take');
    await page.waitForFunction(() => document.activeElement?.id === 'photograph-preview');
    assert.match(plain(await page.locator('.shot-preview figcaption').innerText()), /^1280 × 960 pixels, \d+ kB; the file that you chose has \d\.\d MB\.$/);
    assert.deepEqual(await stored(page), {}, 'nothing is kept before the maker says so');
    await page.locator('.camera').scrollIntoViewIfNeeded();
    await page.locator('.shot-preview').evaluate((part) => part.scrollIntoView({ block: 'center' }));
    await shot(page, 'form');
    // What is not kept yet is not passed over.
    await page.locator('#pull-ph').fill('5.2');
    await page.locator('.pull-form > .actions .primary').click();
    await page.getByText('The photograph is not kept yet.').waitFor();
    await go(page, 'Batch');
    await go(page, 'Proof');
    await pull(page, ROOM).click();
    await page.locator('#photograph-caption').fill('Fresh, smooth and pale');
    await keep(page);
    await page.locator('.pull-form .shot').waitFor();
    await page.locator('.pull-form > .actions .primary').click();
    await page.locator('.pull-form').waitFor({ state: 'detached' });
    await page.clock.setFixedTime(new Date('2026-12-07T10:00:00Z'));
    await page.reload();
    await photograph(page, /^Room, 7 days/, await jar(page, { cream: '#e8cf9c' }));
    await page.clock.setFixedTime(new Date('2026-12-30T10:00:00Z'));
    await page.reload();
    await photograph(page, /^Room, 1 month/, await jar(page, { cream: '#c99f5c', width: 900, height: 1200 }));
    await photograph(page, /^Warm, 2 weeks/, await jar(page, { cream: '#c08a4a' }));
    await small(page, 4);
    const rows = await page.locator('.shots-card .shots').evaluateAll((rows) => rows.map((row) => [row.querySelector('h4').textContent, ...[...row.querySelectorAll('img')].map((one) => one.alt)]));
    assert.deepEqual(rows, [
      ['Room', 'Fresh, smooth and pale (Room, day 0, 30 November 2026)', 'Room, day 7, 7 December 2026', 'Room, month 1, 30 December 2026'],
      ['Warm', 'Warm, week 2, 30 December 2026'],
    ]);
    await page.locator('.shots-card').evaluate((part) => part.scrollIntoView({ block: 'start' }));
    await shot(page, 'small');
    assert.match(plain(await page.locator('.shots-card').innerText()), /Kept on this device: 4 photographs, 0\.\d MB, of at most 64 MB/);
    const at = await stored(page);
    assert.equal(Object.keys(at).length, 4);
    for (const [name, { digest, base64 }] of Object.entries(at)) {
      assert.equal(name, digest, 'each lies under its digest');
      assert.ok(Buffer.from(base64, 'base64').length <= 150_000);
    }
    assert.deepEqual((await named(page)).sort(), Object.keys(at).sort());
    // Offline, from the copy of the program.
    await page.waitForFunction(() => navigator.serviceWorker?.controller || navigator.serviceWorker?.ready.then(() => true));
    await page.reload();
    await page.waitForFunction(() => navigator.serviceWorker.controller);
    await server.close();
    await page.reload();
    await small(page, 4);
    await page.locator('.shots-card .shot').nth(1).click();
    await page.waitForFunction(() => document.querySelector('.shot-large img')?.naturalWidth > 0);
    assert.match(await page.locator('.overlay h2').innerText(), /Photographs: Room/);
    await shot(page, 'large');
    await page.locator('#photograph-later').click();
    await page.locator('.shot-large img[alt="Room, month 1, 30 December 2026"]').waitFor();
    assert.ok(await page.locator('#photograph-later').isDisabled());
    // Crossed out with a reason it stays readable.
    await page.locator('.shot-large summary').click();
    await page.locator('#photograph-why').fill('Wrong jar');
    await page.locator('.shot-large').getByRole('button', { name: 'Cross out this photograph' }).click();
    await page.locator('.shot-large', { hasText: 'Crossed out: Wrong jar' }).locator('img').waitFor();
    await page.keyboard.press('Escape');
    await page.locator('.shot.struck img').waitFor();
    const pdf = path.join(fs.mkdtempSync(path.join(os.tmpdir(), 'hp-')), 'study.pdf');
    await page.pdf({ path: pdf, format: 'A4', printBackground: true });
    const pictures = execFileSync('pdfimages', ['-list', pdf], { encoding: 'utf8' }).split('\n').slice(2).filter((line) => /\bimage\b/.test(line));
    assert.equal(pictures.length, 4, pictures.join('\n'));
    assert.match(execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8' }), /Photographs[\s\S]*day 0 · 30 Nov/);
    if (SHOTS) execFileSync('pdftoppm', ['-r', '60', '-png', pdf, `${SHOTS}/print-${width}`]);
    await done(context, page);
  });
}

test('photographs: in the file of everything, told before they are taken, and the same bytes on another device', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await begin(page);
  await photograph(page, ROOM, await jar(page), 'Fresh');
  await photograph(page, /^Warm, 2 weeks/, await jar(page, { cream: '#c08a4a' }));
  const before = await stored(page);
  const alone = await written(page, () => page.getByRole('button', { name: 'Export this study' }).click());
  assert.deepEqual([alone.formulas.length, alone.studies.length, alone.photographs.length, alone.additions], [0, 1, 2, 8]);
  const all = await everything(page);
  assert.deepEqual(all.photographs.map(({ sha256 }) => sha256).sort(), Object.keys(before).sort());
  for (const { sha256, data } of all.photographs) assert.equal(data, before[sha256].base64, 'the very bytes');
  await page.locator('.overlay', { hasText: /Kept on this device: 2 photographs/ }).waitFor();
  await offer(page, all);
  assert.match(plain(await page.locator('.arrival').innerText()), /2 photographs, 0\.\d MB – already here/);
  await done(context, page);
  const other = await fresh();
  const empty = await open(other, URL_);
  // One damaged on the way, one left out: the rest comes all the same, and what lacks is said.
  const [first, second] = alone.photographs;
  const harmed = `${first.data.slice(0, 900)}${first.data[900] === 'A' ? 'B' : 'A'}${first.data.slice(901)}`;
  await offer(empty, { ...alone, photographs: [{ ...first, data: harmed }] });
  const told = plain(await empty.locator('.arrival').innerText());
  assert.match(told, /1 photograph, 0\.\d MB – damaged in the file/);
  assert.match(told, /1 photograph, 0\.\d MB – not in this file/);
  await empty.getByRole('button', { name: 'Add to your formulas' }).click();
  await go(empty, 'Proof');
  await empty.locator('.no-shot', { hasText: 'Not on this device' }).nth(1).waitFor();
  assert.deepEqual(await stored(empty), {});
  // The same study again, with its photographs: these alone are new.
  await offer(empty, all);
  assert.match(plain(await empty.locator('.arrival').innerText()), /already here[\s\S]*2 photographs, 0\.\d MB – new, would be added/);
  await shot(empty, 'preview');
  await empty.getByRole('button', { name: 'Add to your formulas' }).click();
  await go(empty, 'Proof');
  await small(empty, 2);
  assert.deepEqual(await stored(empty), before);
  assert.ok(second);
  await done(other, empty);
});

test('photographs: refused before the storage is full, and a write that fails loses neither form nor photograph', async () => {
  const context = await fresh();
  // Chromium says that there are 10 GB more, whatever there is: another browser's answer stands in for its own.
  await context.addInitScript(() => { StorageManager.prototype.estimate = async () => ({ usage: 5_000_000, quota: 12_000_000 }); });
  const page = await open(context, URL_);
  await begin(page);
  const still = async (page) => {
    assert.deepEqual([await page.locator('#pull-ph').inputValue(), await page.locator('#photograph-caption').inputValue()], ['5.25', 'Fresh']);
    assert.ok(await page.locator('.shot-preview img').isVisible());
    assert.deepEqual([await stored(page), await named(page)], [{}, []]);
  };
  const fill = async (page) => {
    await pull(page, ROOM).click();
    await page.locator('#pull-ph').fill('5.25');
    await choose(page, await jar(page));
    await page.locator('#photograph-caption').fill('Fresh');
  };
  await fill(page);
  await keep(page);
  const refused = page.locator('.toast', { hasText: 'Not kept: this browser has' });
  await refused.waitFor();
  assert.match(plain(await refused.innerText()), /has 7 MB of storage free for this page, and 10\.1 MB are needed/);
  await still(page);
  // Formulas and records still find room.
  await page.locator('.shot-preview').getByRole('button', { name: 'Discard it' }).click();
  await page.locator('.pull-form > .actions .primary').click();
  await saved(page);
  await done(context, page);
  const other = await fresh();
  const full = await open(other, URL_);
  await begin(full);
  await fill(full);
  await noRoom(full);
  await keep(full);
  await full.locator('.toast', { hasText: 'The photograph was not saved; it is still here.' }).waitFor();
  await roomAgain(full);
  await still(full);
  await keep(full);
  await full.locator('.pull-form .shot img').waitFor();
  assert.equal(Object.keys(await stored(full)).length, 1);
  await full.locator('#photograph-choose').setInputFiles({ name: 'x.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('no picture') });
  await full.getByText('This file cannot be read as a picture here.').waitFor();
  await done(other, full);
});

test('photographs: turned as the camera was held, and where it was taken does not survive', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await begin(page);
  assert.equal(await page.locator('.camera').count(), 0);
  // 6: the first row is at the right and the first column at the top (Exif 2.3, memory).
  const camera = fromCamera(await jar(page, { width: 800, height: 400, halves: ['#d02020', '#2030d0'] }), 6);
  assert.ok(camera.includes('HOMEADDRESS') && camera.includes('Exif'));
  await photograph(page, ROOM, camera);
  const [{ base64 }] = Object.values(await stored(page));
  const bytes = Buffer.from(base64, 'base64');
  for (const trace of ['HOMEADDRESS', 'Exif', 'at home', '59.91', 'http']) assert.ok(!bytes.includes(trace), trace);
  const found = await looked(page, base64, [[0.5, 0.1], [0.5, 0.9]]);
  assert.deepEqual([found.width, found.height], [400, 800]);
  const [top, foot] = found.pixels;
  assert.ok(top[0] > 150 && top[2] < 90 && foot[2] > 150 && foot[0] < 90, `${top} above ${foot}`);
  // The noisiest picture becomes small enough too.
  await photograph(page, /^Warm, 2 weeks/, await jar(page, { width: 2400, height: 1800, noise: true }));
  for (const { base64: one } of Object.values(await stored(page))) assert.ok(Buffer.from(one, 'base64').length <= 150_000);
  await done(context, page);
});

test('photographs: go into the bin with their study and come back, go with it for good, and no other tab’s are swept', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await page.clock.install({ time: new Date('2026-11-30T10:00:00Z') });
  await page.reload();
  await begin(page);
  await photograph(page, ROOM, await jar(page));
  const bin = () => page.getByRole('button', { name: 'Move this study to the bin' }).click();
  await bin();
  await page.locator('.proof-empty').waitFor();
  await page.locator('.toast').getByRole('button', { name: 'Undo' }).click();
  await small(page, 1);
  // What nothing names: another tab may be about to write its entry. It goes on another day.
  const orphan = await jar(page, { width: 40, height: 30 });
  await page.evaluate(async (base64) => {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const name = [...new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))].map((byte) => byte.toString(16).padStart(2, '0')).join('');
    const request = indexedDB.open('hundred-parts-photographs');
    await new Promise((resolve) => { request.onsuccess = resolve; });
    const change = request.result.transaction(['bytes', 'sizes'], 'readwrite');
    change.objectStore('bytes').put(bytes, name);
    change.objectStore('sizes').put(bytes.length, name);
    await new Promise((resolve) => { change.oncomplete = resolve; });
    request.result.close();
  }, orphan.toString('base64'));
  const swept = () => page.waitForFunction(() => localStorage.getItem('hp.orphans') !== null);
  const names = async () => Object.keys(await stored(page)).length;
  await page.evaluate(() => localStorage.removeItem('hp.orphans'));
  await page.reload();
  await swept();
  assert.equal(await names(), 2);
  const held = await context.newPage();
  await held.goto(URL_);
  await held.evaluate(() => new Promise((given) => { navigator.locks.request('hundred-parts-photographs', { mode: 'shared' }, () => { given(); return new Promise(() => {}); }); }));
  await page.clock.setFixedTime(new Date('2026-12-01T10:00:00Z'));
  await page.reload();
  await saved(page);
  await page.waitForTimeout(1500);
  assert.equal(await names(), 2, 'another tab is between a photograph and its entry');
  await held.close();
  await page.reload();
  await page.waitForFunction(() => localStorage.getItem('hp.orphans') === '');
  assert.equal(await names(), 1, 'the one that a study names stays');
  await go(page, 'Proof');
  await small(page, 1);
  await bin();
  await page.locator('.proof-empty').waitFor();
  for (let day = 2; day < 33; day += 1) {
    await page.clock.setFixedTime(new Date(Date.UTC(2026, 11, day, 10)));
    const counted = await page.evaluate(() => localStorage.getItem('hp.bin'));
    await page.reload();
    await page.waitForFunction((counted) => localStorage.getItem('hp.bin') !== counted, counted);
  }
  for (let n = 0; n < 40 && await names() > 0; n += 1) await page.waitForTimeout(250);
  assert.deepEqual([await stored(page), await named(page)], [{}, []]);
  await done(context, page);
});

test('photographs: killed at any moment an entry never names what is not there; two tabs keep both; all of it by keys', async () => {
  const context = await fresh();
  let page = await open(context, URL_);
  await begin(page);
  const whole = async () => {
    const at = await stored(page);
    for (const [name, { digest }] of Object.entries(at)) assert.equal(name, digest);
    for (const name of await named(page)) assert.ok(at[name], `${name} is there`);
    return Object.keys(at).length;
  };
  for (const [n, wait] of [0, 3, 10, 25, 60].entries()) {
    await pull(page, ROOM).click();
    await choose(page, await jar(page, { width: 900 + n * 10, height: 700 }));
    await page.evaluate((wait) => { document.querySelector('.shot-preview .primary').click(); const end = performance.now() + wait; while (performance.now() < end); }, wait);
    const next = await open(context, `${URL_}#/proof`);
    await page.close();
    page = next;
    await page.locator('.pulls button').first().waitFor();
    await whole();
  }
  const before = (await named(page)).length;
  const other = await open(context, `${URL_}#/proof`);
  await other.locator('.pulls button').first().waitFor();
  await photograph(page, /^Warm, 2 weeks/, await jar(page, { cream: '#c08a4a' }));
  await photograph(other, /^Room, 7 days/, await jar(other, { cream: '#aa7744' }));
  await other.locator('.shots-card .shot', { hasText: 'week 2' }).waitFor();
  assert.equal((await named(page)).length, before + 2);
  await whole();
  await other.close();
  // A tab behind another one opens no list of files.
  await page.bringToFront();
  await pull(page, /^Room, 1 month/).focus();
  await page.keyboard.press('Enter');
  while (await page.evaluate(() => document.activeElement.id) !== 'photograph-choose') await page.keyboard.press('Tab');
  const outline = await page.locator('label:has(#photograph-choose)').evaluate((label) => getComputedStyle(label).outlineStyle);
  assert.equal(outline, 'solid', 'the focus is seen');
  // The browser must know that its list of files is taken over before the key is pressed: a question goes there and back.
  const chooser = page.waitForEvent('filechooser');
  await page.evaluate(() => document.hasFocus());
  await page.keyboard.press('Enter');
  await (await chooser).setFiles({ name: 'photo.jpg', mimeType: 'image/jpeg', buffer: await jar(page, { cream: '#ffffff' }) });
  await page.waitForFunction(() => document.activeElement?.id === 'photograph-preview');
  await page.keyboard.press('Tab');
  await page.keyboard.type('White');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.activeElement?.id === 'pull-photographs');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.locator('.shot-large strong', { hasText: 'White' }).waitFor();
  await page.keyboard.press('Escape');
  await page.locator('.overlay').waitFor({ state: 'detached' });
  assert.deepEqual(page.wrong, []);
  await context.close();
});
