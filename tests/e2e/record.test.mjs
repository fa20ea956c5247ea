// The record of a batch: what was noted stays, whatever happens to the page, to its tabs and to its stores, and travels in files.
// `HP_SOAK=1` runs the long form of each.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { browser, bring, go, open, openOverlay, saved } from './page.mjs';
import { SOAK, journal, keep, mortal, told, until } from './fault.mjs';

const URL_ = process.env.HP_URL;
let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());
const fresh = (options = {}) => chrome.newContext({ viewport: { width: 820, height: 1180 }, acceptDownloads: true, ...options });

const begin = (page) => page.getByRole('button', { name: 'Start the pH log' });
const rows = (page) => page.locator('.log ul.ph-log').first().locator('li');
/** A pH from this whole number on that stands nowhere else for each `n` below 90: of two decimals, the last of which is no nought. */
const reading = (n, whole = 6) => (whole + (n + Math.floor(n / 9) + 1) / 100).toFixed(2);

/** Opens the place of the batch with its log, begun if it was not. */
async function started(context) {
  const page = await open(context, URL_);
  await go(page, 'Batch');
  await begin(page).or(page.locator('#ph-step')).first().waitFor();
  if (await begin(page).count()) {
    await keep(page, () => begin(page).click());
    await page.locator('#ph-step').waitFor();
  }
  return page;
}

/** Notes a reading that was not asked for, and waits until it is kept. */
async function note(page, text) {
  await page.locator('.otherwise').evaluate((fold) => { fold.open = true; });
  await page.locator('#else-reading').fill(text);
  await keep(page, () => page.locator('#else-reading').press('Enter'));
}

const noted = async (page) => (await rows(page).allInnerTexts()).map((row) => /pH (\d+\.\d+)/.exec(row)?.[1]).filter(Boolean);
const holds = (page, text) => until(page, (text) => [...document.querySelectorAll('.ph-log li')].some((row) => new RegExp(`pH ${text}\\b`).test(row.textContent)), text);

test('record: killed right after Saved, the browser has lost no entry', async () => {
  const profile = fs.mkdtempSync(path.join(os.tmpdir(), 'hp-record-'));
  const rounds = SOAK ? 80 : 2;
  for (let round = 0; round <= rounds; round += 1) {
    const { context, kill } = await mortal(profile);
    const page = await started(context);
    if (round > 0) await holds(page, reading(round - 1));
    assert.deepEqual(await noted(page), Array.from({ length: round }, (_, n) => reading(n)));
    if (round < rounds) await note(page, reading(round));
    await kill();
    if (SOAK && round % 20 === 0) told('killed so far', { acknowledged: round, lost: 0 });
  }
  told('record, killed right after Saved', { acknowledged: rounds, lost: 0 });
  fs.rmSync(profile, { recursive: true, force: true });
});

