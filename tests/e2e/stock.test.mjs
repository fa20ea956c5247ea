// Stock, trace and cost in the page: a batch uses up two lots and the next plan says what is missing; a lot is traced to its
// packs by keys alone, and its recall sheet is printed; what a batch costs, and what a price that is missing does to that.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { bring, browser, go, open, overlay, plain, saved } from './page.mjs';
import { main, title } from './stove.mjs';
import { violations } from './axe.mjs';

const URL_ = process.env.HP_URL;
let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());
const fresh = () => chrome.newContext({ viewport: { width: 820, height: 1180 }, timezoneId: 'Europe/Oslo', locale: 'en-GB' });
const file = () => JSON.parse(fs.readFileSync(new URL('../formats/version-1-stock.json', import.meta.url), 'utf8'));

/** The formula of the format's test, with 100 g of glycerin and 200 g of shea butter on the shelf. */
async function stocked(context) {
  const page = await open(context, URL_);
  const given = file();
  given.shelf = [
    { id: 'glycerin', own: false, lots: [{ lot: 'G1', received: '2026-10-01', amount: '100 g', price: '6.20 EUR', price_for: '1 kg', supplier: 'Pier Street supplies' }] },
    { id: 'shea', own: false, lots: [{ lot: 'S1', received: '2026-10-01', amount: '200', price: '14.50 EUR', price_for: '1 kg' }] },
  ];
  await bring(page, given);
  return page;
}

/** Makes the batch at the stove by the main button, up to its decision. */
async function made(page) {
  await go(page, 'Batch');
  await page.locator('#stove-go').click();
  await page.getByRole('button', { name: 'Begin the batch' }).click();
  for (let taps = 0; taps < 40; taps += 1) {
    const now = await title(page).innerText();
    const deciding = await page.locator('.step, #stove-weighed').count() === 0;
    await main(page).click();
    if (deciding) break;
    await page.waitForFunction((before) => document.querySelector('#stove-task')?.innerText !== before, now, { polling: 50 });
  }
  await title(page).filter({ hasText: 'released' }).waitFor();
  await page.locator('.stove-go > a').click();
  await page.locator('.places').waitFor();
  await saved(page);
}

const rows = async (page) => (await page.locator('.shopping tbody tr').allInnerTexts()).map((row) => plain(row).split(/[\t\n]+/));

test('stock: a batch uses up two lots, and the next plan says what is missing', async () => {
  const context = await fresh();
  const page = await stocked(context);
  await go(page, 'Batch');
  await page.locator('.shopping tbody tr').first().waitFor();
  // Worked by hand: 1236 g with 4 % and 10 % take 49.44 g and 123.6 g; nothing is entered of the water.
  const planned = await rows(page);
  assert.deepEqual(planned.map((row) => row.slice(1)), [['1062.96 g', 'not entered', '?'], ['49.44 g', '100 g', '–'], ['123.6 g', '200 g', '–']]);
  await made(page);
  await go(page, 'Batch');
  await page.locator('.shopping', { hasText: 'runs short' }).waitFor();
  // 100 − 49.44 = 50.56 g are left, which is enough; 200 − 123.6 = 76.4 g are not: 123.6 − 76.4 = 47.2 g.
  const left = await rows(page);
  assert.deepEqual(left[1].slice(1), ['49.44 g', '50.56 g', '–']);
  assert.deepEqual(left[2].slice(1), ['123.6 g', '76.4 g', '47.2 g']);
  await go(page, 'Shelf');
  const low = page.locator('.store');
  await low.getByRole('button', { name: /76\.4 g left; the planned batch needs 123\.6 g/ }).click();
  assert.match(plain(await page.locator('.lot').innerText()), /76\.4 g left of 200 g; batches weighed 123\.6 g/);
  await low.getByText('What you can make').click();
  // 76.4 g of 10 % make 764 g.
  await low.locator('li', { hasText: 'Harbour hand lotion' }).filter({ hasText: /Up to 764.g/ }).first().waitFor();
  await context.close();
});

