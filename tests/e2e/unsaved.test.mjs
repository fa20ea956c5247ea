// What is on screen and nowhere else yet, or in one store only: it is never dropped, and never called safe.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import fs from 'node:fs';
import { FORMULAS, browser, formulas, fromMenu, go, lineActs, newFormula, offer, open, openOverlay, pickFormula, saved, titles } from './page.mjs';
import { journal, keepTitle, lateJournal, title, until } from './fault.mjs';

const URL_ = process.env.HP_URL;
let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());
const fresh = (options = {}) => chrome.newContext({ viewport: { width: 1280, height: 800 }, acceptDownloads: true, ...options });

/** From now on no write is taken by the stores named, until `room` is called. */
const full = (page, stores = ['IDBObjectStore.put', 'Storage.setItem']) => page.evaluate((stores) => {
  window.room = stores.map((name) => {
    const [kind, method] = name.split('.');
    const real = window[kind].prototype[method];
    window[kind].prototype[method] = () => { throw new DOMException('no room', 'QuotaExceededError'); };
    return () => { window[kind].prototype[method] = real; };
  });
}, stores);
const room = (page) => page.evaluate(() => window.room.forEach((back) => back()));
const download = async (page, button) => {
  const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: button }).first().click()]);
  return JSON.parse(fs.readFileSync(await file.path(), 'utf8'));
};

test('a new formula that no store could take stays open when another one is asked for', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  await keepTitle(page, 'Pier lotion');
  await newFormula(page);
  await until(page, () => document.querySelector('#title').value === '');
  await saved(page);
  await full(page);
  await page.locator('#title').fill('An hour of work');
  await page.locator('.saved.trouble').waitFor();
  await pickFormula(page, 'Pier lotion');
  await page.locator('.toast', { hasText: 'stays open' }).waitFor();
  assert.equal(await title(page), 'An hour of work');
  await room(page);
  await pickFormula(page, 'Pier lotion');
  await until(page, () => document.querySelector('#title').value === 'Pier lotion');
  await pickFormula(page, 'An hour of work');
  await until(page, () => document.querySelector('#title').value === 'An hour of work');
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('with a journal that takes nothing the quick copy is enough to go on with', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  await keepTitle(page, 'Pier lotion');
  await fromMenu(page, 'Duplicate');
  await until(page, () => document.querySelector('#title').value === 'Pier lotion (copy)');
  await saved(page);
  await full(page, ['IDBObjectStore.put']);
  await page.locator('#title').fill('In the quick copy');
  await page.locator('.saved.trouble', { hasText: 'quick copy' }).waitFor();
  await pickFormula(page, 'Pier lotion');
  await until(page, () => document.querySelector('#title').value === 'Pier lotion');
  await room(page);
  await formulas(page).filter({ hasText: 'copy' }).click();
  await until(page, () => document.querySelector('#title').value === 'In the quick copy');
  await saved(page);
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('an export of everything holds what is on screen where nothing can be stored, and is no backup if it is not all', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  await keepTitle(page, 'Pier lotion');
  await full(page);
  await page.locator('#title').fill('On screen only');
  await page.locator('.saved.trouble').waitFor();
  await openOverlay(page, 'Export and share');
  const all = await download(page, 'Export everything');
  assert.deepEqual(all.formulas.map(({ formula }) => formula.title), ['On screen only']);
  await room(page);
  await saved(page);
  // A journal that cannot be read: what is there is given, and it is said that it is not all.
  await page.evaluate(() => localStorage.removeItem('hp.backups'));
  await page.evaluate(() => { IDBDatabase.prototype.transaction = () => { throw new DOMException('gone', 'UnknownError'); }; });
  await download(page, 'Export everything');
  await page.locator('.toast', { hasText: 'not everything' }).waitFor();
  assert.match((await page.evaluate(() => localStorage.getItem('hp.backups'))) ?? '- -', /- ?-?$/, 'it does not count as an export');
  await context.close();
});

test('an import that runs out of room keeps the rest on its card, and nothing comes twice', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  const phases = [{ name: 'Oil', kind: 'oil', lines: [{ ingredient: 'olive', percent: '100' }] }];
  const wanted = ['Ada', 'Bea', 'Cor', 'Dan'];
  const file = { format: 'hundred-parts', version: 1, formulas: wanted.map((title) => ({ formula: { title, phases } })) };
  await offer(page, file);
  await page.getByRole('button', { name: 'Add to your formulas' }).waitFor();
  // Room for the first one or two.
  await page.evaluate(() => {
    let left = 6;
    window.room = [[IDBObjectStore, 'put'], [Storage, 'setItem']].map(([kind, name]) => {
      const real = kind.prototype[name];
      kind.prototype[name] = function (...all) {
        left -= 1;
        if (left < 0) throw new DOMException('no room', 'QuotaExceededError');
        return real.apply(this, all);
      };
      return () => { kind.prototype[name] = real; };
    });
  });
  await page.getByRole('button', { name: 'Add to your formulas' }).click();
  await page.locator('.toast', { hasText: /[0-3] of 4 formulas were added/ }).waitFor();
  await page.locator('.arrival').waitFor();
  await room(page);
  await saved(page);
  await page.getByRole('button', { name: 'Add to your formulas' }).click();
  await until(page, (rows) => document.querySelectorAll(rows).length === 5, FORMULAS);
  await saved(page);
  assert.deepEqual((await titles(page)).sort(), [...wanted, 'Harbour hand lotion'].sort());
  await context.close();
});

