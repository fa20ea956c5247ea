// The main job, from an empty page to weighed jars, as a maker does it.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import Ajv from 'ajv/dist/2020.js';
import { browser, go, lines, open, saved, serve, total } from './page.mjs';

const URL_ = process.env.HP_URL;
let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());

const fresh = (options = {}) => chrome.newContext({ viewport: { width: 820, height: 1180 }, ...options });

test('a formula is written from empty with the keyboard alone', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  await page.locator('.formulas summary').first().focus();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'New formula' }).focus();
  await page.keyboard.press('Enter');
  const start = page.getByRole('button', { name: /Start with water/ });
  await start.waitFor();
  await start.focus();
  await page.keyboard.press('Enter');
  const adds = page.getByRole('button', { name: /Add line/ });
  const write = async (phase, rows) => {
    await adds.nth(phase).focus();
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => document.activeElement?.getAttribute('role') === 'combobox');
    for (const [n, [name, share]] of rows.entries()) {
      await page.keyboard.type(name);
      await page.locator('.hits:not([hidden]) li').first().waitFor();
      await page.keyboard.press('Enter');
      await page.waitForFunction(() => document.activeElement?.id.startsWith('share-'));
      await page.keyboard.type(share);
      if (n + 1 < rows.length) {
        await page.keyboard.press('Enter');
        await page.waitForFunction(() => document.activeElement?.id.startsWith('name-'));
      }
    }
  };
  await write(0, [['purified', 'qs'], ['glycerin (', '4']]);
  await write(1, [['plum', '10'], ['cetearyl oliv', '5,5']]);
  await write(2, [['tocopherol', '0.3']]);
  assert.equal(await total(page), '100\u2009%');
  const written = await lines(page);
  assert.deepEqual(written.map(([, share]) => share), ['80.2', '4', '10', '5,5', '0.3']);
  assert.match(written[2][0], /Plum/);
  // Alt and an arrow move a line, over the edge into the next phase too.
  await page.locator('.share input').nth(3).focus();
  await page.keyboard.press('Alt+ArrowUp');
  assert.match((await lines(page))[2][0], /olivate/);
  await page.keyboard.press('Control+z');
  assert.deepEqual(await lines(page), written);
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('twelve jars of 100 g with 3 % loss, on screen, on paper and as CSV', async () => {
  const context = await fresh({ acceptDownloads: true });
  const page = await open(context, URL_);
  await go(page, 'Batch');
  await page.getByText('1236.00\u2009g').waitFor();
  const names = await page.locator('.weigh-table tbody th').evaluateAll((cells) => cells.map((cell) => cell.firstChild.textContent.trim()));
  assert.equal(names.length, 14);
  const pdf = path.join(fs.mkdtempSync(path.join(os.tmpdir(), 'hp-')), 'sheet.pdf');
  for (const format of ['A4', 'Letter']) {
    await page.pdf({ path: pdf, format });
    const text = execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8' });
    for (const name of names) {
      assert.equal(text.split(`\u2610 ${name}`).length - 1, 1, `${name} on ${format}`);
    }
    assert.match(text, /1236\.00/);
  }
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Weigh sheet as CSV' }).click()]);
  const csv = fs.readFileSync(await download.path(), 'utf8');
  const rows = csv.split('\r\n');
  assert.equal(rows.length, 16, 'a head, 14 lines and the end of the last record');
  const grams = rows.slice(1, 15).map((row) => Number(row.match(/,(\d+\.?\d*),(\d+\.?\d*),(-?\d+\.?\d*),[^,]*$|,(\d+\.?\d*),(\d+\.?\d*),(-?\d+\.?\d*),".*"$/).slice(1).find(Boolean)));
  assert.equal(Math.round(grams.reduce((sum, g) => sum + g, 0) * 100), 123600);
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('work survives a reload, undo too', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  await page.locator('#title').fill('Pier lotion');
  await page.locator('.share input').nth(1).fill('5');
  await page.locator('.saved', { hasText: 'Saving' }).waitFor();
  await saved(page);
  await page.reload();
  await page.locator('.places').waitFor();
  assert.equal(await page.locator('#title').inputValue(), 'Pier lotion');
  assert.equal((await lines(page))[1][1], '5');
  await page.locator('.tools button:not([disabled])', { hasText: 'Undo' }).click();
  assert.equal((await lines(page))[1][1], '4.00');
  await page.locator('.tools button', { hasText: 'Undo' }).click();
  assert.equal(await page.locator('#title').inputValue(), 'Harbour hand lotion');
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('with the server dead the page reloads and works', async () => {
  const server = await serve();
  const context = await fresh();
  const page = await open(context, server.url);
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.waitForFunction(() => navigator.serviceWorker.controller || navigator.serviceWorker.getRegistration().then((r) => r?.active));
  await saved(page);
  await server.close();
  await page.reload();
  await page.locator('.places').waitFor();
  await page.locator('.share input').nth(1).fill('6');
  await page.locator('.saved', { hasText: 'Saving' }).waitFor();
  await saved(page);
  await page.goto(`${server.url}?from=home#/batch`);
  await page.getByText('1236.00\u2009g').waitFor();
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('a link opens in another profile as the same formula, after a look', async () => {
  const first = await fresh();
  const page = await open(first, URL_);
  await page.locator('.pass-on summary').click();
  await page.getByRole('button', { name: 'Make a link' }).click();
  const link = await page.locator('#link').inputValue();
  assert.ok(link.length < 1000, `${link.length} characters`);
  await page.getByRole('img', { name: /QR/ }).waitFor();
  const there = await lines(page);
  await first.close();

  const second = await fresh();
  let other = await open(second, URL_);
  await saved(other);
  await other.locator('#title').fill('Mine');
  await other.locator('.saved', { hasText: 'Saving' }).waitFor();
  await saved(other);
  await other.close();
  other = await open(second, link);
  await other.getByRole('heading', { name: 'Something to import' }).waitFor();
  assert.ok(!other.url().includes('#1.'), 'the fragment is gone');
  assert.equal(await other.locator('#title').inputValue(), 'Mine', 'nothing is touched before the maker says so');
  await other.getByRole('button', { name: 'Add to your formulas' }).click();
  await other.waitForFunction(() => document.querySelector('#title').value === 'Harbour hand lotion');
  assert.deepEqual(await lines(other), there);
  await other.locator('.formulas summary').first().click();
  await other.locator('.formulas .list button', { hasText: 'Mine' }).waitFor();
  assert.deepEqual(other.wrong, []);
  await second.close();
});

test('an exported document is valid by its schema and comes in again', async () => {
  const context = await fresh({ acceptDownloads: true });
  const page = await open(context, URL_);
  await page.locator('.share input').nth(1).fill('4,5x');
  await page.locator('.pass-on summary').click();
  // Source: the project's JSON Schema (draft 2020-12), by an independent validator.
  const schema = JSON.parse(fs.readFileSync(path.join(process.env.HP_DIST, 'hundred-parts-1.schema.json'), 'utf8'));
  const valid = new Ajv({ strict: false }).compile(schema);
  for (const name of ['Export this formula', 'Export everything']) {
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name }).click()]);
    const text = fs.readFileSync(await download.path(), 'utf8');
    assert.ok(valid(JSON.parse(text)), JSON.stringify(valid.errors));
    await page.locator('#import').setInputFiles({ name: 'in.json', mimeType: 'application/json', buffer: Buffer.from(text) });
    await page.getByRole('heading', { name: 'Something to import' }).waitFor();
    await page.getByRole('button', { name: 'Leave it' }).click();
  }
  await page.locator('#import').setInputFiles({ name: 'bad.json', mimeType: 'application/json', buffer: Buffer.from('{"format":"x"}') });
  await page.getByText('format: found "x", expected "hundred-parts"').waitFor();
  assert.deepEqual(page.wrong, []);
  await context.close();
});

for (const locale of ['en-GB', 'de-DE', 'fr-FR']) {
  test(`1,5 and 1.5 read alike in ${locale}`, async () => {
    const context = await fresh({ locale });
    const page = await open(context, URL_);
    const share = page.locator('.share input').nth(1);
    for (const text of ['1,5', '1.5']) {
      await share.fill('');
      await share.pressSequentially(text);
      assert.equal(await share.inputValue(), text);
      assert.match(await page.locator('.share input').nth(0).inputValue(), /^71[.,]7$/);
    }
    assert.deepEqual(page.wrong, []);
    await context.close();
  });
}

test('two tabs on one formula: nothing is silently overwritten', async () => {
  const context = await fresh();
  const one = await open(context, URL_);
  await saved(one);
  const two = await open(context, URL_);
  await saved(two);
  await one.locator('#title').fill('From one');
  await one.locator('.saved', { hasText: 'Saving' }).waitFor();
  await saved(one);
  await two.locator('#title').fill('From two');
  await two.waitForFunction(() => document.querySelector('#title').value.includes('copy from another tab'));
  await saved(two);
  await two.reload();
  await two.locator('.formulas summary').first().click();
  await two.locator('.formulas .list button', { hasText: 'From one' }).waitFor();
  await two.locator('.formulas .list button', { hasText: 'From two (copy from another tab)' }).waitFor();
  await context.close();
});
