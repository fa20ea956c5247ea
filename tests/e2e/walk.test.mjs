// A walk through the page by chance: nothing stops it, what it calls whole is whole, and what stands in its fields is there
// again after a reload. `HP_SEED=7` plays another walk, or one that failed once more; `HP_SOAK=1` walks ten times as far.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import { browser, lineActs, open, openFindings, openOverlay, phaseActs, saved } from './page.mjs';
import { SOAK, told } from './fault.mjs';
import { readFields, readSum, wrongSum } from './shown.mjs';
import { Walk } from './walk.mjs';

const SEED = Number(process.env.HP_SEED || 1);
const STEPS = SOAK ? 2000 : 200;
let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());

/** A page in which nothing waits for an answer: no dialog, no file to be chosen, no paper. */
async function started() {
  const context = await chrome.newContext({ viewport: { width: 1280, height: 900 }, hasTouch: true, acceptDownloads: false, reducedMotion: 'reduce' });
  await context.addInitScript(() => {
    // When the offline copy is ready is no business of the walk.
    delete Navigator.prototype.serviceWorker;
    window.print = () => { dispatchEvent(new Event('beforeprint')); dispatchEvent(new Event('afterprint')); };
    // A file that is offered is not taken: the browser would ask where to.
    HTMLAnchorElement.prototype.click = function () {};
  });
  const page = await open(context, process.env.HP_URL);
  page.on('dialog', (dialog) => dialog.accept().catch(() => {}));
  page.on('filechooser', () => {});
  await saved(page);
  return page;
}

/** Brings back what a reload closes: folds, what lay over the page, what was in hand, and the ingredient that was open. `before` is what was shown. */
async function reopened(page, before) {
  await page.locator('.places [aria-current]').waitFor();
  if (before.entry) {
    await page.locator('#search-shelf').fill(before.entry.slice(0, 100));
    // Of two of one name the maker's own one.
    await page.evaluate((name) => {
      const rows = [...document.querySelectorAll('.shelf ul.list button')].filter((row) => row.querySelector('span')?.firstChild?.textContent === name);
      (rows.find((row) => /yours/.test(row.querySelector('.what').textContent)) ?? rows[0])?.click();
    }, before.entry);
  }
  if (before.hand?.line >= 0) await lineActs(page, page.locator('.line').nth(before.hand.line));
  else if (before.hand) await phaseActs(page, page.locator('.formula .phase').nth(before.hand.phase));
  if (before.over === 'About this formula') await openOverlay(page, before.over);
  if (before.over === 'Findings') await openFindings(page);
  for (let n = 0; n < 2; n += 1) {
    await page.locator('.work details, .overlay details').evaluateAll((folds) => folds.forEach((fold) => { fold.open = true; }));
    await page.waitForTimeout(50);
  }
}

/** What of the fields is not there after a reload. */
async function compared(page, before) {
  await reopened(page, before);
  let different = [];
  // What is in a fold is made when it is opened, and findings come after a moment.
  for (let n = 0; n < 20; n += 1) {
    const now = (await page.evaluate(readFields)).fields;
    different = Object.entries(before.fields).filter(([id, text]) => now[id] !== text).map(([id, text]) => `${id}: ${JSON.stringify(text)} became ${JSON.stringify(now[id])}`);
    if (!different.length) break;
    await page.waitForTimeout(100);
  }
  return different;
}

test(`a walk of ${STEPS} steps by chance, seed ${SEED}: nothing stops, every sum is right, and what was typed is there after each reload`, async () => {
  const page = await started();
  const walk = new Walk(page, SEED);
  const seen = { count: 0 };
  const figures = { reloads: 0, 'fields compared': 0 };
  const failed = (what) => assert.fail(`HP_SEED=${SEED}, step ${walk.told.length}: ${what}\n  ${walk.told.slice(-12).join('\n  ')}`);
  /** Nothing may have stopped, at any time. */
  const stands = async () => {
    if (await page.locator('#crash').isVisible()) failed(`the program stopped: ${(await page.locator('#crash-detail').textContent()).split('\n')[0]}`);
    if (page.wrong.length) failed(page.wrong.join('; '));
  };
  for (let step = 0; step < STEPS; step += 1) {
    const kind = await walk.step().catch((error) => failed(error.message));
    await page.evaluate(() => new Promise((done) => { requestAnimationFrame(() => setTimeout(done)); })).catch(() => {});
    await page.locator('.places [aria-current]:visible, #crash:visible').first().waitFor();
    await stands();
    const wrong = wrongSum(await page.evaluate(readSum), seen);
    if (wrong) failed(wrong);
    if (kind !== 'reload' && kind !== 'haste') continue;
    // At leisure after it was saved, or soon after the last key: before it is written, or in the midst of that.
    if (kind === 'reload') await saved(page);
    else await page.waitForTimeout(walk.dice.below(400));
    const before = await page.evaluate(readFields);
    walk.say(kind === 'reload' ? 'reload once it is saved' : 'reload in haste');
    await page.reload();
    const different = await compared(page, before).catch((error) => failed(error.message));
    await stands();
    if (different.length) failed(`after the reload ${different.join('; ')}`);
    figures.reloads += 1;
    figures['fields compared'] += Object.keys(before.fields).length;
  }
  told(`walk of ${STEPS} steps, seed ${SEED}`, { ...figures, 'sums that were whole': seen.count });
  assert.ok(figures.reloads > 0 && figures['fields compared'] > 20, 'something was looked at');
  await page.context().close();
});
