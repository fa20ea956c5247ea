// The card of the annexes: the law and its names come as files of their own, after all else, and answer offline too.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { violations } from './axe.mjs';
import { bench, bring, browser, closeOverlay, open, overlay, plain, saved, serve, settled } from './page.mjs';

let chrome;
let server;
before(async () => { [chrome, server] = [await browser(), await serve()]; });
after(async () => { await chrome.close(); await server.close(); });

const DATA = /assets\/(law|names)-[0-9a-f]+\.txt$/;
const viewport = { width: 820, height: 1180 };

const lines = [['water', 'fill-up'], ['phenoxyethanol', '1.2'], ['quorblium', '2']];
/** A formula with more phenoxyethanol than Annex V, entry 29 allows (1.0 %), and with a name that nobody knows. */
const FILE = {
  format: 'hundred-parts', version: 1,
  formulas: [{ formula: { title: 'Above the law', phases: [
    { name: 'Water phase', kind: 'water', lines: lines.map(([ingredient, percent]) => ({ ingredient, percent })) },
  ] } }],
  shelf: [{ id: 'quorblium', own: true, values: { name: 'Quorblium', inci: 'Quorblium Extract' } }],
};

const result = (page) => page.locator('#annexes-card .result');
const opened = (page) => bench(page, 'annexes-card');
const entry = (page) => overlay(page).locator('section', { hasText: 'Annex V/29' });

async function formula(context) {
  const page = await open(context, server.url);
  await saved(page);
  await bring(page, FILE);
  await settled(page);
  return page;
}

async function isTold(page) {
  await result(page).filter({ hasText: '1 above a limit, 1 not recognised' }).waitFor();
  await opened(page);
  assert.match(plain(await entry(page).innerText()), /Phenoxyethanol: 1\.2 %[^]*Above 1 %/);
  const text = plain(await overlay(page).innerText());
  assert.match(text, /nothing is checked for these\s+Quorblium Extract/);
  assert.match(text, /as kept to 20\d\d-\d\d-\d\d/);
  assert.match(text, /a safety assessor decides/);
  assert.doesNotMatch(text, /\b(is|are) safe\b|fetched/);
}

test('a formula is told what is above a limit and what nobody recognised, offline too', async () => {
  const context = await chrome.newContext({ viewport });
  const own = await serve();
  const page = await open(context, own.url);
  await saved(page);
  await bring(page, FILE);
  await isTold(page);
  assert.equal(await result(page).getAttribute('data-grade'), 'stop');
  assert.deepEqual(await violations(page), []);
  await closeOverlay(page);
  assert.deepEqual(await violations(page), []);
  await page.waitForFunction(() => document.documentElement.dataset.offline === 'ready');
  await own.close();
  await page.reload();
  await page.locator('.places [aria-current]').waitFor();
  await isTold(page);
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('the answer follows a change', async () => {
  const context = await chrome.newContext({ viewport });
  const page = await formula(context);
  await isTold(page);
  await closeOverlay(page);
  await page.locator('.share input').nth(1).fill('0.9');
  await result(page).filter({ hasText: /^1 not recognised/ }).waitFor();
  await opened(page);
  assert.match(plain(await entry(page).innerText()), /Within 1 %/);
  // What is open follows too.
  await page.keyboard.press('Control+z');
  await entry(page).filter({ hasText: 'Above 1' }).waitFor();
  await closeOverlay(page);
  await isTold(page);
  await context.close();
});

test('a law that does not come, or not whole, is said, never passed over', async () => {
  const damaged = async (route) => {
    const response = await route.fetch();
    const body = await response.body();
    body[body.length >> 1] ^= 1;
    await route.fulfill({ response, body });
  };
  for (const answer of [(route) => route.abort(), damaged, (route) => route.fulfill({ status: 404, body: '' })]) {
    // Workers are off: their copy would hide the failure.
    const context = await chrome.newContext({ viewport, serviceWorkers: 'block' });
    await context.route(DATA, answer);
    const page = await formula(context);
    await result(page).filter({ hasText: 'Nothing is checked: the law could not be loaded' }).waitFor();
    assert.equal(await result(page).getAttribute('data-grade'), 'unknown');
    await opened(page);
    assert.equal(await entry(page).count(), 0);
    await context.unroute(DATA);
    await overlay(page).getByRole('button', { name: 'Try again' }).click();
    await entry(page).waitFor();
    await closeOverlay(page);
    await isTold(page);
    await context.close();
  }
});

test('the files of the law come after the second part of the program', async () => {
  const context = await chrome.newContext({ viewport, serviceWorkers: 'block' });
  const page = await context.newPage();
  const asked = [];
  page.on('request', (request) => asked.push(request.url()));
  await page.goto(server.url);
  await result(page).filter({ hasNotText: /Nothing is checked/ }).waitFor();
  const first = (pattern) => asked.findIndex((url) => pattern.test(url));
  assert.ok(first(/split_lazy-/) >= 0 && first(DATA) > first(/split_lazy-/), asked.join('\n'));
  assert.equal(asked.filter((url) => DATA.test(url)).length, 2);
  await context.close();
});