test('record: an entry made right before a reload is there, and neither undo nor a change of the formula takes any away', async () => {
  const context = await fresh();
  const page = await started(context);
  const rounds = SOAK ? 80 : 4;
  for (let round = 0; round < rounds; round += 1) {
    await page.locator('.otherwise').evaluate((fold) => { fold.open = true; });
    await page.locator('#else-reading').fill(reading(round));
    await page.locator('#else-reading').press('Enter');
    await page.waitForTimeout(round * 97 % 500);
    await page.reload();
    await page.locator('#ph-step').waitFor();
    await holds(page, reading(round));
    assert.deepEqual(await noted(page), Array.from({ length: round + 1 }, (_, n) => reading(n)));
    await page.locator('#batch-target').or(page.locator('#plan-loss')).first().waitFor();
    await keep(page, () => page.locator('#plan-loss').fill(`${2 + round % 5}.5`));
    await page.locator('.tools button', { hasText: 'Undo' }).click();
    await saved(page);
    assert.equal((await noted(page)).length, round + 1);
  }
  told('record, reloaded within 0 to 500 ms of an entry', { acknowledged: rounds, lost: 0 });
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('record: two tabs note something of one batch at once, and both see all of it', async () => {
  const context = await fresh();
  const here = await started(context);
  await note(here, '6.95');
  const there = await started(context);
  await holds(there, '6.95');
  const rounds = SOAK ? 80 : 5;
  for (const page of [here, there]) await page.locator('.otherwise').evaluate((fold) => { fold.open = true; });
  for (let round = 0; round < rounds; round += 1) {
    for (const [page, whole] of [[here, 3], [there, 4]]) {
      // At the same instant, as far as a driver can: the text first, then both keys.
      await page.locator('#else-reading').fill(reading(round, whole));
    }
    await Promise.all([here, there].map((page) => page.locator('#else-reading').press('Enter')));
    for (const page of [here, there]) for (const whole of [3, 4]) await holds(page, reading(round, whole));
  }
  for (const page of [here, there]) {
    await saved(page);
    assert.equal((await noted(page)).length, 1 + 2 * rounds);
    await page.reload();
    await page.locator('#ph-step').waitFor();
    await holds(page, '6.95');
    const all = await noted(page);
    assert.equal(new Set(all).size, 1 + 2 * rounds);
    for (const whole of [3, 4]) {
      const own = all.filter((text) => text.startsWith(`${whole}.`));
      assert.deepEqual(own, [...own].sort(), 'each tab keeps its order');
    }
  }
  told('record, two tabs', { acknowledged: 1 + 2 * rounds, lost: 0 });
  assert.deepEqual([...here.wrong, ...there.wrong], []);
  await context.close();
});

/** Stores that are emptied under a page which has kept everything. */
const WIPES = {
  'the journal': (page) => journal(page, `for (const name of ['heads', 'bodies', 'steps']) transaction.objectStore(name).clear();`),
  'the quick copy': (page) => page.evaluate(() => { localStorage.clear(); sessionStorage.clear(); }),
};
for (const [which, wipe] of Object.entries(WIPES)) test(`record: with ${which} emptied it is whole, and goes on`, async () => {
  const context = await fresh();
  const page = await started(context);
  const rounds = SOAK ? 50 : 2;
  for (let round = 0; round < rounds; round += 1) {
    await note(page, reading(round));
    // Both stores have the formula again.
    await keep(page, () => page.locator('#plan-loss').fill(`${2 + round % 5}.5`));
    await wipe(page);
    await page.reload();
    await page.locator('#ph-step').waitFor();
    await holds(page, reading(round));
    await saved(page);
    assert.deepEqual(await noted(page), Array.from({ length: round + 1 }, (_, n) => reading(n)));
  }
  told(`record, ${which} emptied`, { acknowledged: rounds, lost: 0 });
  await context.close();
});

test('record: it travels in a file, an earlier log can be gone back to, and the log of an earlier release is read', async () => {
  const context = await fresh();
  const page = await started(context);
  await note(page, '6.45');
  await page.locator('.otherwise .inside > button').click();
  await until(page, () => document.querySelectorAll('.log ul.ph-log li').length === 0 || !document.body.textContent.includes('pH 6.45'));
  await page.locator('.toast').getByRole('button', { name: 'Go back to it', exact: true }).click();
  await holds(page, '6.45');
  await go(page, 'Formula');
  await openOverlay(page, 'Export and share');
  const [download] = await Promise.all([
    page.waitForEvent('download'), page.getByRole('button', { name: 'Export this formula' }).click(),
  ]);
  const file = JSON.parse(fs.readFileSync(await download.path(), 'utf8'));
  assert.equal(file.records.length, 2);
  assert.ok(file.records[1].made_from.lines.length > 5 && file.records[1].made_from.findings.length > 0);
  const elsewhere = await fresh();
  const other = await open(elsewhere, URL_);
  await bring(other, { ...file, formula: { ...file.formula, title: 'From a file' } });
  await go(other, 'Batch');
  await holds(other, '6.45');
  await go(other, 'Formula');
  await bring(other, JSON.parse(fs.readFileSync(new URL('../formats/version-1-ph-log.json', import.meta.url), 'utf8')));
  await go(other, 'Batch');
  await holds(other, '5.7');
  assert.equal(await other.locator('.ph-log s').count(), 1, 'what was struck then is struck now');
  await note(other, '5.65');
  await other.reload();
  await holds(other, '5.65');
  // What follows from the formula is worked out once more when names and law have come.
  let last = await noted(other);
  for (let tries = 0; tries < 50 && last.length !== 3; tries += 1) {
    await other.waitForTimeout(100);
    last = await noted(other);
  }
  assert.equal(last.length, 3);
  assert.deepEqual([...page.wrong, ...other.wrong], []);
  await elsewhere.close();
  await context.close();
});
