// The browser's Back, or the gesture for it, closes what lies over the page, and leaves the rest as its own button does.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import { bench, browser, closeOverlay, everyOverlay, go, open, openOverlay, overlay, saved } from './page.mjs';
import { until } from './fault.mjs';

const URL_ = process.env.HP_URL;
const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());

const back = (page) => page.evaluate(() => history.back());
const forward = (page) => page.evaluate(() => history.forward());
const gone = (page) => overlay(page).waitFor({ state: 'detached' });
/** Where the page stands: address, scroll, focus, and how long its history is. */
const stands = (page) => page.evaluate(() => ({
  hash: location.hash, scrolled: Math.round(scrollY), focused: document.activeElement.id || document.activeElement.tagName,
}));
/** The page has heard of every step that was taken in its history. */
const rest = (page) => page.waitForTimeout(300);

test('Back closes a bench as its button does: place, scroll and focus are the same, and Back goes on from there', async () => {
  const context = await chrome.newContext(PHONE);
  const page = await open(context, URL_);
  await saved(page);
  await go(page, 'Batch');
  await go(page, 'Formula');
  const after = [];
  for (const close of [() => closeOverlay(page), () => back(page), () => page.keyboard.press('Escape')]) {
    await page.locator('#ph-card').scrollIntoViewIfNeeded();
    await page.locator('#ph-card').focus();
    const before = await stands(page);
    assert.ok(before.scrolled > 0, 'the bench stands below the fold');
    await page.locator('#ph-card').click();
    await until(page, () => document.activeElement.id === 'overlay-title');
    await close();
    await gone(page);
    await until(page, () => document.activeElement.id === 'ph-card');
    await rest(page);
    assert.deepEqual(await stands(page), before);
    after.push(await page.evaluate(() => history.length));
  }
  assert.equal(new Set(after).size, 1, `no entry is left behind: ${after}`);
  await back(page);
  await page.locator('.places [aria-current]', { hasText: 'Batch' }).waitFor();
  assert.equal(await overlay(page).count(), 0);
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('Back closes everything that opens over the page, once each, at three widths', async () => {
  for (const viewport of [{ width: 390, height: 844 }, { width: 820, height: 1180 }, { width: 1280, height: 800 }]) {
    const context = await chrome.newContext({ viewport });
    const page = await open(context, URL_);
    await saved(page);
    const left = [];
    await everyOverlay(page, async (name) => {
      // Where the list of formulas stands beside the lines nothing lies over them.
      if (!await overlay(page).count()) return;
      await back(page);
      await gone(page);
      await rest(page);
      if (new URL(page.url()).origin !== new URL(URL_).origin) left.push(name);
    });
    assert.deepEqual(left, [], 'the page was left');
    assert.deepEqual(page.wrong, []);
    await context.close();
  }
});

test('Forward opens again what Back has closed, and a place that was come to from there; a swap stays closed', async () => {
  const context = await chrome.newContext({ viewport: { width: 820, height: 1180 } });
  const page = await open(context, URL_);
  await saved(page);
  await bench(page, 'emulsifier-card');
  await back(page);
  await gone(page);
  await forward(page);
  await overlay(page).getByRole('heading', { level: 2, name: 'Emulsifier' }).waitFor();
  await closeOverlay(page);
  await rest(page);
  // By an address, while something is open.
  await bench(page, 'ph-card');
  await page.evaluate(() => { location.hash = '#/shelf'; });
  await page.locator('.places [aria-current]', { hasText: 'Shelf' }).waitFor();
  await gone(page);
  await back(page);
  await page.locator('.places [aria-current]', { hasText: 'Formula' }).waitFor();
  await overlay(page).getByRole('heading', { level: 2, name: 'pH' }).waitFor();
  await forward(page);
  await page.locator('.places [aria-current]', { hasText: 'Shelf' }).waitFor();
  await gone(page);
  await back(page);
  await overlay(page).waitFor();
  await closeOverlay(page);
  await rest(page);
  await page.locator('.line', { has: page.getByLabel('Percent Plum kernel oil') }).locator('.share input').focus();
  await page.getByRole('button', { name: 'Swap this oil' }).click();
  await overlay(page).waitFor();
  await back(page);
  await gone(page);
  await forward(page);
  await rest(page);
  assert.equal(await overlay(page).count(), 0, 'its line may be another one by now');
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('a reload while something is open leaves the page as it was, and Back takes no step for nothing', async () => {
  const context = await chrome.newContext({ viewport: { width: 820, height: 1180 } });
  const page = await open(context, URL_);
  await saved(page);
  await go(page, 'Batch');
  await go(page, 'Formula');
  await openOverlay(page, 'Versions');
  await page.reload();
  await saved(page);
  await rest(page);
  assert.equal(await overlay(page).count(), 0);
  await back(page);
  await page.locator('.places [aria-current]', { hasText: 'Batch' }).waitFor();
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('a place that is pressed at once after something was closed is gone to, and what is opened at once stays open', async () => {
  const context = await chrome.newContext({ viewport: { width: 820, height: 1180 } });
  const page = await open(context, URL_);
  await saved(page);
  for (let n = 0; n < 5; n += 1) {
    await bench(page, 'ph-card');
    await page.evaluate(() => {
      document.querySelector('.overlay > header button').click();
      document.querySelector('.places [data-place=shelf]').click();
    });
    await page.locator('.places [aria-current]', { hasText: 'Shelf' }).waitFor();
    await rest(page);
    assert.equal(new URL(page.url()).hash, '#/shelf');
    assert.equal(await page.locator('.places [aria-current]').innerText(), 'Shelf');
    await go(page, 'Formula');
    await bench(page, 'ph-card');
    await page.evaluate(() => {
      document.querySelector('.overlay > header button').click();
      document.querySelector('#emulsifier-card').click();
    });
    await rest(page);
    await overlay(page).getByRole('heading', { level: 2, name: 'Emulsifier' }).waitFor();
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
    await gone(page);
    await rest(page);
    assert.equal(new URL(page.url()).hash, '#/formula', 'two keys are no two steps back');
  }
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('what is half typed when Back closes its sheet is kept, as with its button', async () => {
  const context = await chrome.newContext({ viewport: { width: 390, height: 844 } });
  const page = await open(context, URL_);
  await saved(page);
  for (const [close, ph, notes] of [[() => closeOverlay(page), '4.', 'by its button'], [() => back(page), '5,', 'by Back']]) {
    await openOverlay(page, 'About this formula');
    await page.locator('#notes').fill(notes);
    await page.locator('#target-ph').focus();
    await page.locator('#target-ph').fill(ph);
    await close();
    await gone(page);
    await openOverlay(page, 'About this formula');
    assert.deepEqual([await page.locator('#target-ph').inputValue(), await page.locator('#notes').inputValue()], [ph, notes]);
    await closeOverlay(page);
  }
  // Typing ended there: the next step of undo is of its own.
  await page.keyboard.press('Control+z');
  await openOverlay(page, 'About this formula');
  assert.notEqual(await page.locator('#target-ph').inputValue(), '5,');
  assert.equal(await page.locator('#notes').inputValue(), 'by Back');
  assert.deepEqual(page.wrong, []);
  await context.close();
});
