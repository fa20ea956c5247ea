// What goes wrong beside a study, done on purpose: the browser is killed while a pull or an event is recorded, two tabs have one
// study open, and there is no room to save. An entry counts as recorded once the page says that it is saved. `HP_SOAK=1` runs the
// long form of each.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { bring, browser, fromMenu, go, open, saved } from './page.mjs';
import { SOAK, everything, keep, mortal, noRoom, roomAgain, told, until } from './fault.mjs';

const URL_ = process.env.HP_URL;
let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());

const batch = () => {
  const file = JSON.parse(fs.readFileSync(new URL('../formats/version-1-methods.json', import.meta.url), 'utf8'));
  file.records[0].entries.pop();
  file.records[0].made_from.formula.target_ph = '5.2';
  return file;
};
/** Begins a study of 24 months, and waits until that is kept. */
async function begin(page) {
  await bring(page, batch());
  await go(page, 'Proof');
  await page.locator('input[name=study-months][value="24"]').check();
  await keep(page, () => page.getByRole('button', { name: 'Begin the study' }).click());
  await page.locator('.pulls button').first().waitFor();
}
const READY = '#proof-pulls';
const times = (text, part) => text.split(part).length - 1;
/** The names of all pulls, in order. */
const pulls = (page) => page.locator('.pulls li button .hidden').allInnerTexts();

/** Opens the form of the nth pull and types into it. */
async function typed(page, n, { ph, note }) {
  await page.locator('.pulls li button').nth(n).click();
  await page.locator('#pull-ph').fill(ph);
  await page.locator('#pull-note').fill(note);
}
const record = (page) => page.locator('.pull-form .primary').click();
/** Records the nth pull, and waits until its form has gone. */
async function look(page, n, seen) {
  await typed(page, n, seen);
  await record(page);
  await page.locator('.pull-form').waitFor({ state: 'detached' });
}
/** Opens the form of events. */
async function eventForm(page) {
  if (!await page.locator('#event-text').isVisible()) await page.getByText('Record an event', { exact: true }).click();
  await page.locator('#event-text').waitFor();
}
const RECORD_EVENT = 'Record the event';
async function happened(page, text) {
  await eventForm(page);
  await page.locator('#event-text').fill(text);
  await page.getByRole('button', { name: RECORD_EVENT }).click();
  await until(page, (text) => document.querySelector('.noted')?.innerText.includes(text), text);
}
/** A pH whose last decimal is no nought, so that it is kept as it was typed. */
const ph = (n) => (4.71 + n * 0.02).toFixed(2);
/** What is recorded in the nth round: two of three times a pull, else an event. */
const isEvent = (n) => n % 3 === 0;
const mark = (n) => (isEvent(n) ? `Event ${n}.` : `Look ${n}.`);
const pullOf = (n) => n - Math.floor(n / 3) - 1;

test('study: killed while an entry is recorded, the browser has lost none that was saved', async () => {
  const profile = fs.mkdtempSync(path.join(os.tmpdir(), 'hp-study-'));
  let running = null;
  const start = async (address, ready) => {
    running = await mortal(profile);
    return open(running.context, `${URL_}${address}`, ready);
  };
  const kill = async () => { await running?.kill(); running = null; };
  const rounds = SOAK ? 60 : 6;
  let cut = 0;
  try {
    let page = await start('');
    await begin(page);
    const all = (await pulls(page)).length;
    // A plan has so many pulls; a longer campaign records events from then on.
    const kinds = (n) => isEvent(n) || pullOf(n) >= all;
    const text = (n) => (kinds(n) ? `Event ${n}.` : mark(n));
    for (let n = 1; n <= rounds; n += 1) {
      await keep(page, () => (kinds(n) ? happened(page, text(n)) : look(page, pullOf(n), { ph: ph(n), note: text(n) })));
      // Not waited for: it is there whole, or not at all.
      await eventForm(page);
      await page.locator('#event-text').fill(`Cut ${n}.`);
      const pressed = page.getByRole('button', { name: RECORD_EVENT }).click().catch(() => {});
      await new Promise((done) => setTimeout(done, Math.random() * 150));
      await kill();
      await pressed;
      page = await start('#/proof', READY);
      await page.locator('.pulls li button').first().waitFor();
      // Pulls are seen by their state, events by their words.
      const states = await pulls(page);
      const said = await page.locator('.noted').innerText().catch(() => '');
      for (let m = 1; m <= n; m += 1) {
        if (kinds(m)) assert.equal(times(said, text(m)), 1, `event ${m} once after kill ${n}\n${said}`);
        else assert.match(states[pullOf(m)], /recorded/, `pull ${m} after kill ${n}`);
        assert.ok(times(said, `Cut ${m}.`) <= 1, `once at most: ${m}\n${said}`);
      }
      cut += 1 - times(said, `Cut ${n}.`);
      // What the journal has lost to the kill comes back into it from the other copy.
      for (let tries = 0; ; tries += 1) {
        const kept = await everything(page);
        const gone = Array.from({ length: n }, (_, m) => text(m + 1)).filter((entry) => !kept.includes(entry));
        if (!gone.length) break;
        assert.ok(tries < 50, `not in the journal after kill ${n}: ${gone}`);
        await page.waitForTimeout(100);
      }
    }
    // What was seen of a pull is what was typed.
    await page.locator('.pulls li button').nth(0).click();
    assert.equal(await page.locator('#pull-ph').inputValue(), ph(1));
    assert.equal(await page.locator('#pull-note').inputValue(), 'Look 1.');
    told('study, killed while an entry is recorded', { kills: rounds, acknowledged: rounds, lost: 0, cut });
    assert.deepEqual(page.wrong, []);
  } finally {
    await kill();
    fs.rmSync(profile, { recursive: true, force: true, maxRetries: 3 });
  }
});

