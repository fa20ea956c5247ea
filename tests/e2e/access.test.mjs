// Every state of the page by an independent accessibility checker, in both themes, at five widths, with
// more spacing and in the colours of the system.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import { EVERY_RULE, violations } from './axe.mjs';
import { cut } from './cut.mjs';
import { browser, everyOverlay, go, lineActs, open, phaseActs, saved } from './page.mjs';
import { spacing, ring, unseen } from './settings.mjs';
import { everyState } from './states.mjs';

let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());

/** Dark differs from light in its colours alone (custom properties of `tokens.css`), so there mostly their rules run. */
const OF_COLOURS = { type: 'rule', values: ['color-contrast', 'link-in-text-block'] };

/** Widths, and what else each is looked at with: every rule in the dark, more spacing, the colours of the system. */
const WINDOWS = [
  { width: 320, height: 700 }, { width: 390, height: 844, spaced: true }, { width: 600, height: 960, forced: true },
  { width: 820, height: 1180, spaced: true, dark: EVERY_RULE }, { width: 1280, height: 800, spaced: true },
];
for (const { width, height, spaced, forced, dark = OF_COLOURS } of WINDOWS) {
  test(`criterion 21: axe finds nothing at ${width} px, light and dark, and nothing is cut off`, async () => {
    const context = await chrome.newContext({ viewport: { width, height }, colorScheme: 'light', reducedMotion: 'reduce' });
    const page = await open(context, process.env.HP_URL);
    await saved(page);
    const space = spaced && await spacing(page);
    // All that is wrong is told together.
    const faults = [];
    await everyState(page, async (state) => {
      const add = (how, found) => faults.push(...found.map((fault) => `${state}${how}: ${fault}`));
      await page.waitForTimeout(100);
      add('', [...await page.evaluate(cut), ...await violations(page)]);
      await page.emulateMedia({ colorScheme: 'dark' });
      add(', dark', await violations(page, dark));
      if (forced) {
        await page.emulateMedia({ forcedColors: 'active' });
        add(', forced colours', await page.evaluate(unseen));
      }
      await page.emulateMedia({ colorScheme: 'light', forcedColors: 'none' });
      if (!spaced) return;
      await space(true);
      add(', more spacing', await page.evaluate(cut));
      await space(false);
    });
    assert.deepEqual(faults, []);
    assert.deepEqual(page.wrong, []);
    await context.close();
  });
}

for (const colorScheme of ['light', 'dark']) test(`criterion 21: in the colours of the system whatever has the focus shows it, ${colorScheme}`, async () => {
  const context = await chrome.newContext({ viewport: { width: 1280, height: 800 }, colorScheme, forcedColors: 'active', reducedMotion: 'reduce' });
  const page = await open(context, process.env.HP_URL);
  await saved(page);
  const faults = [];
  for (const place of ['Formula', 'Shelf', 'Batch', 'Papers']) {
    await go(page, place);
    await page.waitForTimeout(200);
    faults.push(...await page.evaluate(unseen));
    for (let n = 0; n < 40; n += 1) {
      await page.keyboard.press('Tab');
      const fault = await page.evaluate(ring);
      if (fault) faults.push(`${place}: no ring on ${fault}`);
    }
  }
  assert.deepEqual(faults, []);
  await context.close();
});

/** What can be pressed and is smaller than a fingertip. Runs in the page. */
const tooSmall = () => {
  const found = [];
  for (const element of document.querySelectorAll('a[href], button, select, textarea, summary, input')) {
    if (!element.checkVisibility({ visibilityProperty: true }) || element.closest('.skip, .paper, [inert]')) continue;
    // A tick is pressed by its label, words and all.
    const target = ['radio', 'checkbox', 'file'].includes(element.type) ? element.closest('label') ?? element : element;
    const box = target.getBoundingClientRect();
    if (box.width < 1 || box.height < 43.5 || box.width < 43.5) found.push(`${Math.round(box.width)} x ${Math.round(box.height)} ${target.outerHTML.slice(0, 90)}`);
  }
  return found;
};

for (const [width, height] of [[390, 844], [1180, 820]]) test(`criterion 21: where fingers press, every target is at least 44 px high and wide, and the page can be pinched, ${width} px`, async () => {
  const context = await chrome.newContext({ viewport: { width, height }, hasTouch: true, isMobile: true, reducedMotion: 'reduce' });
  const page = await open(context, process.env.HP_URL);
  await saved(page);
  const zoom = await page.locator('meta[name=viewport]').getAttribute('content');
  assert.doesNotMatch(zoom, /user-scalable|maximum-scale/);
  const small = {};
  for (const place of ['Formula', 'Shelf', 'Batch', 'Papers']) {
    await go(page, place);
    await page.waitForTimeout(200);
    await page.locator('.work details:not(.menu)').evaluateAll((parts) => parts.forEach((part) => { part.open = true; }));
    await page.waitForTimeout(300);
    small[place] = await page.evaluate(tooSmall);
    if (place !== 'Formula') continue;
    await everyOverlay(page, async (name) => { small[name] = await page.evaluate(tooSmall); });
    await phaseActs(page, page.locator('.phase').first());
    small['a phase in hand'] = await page.evaluate(tooSmall);
    await lineActs(page, page.locator('.line').nth(4));
    small['a line in hand'] = await page.evaluate(tooSmall);
  }
  assert.deepEqual(Object.fromEntries(Object.entries(small).filter(([, list]) => list.length)), {});
  await context.close();
});
