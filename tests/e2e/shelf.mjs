// What the tests of a stored shelf share: the ways to an ingredient, and a field of it that is kept.
import { go, open, saved } from './page.mjs';
import { keep, until } from './fault.mjs';

/** A field of the ingredient that is open. */
export const field = (page, name) => page.locator(`#value-${name}`);
export const value = (page, name) => field(page, name).inputValue();

/** Opens an ingredient by the name that it has. */
export async function pick(page, name) {
  await go(page, 'Shelf');
  await page.locator('#search-shelf').fill(name);
  const row = page.locator('.shelf ul.list button', { hasText: name }).first();
  await row.waitFor({ timeout: 5000 }).catch(() => { throw new Error(`${name} is not on the shelf`); });
  await row.click();
  await until(page, (name) => document.querySelector('#entry-title')?.textContent === name, name);
}

/** A page with this ingredient open. */
export async function started(context, url, name) {
  const page = await open(context, url);
  await saved(page);
  await pick(page, name);
  return page;
}

/** The page once more, with this ingredient open. */
export async function again(page, name) {
  await page.reload();
  await page.locator('.places [aria-current]').waitFor();
  await pick(page, name);
}

export const keepValue = (page, name, text) => keep(page, () => field(page, name).fill(text));

/** Adds an ingredient of the maker's own, and waits until it is kept. */
export async function addOwn(page, name) {
  await page.locator('#own-name').fill(name);
  await keep(page, () => page.getByRole('button', { name: 'Add', exact: true }).click());
}
