// The page in low windows: enlarged twice and four times on a computer (WCAG 2.2, 1.4.4 and 1.4.10), and a phone on its side.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import fs from 'node:fs';
import path from 'node:path';
import { cut } from './cut.mjs';
import { browser, open, saved } from './page.mjs';
import { everyState } from './states.mjs';

let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());

const PICTURES = process.env.HP_PICTURES;
/** A picture for whoever wants to look; none without a folder. */
async function picture(page, name) {
  if (!PICTURES) return;
  fs.mkdirSync(PICTURES, { recursive: true });
  await page.screenshot({ path: path.join(PICTURES, `${name.replaceAll(/[ ,]+/g, '-')}.png`) });
}

async function fresh(options) {
  const context = await chrome.newContext({ reducedMotion: 'reduce', ...options });
  const page = await open(context, process.env.HP_URL);
  await saved(page);
  return page;
}

const WINDOWS = [
  ['200 % of 1280 x 800', { viewport: { width: 640, height: 400 }, deviceScaleFactor: 2 }],
  ['400 % of 1280 x 1024', { viewport: { width: 320, height: 256 }, deviceScaleFactor: 4 }],
];
for (const [name, options] of WINDOWS) {
  test(`criterion 21: nothing is cut off or stands on other words: ${name}`, async () => {
    const page = await fresh(options);
    const faults = {};
    await everyState(page, async (state) => {
      await page.waitForTimeout(100);
      const found = await page.evaluate(cut);
      if (found.length) faults[state] = found;
      await picture(page, `${name}-${state}`);
    });
    assert.deepEqual(faults, {});
    assert.deepEqual(page.wrong, []);
    await page.context().close();
  });
}

test('a phone on its side shows at least four lines, and its bars leave three quarters of the height to what is scrolled', async () => {
  const page = await fresh({ viewport: { width: 844, height: 390 }, hasTouch: true, isMobile: true });
  await page.locator('.benches').waitFor();
  const seen = () => page.evaluate(() => {
    const [top, bar] = [document.querySelector('.top').getBoundingClientRect().bottom, document.querySelector('.bar').getBoundingClientRect().top];
    const rows = [...document.querySelectorAll('.line')].map((line) => line.getBoundingClientRect());
    return { free: bar - Math.max(top, 0), lines: rows.filter((row) => row.top >= Math.max(top, 0) - 0.5 && row.bottom <= bar + 0.5).length };
  });
  const first = await seen();
  assert.ok(first.lines >= 4, `${first.lines} lines at first`);
  await page.mouse.move(300, 200);
  await page.mouse.wheel(0, 200);
  await page.waitForFunction(() => scrollY >= 200);
  const then = await seen();
  assert.ok(then.lines >= 4, `${then.lines} lines once the page is scrolled`);
  assert.ok(then.free >= 0.75 * 390, `${then.free} px between the bars`);
  await picture(page, 'phone on its side');
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});
