// A field that has the focus and a text typed this moment is taken off the page, by every way that there is for it: the
// program goes on, and the text is kept. `HP_SOAK=1` tries every way for every field; the short form every field and every
// way, but not each with each.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import { FORMULAS, bringAll, browser, go, open, saved } from './page.mjs';
import { SOAK, everything, told, until } from './fault.mjs';
import { PARTS, arrive, file, fresh, kinds } from './kinds.mjs';
import { openFormula, waysFor } from './leaving.mjs';

const URL_ = process.env.HP_URL;
const VIEW = { viewport: { width: 1280, height: 900 } };
/** Each walk has a formula of its own; the last one is never written in. */
const TITLES = Array.from({ length: 40 }, (_, n) => `Base ${n + 10}`);
const SPARE = TITLES.pop();
let chrome;
let state;
before(async () => {
  chrome = await browser();
  const context = await chrome.newContext(VIEW);
  const page = await open(context, URL_);
  await saved(page);
  await bringAll(page, file([...TITLES, SPARE]));
  await until(page, ([rows, count]) => document.querySelectorAll(rows).length > count, [FORMULAS, TITLES.length]);
  await saved(page);
  state = await context.storageState({ indexedDB: true });
  await context.close();
});
after(() => chrome.close());

/** How many ways are tried for a field in the short form: all for the one that is taken away most often. */
const MANY = [[/^share-#$/, Infinity], [/^name-#/, 10], [/^value-(?!max_percent|notes)|^paper-|^lot-#-(?!lot|allergen)/, 1], [/./, 4]];
const many = (kind) => SOAK ? Infinity : MANY.find(([of]) => of.test(kind))[1];

/** One way once more, `HP_WAY='another formula'`, for every field that it is for. */
const WAY = process.env.HP_WAY;

/** The ways for the next field of a part: in the short form by turns. */
function chosen(part, field, turn) {
  const all = waysFor(part, field);
  if (WAY) return all.filter(({ name }) => name === WAY);
  const count = Math.min(all.length, many(field.kind));
  const ways = Array.from({ length: count }, (_, n) => all[(turn.at + n) % all.length]);
  turn.at += count;
  return ways;
}

let number = 1000;
/** One field and one way. Gives what was typed where that has to be found again. */
async function once(walk, kind, way) {
  const { page, part } = walk;
  if (part.place !== 'Shelf') await openFormula(page, walk.title);
  if (way.far || part.far) await arrive(page, part, walk.title);
  else {
    await go(page, part.place);
    await part.show(page, walk.title);
  }
  await way.ready?.(walk);
  const field = (await kinds(page, part)).find((field) => field.kind === kind);
  if (!field) throw new Error('the field is not there');
  const text = fresh(kind, number += 1);
  const target = page.locator(`[id="${field.id}"]`);
  // What can be done with a line is seen while that is in hand.
  if (!await target.isVisible()) await part.show(page, walk.title);
  await target.focus();
  await target.fill(text);
  if (way.still) await saved(page);
  await way.act(walk);
  return field.local || way.takes?.test(kind) ? null : text;
}

async function stopped(page) {
  const card = await page.locator('#crash').isVisible();
  const said = card ? [`stopped: ${(await page.locator('#crash-detail').textContent()).split('\n')[0]}`] : [];
  return [...said, ...page.wrong.splice(0).filter((text) => !card || !/Error|error|panicked|unreachable/.test(text))];
}

/** A browser that has seen nothing of this yet, with all formulas as they were. */
async function begun(part) {
  const context = await chrome.newContext({ ...VIEW, storageState: state });
  const walk = { part, url: URL_, page: await open(context, URL_), other: null, spare: SPARE, titles: [...TITLES] };
  // Where the program has stopped nothing is to be waited for.
  // A campaign runs beside other work.
  walk.page.setDefaultTimeout(SOAK ? 30_000 : 5000);
  await saved(walk.page);
  return walk;
}

/** Ends it: what was typed and is not stored after a new start. */
async function lost(walk, kept) {
  const { page } = walk;
  await walk.other?.close();
  await saved(page);
  await page.reload();
  await saved(page);
  const stored = await everything(page);
  await page.context().close();
  return [...kept].filter(([text]) => !stored.includes(text)).map(([, what]) => `${what}: what was typed is lost`);
}

for (const part of PARTS) test(`${part.place}, ${part.name}: a field that goes while it is written in stops nothing and loses nothing`, async () => {
  let walk = await begun(part);
  await openFormula(walk.page, SPARE);
  await arrive(walk.page, part, SPARE);
  const all = await kinds(walk.page, part);
  assert.ok(all.length > 0, 'there are fields');
  const faults = [];
  const kept = new Map();
  let tried = 0;
  const turn = { at: 0 };
  for (const field of all) for (const way of chosen(part, field, turn)) {
    const what = `${field.kind}, ${way.name}`;
    if (!walk.titles.length) {
      faults.push(...await lost(walk, kept));
      kept.clear();
      walk = await begun(part);
    }
    walk.title = walk.titles.shift();
    tried += 1;
    let text = null;
    try {
      text = await once(walk, field.kind, way);
      // What follows from it may come a moment later.
      await walk.page.waitForTimeout(30);
    } catch (error) {
      faults.push(`${what}: ${error.message.split('\n')[0]}`);
    }
    const found = await stopped(walk.page);
    if (text) kept.set(text, what);
    if (found.length) {
      faults.push(...found.map((fault) => `${what}: ${fault}`));
      await walk.page.reload();
      await saved(walk.page);
    }
  }
  faults.push(...await lost(walk, kept));
  told(`${part.place}, ${part.name}`, { fields: all.length, tried, faults: faults.length });
  assert.deepEqual(faults, []);
});
