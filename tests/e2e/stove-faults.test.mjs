// What goes wrong beside a stove, done on purpose: the browser is killed at every step and in the midst of writing, and two tabs
// make one batch. An entry counts as recorded once the page says that it is saved. `HP_SOAK=1` runs the long form of each.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { browser, go, open, overlay, plain } from './page.mjs';
import { SOAK, keep, mortal, told, until as holds } from './fault.mjs';
import { at, isAt, kept, main, title, until, where } from './stove.mjs';

const URL_ = process.env.HP_URL;
let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());

/** Runs something with a profile on the disk that outlives its browsers; they are killed at the end. */
async function withProfile(name, work) {
  const profile = fs.mkdtempSync(path.join(os.tmpdir(), `hp-${name}-`));
  const state = { running: null };
  /** A browser with a page of this address. */
  const start = async (address, ready) => {
    state.running = await mortal(profile);
    return open(state.running.context, `${URL_}${address}`, ready);
  };
  const kill = async () => { await state.running?.kill(); state.running = null; };
  try {
    await work({ start, kill });
  } finally {
    await kill();
    fs.rmSync(profile, { recursive: true, force: true, maxRetries: 3 });
  }
}

const press = (page, name) => page.getByRole('button', { name, exact: true }).click();
/** Begins a batch, and waits until that is kept. */
async function begin(page) {
  await go(page, 'Batch');
  await page.locator('#stove-go').click();
  await page.locator('#stove-code').waitFor();
  await keep(page, () => press(page, 'Begin the batch'));
  await at(page, 'Clean and disinfect');
}

/** Opens the record from the place of the batch, and gives what it says, in one line. */
async function record(page) {
  await page.locator('.batches').getByRole('button', { name: 'Record', exact: true }).click();
  await page.locator('.course li').first().waitFor();
  return plain(await overlay(page).innerText()).replaceAll(/\s+/g, ' ');
}
const times = (text, part) => text.split(part).length - 1;

/**
 * What is recorded at a task before it is done, each to be killed after: the heading of the task, and for each entry a field and
 * what is typed there.
 */
const ON_THE_WAY = [
  ['heat the', [['stove-water', '71.5'], ['stove-oil', '72.5']]],
  ['Let it cool', [['stove-batch', '66']]],
  ['Measure the pH', [['ph-step-reading', '6.2'], ['ph-step-amount', '50']]],
  ['Fill clean jars', [['stove-fill', '100.2'], ['stove-fill', '94.8'], ['stove-lost', '5.1']]],
];

test('stove: killed at every step, the browser comes back to it with all that was recorded', async () => withProfile('stove', async ({ start, kill }) => {
  let page = await start('');
  await begin(page);
  let [kills, weighed, next] = [0, 0, await where(page)];
  /** Does something until something holds that did not, and kills the browser as soon as it is kept; it is started again at the stove. */
  const recorded = async (act, done, argument) => {
    await keep(page, async () => {
      await act();
      await holds(page, done, argument);
    });
    next = await where(page);
    await kill();
    kills += 1;
    page = await start('#/stove', '#stove-task');
    await isAt(page, next, `after kill ${kills}`);
  };
  const steps = new Set();
  for (;;) {
    const heading = await title(page).innerText();
    if (heading.includes('released')) break;
    assert.ok(!steps.has(next.progress), `${next.progress} comes once`);
    steps.add(next.progress);
    const [, all = []] = ON_THE_WAY.find(([task]) => heading.includes(task)) ?? [];
    if (heading.includes('Measure the pH')) await recorded(() => press(page, 'Start the pH log'), () => document.querySelector('#ph-step'));
    for (const [id, text] of all) {
      await page.locator(`#${id}`).fill(text);
      // It is shown, or the field is empty again.
      const before_ = await page.locator('.stove-task').innerText();
      const shown = ([id, before]) => document.querySelector('.stove-task').innerText !== before || !document.getElementById(id).value;
      await recorded(() => page.locator(`#${id}`).press('Enter'), shown, [id, before_]);
    }
    if (await page.locator('#stove-lot').count()) {
      weighed += 1;
      await page.locator('#stove-weighed').fill(await page.locator('.figure strong').innerText());
      await page.locator('#stove-lot').fill(`K${weighed}`);
    }
    await recorded(() => main(page).click(), (before) => document.querySelector('#stove-task').innerText !== before, heading);
  }
  told('stove, killed at every step', { kills, steps: steps.size, lost: 0 });
  assert.equal(weighed, 14, 'every line');
  await page.getByRole('link', { name: 'To the plan and the records' }).click();
  const said = await record(page);
  for (let n = 1; n <= 14; n += 1) assert.equal(times(said, `lot K${n} `), 1, `lot K${n}\n${said}`);
  for (const part of ['Water phase: 71.5 °C', 'Oil phase: 72.5 °C', 'Batch: 66 °C', 'pH 6.2 of the batch', '50 g set aside', 'Filled 2 packs 94.8 g to 100.2 g', 'Lost: left in pot and tools 5.1 g', 'Released']) {
    assert.equal(times(said, part), part === 'Released' ? 2 : 1, `${part}\n${said}`);
  }
  // 14 lines, 13 other steps, and the decision.
  assert.equal(steps.size, 28);
  assert.deepEqual(page.wrong, []);
}));

