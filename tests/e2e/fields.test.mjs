// What a maker may expect of every field: a word is read when it is whole, a touch on a number takes its place, and the
// key at the corner of the keyboard does what is written on it.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import { bringAll, browser, closeOverlay, go, lines, open, overlay, saved } from './page.mjs';
import { keep, until } from './fault.mjs';
import { PARTS, arrive, file, kinds } from './kinds.mjs';
import { openFormula } from './leaving.mjs';

const URL_ = process.env.HP_URL;
let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());
const fresh = (options = {}) => chrome.newContext({ viewport: { width: 1280, height: 900 }, ...options });

/** A page with the formula in which every kind of field stands. */
async function started(options) {
  const context = await fresh(options);
  const page = await open(context, URL_);
  await saved(page);
  await bringAll(page, file(['Base']));
  await openFormula(page, 'Base');
  return page;
}
const fills = (page) => page.locator('.share .fills').evaluateAll((marks) => marks.map((mark) => !mark.hidden));

const WORDS = { rest: true, qs: true, ad100: true, 'q.s.': true, rest1: false };
const LEAVING = {
  Enter: (page) => page.keyboard.press('Enter'),
  Tab: (page) => page.keyboard.press('Tab'),
  'a touch elsewhere': (page) => page.locator('.ledger > .heads').click(),
};
for (const [word, fillsUp] of Object.entries(WORDS)) test(`"${word}" in a percent is kept as it is typed, touches no other line, and is read on Enter or when the field is left`, async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  const [all, marked] = [await lines(page), await fills(page)];
  assert.deepEqual(marked.flatMap((mark, n) => mark ? [n] : []), [0], 'the water fills up');
  const share = page.locator('.share input').nth(1);
  const others = (rows) => rows.filter((_, n) => n > 1);
  for (const [how, leave] of Object.entries(LEAVING)) {
    await share.fill('');
    for (let n = 1; n <= word.length; n += 1) {
      await page.keyboard.type(word[n - 1]);
      assert.equal(await share.inputValue(), word.slice(0, n), `${how}: as typed`);
      assert.deepEqual(await fills(page), marked, `${how}: "${word.slice(0, n)}" moves no mark yet`);
      assert.deepEqual(others(await lines(page)), others(all), how);
    }
    // A maker who thinks about it for a while.
    await page.waitForTimeout(500);
    assert.equal(await share.inputValue(), word, how);
    assert.deepEqual(await fills(page), marked, how);
    await leave(page);
    const expected = fillsUp ? marked.map((_, n) => n === 1) : marked;
    await until(page, (expected) => JSON.stringify([...document.querySelectorAll('.share .fills')].map((mark) => !mark.hidden)) === expected, JSON.stringify(expected));
    assert.deepEqual(others(await lines(page)), others(all), how);
    if (fillsUp) {
      // The water keeps what it came to without the glycerin's word, and the glycerin takes what is missing to a hundred.
      assert.equal(await page.locator('.total strong').innerText(), '100\u202f%', how);
    } else {
      assert.equal(await share.inputValue(), word, `${how}: what could not be read stays`);
    }
    for (let n = 0; n < 20 && JSON.stringify(await lines(page)) !== JSON.stringify(all); n += 1) await page.locator('.tools button', { hasText: 'Undo' }).click();
    assert.deepEqual(await lines(page), all, `${how}: undo goes back to all of it`);
  }
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('a word for filling up that is still in the field is not lost with the place, nor by a reload', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  const share = page.locator('.share input').nth(1);
  const stands = async (how) => {
    await share.waitFor();
    assert.ok((await fills(page))[1] || await share.inputValue() === 'rest', `${how}: ${await share.inputValue()}`);
  };
  await go(page, 'Batch');
  await go(page, 'Formula');
  await share.fill('rest');
  await page.goBack();
  await page.locator('.plan').waitFor();
  await page.goForward();
  await stands('the browser\u2019s Back');
  await share.fill('4');
  await share.fill('rest');
  await page.reload();
  await saved(page);
  await stands('a reload');
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('a touch on a number takes its place: 24 typed over 12 is 24, whatever the number', async () => {
  const page = await started({ hasTouch: true, viewport: { width: 390, height: 844 } });
  const session = await page.context().newCDPSession(page);
  /** A finger, as the browser itself makes its events. */
  const touch = async (field) => {
    const box = await field.boundingBox();
    // Where the digits stand: at the right end in some fields, at the left in others.
    const left = await field.evaluate((input) => !/right|end/.test(getComputedStyle(input).textAlign));
    const point = { x: left ? box.x + 14 : box.x + box.width - 14, y: box.y + box.height / 2 };
    await session.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [point] });
    await session.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
  };
  const wrong = {};
  let tried = 0;
  for (const part of PARTS) {
    await arrive(page, part, 'Base');
    for (const { id, text, kind } of (await kinds(page, part)).filter(({ number }) => number)) {
      const field = page.locator(`[id="${id}"]`);
      if (text === '') await field.fill('12');
      await page.evaluate(() => document.activeElement.blur());
      // What can be done with a line goes when another one is in hand.
      if (!await field.isVisible()) await part.show(page, 'Base');
      await field.evaluate((input) => input.scrollIntoView({ block: 'center' }));
      await touch(field);
      await until(page, (id) => document.activeElement.id === id, id);
      // The focus may come before what follows from it.
      await page.waitForTimeout(60);
      await page.keyboard.type('24');
      tried += 1;
      if (await field.inputValue() !== '24') wrong[`${part.name}: ${kind}`] = await field.inputValue();
    }
  }
  assert.ok(tried >= 20, `${tried} fields were tried`);
  assert.deepEqual(wrong, {});
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});

