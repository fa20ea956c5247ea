// A stability study: begun from a batch, its pulls recorded as the clock goes on, what binds the shelf life, the calendar
// file, a second tab and the file of everything; and the same by keys alone.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import fs from 'node:fs';
import { bring, browser, fromMenu, go, open, plain, saved } from './page.mjs';
import { pick } from './shelf.mjs';

const URL_ = process.env.HP_URL;
let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());
const fresh = () => chrome.newContext({ viewport: { width: 820, height: 1180 }, timezoneId: 'Europe/Oslo', locale: 'en-GB', acceptDownloads: true });
const batch = () => {
  const file = JSON.parse(fs.readFileSync(new URL('../formats/version-1-methods.json', import.meta.url), 'utf8'));
  file.records[0].entries.pop();
  file.records[0].made_from.formula.target_ph = '5.2';
  return file;
};
const begin = async (page) => {
  await bring(page, batch());
  await go(page, 'Proof');
  await page.getByRole('button', { name: 'Begin the study' }).click();
  await page.locator('.pulls button').first().waitFor();
  await saved(page);
};
const binding = (page) => page.locator('#binding').innerText().then(plain);
const pull = (page, name) => page.locator('.pulls').getByRole('button', { name });
async function look(page, name, values) {
  await pull(page, name).click();
  for (const [field, value] of Object.entries(values)) await page.locator(`#pull-${field}`).fill(value);
  await page.locator('#pull-odour').selectOption({ index: 1 });
  await page.locator('.pull-form .primary').click();
  await page.locator('.pull-form').waitFor({ state: 'detached' });
}

test('proof: three pulls as the clock goes on, a picture, a correction, and a lot that ends sooner', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await page.clock.install({ time: new Date('2026-11-30T10:00:00Z') });
  await page.reload();
  await go(page, 'Proof');
  assert.match(await page.locator('.proof-empty').innerText(), /No study yet[\s\S]*Make a batch first/);
  await begin(page);
  assert.match(await page.locator('.today').innerText(), /4 pulls due today/);
  await look(page, /^Room, day 0/, { ph: '5.2' });
  await page.clock.setFixedTime(new Date('2026-12-07T10:00:00Z'));
  await page.reload();
  assert.match(await page.locator('.today').innerText(), /overdue/);
  await look(page, /^Room, 7 days/, { ph: '5.15' });
  await page.clock.setFixedTime(new Date('2026-12-30T10:00:00Z'));
  await page.reload();
  await look(page, /^Room, 1 month: due today/, { ph: '4.2' });
  const picture = page.locator('.study-plot svg[role=img]');
  assert.match(plain(await picture.getAttribute('aria-label')), /pH over time\. Limits 4\.7 to 5\.7\. Room: 5\.2 on day 0, 5\.15 on day 7, 4\.2 on day 30\./);
  assert.equal(await picture.locator('circle').count(), 3);
  assert.match(await page.locator('.verdicts').innerText(), /Outside limits: first room, 1 month/);
  assert.match(await binding(page), /No best-before date follows/);
  assert.equal(await page.getByRole('button', { name: 'Put this date on the label' }).count(), 0, 'no date for a label either');
  // A misreading is crossed out with a reason; without one nothing changes.
  await pull(page, /^Room, 1 month/).click();
  await page.locator('#pull-ph').fill('5.1');
  await page.locator('.pull-form .primary').click();
  await page.locator('#pull-why').fill('Misread');
  await page.locator('.pull-form .primary').click();
  await page.locator('.pull-form').waitFor({ state: 'detached' });
  assert.match(plain(await picture.getAttribute('aria-label')), /5\.1 on day 30/);
  assert.match(plain(await page.locator('.keeps').innerText()), /30 days at room temperature\. This is evidence so far, not a limit/);
  const before = await binding(page);
  assert.match(before, /best before end of 30 June 2027/);
  await page.getByText('Lots and their end dates').click();
  await page.locator('#lot-end-1').fill('2027-01-31');
  await page.getByRole('button', { name: 'Record the end dates' }).click();
  await page.waitForFunction((old) => document.querySelector('#binding').innerText !== old, before);
  assert.match(await binding(page), /best before end of 31 January 2027/);
  await page.locator('#proof-rule').fill('1');
  await page.getByRole('button', { name: 'Record the rule' }).click();
  await page.locator('#binding', { hasText: 'your rule' }).waitFor();
  await page.getByRole('button', { name: 'Put this date on the label' }).click();
  await page.getByText('The date is on the label.').waitFor();
  await saved(page);
  await page.reload();
  await page.locator('#binding', { hasText: '29 December 2026' }).waitFor();
  const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Calendar file' }).click()]);
  const calendar = fs.readFileSync(await file.path(), 'utf8');
  assert.match(calendar, /^BEGIN:VCALENDAR\r\n/);
  assert.match(calendar, /DTSTART;VALUE=DATE:20270228\r\nDTEND;VALUE=DATE:20270301\r\n/);
  assert.ok(!calendar.includes('DATE:20261207'), 'what is past needs no alarm');
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('proof: the file of everything brings a study back, told beforehand, and once only', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await begin(page);
  await look(page, /^Room, day 0/, { ph: '5.2' });
  await saved(page);
  await fromMenu(page, 'Export and share');
  const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: /Export all|everything/i }).first().click()]);
  const all = JSON.parse(fs.readFileSync(await file.path(), 'utf8'));
  assert.equal(all.studies.length, 1);
  assert.deepEqual(page.wrong, []);
  await context.close();
  const other = await fresh();
  const empty = await open(other, URL_);
  await bring(empty, all);
  await go(empty, 'Proof');
  await pull(empty, /^Room, day 0: recorded/).waitFor();
  assert.deepEqual(empty.wrong, []);
  await other.close();
});

