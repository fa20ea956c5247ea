// What the ledger promises: the lines of a formula in sight at once, what is done most often within a touch or two, and a
// page that stands still.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import fs from 'node:fs';
import path from 'node:path';
import { browser, closeOverlay, everyOverlay, formulas, go, lineActs, newFormula, open, saved } from './page.mjs';
import { keepTitle, until } from './fault.mjs';

const URL_ = process.env.HP_URL;
/** A phone and a tablet in the hand, and a computer. */
const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
const TABLET = { viewport: { width: 820, height: 1180 }, hasTouch: true, isMobile: true };
const DESK = { viewport: { width: 1280, height: 800 } };
const SIZES = { phone: PHONE, tablet: TABLET, desk: DESK };
let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());

/** How many of some elements stand in sight with their whole height, between the header and the bar. Runs in the page. */
const wholly = (selector) => {
  const [top, bar] = [document.querySelector('.top'), document.querySelector('.bar')].map((one) => one.getBoundingClientRect());
  return [...document.querySelectorAll(selector)].filter((one) => {
    const box = one.getBoundingClientRect();
    return box.height > 0 && box.top >= top.bottom - 0.5 && box.bottom <= bar.top + 0.5 && box.left >= 0 && box.right <= innerWidth;
  }).length;
};

for (const [size, wanted] of Object.entries({ phone: 10, tablet: 14, desk: 12 })) {
  test(`the first visit on a ${size} shows at least ${wanted} of the 14 lines of the worked example`, async () => {
    const context = await chrome.newContext(SIZES[size]);
    const page = await open(context, URL_);
    await saved(page);
    await page.locator('.benches').waitFor();
    const count = (selector) => page.evaluate(wholly, selector);
    assert.equal(await page.locator('.line').count(), 14);
    assert.equal(await page.evaluate(() => scrollY), 0, 'nothing was scrolled');
    const lines = await count('.line');
    assert.ok(lines >= wanted, `${lines} lines in sight`);
    if (size === 'tablet') {
      await page.locator('.bench').nth(3).waitFor();
      const seen = {};
      for (const selector of ['.phase-head', '.square', '.benches > .bench']) seen[selector] = await count(selector);
      assert.deepEqual(seen, { '.phase-head': 3, '.square': 1, '.benches > .bench': 4 });
    }
    assert.deepEqual(page.wrong, []);
    await context.close();
  });
}

test('a tablet that is turned is laid out as one that was opened that way', async () => {
  const context = await chrome.newContext(TABLET);
  const page = await open(context, URL_);
  await saved(page);
  await page.locator('#findings').waitFor();
  const laid = () => page.evaluate(() => ['aside.formulas', '.lines', '.beside'].map((part) => {
    const box = document.querySelector(part)?.getBoundingClientRect();
    return box ? `${part} at ${Math.round(box.x)}, ${Math.round(box.width)} wide` : `no ${part}`;
  }));
  const [upright, across] = [TABLET.viewport, { width: 1180, height: 820 }];
  const turned = async (size) => {
    await page.setViewportSize(size);
    await page.waitForTimeout(300);
    return laid();
  };
  const first = await laid();
  const wide = await turned(across);
  await page.reload();
  await page.locator('#findings').waitFor();
  assert.deepEqual(wide, await laid(), 'from upright to across');
  assert.deepEqual(await turned(upright), first, 'and back');
  assert.deepEqual(page.wrong, []);
  await context.close();
});

/** A page that counts the touches which a maker needs. */
async function touched() {
  const context = await chrome.newContext(PHONE);
  const page = await open(context, URL_);
  await saved(page);
  await page.evaluate(() => {
    window.touches = 0;
    addEventListener('pointerdown', () => { window.touches += 1; }, true);
  });
  return page;
}
const touches = (page) => page.evaluate(() => { const count = window.touches; window.touches = 0; return count; });

test('a touch changes a percent, a touch on what it makes leads to the number of jars, a touch ticks what was weighed', async () => {
  const page = await touched();
  await page.locator('.share input').nth(1).tap();
  await page.keyboard.type('5');
  assert.equal(await page.locator('.share input').nth(1).inputValue(), '5', 'in the place of the old one');
  assert.equal(await touches(page), 1, 'a percent');

  await page.locator('.makes').tap();
  await until(page, () => document.activeElement.id === 'plan-jars');
  // Who comes by the keyboard of a phone types over what stands there.
  const selected = await page.locator('#plan-jars').evaluate((field) => field.selectionEnd - field.selectionStart === field.value.length);
  assert.ok(selected, 'the number is selected');
  await page.keyboard.type('7');
  assert.equal(await page.locator('#plan-jars').inputValue(), '7');
  await page.locator('.batch-mass strong', { hasText: '721.00' }).waitFor();
  assert.equal(await touches(page), 1, 'the number of jars');

  await page.locator('.weigh-table tbody label').first().tap();
  await page.locator('.bar .total', { hasText: '1 of 14' }).waitFor();
  assert.equal(await touches(page), 1, 'a tick');
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});