test('Batch: 12, Enter, 100, Enter go into two fields', async () => {
  const page = await started();
  await go(page, 'Batch');
  await page.locator('#plan-jars').fill('10');
  await page.locator('#plan-jars').focus();
  await page.keyboard.press('Control+a');
  for (const text of ['14', '120', '2']) {
    await page.keyboard.type(text);
    await page.keyboard.press('Enter');
    await page.waitForTimeout(60);
  }
  const typed = Object.fromEntries(await Promise.all(['jars', 'fill', 'loss'].map(async (name) => [name, await page.locator(`#plan-${name}`).inputValue()])));
  assert.deepEqual(typed, { jars: '14', fill: '120', loss: '2' });
  await keep(page, () => page.locator('#plan-jars').fill('15'));
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});

test('Enter does in every field what its keyboard says: "next" goes to the next field, "done" to none', async () => {
  const page = await started();
  const wrong = {};
  const seen = { next: 0, done: 0 };
  for (const part of PARTS) {
    await arrive(page, part, 'Base');
    for (const { id, kind, area, type } of await kinds(page, part)) {
      // In a longer text Enter begins a line, and for a date the browser brings a calendar.
      if (area || type === 'date') continue;
      const field = page.locator(`[id="${id}"]`);
      if (!await field.isVisible()) await part.show(page, 'Base');
      await field.focus();
      // What the keyboard shows when it comes up: what comes next may depend on what stands there then.
      const hint = await field.evaluate((input) => { window.before = input; return input.getAttribute('enterkeyhint'); });
      if (!hint) wrong[`${part.name}: ${kind}`] = 'the keyboard says nothing';
      if (!['next', 'done'].includes(hint)) continue;
      await page.keyboard.press('Enter');
      await page.waitForTimeout(80);
      const went = await page.evaluate(() => {
        const now = document.activeElement;
        if (now === window.before) return 'stayed';
        if (!now.matches('input, textarea, select')) return `went to ${now.id || now.tagName}`;
        return window.before.compareDocumentPosition(now) & Node.DOCUMENT_POSITION_FOLLOWING || !window.before.isConnected ? 'next' : 'went back';
      });
      seen[hint] += 1;
      const right = hint === 'next' ? went === 'next' : !['next', 'went back'].includes(went);
      if (!right) wrong[`${part.name}: ${kind}`] = `says ${hint}, ${went}`;
      if (!await page.locator('#crash').isHidden()) assert.fail(`${part.name}: ${kind}: the program stopped`);
    }
  }
  assert.ok(seen.next >= 10, `${seen.next} fields say "next"`);
  assert.deepEqual(wrong, {});
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});

test('a press between the buttons of a menu ends nothing', async () => {
  const context = await fresh({ hasTouch: true });
  const page = await open(context, URL_);
  await saved(page);
  // Chromium once ended the page here: see `.menu` in style/ledger.css.
  let ended = false;
  page.on('crash', () => { ended = true; });
  const menu = page.locator('.menu');
  assert.equal(await menu.count(), 1, 'the menu of the header');
  for (let n = 0; n < 4 && !ended; n += 1) {
    await menu.locator('summary').click();
    await menu.locator('button').first().waitFor();
    // Its own edge, where no button is.
    const at = await menu.locator('> div').boundingBox();
    for (const press of [page.mouse.click.bind(page.mouse), page.touchscreen.tap.bind(page.touchscreen)]) {
      await press(at.x + 3, at.y + 3).catch((error) => { if (!ended) throw error; });
    }
    await page.waitForTimeout(50);
    assert.equal(ended, false, `press ${n}: the page has ended`);
    // A finger is taken for one on the next button, which opens something.
    if (await overlay(page).count()) await closeOverlay(page);
    await page.locator('.ledger > .heads').click();
    await until(page, () => !document.querySelector('.menu[open]'));
  }
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('characters that no text may hold go from the field as they come, and the rest stays', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  for (const field of [page.locator('#title'), page.locator('.share input').nth(1), page.locator('.line [role=combobox]').nth(1)]) {
    await field.fill('4');
    // At the end nothing of it is kept, so that nothing else would write the field anew.
    await page.keyboard.insertText('\u0007\u202e');
    assert.equal(await field.inputValue(), '4');
    await page.keyboard.insertText('\u20665\u2069');
    assert.equal(await field.inputValue(), '45');
  }
  assert.deepEqual(page.wrong, []);
  await context.close();
});
