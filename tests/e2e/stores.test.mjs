// What browsers do to what is stored: they block it, clear it, damage it, never answer, lose the last seconds. And what a
// maker does at the same time: types on, imports, opens another formula.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { changed, journal, keepTitle, title, until } from './fault.mjs';
import { browser, fromMenu, go, lines, newFormula, offer, open, openOverlay, pickFormula, saved } from './page.mjs';

const URL_ = process.env.HP_URL;
let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());
const fresh = (options = {}) => chrome.newContext({ viewport: { width: 1280, height: 800 }, acceptDownloads: true, ...options });
const crashed = (page) => page.locator('#crash').isVisible();

/** Types a value of an ingredient on the shelf and waits until it is saved. */
async function shelve(page, search, field, text) {
  await go(page, 'Shelf');
  await page.locator('#search-shelf').fill(search);
  await page.locator('.shelf .list button').first().click();
  await page.locator(`#value-${field}`).fill(text);
  await page.locator('.saved', { hasText: 'Saving' }).waitFor();
  await saved(page);
}

const BLOCKED = {
  'all stores throw': () => {
    for (const name of ['localStorage', 'sessionStorage', 'indexedDB']) Object.defineProperty(window, name, { get() { throw new DOMException('blocked', 'SecurityError'); } });
  },
  'all stores are null': () => {
    for (const name of ['localStorage', 'sessionStorage', 'indexedDB']) Object.defineProperty(window, name, { value: null });
  },
};
for (const [what, block] of Object.entries(BLOCKED)) {
  test(`where ${what} the page says so, works in memory and exports`, async () => {
    const context = await fresh();
    await context.addInitScript(block);
    const page = await open(context, URL_);
    await page.getByRole('heading', { name: 'This browser keeps nothing for this page' }).waitFor();
    await page.locator('#title').fill('In memory only');
    await page.locator('.saved.trouble').waitFor();
    const [file] = await Promise.all([page.waitForEvent('download'), page.locator('.arrival').getByRole('button', { name: 'Export everything' }).first().click()]);
    assert.ok(await file.path());
    await go(page, 'Batch');
    await page.locator('.weigh-table').first().waitFor();
    assert.equal(await crashed(page), false);
    assert.deepEqual(page.wrong, []);
    await context.close();
  });
}

const ONE_GONE = {
  'local storage throws': () => Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('blocked', 'SecurityError'); } }),
  'session storage is null': () => Object.defineProperty(window, 'sessionStorage', { value: null }),
};
for (const [what, block] of Object.entries(ONE_GONE)) {
  test(`where ${what} the journal is enough`, async () => {
    const context = await fresh();
    await context.addInitScript(block);
    const page = await open(context, URL_);
    await saved(page);
    await keepTitle(page, 'Pier lotion');
    await page.reload();
    await until(page, () => document.querySelector('#title')?.value === 'Pier lotion');
    assert.deepEqual(page.wrong, []);
    await context.close();
  });
}