/** Tab until something has the focus. */
async function tabTo(page, holds, what) {
  for (let presses = 0; presses < 60; presses += 1) {
    if (await page.evaluate(holds)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`Tab never came to ${what}`);
}
const focused = (text) => `(document.activeElement?.textContent ?? '').includes(${JSON.stringify(text)})`;

test('stock: from a lot to its recall sheet by keys alone, printed with every batch and pack', async () => {
  const context = await fresh();
  const page = await stocked(context);
  await made(page);
  await page.evaluate(() => { window.print = () => { window.printed = true; }; });
  await page.locator('.batches').getByRole('button', { name: 'Batches' }).focus();
  const begun = Date.now();
  await page.keyboard.press('Enter');
  await tabTo(page, "document.activeElement?.id === 'find-batch'", 'the search');
  await page.keyboard.type('s1');
  await overlay(page).getByRole('button', { name: /^Lot S1 of Shea butter: 1 batch/ }).waitFor();
  await tabTo(page, focused('Lot S1 of Shea butter'), 'the lot');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.activeElement?.id === 'trace-title');
  assert.match(plain(await overlay(page).innerText()), /1 batch, begun on .*; \d+ packs?, [\d.]+ g in all/);
  assert.deepEqual(await violations(page), []);
  await tabTo(page, focused('Print recall sheet'), 'the way to print');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => window.printed === true);
  assert.ok(Date.now() - begun < 60_000, 'the drill takes less than a minute');
  const pdf = path.join(fs.mkdtempSync(path.join(os.tmpdir(), 'hp-')), 'recall.pdf');
  await page.pdf({ path: pdf, format: 'A4', printBackground: true });
  const text = plain(execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8' }));
  for (const part of ['Recall sheet: lot S1 of Shea butter', 'Delivered', '123.6 g', 'Harbour hand lotion', 'Glycerin (vegetable) G1', 'Local law says whom you must tell', 'not a safety assessment']) {
    assert.ok(text.includes(part), `${part}\n${text}`);
  }
  await context.close();
});

test('stock: a lot that no batch names says so, and one of the shelf leads to where it went', async () => {
  const context = await fresh();
  const page = await stocked(context);
  await go(page, 'Shelf');
  await page.locator('#search-shelf').fill('shea');
  await page.locator('.shelf ul.list button', { hasText: 'Shea butter' }).last().click();
  await page.locator('.lot').getByRole('button', { name: 'Where this lot went' }).click();
  await overlay(page).getByText('No record of a batch names this lot.').waitFor();
  assert.deepEqual(await violations(page), []);
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('stock: a batch costs what its lots cost; a price that is missing makes it partial', async () => {
  const context = await fresh();
  const page = await stocked(context);
  await go(page, 'Batch');
  const card = page.locator('.cost');
  // 0.306528 + 1.7922 + 5.40 + 36 = 43.498728 without the water, which has no price; a jar 3.624894, sold for 9.062235.
  await card.getByText('at least 43.50 EUR').first().waitFor();
  const said = plain(await card.innerText());
  for (const part of ['at least 3.62 EUR', 'at least 9.06 EUR', 'Purified water: no price', 'Partial']) assert.ok(said.includes(part), `${part}\n${said}`);
  assert.match(plain(await card.locator('.cost-bars').getAttribute('aria-label')), /^Time costs most\. Time 36\.00 EUR \(82\.8 %\), Packs 5\.40 EUR/);
  await go(page, 'Shelf');
  await page.locator('#search-shelf').fill('purified water');
  await page.locator('.shelf ul.list button', { hasText: 'Purified water' }).last().click();
  await page.locator('#value-price_per_kg').fill('0 EUR');
  await saved(page);
  await go(page, 'Batch');
  await card.locator('dd', { hasText: /^43\.50.EUR$/ }).waitFor();
  assert.equal(await card.getByText('Partial').count(), 0);
  await card.getByText('Packs, time and margin').click();
  await page.locator('#plan-pack_cost').fill('cheap');
  await card.getByText('Not counted, the cost of a pack').waitFor();
  assert.equal(await page.locator('#plan-pack_cost').getAttribute('aria-invalid'), 'true');
  assert.deepEqual(await violations(page), []);
  assert.deepEqual(page.wrong, []);
  await context.close();
});
