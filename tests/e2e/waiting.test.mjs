// What comes by links and files waits for the maker's answer, one after the other; what was answered by mistake is undone;
// versions have names.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import { browser, closeOverlay, go, offer, open, openFormulas, openOverlay, overlay, saved, titles } from './page.mjs';
import { until } from './fault.mjs';

const URL_ = process.env.HP_URL;
let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());

const phases = [{ name: 'Oil', kind: 'oil', lines: [{ ingredient: 'olive', percent: '100' }] }];
const file = (...names) => ({ format: 'hundred-parts', version: 1, formulas: names.map((title) => ({ formula: { title, phases } })) });
const card = (page) => page.locator('.arrival');
const add = (page) => card(page).getByRole('button', { name: 'Add to your formulas' });

/** A link to a formula of this title. */
async function link(title) {
  const context = await chrome.newContext();
  const page = await open(context, URL_);
  await saved(page);
  await page.locator('#title').fill(title);
  await openOverlay(page, 'Export and share');
  await page.getByRole('button', { name: 'Make a link' }).click();
  const made = await page.locator('#link').inputValue();
  await context.close();
  return new URL(made).hash;
}

test('a second and a third arrival wait in their order, and none is lost', async () => {
  const hash = await link('By link');
  const context = await chrome.newContext({ viewport: { width: 390, height: 844 } });
  const page = await open(context, URL_);
  await saved(page);
  await offer(page, file('First', 'Of the first'));
  await card(page).getByText('Of the first').waitFor();
  await offer(page, '{"format": "something else"}');
  await page.evaluate((hash) => { location.hash = hash; }, hash);
  await card(page).getByText('2 more links or files are waiting').waitFor();
  await offer(page, file('Last'));
  await card(page).getByText('3 more links or files are waiting').waitFor();
  assert.equal(await card(page).count(), 1, 'one at a time');
  assert.ok(await card(page).getByText('Of the first').isVisible(), 'the one that came first stays');
  await add(page).click();
  // The file that cannot be read says so in its turn.
  await page.locator('.arrival[role=alert]', { hasText: 'something else' }).waitFor();
  await until(page, () => document.activeElement.id === 'arrival-title');
  await card(page).getByRole('button', { name: 'Close' }).click();
  await card(page).getByText('By link').waitFor();
  await card(page).getByText('1 more link or file is waiting').waitFor();
  await card(page).getByRole('button', { name: 'Do not import' }).click();
  await card(page).getByText('Last').waitFor();
  await add(page).click();
  await card(page).waitFor({ state: 'detached' });
  await saved(page);
  await openFormulas(page);
  await until(page, () => document.querySelectorAll('#find-formula ~ ul.list button').length === 4);
  assert.deepEqual((await titles(page)).sort(), ['First', 'Harbour hand lotion', 'Last', 'Of the first']);
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('the same file twice: the second is compared with what the first has brought', async () => {
  const context = await chrome.newContext();
  const page = await open(context, URL_);
  await saved(page);
  await offer(page, file('Twice'));
  await card(page).getByText('Twice').waitFor();
  await offer(page, file('Twice'));
  await card(page).getByText('1 more link or file is waiting').waitFor();
  await add(page).click();
  await card(page).getByText('already').waitFor();
  assert.equal(await add(page).count(), 0, 'nothing of it is new');
  await card(page).getByRole('button', { name: 'Close' }).click();
  await card(page).waitFor({ state: 'detached' });
  await openFormulas(page);
  assert.deepEqual((await titles(page)).filter((title) => title === 'Twice').length, 1);
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('a file that comes while an import runs waits for its end', async () => {
  const context = await chrome.newContext();
  const page = await open(context, URL_);
  await saved(page);
  await offer(page, file(...Array.from({ length: 600 }, (_, n) => `Lotion ${n}`)));
  await add(page).click();
  await page.getByRole('heading', { name: 'Adding formulas' }).waitFor();
  await openOverlay(page, 'Export and share');
  await page.locator('#import').setInputFiles({ name: 'in.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(file('Behind'))) });
  await overlay(page).waitFor({ state: 'detached' });
  await page.locator('.toast', { hasText: '600 formulas were added' }).waitFor();
  await card(page).getByText('Behind').waitFor();
  await add(page).click();
  await page.locator('.toast', { hasText: 'was added' }).waitFor();
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('ticks that were cleared come back by Undo, with what was ticked since, from another place too', async () => {
  const context = await chrome.newContext({ viewport: { width: 820, height: 1180 } });
  const page = await open(context, URL_);
  await saved(page);
  await go(page, 'Batch');
  const tick = (n) => page.locator('.weigh-table tbody input').nth(n);
  const done = (text) => page.locator('.bar .total', { hasText: text }).waitFor();
  for (const n of [0, 3, 5]) await tick(n).check();
  await done('3 of 14');
  await page.getByRole('button', { name: 'Clear ticks' }).click();
  await done('0 of 14');
  await tick(1).check();
  await page.locator('.toast').getByRole('button', { name: 'Undo' }).click();
  await done('4 of 14');
  assert.deepEqual(await Promise.all([0, 1, 3, 5, 6].map((n) => tick(n).isChecked())), [true, true, true, true, false]);
  await page.getByRole('button', { name: 'Clear ticks' }).click();
  await done('0 of 14');
  await go(page, 'Formula');
  await page.locator('.toast').getByRole('button', { name: 'Undo' }).click();
  await go(page, 'Batch');
  await done('4 of 14');
  await page.reload();
  await done('4 of 14');
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('a version is kept under a name, renamed where it stands, and known by it after a reload and in a file', async () => {
  const context = await chrome.newContext({ viewport: { width: 820, height: 1180 }, acceptDownloads: true });
  const page = await open(context, URL_);
  await saved(page);
  await openOverlay(page, 'Versions');
  await page.getByLabel('Name of the version').fill('Spring batch');
  await page.keyboard.press('Enter');
  await page.locator('.toast', { hasText: 'Saved as version 1, Spring batch.' }).waitFor();
  await closeOverlay(page);
  await page.locator('.share input').nth(1).fill('6');
  await openOverlay(page, 'Versions');
  await page.getByRole('button', { name: 'Save version' }).click();
  const name = (number) => page.getByLabel(`Name of version ${number}`, { exact: true });
  assert.deepEqual([await name(2).inputValue(), await name(1).inputValue()], ['', 'Spring batch']);
  // Key upon key into the field of a version that stands: none is lost, and the focus stays.
  await name(2).pressSequentially('With more glycerin', { delay: 0 });
  assert.equal(await name(2).inputValue(), 'With more glycerin');
  await page.locator('.kept-versions li', { has: name(1) }).getByRole('button', { name: 'Compare with current' }).click();
  await page.locator('.compare caption', { hasText: 'Version 1, Spring batch' }).waitFor();
  await saved(page);
  await page.reload();
  await saved(page);
  await openOverlay(page, 'Versions');
  assert.deepEqual([await name(2).inputValue(), await name(1).inputValue()], ['With more glycerin', 'Spring batch']);
  await openOverlay(page, 'Export and share');
  const [exported] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Export this formula' }).click()]);
  const chunks = [];
  for await (const chunk of await exported.createReadStream()) chunks.push(chunk);
  const versions = JSON.parse(Buffer.concat(chunks).toString()).versions.map((version) => version.name);
  assert.deepEqual(versions, ['Spring batch', 'With more glycerin']);
  // At the head of what is printed.
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
  assert.match(await page.evaluate(() => document.documentElement.dataset.stamp), /version 2, With more glycerin/);
  assert.deepEqual(page.wrong, []);
  await context.close();
});
