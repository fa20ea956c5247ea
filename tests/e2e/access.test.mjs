// Every place by an independent accessibility checker, in both themes and at three widths.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import { EVERY_RULE, violations } from './axe.mjs';
import { browser, closeOverlay, everyOverlay, go, lineActs, open, openFindings, phaseActs, saved } from './page.mjs';

let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());

/** Dark differs from light in its colours alone (custom properties of `tokens.css`), so there mostly their rules run. */
const OF_COLOURS = { type: 'rule', values: ['color-contrast', 'link-in-text-block'] };

/** What is wrong with a place as it is shown; all of a window are told together. */
async function looked(page, place, rules) {
  await page.waitForTimeout(200);
  const wide = await page.evaluate(() => [document.documentElement, ...document.querySelectorAll('.overlay')].map((one) => one.scrollWidth - one.clientWidth));
  const found = await violations(page, rules);
  return [...wide.filter((px) => px > 0).map((px) => `${px} px too wide`), ...found].map((fault) => `${place}: ${fault}`);
}

const WINDOWS = [
  ['light', 320, 700, EVERY_RULE], ['light', 768, 1024, EVERY_RULE], ['light', 1280, 800, EVERY_RULE],
  ['dark', 320, 700, OF_COLOURS], ['dark', 820, 1180, EVERY_RULE], ['dark', 1280, 800, OF_COLOURS],
];
for (const [colorScheme, width, height, rules] of WINDOWS) {
  test(`criterion 21: axe finds nothing at ${width} px, ${colorScheme}`, async () => {
    const context = await chrome.newContext({ viewport: { width, height }, colorScheme, reducedMotion: 'reduce' });
    const page = await open(context, process.env.HP_URL);
    await saved(page);
    const faults = [];
    const nothing = async (of, place) => { faults.push(...await looked(of, place, rules)); };
    for (const place of ['Formula', 'Shelf', 'Table of fats', 'Batch', 'Papers']) {
      if (place === 'Table of fats') {
        await page.getByRole('button', { name: place }).click();
        // A few are like all.
        await page.locator('#search-fats').fill('sunflower');
      } else {
        await go(page, place);
      }
      await nothing(page, place);
      // With every fold open.
      await page.locator('.work details:not(.menu)').evaluateAll((parts) => parts.forEach((part) => { part.open = true; }));
      await nothing(page, `${place}, everything open`);
    }
    // What lies over the page: formulas, oils, chemistry, versions, sources, shortcuts; the swap of an oil; what can be done
    // with a line and with a phase.
    await go(page, 'Formula');
    await everyOverlay(page, (name) => nothing(page, name));
    const line = page.locator('.line', { has: page.getByLabel('Percent Plum kernel oil') });
    await phaseActs(page, page.locator('.phase').first());
    await nothing(page, 'a phase in hand');
    await (await lineActs(page, line)).getByRole('button', { name: 'Note', exact: true }).click();
    await nothing(page, 'a line in hand');
    await line.getByRole('button', { name: 'Swap this oil' }).click();
    await page.getByRole('button', { name: 'Find the closest match' }).click();
    await page.locator('.swap .offer').first().waitFor();
    await nothing(page, 'a swap');
    await closeOverlay(page);
    await go(page, 'Papers');
    for (const paper of ['safety-sheet', 'bundle']) {
      await page.locator(`input[name=paper][value=${paper}]`).click();
      await nothing(page, paper);
    }
    // A fragrance with a lot of its own and a certificate of which not all is understood.
    await go(page, 'Shelf');
    await page.locator('#search-shelf').fill('lavender');
    await page.locator('.shelf .list button').first().click();
    await page.getByRole('button', { name: 'Add a lot' }).click();
    await page.locator('#lot-1-lot').fill('L7');
    await page.locator('#lot-1-allergen_statement').fill('Linalool 35 %\nsmells of summer');
    await page.locator('#value-certificate_limits').fill('5A 0.6\nsee annex 3b');
    await nothing(page, 'lots');
    // A Stop with its form for an answer.
    await go(page, 'Formula');
    await page.getByRole('button', { name: /Add line/ }).last().click();
    await page.keyboard.type('phenoxyethanol');
    await page.locator('.hits:not([hidden]) li').first().waitFor();
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => document.activeElement?.id.startsWith('share-'));
    await page.keyboard.type('1.2');
    await openFindings(page);
    await page.locator('.written > details').first().evaluate((part) => { part.open = true; });
    await nothing(page, 'a Stop');
    assert.deepEqual(faults, []);
    await context.close();
  });
}

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