test('a database that never answers is said after a few seconds, and everything else works', async () => {
  const context = await fresh();
  await context.addInitScript(() => { IDBFactory.prototype.open = () => ({}); });
  const page = await open(context, URL_);
  await page.locator('#title').fill('Nobody answers');
  await page.locator('.saved.trouble', { hasText: 'quick copy' }).waitFor({ timeout: 9000 });
  assert.match(await page.evaluate(() => JSON.stringify({ ...localStorage })), /Nobody answers/);
  await newFormula(page);
  await until(page, () => document.querySelector('#title').value === '');
  const [file] = await Promise.all([page.waitForEvent('download'), (async () => {
    await (await openOverlay(page, 'Export and share')).getByRole('button', { name: 'Export everything' }).click();
  })()]);
  assert.ok(await file.path());
  await page.reload();
  await page.locator('.saved.trouble').waitFor({ timeout: 15000 });
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('a database that is deleted under the open page takes what is open again, and no other tab is blamed', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  await keepTitle(page, 'Pier lotion');
  await fromMenu(page, 'Duplicate');
  await until(page, () => document.querySelector('#title').value === 'Pier lotion (copy)');
  await saved(page);
  await page.evaluate(() => new Promise((done) => { indexedDB.deleteDatabase('hundred-parts').onsuccess = done; }));
  await keepTitle(page, 'Quay lotion');
  await page.locator('.toast', { hasText: 'cleared' }).waitFor();
  await until(page, () => [...document.querySelectorAll('#find-formula ~ ul.list button')].map((row) => row.firstChild.textContent).sort().join() === 'Pier lotion,Quay lotion');
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('the formula that was opened last opens again, though local storage lost the last seconds', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  await keepTitle(page, 'First');
  await fromMenu(page, 'Duplicate');
  await until(page, () => document.querySelector('#title').value === 'First (copy)');
  await saved(page);
  const before = await page.evaluate(() => localStorage.getItem('hp.open'));
  await pickFormula(page, 'First');
  await until(page, () => document.querySelector('#title').value === 'First');
  await page.waitForTimeout(300);
  await page.evaluate((id) => { localStorage.setItem('hp.open', id); sessionStorage.clear(); }, before);
  await page.reload();
  await until(page, () => document.querySelector('#title')?.value === 'First');
  // An id that nobody knows is no formula that was moved away.
  await page.evaluate(() => { localStorage.setItem('hp.open', '0123456789abcdef'); sessionStorage.setItem('hp.open', '0123456789abcdef'); });
  await page.reload();
  await saved(page);
  await until(page, () => document.querySelector('#title')?.value.startsWith('First'));
  assert.equal(await page.locator('.toast').count(), 0);
  await context.close();
});

test('keys that are typed while an import runs go into the open formula alone; it opens nothing and can be stopped', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  await keepTitle(page, 'Mine');
  const phases = [{ name: 'Oil', kind: 'oil', lines: [{ ingredient: 'olive', percent: '100' }] }];
  const file = (count, name) => ({ format: 'hundred-parts', version: 1, formulas: Array.from({ length: count }, (_, n) => ({ formula: { title: `${name} ${n}`, phases } })) });
  const bring = async (document) => {
    await offer(page, document);
    await page.getByRole('button', { name: 'Add to your formulas' }).click();
  };
  await bring(file(300, 'Lotion'));
  await page.locator('#title').fill('');
  for (const letter of 'Typed on meanwhile') await page.locator('#title').press(letter === ' ' ? 'Space' : letter);
  await page.locator('.toast', { hasText: '300 formulas were added' }).waitFor();
  await saved(page);
  assert.equal(await title(page), 'Typed on meanwhile');
  const titles = async () => (await journal(page, `transaction.objectStore('heads').getAll().onsuccess = (event) => give(event.target.result);`)).map((head) => JSON.parse(head).title);
  const there = await titles();
  assert.deepEqual([there.length, there.filter((name) => /^Lotion \d+$/.test(name)).length, there.includes('Typed on meanwhile')], [301, 300, true]);
  await bring(file(2000, 'Cream'));
  await page.getByRole('heading', { name: 'Adding formulas' }).waitFor();
  await page.getByRole('button', { name: 'Stop', exact: true }).click();
  await page.locator('.toast', { hasText: /of 2000 formulas were added/ }).waitFor();
  await page.getByRole('heading', { name: 'Review before importing' }).waitFor();
  const count = (await titles()).length;
  assert.ok(count < 2301 && (count - 301) % 50 === 0, `${count} after the stop`);
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('a shelf that cannot be read is never written over before the maker says so, and its bytes are kept', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  await shelve(page, 'glycerin', 'density_g_ml', '1.25');
  await page.goto(new URL('hundred-parts-1.schema.json', URL_).href);
  await journal(page, `
    transaction.objectStore('bodies').put('half a shel', 'shelf');
    transaction.objectStore('steps').delete(IDBKeyRange.bound(['shelf', 0], ['shelf', Number.MAX_VALUE]));`);
  await page.evaluate(() => localStorage.removeItem('hp.doc.shelf'));
  await page.goto(URL_);
  await page.getByText('The stored shelf can no longer be read').waitFor();
  await page.getByText('data is kept in this browser').waitFor();
  await go(page, 'Shelf');
  await page.locator('#own-name').fill('Quince seed oil');
  await page.getByRole('button', { name: 'Add', exact: true }).click();
  await page.waitForTimeout(800);
  const body = () => journal(page, `transaction.objectStore('bodies').get('shelf').onsuccess = (event) => give(event.target.result);`);
  assert.equal(await body(), 'half a shel');
  const notes = await journal(page, `transaction.objectStore('bodies').getAll().onsuccess = (event) => give(event.target.result.join());`);
  assert.ok(notes.includes('half a shel'), 'kept aside');
  await page.getByRole('button', { name: 'Replace it with what is in use' }).click();
  await saved(page);
  assert.match(await body(), /Quince seed oil/);
  await context.close();
});

test('two tabs on one value of the shelf: what gives way is said, and one step back', async () => {
  const context = await fresh();
  const [one, two] = [await open(context, URL_), await open(context, URL_)];
  for (const page of [one, two]) await saved(page);
  await shelve(one, 'glycerin', 'density_g_ml', '1.20');
  await two.bringToFront();
  await go(two, 'Shelf');
  await two.locator('#search-shelf').fill('glycerin');
  await two.locator('.shelf .list button').first().click();
  await until(two, () => document.querySelector('#value-density_g_ml').value === '1.20');
  // Deaf to each other, so that the second one does not know of the first one's change.
  const deaf = (page) => page.evaluate(() => { BroadcastChannel.prototype.postMessage = () => {}; });
  await deaf(one);
  await one.bringToFront();
  await one.locator('#value-density_g_ml').fill('1.21');
  await one.locator('.saved', { hasText: 'Saving' }).waitFor();
  await saved(one);
  await two.bringToFront();
  await two.locator('#value-density_g_ml').fill('1.22');
  const toast = two.locator('.toast', { hasText: 'The two were merged' });
  await toast.waitFor();
  assert.match(await toast.innerText(), /1\.22.*1\.21/);
  await saved(two);
  await until(one, () => document.querySelector('#value-density_g_ml').value === '1.22');
  assert.match(await one.locator('.toast').innerText(), /now .1\.22.*before .1\.21/);
  await two.locator('.tools button', { hasText: 'Undo' }).click();
  assert.equal(await two.locator('#value-density_g_ml').inputValue(), '1.21');
  await saved(two);
  await until(one, () => document.querySelector('#value-density_g_ml').value === '1.21');
  assert.equal(await one.locator('.tools button', { hasText: 'Undo' }).isEnabled(), true, 'its own undo is there too');
  await context.close();
});

test('a script that is missing is said by the page itself', async () => {
  const server = await changed(process.env.HP_DIST, (name, bytes) => (/\/boot-[0-9a-f]+\.js$/.test(name) ? null : bytes));
  const context = await fresh({ serviceWorkers: 'block' });
  const page = await context.newPage();
  await page.goto(server.url);
  await page.getByText('This is taking longer than it should').waitFor({ state: 'visible', timeout: 20_000 });
  await context.close();
  server.close();
});

test('a second part that is sent under another media type is used all the same', async () => {
  const context = await fresh({ serviceWorkers: 'block' });
  await context.route(/split_lazy-[0-9a-f]+\.wasm$/, async (route) => {
    const response = await route.fetch();
    await route.fulfill({ response, headers: { ...response.headers(), 'content-type': 'text/plain' } });
  });
  const page = await open(context, URL_);
  await page.locator('#findings').waitFor();
  assert.ok((await lines(page)).length > 5);
  await context.close();
});

test('whatever ends the program: what was typed last is brought into the store, and "Try again" opens with it', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  await keepTitle(page, 'Pier lotion');
  await page.locator('#title').fill('Typed as it ended');
  await page.evaluate(() => window.hpCrash('ended by the test'));
  await page.locator('#crash').getByText('What was typed last is kept').waitFor();
  await page.getByRole('button', { name: 'Try again' }).click();
  await until(page, () => document.querySelector('#title')?.value === 'Typed as it ended');
  await saved(page);
  // Where nothing has room for it, it is in the download.
  await page.evaluate(() => { Storage.prototype.setItem = () => { throw new DOMException('no room', 'QuotaExceededError'); }; });
  await page.locator('#title').fill('No room for this');
  await page.evaluate(() => window.hpCrash('ended again'));
  const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Download stored data' }).click()]);
  assert.match((await import('node:fs')).readFileSync(await file.path(), 'utf8'), /No room for this/);
  await context.close();
});