test('two touches open another formula', async () => {
  const page = await touched();
  await keepTitle(page, 'Pier lotion');
  await newFormula(page);
  await until(page, () => document.querySelector('#title').value === '');
  await keepTitle(page, 'Quay lotion');
  await touches(page);
  await page.locator('#formulas-open').tap();
  await formulas(page).filter({ hasText: 'Pier lotion' }).tap();
  await until(page, () => document.querySelector('#title').value === 'Pier lotion');
  assert.equal(await touches(page), 2);
  assert.equal(await page.locator('.overlay').count(), 0, 'the list has gone');
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});

test('a tick stays through another place and a reload, and goes as the batch becomes another', async () => {
  const context = await chrome.newContext(TABLET);
  const page = await open(context, URL_);
  await saved(page);
  await go(page, 'Batch');
  const boxes = page.locator('.weigh-table tbody input[type=checkbox]');
  const ticked = () => boxes.evaluateAll((all) => all.flatMap((box, n) => box.checked ? [n] : []));
  const told = (count) => page.locator('.bar .total', { hasText: `${count} of 14` }).waitFor();
  await told(0);
  for (const n of [0, 3, 13]) await boxes.nth(n).check();
  await told(3);
  await go(page, 'Formula');
  await go(page, 'Batch');
  await told(3);
  await page.reload();
  await boxes.first().waitFor();
  await told(3);
  assert.deepEqual(await ticked(), [0, 3, 13]);
  // What does not change a mass takes no tick away.
  await page.locator('#title').fill('Pier lotion');
  await saved(page);
  assert.deepEqual(await ticked(), [0, 3, 13]);
  await boxes.nth(3).uncheck();
  await told(2);
  await page.locator('#plan-jars').fill('13');
  await told(0);
  assert.deepEqual(await ticked(), []);
  await boxes.nth(1).check();
  await told(1);
  // Another formula has ticks of its own.
  await go(page, 'Formula');
  await page.locator('.tools .menu > summary').click();
  await page.getByRole('button', { name: 'Duplicate' }).click();
  await until(page, () => document.querySelector('#title').value === 'Pier lotion (copy)');
  await go(page, 'Batch');
  await told(0);
  assert.deepEqual(page.wrong, []);
  await context.close();
});

/** The most by which what stands in sight may move by itself; W3C Layout Instability, of which 0.1 is still called good. */
const STILL = 0.005;
/** A phone on its side. */
const ACROSS = { viewport: { width: 844, height: 390 }, hasTouch: true, isMobile: true };
for (const [size, options] of Object.entries({ ...SIZES, 'phone on its side': ACROSS })) test(`nothing moves by itself on a first visit on a ${size}`, async () => {
  const context = await chrome.newContext(options);
  const page = await context.newPage();
  await page.goto(URL_);
  await page.locator('.places [aria-current]').waitFor();
  await saved(page);
  // Findings and law come after the lines, the face and the offline copy after all else.
  await page.locator('#annexes-card').waitFor({ timeout: 5000 }).catch(() => {});
  await page.waitForTimeout(3000);
  const shifts = await page.evaluate(() => new Promise((done) => {
    new PerformanceObserver((list) => done(list.getEntries().map((entry) => ({
      value: entry.value, at: Math.round(entry.startTime), typed: entry.hadRecentInput,
      moved: entry.sources.map(({ node, previousRect, currentRect }) => `${(node?.parentElement ?? node)?.outerHTML?.slice(0, 60)} from ${Math.round(previousRect.y)} to ${Math.round(currentRect.y)}`),
    })))).observe({ type: 'layout-shift', buffered: true });
    // Nothing has moved at all.
    setTimeout(() => done([]), 1000);
  }));
  const sum = shifts.filter(({ typed }) => !typed).reduce((all, { value }) => all + value, 0);
  assert.ok(sum <= STILL, `${sum.toFixed(4)}: ${JSON.stringify(shifts, null, 1)}`);
  await context.close();
});

