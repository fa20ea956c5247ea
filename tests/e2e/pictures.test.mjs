// The pictures that are read: inside the benches, and the paper as it will be printed.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import { bench, browser, closeOverlay, go, open, overlay, plain, saved, settled } from './page.mjs';

const URL_ = process.env.HP_URL;
let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());

/** The text alternatives of the pictures in what is open. */
const told = (page) => overlay(page).getByRole('img').evaluateAll((pictures) => pictures.map((picture) => picture.getAttribute('aria-label')));
/** Every picture has numbers along its axis, and stays within its frame. */
const drawn = (page) => overlay(page).locator('svg[role=img]').evaluateAll((pictures) => pictures.map((picture) => {
  const frame = picture.getBoundingClientRect();
  const out = [...picture.querySelectorAll('*')].filter((part) => {
    const box = part.getBoundingClientRect();
    return box.left < frame.left - 8 || box.right > frame.right + 8;
  });
  return { marks: picture.querySelectorAll('.tick').length, out: out.map((part) => part.outerHTML.slice(0, 90)) };
}));

test('the benches draw their values on axes and tell them in words', async () => {
  const context = await chrome.newContext({ viewport: { width: 390, height: 844 } });
  const page = await open(context, URL_);
  await saved(page);
  await settled(page).catch(() => {});
  const kinds = {
    'oil-phase-card': [/^Fatty acids, % of all fatty acids: .*oleic \(18:1\) \d/],
    'ph-card': [/^pH from 2 to 10/],
    'preservation-card': [/^Amount, % of the product: [\d.]+ %( to [\d.]+ %)?; (usual|up to)/, /^pH of the product: target 5.2; works at pH/],
    'emulsifier-card': [/^Emulsifiers, % of the oils: \d+ %; usual from \d+ %/],
  };
  for (const [id, wanted] of Object.entries(kinds)) {
    await bench(page, id);
    await overlay(page).locator('svg[role=img]').first().waitFor();
    const texts = (await told(page)).map(plain);
    for (const text of wanted) assert.ok(texts.some((said) => text.test(said)), `${id}: ${text} in ${JSON.stringify(texts, null, 1)}`);
    for (const { marks, out } of await drawn(page)) {
      assert.ok(marks >= 2, `${id}: ${marks} numbers at an axis`);
      assert.deepEqual(out, [], id);
    }
    await closeOverlay(page);
  }
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('what is not known is drawn as not known', async () => {
  const context = await chrome.newContext({ viewport: { width: 820, height: 1180 } });
  const page = await open(context, URL_);
  await saved(page);
  await page.locator('.about').click();
  await page.locator('#target-ph').fill('');
  await closeOverlay(page);
  await bench(page, 'preservation-card');
  await overlay(page).getByRole('img', { name: /no target pH/ }).first().waitFor();
  const acidity = overlay(page).locator('svg[aria-label^="pH of"]');
  for (const picture of await acidity.all()) assert.equal(await picture.locator('.own').count(), 0, 'no value is made up');
  for (const picture of await overlay(page).locator('svg[aria-label*="not known"]').all()) {
    assert.ok(await picture.locator('.unknown').count(), 'it is dotted');
    assert.equal(await picture.locator('.window').count(), 0);
  }
  assert.deepEqual(page.wrong, []);
  await context.close();
});

for (const [width, height] of [[390, 844], [320, 700]]) test(`on a phone the paper comes first after a slim choice, and what it lacks after it, ${width} px`, async () => {
  const context = await chrome.newContext({ viewport: { width, height }, hasTouch: true, isMobile: true });
  const page = await open(context, URL_);
  await saved(page);
  await go(page, 'Papers');
  for (const paper of ['label', 'safety-sheet', 'bundle']) {
    await page.locator(`input[name=paper][value=${paper}]`).tap();
    await page.locator('.paper').waitFor();
    // It is drawn to the width that there is, and then stands still.
    await page.waitForFunction(async () => {
      const height = () => document.querySelector('.paper-view').getBoundingClientRect().height;
      const before = height();
      await new Promise((done) => { setTimeout(done, 200); });
      return height() === before;
    });
    const box = (selector) => page.locator(selector).first().boundingBox();
    const [top, choice, sheet] = [await box('.top'), await box('.paper-choice'), await box('.paper-view')];
    assert.ok(choice.height <= 120, `${paper}: the choice is ${choice.height} px high`);
    assert.ok(sheet.y - top.height <= 140, `${paper}: the paper begins at ${sheet.y}`);
    const rest = await page.locator('.paper-side:not(.paper-choice)').boundingBox();
    assert.ok(rest.y >= sheet.y + sheet.height - 0.5, `${paper}: what it lacks stands below it`);
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), 'nothing is too wide');
  }
  // A line of the list goes to its field.
  await page.locator('input[name=paper][value=label]').tap();
  await page.locator('.gaps button').first().tap();
  await page.waitForFunction(() => document.activeElement.id.startsWith('paper-'));
  assert.deepEqual(page.wrong, []);
  await context.close();
});
