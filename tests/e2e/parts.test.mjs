// The program comes in two parts: the lines of a formula first, all else a moment later.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { browser, go, open, openOverlay, saved, serve } from './page.mjs';

let chrome;
let server;
before(async () => { [chrome, server] = [await browser(), await serve()]; });
after(async () => { await chrome.close(); await server.close(); });

const LAZY = /split_lazy-[0-9a-f]+\.wasm$/;

/** A page whose second part does not come until `let()` is called. Workers are off: their copy would hide the failure. */
async function withoutTheSecond(answer) {
  const context = await chrome.newContext({ viewport: { width: 820, height: 1180 }, serviceWorkers: 'block' });
  await context.route(LAZY, answer);
  const page = await open(context, server.url);
  return { context, page, mend: () => context.unroute(LAZY) };
}

test('a formula is written and kept while the second part is missing, and the rest comes on a press', async () => {
  const { context, page, mend } = await withoutTheSecond((route) => route.abort());
  await page.getByText('Part of the program did not load').waitFor();
  const share = page.locator('.share input').nth(1);
  await share.fill('3.5');
  await saved(page);
  await go(page, 'Batch');
  await page.getByText('Part of the program did not load').waitFor();
  await mend();
  await page.getByRole('button', { name: 'Try again' }).click();
  await page.locator('.weigh-table').first().waitFor();
  await go(page, 'Formula');
  await page.locator('#findings').waitFor();
  assert.equal(await page.locator('.share input').nth(1).inputValue(), '3.5');
  await context.close();
});

test('once the page says that it works offline, the stove opens on the first visit with the server dead', async () => {
  const dying = await serve();
  const context = await chrome.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true });
  const page = await open(context, dying.url);
  await page.getByText('Ready to work offline').waitFor();
  await dying.close();
  await go(page, 'Batch');
  await page.locator('#stove-go').tap();
  await page.getByRole('button', { name: 'Begin the batch' }).tap();
  await page.getByText('Clean and disinfect bench').waitFor();
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('a second part that is not the published one is refused', async () => {
  const { context, page } = await withoutTheSecond(async (route) => {
    const response = await route.fetch();
    const body = await response.body();
    body[body.length >> 1] ^= 1;
    await route.fulfill({ response, body });
  });
  await page.getByText('Part of the program did not load').waitFor();
  assert.equal(await page.locator('#findings').count(), 0);
  await context.close();
});

test('a link waits in the address until the second part can read it', async () => {
  const context = await chrome.newContext({ viewport: { width: 820, height: 1180 } });
  const page = await open(context, server.url);
  await page.locator('#findings').waitFor();
  await openOverlay(page, 'Export and share');
  await page.getByRole('button', { name: 'Make a link' }).click();
  const link = await page.locator('#link').inputValue();
  await context.close();

  const late = await withoutTheSecond((route) => route.abort());
  await late.page.goto(link);
  await late.page.getByText('Part of the program did not load').waitFor();
  assert.equal(late.page.url(), link);
  await late.mend();
  await late.page.getByRole('button', { name: 'Try again' }).click();
  await late.page.locator('#arrival-title').waitFor();
  assert.ok(!late.page.url().includes(link.split('#')[1]));
  await late.context.close();
});

test('findings follow a change', async () => {
  const context = await chrome.newContext({ viewport: { width: 1280, height: 800 } });
  const page = await open(context, server.url);
  await page.locator('#findings').waitFor();
  await page.locator('.share input').nth(1).fill('95');
  await page.locator('#findings [data-grade=stop]').first().waitFor();
  await page.getByRole('button', { name: 'Undo' }).first().click();
  await page.locator('#findings [data-grade=stop]').waitFor({ state: 'detached' });
  await context.close();
});