test('what opens over the page gives the focus back: to a bench, and to the menu that led there', async () => {
  const context = await chrome.newContext({ viewport: { width: 820, height: 1180 } });
  const page = await open(context, URL_);
  await saved(page);
  const ways = [
    ['#ph-card', async () => page.keyboard.press('Enter')],
    ['.tools .menu > summary', async () => { await page.keyboard.press('Enter'); await page.locator('.tools .menu button').first().waitFor(); await page.keyboard.press('Tab'); await page.keyboard.press('Enter'); }],
  ];
  for (const [opener, go] of ways) {
    await page.locator(opener).focus();
    await go();
    await page.waitForFunction(() => document.activeElement.id === 'overlay-title');
    await page.keyboard.press('Escape');
    await page.waitForFunction((opener) => document.activeElement === document.querySelector(opener), opener);
  }
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('a new formula of 16 lines is on its printed sheet after 9 touches and two entries a line at the most', async (t) => {
  const page = await touched();
  await page.evaluate(() => { window.print = () => { window.printed = document.querySelectorAll('.weigh-table tbody tr').length; }; });
  let typed = 0;
  // A name with its pick, or a value: each with the key that goes on.
  const enter = async (text) => { await page.keyboard.type(text); await page.keyboard.press('Enter'); typed += 1; };
  const phases = [
    [['purified', 'qs'], ['glycerin (', '4'], ['panthenol', '1'], ['xanthan', '0.3'], ['sodium phytate', '0.2'], ['aloe', '5']],
    [['plum', '8'], ['sunflower oil (high', '4'], ['shea', '3'], ['cetearyl oliv', '5'], ['cetyl alc', '1.5'], ['jojoba', '2']],
    [['colloidal', '2'], ['benzyl alcohol +', '0.9'], ['mixed toc', '0.3'], ['lactic', '0.15']],
  ];
  await page.locator('#formulas-open').tap();
  await page.getByRole('button', { name: 'New formula' }).tap();
  await page.locator('.overlay .start').first().getByRole('button').tap();
  await until(page, () => document.activeElement?.id === 'title' && document.activeElement.value === '');
  await enter('Sixteen lines');
  await page.getByRole('button', { name: /Start with water/ }).tap();
  for (const lines of phases) {
    await until(page, () => document.activeElement?.id.startsWith('name-') && document.activeElement.value === '');
    for (const [name, share] of lines) {
      await enter(name);
      await enter(share);
    }
    // In the blank line that has come: on to the next phase.
    await page.keyboard.press('Enter');
  }
  await until(page, () => document.activeElement?.id === 'weigh-go');
  await page.locator('.total strong', { hasText: /^100/ }).waitFor();
  assert.equal(await page.locator('.line').count(), 16, 'no blank line is left');
  assert.deepEqual(await page.locator('.line').evaluateAll((rows) => rows.filter((row) => !row.querySelector('[lang=la]').textContent && !row.querySelector('[role=combobox]').value).length), 0);
  await page.locator('.makes').tap();
  await until(page, () => document.activeElement?.id === 'plan-jars');
  await enter('12');
  await enter('100');
  await page.getByRole('button', { name: 'Print', exact: true }).tap();
  await until(page, () => window.printed === 16);
  const made = await touches(page);
  t.diagnostic(`${made} touches and ${typed} entries for 16 lines: ${made + typed} in all, where 9 + 2 a line are ${9 + 32}`);
  assert.ok(made + typed <= 9 + 2 * 16, `${made} touches, ${typed} entries`);
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});

/** A folder for pictures of every place; none are taken without one. */
const PICTURES = process.env.HP_PICTURES;
for (const [size, options] of Object.entries(SIZES)) for (const colorScheme of ['light', 'dark']) test(`pictures of every place on a ${size}, ${colorScheme}`, { skip: !PICTURES }, async () => {
  const context = await chrome.newContext({ ...options, colorScheme, reducedMotion: 'reduce' });
  const page = await open(context, URL_);
  await saved(page);
  // What is said at the start goes by itself.
  await page.locator('.toast').waitFor({ timeout: 5000 }).catch(() => {});
  await page.locator('.toast').waitFor({ state: 'detached' });
  fs.mkdirSync(PICTURES, { recursive: true });
  const picture = async (name) => {
    await page.waitForTimeout(300);
    await page.screenshot({ path: path.join(PICTURES, `${name}-${size}-${colorScheme}.png`) });
  };
  for (const place of ['Formula', 'Shelf', 'Batch', 'Papers']) {
    await go(page, place);
    await picture(place.toLowerCase());
    if (place === 'Shelf') {
      await page.locator('#search-shelf').fill('lavender');
      await page.locator('.shelf-list .list button').first().click();
      await page.locator('.entry').waitFor();
      await picture('shelf-entry');
    }
    if (place === 'Batch') {
      await page.locator('.weigh-table tbody label').first().click();
      await picture('batch-weighed');
    }
  }
  await go(page, 'Formula');
  await everyOverlay(page, (name) => picture(`over-${name.toLowerCase().replaceAll(' ', '-')}`));
  const line = page.locator('.line', { has: page.getByLabel('Percent Plum kernel oil') });
  await (await lineActs(page, line)).getByRole('button', { name: 'Swap this oil' }).waitFor();
  await picture('line-in-hand');
  await line.getByRole('button', { name: 'Swap this oil' }).click();
  await page.getByRole('button', { name: 'Find the closest match' }).click();
  await page.locator('.swap .offer').first().waitFor();
  await picture('over-swap');
  await closeOverlay(page);
  assert.deepEqual(page.wrong, []);
  await context.close();
});