test('stove: two tabs make one batch, and no entry of either is lost', async () => {
  const context = await chrome.newContext({ viewport: { width: 820, height: 1180 } });
  const here = await open(context, URL_);
  await begin(here);
  const there = await open(context, `${URL_}#/stove`, '#stove-task');
  const both = [here, there];
  const shows = (page, text) => holds(page, (text) => document.querySelector('.stove')?.innerText.includes(text), text);
  const seen = (text) => Promise.all(both.map((page) => shows(page, text)));
  await seen('Clean and disinfect');
  // What one records, the other shows.
  await main(here).click();
  await seen('Lay out');
  await main(there).click();
  await seen('49.44');
  await here.locator('#stove-weighed').fill('49.4');
  await here.locator('#stove-lot').fill('H1');
  await main(here).click();
  await seen('Xanthan gum');
  // The same line, by a tab that is too busy to hear of the other: it is weighed, and the step after it is not done.
  await Promise.all([main(here).click(), there.evaluate((busy) => {
    const end = performance.now() + busy;
    while (performance.now() < end);
    document.querySelector('.stove-go > .primary').click();
  }, 3000)]);
  await seen('Stir glycerin');
  // Each something else at once.
  await Promise.all([main(here).click(), remark(there, 'The phone rang')]);
  await seen('Purified water');
  // A tab behind another one draws a frame a second.
  await here.bringToFront();
  await until(here, 'Fill clean jars');
  await seen('Fill clean jars');
  const rounds = SOAK ? 50 : 6;
  const grams = (round, tab) => (96 + tab + round / 100).toFixed(2);
  for (let round = 1; round <= rounds; round += 1) {
    // At the same instant, as far as a driver can: the texts first, then both keys.
    for (const [tab, page] of both.entries()) await page.locator('#stove-fill').fill(grams(round, tab));
    await Promise.all(both.map((page) => page.locator('#stove-fill').press('Enter')));
    await seen(`${2 * round} of 12 filled`);
  }
  const all = Array.from({ length: rounds }, (_, n) => [grams(n + 1, 0), grams(n + 1, 1)]);
  const sum = all.flat().reduce((sum, fill) => sum + Number(fill), 0);
  for (const page of both) {
    await page.reload();
    await shows(page, `${2 * rounds} of 12 filled`);
    await page.locator('.stove-head .close').click();
    const said = await record(page);
    assert.equal(times(said, 'lot H1'), 1, said);
    assert.equal(times(said, 'The phone rang'), 1, said);
    assert.ok(said.includes(`${sum.toFixed(2).replace(/0$/, '')} g of`), `${sum}\n${said}`);
  }
  told('stove, two tabs', { acknowledged: 2 * rounds + 3, lost: 0 });
  assert.deepEqual([...here.wrong, ...there.wrong], []);
  await context.close();
});