test('study: what is typed into a pull is there after a reload at any moment', async () => {
  const context = await chrome.newContext({ viewport: { width: 390, height: 844 } });
  const page = await open(context, URL_);
  await begin(page);
  await page.goto(`${URL_}#/proof`);
  await page.locator('.pulls li button').nth(1).click();
  let text = '';
  const rounds = SOAK ? 60 : 8;
  for (let n = 1; n <= rounds; n += 1) {
    const more = `word${n} `;
    // The form takes the focus as it opens: keys before that are for nobody.
    await until(page, () => document.activeElement?.id === 'proof-pull');
    await page.locator('#pull-note').press('End');
    await page.locator('#pull-note').pressSequentially(more);
    assert.equal(await page.locator('#pull-note').inputValue(), text + more);
    text += more;
    // A field has an end.
    if (text.length > 120) { text = more; await page.locator('#pull-note').fill(text); }
    await page.waitForTimeout(Math.random() * 60);
    await page.reload();
    await page.locator(READY).waitFor();
    await page.locator('.pulls li button').nth(1).click();
    await until(page, (text) => document.querySelector('#pull-note')?.value === text, text);
  }
  told('study, reloads in mid-word', { reloads: rounds, lost: 0 });
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('study: two tabs record into one study at once, and no entry of either is lost', async () => {
  const context = await chrome.newContext({ viewport: { width: 820, height: 1180 } });
  const here = await open(context, URL_);
  await begin(here);
  const there = await open(context, `${URL_}#/proof`, READY);
  const both = [here, there];
  const rounds = SOAK ? 50 : 6;
  const text = (n, tab) => `Tab ${tab} noted ${n}.`;
  for (const page of both) await eventForm(page);
  for (let n = 1; n <= rounds; n += 1) {
    // At the same instant, as far as a driver can: the texts first, then both buttons.
    for (const [tab, page] of both.entries()) await page.locator('#event-text').fill(text(n, tab));
    await Promise.all(both.map((page) => page.getByRole('button', { name: RECORD_EVENT }).click()));
    for (const page of both) {
      await until(page, (texts) => texts.every((text) => document.querySelector('.noted')?.innerText.includes(text)), [text(n, 0), text(n, 1)]);
    }
  }
  // The same pull by both: the later one stands, and nothing is lost of the other in the journal.
  await typed(here, 0, { ph: '5.31', note: 'Here.' });
  await typed(there, 0, { ph: '5.33', note: 'There.' });
  await Promise.all(both.map(record));
  for (const page of both) {
    await page.locator('.pulls li button').nth(0).filter({ hasText: /recorded/ }).waitFor();
    await saved(page);
  }
  const kept = await everything(here);
  for (const note of ['Here.', 'There.']) assert.ok(kept.includes(note), note);
  for (const page of both) {
    await page.reload();
    await page.locator(READY).waitFor();
    const said = await page.locator('.noted').innerText();
    for (let n = 1; n <= rounds; n += 1) for (const tab of [0, 1]) assert.equal(times(said, text(n, tab)), 1, `${text(n, tab)}\n${said}`);
  }
  told('study, two tabs', { acknowledged: 2 * rounds + 2, lost: 0 });
  assert.deepEqual([...here.wrong, ...there.wrong], []);
  await context.close();
});

test('study: with no room to save what is recorded stays, is said not to be saved, is exported, and saved once there is room', async () => {
  const context = await chrome.newContext({ viewport: { width: 820, height: 1180 }, acceptDownloads: true });
  const page = await open(context, URL_);
  await begin(page);
  await noRoom(page);
  await look(page, 0, { ph: '5.21', note: 'No room for this.' });
  await happened(page, 'Nor for that.');
  await page.locator('.saved.trouble', { hasText: 'Not saved' }).waitFor();
  // What is typed next stays, too.
  await typed(page, 1, { ph: '5.23', note: 'Half typed' });
  await fromMenu(page, 'Export and share');
  const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: /Export all|everything/i }).first().click()]);
  const exported = fs.readFileSync(await file.path(), 'utf8');
  for (const text of ['No room for this.', 'Nor for that.']) assert.ok(exported.includes(text), text);
  await page.locator('.overlay > header').getByRole('button', { name: 'Close' }).click();
  assert.equal(await page.locator('#pull-note').inputValue(), 'Half typed');
  await roomAgain(page);
  await keep(page, () => record(page));
  await page.reload();
  await page.locator(READY).waitFor();
  const states = await pulls(page);
  assert.match(states[0], /recorded/);
  assert.match(states[1], /recorded/);
  assert.match(await page.locator('.noted').innerText(), /Nor for that\./);
  await page.locator('.pulls li button').nth(0).click();
  assert.equal(await page.locator('#pull-note').inputValue(), 'No room for this.');
  assert.deepEqual(page.wrong, []);
  await context.close();
});
