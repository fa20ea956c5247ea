// The method: read, taken over, changed, moved, and back to the first one, each with undo; kept over a reload; on paper.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import { browser, closeOverlay, go, open, openOverlay, overlay, saved } from './page.mjs';

const URL_ = process.env.HP_URL;
let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());
const fresh = (options = {}) => chrome.newContext({ viewport: { width: 820, height: 1180 }, ...options });
const steps = (page) => page.locator('.overlay .method > .step');
const button = (page, name) => overlay(page).getByRole('button', { name, exact: true });
/** Where SHOTS names a folder, what is seen there. */
const shot = async (page, name) => { if (process.env.SHOTS) await page.screenshot({ path: `${process.env.SHOTS}/method-${name}.png` }); };

test('a method is taken over, changed and brought back, each step of it undone alone', async () => {
  const page = await open(await fresh(), URL_);
  await go(page, 'Batch');
  await page.locator('.weigh-foot').getByRole('button', { name: 'Method' }).click();
  await steps(page).first().waitFor();
  const first = await steps(page).count();
  assert.equal(await overlay(page).locator('textarea').count(), 0, 'it is read until it is touched');
  await button(page, 'Change the method').click();
  await button(page, 'Back to the first method').waitFor();
  assert.equal(await steps(page).count(), first);
  await page.waitForFunction(() => document.activeElement?.id === 'method-head');
  const text = (at) => steps(page).nth(at).locator('textarea').first();
  const third = await text(2).inputValue();
  await text(2).fill('Wet the gum.');
  await text(2).press('Tab');
  await steps(page).nth(2).getByRole('button', { name: 'Move up' }).click();
  assert.equal(await text(1).inputValue(), 'Wet the gum.');
  await page.waitForFunction(() => document.activeElement?.value === 'Wet the gum.');
  await page.waitForTimeout(200);
  await steps(page).nth(1).getByLabel('Time').fill('5');
  await steps(page).nth(1).getByRole('button', { name: 'Remove' }).click();
  assert.equal(await steps(page).count(), first - 1);
  // What it weighed is weighed with the rest of its phase; without that step, by none.
  const rest = steps(page).filter({ hasText: 'Purified water' });
  assert.match(await rest.innerText(), /Takes .*Xanthan gum/);
  await rest.locator('textarea').first().focus();
  await rest.getByRole('button', { name: 'Remove' }).click();
  await overlay(page).locator('.caution').getByText(/No step weighs these lines/).waitFor();
  await overlay(page).getByRole('button', { name: 'Add a step that weighs them' }).click();
  await overlay(page).locator('.caution').waitFor({ state: 'detached' });
  await button(page, 'Back to the first method').click();
  await button(page, 'Change the method').waitFor();
  await page.locator('.toast').getByRole('button', { name: 'Undo' }).click();
  await button(page, 'Back to the first method').waitFor();
  await closeOverlay(page);
  await saved(page);
  await page.reload();
  await page.locator('.places [aria-current]').waitFor();
  await openOverlay(page, 'Method');
  await button(page, 'Back to the first method').waitFor();
  await closeOverlay(page);
  const undo = page.getByRole('button', { name: 'Undo', exact: true }).first();
  // What was added, removed twice, timed, moved and typed, and the step that took the method over.
  for (let n = 0; n < 7; n += 1) await undo.click();
  await openOverlay(page, 'Method');
  await button(page, 'Change the method').waitFor();
  assert.match(await steps(page).nth(2).innerText(), new RegExp(third.slice(0, 12)));
  assert.deepEqual(page.wrong, []);
});

test('what is pressed in a method is large enough for a finger, at every width and in both colours', async () => {
  for (const [width, height, colorScheme] of [[320, 640, 'light'], [390, 844, 'dark'], [820, 1180, 'light'], [1280, 800, 'dark']]) {
    const page = await open(await fresh({ viewport: { width, height }, colorScheme, hasTouch: true, isMobile: width < 1000 }), URL_);
    await openOverlay(page, 'Method');
    await shot(page, `${width}-first`);
    await button(page, 'Change the method').click();
    await button(page, 'Back to the first method').waitFor();
    await steps(page).nth(2).locator('textarea').first().focus();
    await steps(page).nth(2).getByRole('button', { name: 'Move up' }).waitFor();
    await shot(page, `${width}-own`);
    const small = await overlay(page).locator('button, input, select, textarea').evaluateAll((all) => all
      .map((one) => ({ what: one.id || one.textContent, box: one.getBoundingClientRect() }))
      .filter(({ box }) => box.height > 0 && box.height < 48).map(({ what, box }) => `${what}: ${box.height}`));
    assert.deepEqual(small, []);
    const wide = await overlay(page).evaluate((part) => part.scrollWidth - part.clientWidth);
    assert.ok(wide <= 0, `${wide} px too wide at ${width}`);
    await page.context().close();
  }
});

test('the printed weigh sheet carries the method', async () => {
  const page = await open(await fresh(), URL_);
  await go(page, 'Batch');
  await page.locator('.weigh-table').first().waitFor();
  assert.equal(await page.locator('.printed-method').isVisible(), false);
  await page.emulateMedia({ media: 'print' });
  assert.equal(await page.locator('.printed-method').isVisible(), true);
  assert.ok(await page.locator('.printed-method li').count() > 10);
  if (process.env.SHOTS) await page.pdf({ path: `${process.env.SHOTS}/method.pdf`, format: 'A4', preferCSSPageSize: true });
});