test('a write that fails is tried again by one timer, whatever failed in it', async () => {
  const context = await fresh();
  await context.addInitScript(() => {
    window.waiting = new Set();
    const [set, clear] = [window.setTimeout, window.clearTimeout];
    window.setTimeout = (work, after, ...rest) => {
      const id = set(() => { window.waiting.delete(id); typeof work === 'function' && work(...rest); }, after);
      if (after === 5000) window.waiting.add(id);
      return id;
    };
    window.clearTimeout = (id) => { window.waiting.delete(id); clear(id); };
  });
  const page = await open(context, URL_);
  await saved(page);
  await full(page);
  await go(page, 'Shelf');
  for (let n = 0; n < 4; n += 1) {
    await page.locator('#own-name').fill(`Oil ${n}`);
    await page.getByRole('button', { name: 'Add', exact: true }).click();
    await page.locator('.saved.trouble').waitFor();
  }
  await go(page, 'Formula');
  for (let n = 0; n < 4; n += 1) {
    await page.locator('#title').fill(`Title ${n}`);
    await page.locator('.saved', { hasText: 'Saving' }).waitFor();
    await page.locator('.saved.trouble').waitFor();
  }
  assert.equal(await page.evaluate(() => window.waiting.size), 1);
  await room(page);
  await saved(page);
  assert.equal(await page.evaluate(() => window.waiting.size), 0);
  await context.close();
});

test('formulas of which only the quick copy is left come back into the list', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  for (const name of ['One', 'Two', 'Three']) {
    await keepTitle(page, name);
    if (name !== 'Three') {
      await newFormula(page);
      await until(page, () => document.querySelector('#title').value === '');
      await saved(page);
    }
  }
  await journal(page, `for (const name of ['heads', 'bodies', 'steps']) transaction.objectStore(name).clear();`);
  await page.reload();
  await saved(page);
  await until(page, (rows) => document.querySelectorAll(rows).length === 3, FORMULAS);
  assert.deepEqual((await titles(page)).sort(), ['One', 'Three', 'Two']);
  const heads = await journal(page, `transaction.objectStore('heads').count().onsuccess = (event) => give(event.target.result);`);
  assert.equal(heads, 3, 'and into the journal');
  await context.close();
});