test('proof: begun and recorded by keys alone, and what is half typed outlives a reload', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await bring(page, batch());
  await go(page, 'Proof');
  await page.getByRole('button', { name: 'Begin the study' }).focus();
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.activeElement?.id === 'proof-pulls');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.activeElement?.id === 'proof-pull');
  while (await page.evaluate(() => document.activeElement.id) !== 'pull-ph') await page.keyboard.press('Tab');
  await page.keyboard.type('5.3');
  await page.reload();
  await pull(page, /^Room, day 0/).focus();
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.querySelector('#pull-ph')?.value === '5.3');
  await page.locator('.pull-form .primary').focus();
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.activeElement?.id === 'proof-pulls');
  await pull(page, /^Room, day 0: recorded, within limits/).waitFor();
  assert.deepEqual(page.wrong, []);
  await context.close();
});

/** The same batch, of which the shelf has the lot of glycerin, with an end after the one that was noted. */
const onShelf = () => {
  const file = batch();
  const lot = { lot: 'L7', received: '2026-10-01', expiry: '2027-09-30', amount: '2 kg' };
  file.shelf = [{ id: 'glycerin', own: false, values: { name: 'Glycerin' }, lots: [lot] }];
  return file;
};

test('proof: the shelf says how long a lot keeps, another window at once, and the label is told', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await page.clock.install({ time: new Date('2026-11-30T10:00:00Z') });
  await bring(page, onShelf());
  await go(page, 'Proof');
  await page.getByRole('button', { name: 'Begin the study' }).click();
  await page.locator('.pulls button').first().waitFor();
  assert.match(await binding(page), /30 June 2027, by Glycerin L7 \(as noted for this batch\)/);
  await page.getByRole('button', { name: 'Put this date on the label' }).click();
  await page.getByText('The date is on the label.').waitFor();
  await saved(page);
  const other = await open(context, URL_);
  await pick(other, 'Glycerin');
  await other.locator('#lot-1-opened').fill('2026-10-04');
  await other.locator('#lot-1-after_opening').fill('6');
  await saved(other);
  // Six months from 4 October 2026.
  await page.locator('#binding', { hasText: '4 April 2027' }).waitFor();
  const keeps = plain(await page.locator('.keeps').innerText());
  for (const part of ['opened on 4 October 2026, good for 6 months from then', 'The label says 2027-06-30.', '1 lot without an end date']) assert.ok(keeps.includes(part), `${part}\n${keeps}`);
  await page.getByText('Lots and their end dates').click();
  assert.match(plain(await page.locator('.lot-ends').innerText()), /Until 4 April 2027, opened on .*\. Later: 30 June 2027, as noted for this batch; 30 September 2027, as it stands on the shelf\./);
  await page.getByRole('button', { name: 'Put this date on the label' }).click();
  await page.getByText('The date is on the label.').waitFor();
  assert.deepEqual([...page.wrong, ...other.wrong], []);
  await context.close();
});

test('proof: what is due follows the day where a tablet stays on over midnight', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await page.clock.install({ time: new Date('2026-11-30T22:58:00Z') });
  await page.reload();
  await begin(page);
  assert.match(await page.locator('.today').innerText(), /4 pulls due today/);
  assert.equal(await pull(page, /^Room, 1 day: due 1 December/).count(), 1);
  // Midnight in Oslo is at 23:00.
  await page.clock.runFor(180_000);
  await page.locator('.today', { hasText: 'overdue' }).waitFor();
  await pull(page, /^Room, 1 day: due today/).waitFor();
  assert.deepEqual(page.wrong, []);
  await context.close();
});