/** Writes a remark, from the menu, as far as to the button that records it. */
async function remarkOf(page, text) {
  await page.locator('.stove-head summary').click();
  await press(page, 'Write a remark');
  await page.locator('#stove-remark').fill(text);
}
/** Records it. */
async function remark(page, text) {
  await remarkOf(page, text);
  await main(page).click();
  await page.locator('#stove-remark').waitFor({ state: 'detached' });
}

/** Entries of several kinds, each told from all others by its number. */
const KINDS = [
  [(page, n) => remark(page, `Remark ${n}.`), (n) => `Remark ${n}.`],
  [(page, n) => field(page, 'fill', mass(n)), (n) => `Filled: ${mass(n)} g`],
  [(page, n) => field(page, 'lost', mass(n)), (n) => `Lost: left in pot and tools ${mass(n)} g`],
  [(page, n) => field(page, 'retained', mass(n)), (n) => `Kept as a sample ${mass(n)} g`],
];
/** The last decimal is no nought, so that it is written as it was typed. */
const mass = (n) => `${n}.05`;
async function field(page, name, text) {
  await page.locator(`#stove-${name}`).fill(text);
  await page.locator(`#stove-${name}`).press('Enter');
}

test('stove: killed while the next entry is written, the browser has lost none that was saved', async () => withProfile('stove-many', async ({ start, kill }) => {
  const rounds = SOAK ? 100 : 5;
  let page = await start('');
  await begin(page);
  await until(page, 'Fill clean jars');
  await kept(page);
  let cut = 0;
  for (let round = 1; round <= rounds; round += 1) {
    const [note] = KINDS[round % KINDS.length];
    await keep(page, () => note(page, round));
    // Not waited for: it is there whole, or not at all.
    await remarkOf(page, `Cut ${round}.`);
    const pressed = main(page).click().catch(() => {});
    await new Promise((done) => setTimeout(done, round * 37 % 150));
    await kill();
    await pressed;
    page = await start('#/batch', '.batches');
    const said = await record(page);
    for (let n = 1; n <= round; n += 1) {
      assert.equal(times(said, KINDS[n % KINDS.length][1](n)), 1, `entry ${n} after kill ${round}\n${said}`);
      assert.ok(times(said, `Cut ${n}.`) <= 1, `once at most: ${n}\n${said}`);
    }
    cut += 1 - times(said, `Cut ${round}.`);
    await overlay(page).locator('> header').getByRole('button', { name: 'Close' }).click();
    await page.locator('#stove-go', { hasText: 'Continue at the stove' }).click();
    await at(page, 'Fill clean jars');
    if (SOAK && round % 20 === 0) told('stove, killed so far', { kills: round, acknowledged: round, lost: 0, cut });
  }
  told('stove, killed while the next entry is written', { kills: rounds, acknowledged: rounds, lost: 0, cut });
  assert.deepEqual(page.wrong, []);
}));

// A page may lose what it has put into local storage in its last seconds; the code of a batch is in its record too.
test('stove: no batch code is given twice, also where the browser is killed as the batch has begun', async () => withProfile('stove-code', async ({ start, kill }) => {
  let page = await start('');
  await begin(page);
  await kill();
  page = await start('#/stove', '.stove-head');
  await at(page, 'Clean and disinfect');
  await page.locator('.stove-head summary').click();
  await press(page, 'Give the batch up');
  await page.locator('#stove-give-up').fill('Power cut');
  await main(page).click();
  await at(page, 'given up');
  const [code] = (await title(page).innerText()).split(':');
  await press(page, 'Another batch');
  const next = await page.locator('#stove-code').inputValue();
  assert.notEqual(next, code, 'another code is offered');
  await page.locator('#stove-code').fill(code);
  await page.locator('#stove-code-note', { hasText: 'Another batch on this device has this code' }).waitFor();
}));