test('what is typed before the journal was read keeps the steps that it holds', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  for (const name of ['One', 'Two']) {
    await keepTitle(page, name);
    await page.locator('#title').blur();
  }
  // The maker is quicker.
  await lateJournal(page, 1500);
  await page.reload();
  await page.locator('#title').fill('Typed at once');
  await page.locator('#title').blur();
  await saved(page);
  const undo = page.locator('.tools button', { hasText: 'Undo' });
  await undo.click();
  assert.equal(await title(page), 'Two');
  await undo.click();
  assert.equal(await title(page), 'One');
  await context.close();
});

test('two tabs that change different values of one ingredient keep both', async () => {
  const context = await fresh();
  const [one, other] = [await open(context, URL_), await open(context, URL_)];
  for (const tab of [one, other]) {
    await saved(tab);
    await go(tab, 'Shelf');
    await tab.locator('#search-shelf').fill('glycerin');
    await tab.locator('.shelf ul.list button').first().click();
  }
  const field = (tab, name) => tab.getByLabel(name).first();
  await field(one, 'Maximum, %').fill('10');
  await one.locator('.saved', { hasText: 'Saving' }).waitFor();
  await saved(one);
  await until(other, () => [...document.querySelectorAll('.shelf input')].some((input) => input.value === '10'));
  // The other tab does not hear of the next change.
  await one.evaluate(() => { BroadcastChannel.prototype.postMessage = () => {}; });
  await field(one, 'Maximum, %').fill('12');
  await one.locator('.saved', { hasText: 'Saving' }).waitFor();
  await saved(one);
  await field(other, 'Density,').fill('1.25');
  await other.locator('.toast', { hasText: 'merged' }).waitFor();
  await saved(other);
  assert.equal(await field(other, 'Maximum, %').inputValue(), '12', 'not the older value of this tab');
  assert.equal(await field(other, 'Density,').inputValue(), '1.25');
  await context.close();
});

test('undo in a search is the browser’s, and a link goes with the formula that it was made of', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  await keepTitle(page, 'Pier lotion');
  await page.locator('#find-formula').pressSequentially('abc');
  await page.keyboard.press('Control+z');
  assert.equal(await title(page), 'Pier lotion', 'no step of the formula');
  await openOverlay(page, 'Export and share');
  await page.getByRole('button', { name: 'Make a link' }).click();
  await page.locator('#link').waitFor();
  await page.keyboard.press('Control+z');
  assert.notEqual(await title(page), 'Pier lotion');
  await page.locator('#link').waitFor({ state: 'detached' });
  await context.close();
});

test('the focus stays where the maker is when a menu closes or a line goes', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  const focused = () => page.evaluate(() => document.activeElement.id || document.activeElement.tagName);
  const rows = page.locator('.line');
  // A line that moves takes the focus along.
  const names = await page.locator('.line [role=combobox]').evaluateAll((all) => all.map(({ id }) => id));
  const share = await rows.nth(1).locator('.share input').getAttribute('id');
  await (await lineActs(page, rows.nth(1))).getByRole('button', { name: 'Move down' }).press('Enter');
  await until(page, (share) => document.activeElement.id === share, share);
  assert.equal(await rows.nth(2).locator('.share input').getAttribute('id'), share);
  // The menu closes on Escape, and the focus goes back to what opened it.
  await page.locator('.tools .menu > summary').focus();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Duplicate' }).focus();
  await page.keyboard.press('Escape');
  assert.equal(await focused(), 'SUMMARY');
  assert.ok(await page.getByRole('button', { name: 'Duplicate' }).isHidden());
  const beside = names[3];
  await (await lineActs(page, rows.nth(2))).getByRole('button', { name: 'Remove', exact: true }).press('Enter');
  await page.locator('.toast', { hasText: 'removed' }).waitFor();
  await until(page, (beside) => document.activeElement.id === beside, beside);
  await context.close();
});
