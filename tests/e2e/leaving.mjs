// The ways in which a field can be taken off the page, or be written anew, while the maker is in it.
import { closeOverlay, formulas, go, offer, open, openFormulas, openOverlay, saved } from './page.mjs';
import { until } from './fault.mjs';
import { button, file, ofLine, ofPhase, press, swapped } from './kinds.mjs';

const key = (...keys) => async ({ page }) => { for (const one of keys) await page.keyboard.press(one); };
const tool = (...names) => async ({ page }) => { for (const name of names) await press(page.locator('.tools button', { hasText: name })); };
const history = (way) => ({ page }) => page.evaluate((way) => { window.history[way](); }, way);
const address = (hash) => ({ page }) => page.evaluate((hash) => { location.hash = hash; }, hash);
const withLine = (name) => async ({ page }) => press((await ofLine(page)).getByRole('button', { name, exact: true }));
const withPhase = (name) => async ({ page }) => press((await ofPhase(page)).getByRole('button', { name, exact: true }));
/** The menu of the header is opened first, then one of its buttons is pressed; neither takes the focus. */
const inMenu = (name) => async ({ page }) => {
  await page.locator('.tools .menu').evaluate((menu) => { menu.open = true; });
  await press(page.locator('.tools .menu').getByRole('button', { name, exact: true }));
};
const pressed = (name, scope) => ({ page }) => press(button(page, name, scope));

/** What hangs on the line or on the phase that some of the ways remove. */
const OF_LINE = /^(name|share|note)-#$/;
const OF_PHASE = /^(name|share|note|phase|heat)-#$/;

/** Whatever leaves the ingredient its name, by which another tab finds it. */
const NAMED = /^(?!value-name)/;

/** The formula of this title, by the list. */
export async function openFormula(page, title) {
  await go(page, 'Formula');
  await openFormulas(page);
  await page.locator('#find-formula').fill(title);
  await press(formulas(page).filter({ hasText: title }).first());
  await until(page, (title) => document.querySelector('#title')?.value === title, title);
  if (await page.locator('#find-formula').count()) await page.locator('#find-formula').fill('');
}

/** Another tab with the same formula, or with the same ingredient. */
async function beside(walk) {
  walk.other ??= await open(walk.page.context(), walk.url);
  await walk.other.reload();
  await saved(walk.other);
  if (walk.part.place !== 'Shelf') return openFormula(walk.other, walk.title);
  await go(walk.other, 'Shelf');
  await walk.part.show(walk.other, walk.title);
}

/** Waits until a tab shows what another one has done to it. */
const shown = (page, holds) => until(page, holds).catch(() => { throw new Error('what the other tab did is not shown'); });

/**
 * The ways. `at`: places where there is one. `ready`: what has to stand there before anything is typed. `takes`: fields whose
 * text goes with what the way removes. `far`: it needs another place to have been shown before. `still`: only what is kept
 * already is taken away, so it is waited for. `over`: there is one where something lies over the page too; 'only': there alone.
 */
export const WAYS = [
  { name: 'Back', over: true, far: true, act: history('back') },
  { name: 'Forward', over: true, far: true, ready: async ({ page, part, title }) => {
    await go(page, part.place === 'Papers' ? 'Batch' : 'Papers');
    await history('back')({ page });
    await page.locator('.places [aria-current]', { hasText: part.place }).waitFor();
    await part.show(page, title);
  }, act: history('forward') },
  { name: 'another address', over: true, act: async ({ page, part }) => address(part.place === 'Shelf' ? '#/batch' : '#/shelf')({ page }) },
  { name: 'a link of a place', act: ({ page, part }) => press(page.getByRole('link', { name: part.place === 'Papers' ? 'Batch' : 'Papers', exact: true })) },
  { name: 'a broken link in the address', over: true, act: address('#1.AAAA') },
  { name: 'Undo and Redo by key', over: true, act: key('Control+z', 'Control+y'), local: false },
  { name: 'Undo twice and Redo twice by key', over: true, act: key('Control+z', 'Control+z', 'Control+Shift+z', 'Control+Shift+z'), local: false },
  { name: 'Undo and Redo by button', act: tool('Undo', 'Redo') },
  { name: 'a phone\u2019s width', over: true, act: async ({ page }) => { for (const width of [390, 820, 1280]) { await page.setViewportSize({ width, height: 900 }); await page.evaluate(() => new Promise(requestAnimationFrame)); } } },
  { name: 'a new version is ready', over: true, act: async ({ page }) => { await page.evaluate(() => { dispatchEvent(new Event('hp-update-ready')); }); await press(button(page, 'Later', '.said')); } },
  { name: 'a new version is taken', over: true, act: async ({ page }) => {
    await page.evaluate(() => { window.hpUpdate = () => { location.reload(); }; window.old = true; dispatchEvent(new Event('hp-update-ready')); });
    await press(button(page, 'Update now', '.said'));
    await until(page, () => !window.old && document.querySelector('.places [aria-current]'));
  } },

  { name: 'Alt and an arrow up', only: /^(name|share)-#$/, act: key('Alt+ArrowUp') },
  { name: 'Alt and an arrow down', only: /^(name|share)-#$/, act: key('Alt+ArrowDown') },
  { name: 'Alt, Shift and an arrow up', only: /^(name|share)-#$/, act: key('Alt+Shift+ArrowUp') },
  { name: 'Alt, Shift and an arrow down', only: /^(name|share)-#$/, act: key('Alt+Shift+ArrowDown', 'Alt+Shift+ArrowDown') },
  { name: 'arrows, Escape and Enter', only: /^(name|share)-#$/, act: key('ArrowDown', 'Escape', 'Enter', 'Enter'), takes: /^name-#$/ },

  { name: 'Move up', at: 'Formula', act: withLine('Move up') },
  { name: 'Move down', at: 'Formula', act: withLine('Move down') },
  { name: 'Move to another phase', at: 'Formula', act: withLine('Move to Cool-down phase') },
  { name: 'Fill up', at: 'Formula', act: withLine('Fill up (q.s.)'), takes: /^share-#$/ },
  { name: 'Remove the line', at: 'Formula', act: withLine('Remove'), takes: OF_LINE },
  { name: 'Remove the line, Undo', at: 'Formula', act: async (walk) => { await withLine('Remove')(walk); await press(button(walk.page, 'Undo', '.said')); } },
  { name: 'Remove the phase', at: 'Formula', act: withPhase('Remove phase'), takes: OF_PHASE },
  { name: 'Phase up', at: 'Formula', act: withPhase('Phase up') },
  { name: 'Phase down', at: 'Formula', act: withPhase('Phase down') },
  // What is typed to find a formula hides the others.
  { name: 'another formula', at: 'Formula', only: /^(?!find)/, act: ({ page, spare }) => press(formulas(page).filter({ hasText: spare })) },
  { name: 'New formula', at: 'Formula', act: async ({ page }) => { await press(page.locator('#app').getByRole('button', { name: 'New formula' }).first()); await press(page.locator('.overlay .start').first().getByRole('button')); } },
  { name: 'Duplicate', at: 'Formula', act: inMenu('Duplicate') },
  { name: 'Move to bin', at: 'Formula', act: inMenu('Move to bin') },
  // What is done where the fields lie over the page.
  { name: 'closed by its button', over: 'only', act: pressed('Close', '.overlay > header') },
  { name: 'closed by Escape', over: 'only', act: key('Escape') },
  { name: 'closed by a press beside it', over: 'only', act: ({ page }) => press(page.locator('.veil')) },
  // An oil whose name is written over is none that could be swapped; the note goes with the line.
  { name: 'a swap taken', at: 'Formula', only: /^(?!name|note|swap)/, act: async ({ page }) => { await swapped(page); await press(button(page, 'Use this', '.swap')); }, takes: OF_LINE },
  { name: 'an import added', at: 'Formula', ready: ({ page, title }) => offer(page, file([`${title} from elsewhere`])), act: pressed('Add to your formulas') },
  { name: 'a version brought back', at: 'Formula', ready: async ({ page }) => {
    await openOverlay(page, 'Versions');
    await press(button(page, 'Save version'));
    await button(page, 'Restore this version').waitFor();
    await closeOverlay(page);
  }, act: async ({ page }) => {
    await inMenu('Versions')({ page });
    await press(button(page, 'Restore this version'));
    await closeOverlay(page);
  }, takes: /./ },
  { name: 'a finding mended', at: 'Formula', ready: ({ page }) => page.locator('.findings .mend').first().waitFor(), act: ({ page }) => press(page.locator('.findings .mend').first()), takes: /^(reason|person|share)-#$/ },
  // The other tab finds the formula by its title.
  { name: 'another tab removes the phase', over: true, at: 'Formula', only: /^(?!title)/, still: true, takes: OF_PHASE, act: async (walk) => {
    await beside(walk);
    await withPhase('Remove phase')({ page: walk.other });
    await shown(walk.page, () => document.querySelectorAll('.phase').length === 2);
  } },
  { name: 'another tab changes the formula at once', over: true, at: ['Formula', 'Batch', 'Papers'], ready: beside, act: async ({ page, other }) => {
    await other.evaluate(() => { const field = document.querySelector('#notes') ?? document.querySelector('#title'); field.value += ' from another tab'; field.dispatchEvent(new Event('input', { bubbles: true })); });
    await saved(other);
    await saved(page);
  } },

  { name: 'another ingredient', at: 'Shelf', only: /^(?!search)/, act: async ({ page }) => { await press(page.locator('.shelf ul.list button').last()); } },
  { name: 'a search for nothing', at: 'Shelf', act: ({ page }) => page.locator('#search-shelf').fill('nothing of that name') },
  { name: 'Close', at: 'Shelf', act: pressed('Close', '.entry') },
  { name: 'the table of fats', at: 'Shelf', act: ({ page }) => press(button(page, 'Table of fats')) },
  { name: 'an ingredient added', at: 'Shelf', act: async ({ page }) => { await page.locator('#own-name').evaluate((field) => { field.value = 'Rowan wax'; field.dispatchEvent(new Event('input', { bubbles: true })); }); await press(button(page, 'Add')); }, takes: /^own-name$/ },
  { name: 'a lot added', at: 'Shelf', act: pressed('Add a lot') },
  { name: 'the lot removed', at: 'Shelf', act: pressed('Remove this lot'), takes: /^lot-#/ },
  { name: 'the ingredient removed', at: 'Shelf', act: pressed('Remove from the shelf'), takes: /./ },
  { name: 'another tab removes the lot', at: 'Shelf', only: NAMED, still: true, takes: /^lot-#/, act: async (walk) => {
    await beside(walk);
    await press(button(walk.other, 'Remove this lot'));
    await shown(walk.page, () => !document.querySelector('.lot'));
  } },
  { name: 'another tab removes the ingredient', at: 'Shelf', only: NAMED, still: true, takes: /./, act: async (walk) => {
    await beside(walk);
    await press(button(walk.other, 'Remove from the shelf'));
    await saved(walk.other);
    await walk.page.waitForTimeout(300);
  } },
  { name: 'another tab changes the shelf at once', at: 'Shelf', ready: beside, act: async ({ page, other }) => {
    await other.evaluate(() => { const field = document.querySelector('#value-functions'); field.value = 'from another tab'; field.dispatchEvent(new Event('input', { bubbles: true })); });
    await saved(other);
    await saved(page);
  }, takes: /^value-functions$/ },

  { name: 'another basis', at: 'Batch', act: async ({ page, part }) => press(page.locator('input[name=basis]').nth(part.name === 'a mass' ? 3 : 1)) },
  { name: 'every basis', at: 'Batch', act: async ({ page }) => { for (const n of [0, 1, 2, 3]) await press(page.locator('input[name=basis]').nth(n)); } },
  { name: 'no lye any more', at: 'Batch', part: 'lye', act: ({ page }) => press(page.locator('#lye-part input').first()) },
  { name: 'another alkali', at: 'Batch', part: 'lye', act: async ({ page }) => { for (const n of ['1', '0', '2']) await page.locator('#lye-alkali').selectOption(n); } },
  { name: 'the water reckoned otherwise', at: 'Batch', part: 'lye', act: async ({ page }) => { for (const n of ['1', '0']) await page.locator('#lye-water-by').selectOption(n); } },
  { name: 'another acid', at: 'Batch', part: 'pH log', act: async ({ page }) => { for (const n of ['1', '0']) await page.locator('#ph-titrant').selectOption(n); } },
  { name: 'the log begun anew', at: 'Batch', part: 'pH log', act: ({ page }) => press(page.locator('.otherwise .inside > button')) },
  { name: 'the fold closed', at: 'Batch', part: 'pH log', act: ({ page }) => page.locator('.otherwise').evaluate((fold) => { fold.open = false; }) },
  { name: 'another tab begins a new log', at: 'Batch', part: 'pH log', still: true, act: async (walk) => {
    await beside(walk);
    await go(walk.other, 'Batch');
    await walk.other.locator('.otherwise').evaluate((fold) => { fold.open = true; });
    await press(walk.other.locator('.otherwise .inside > button'));
    await saved(walk.other);
    await walk.page.waitForTimeout(300);
  }, takes: /./ },

  { name: 'every other paper', at: 'Papers', act: async ({ page }) => { for (const which of ['label', 'safety-sheet', 'bundle']) await press(page.locator(`input[name=paper][value=${which}]`)); } },
];

/** The ways that there are for a field. */
export const waysFor = (part, { kind, local }) => WAYS.filter(({ at, part: name, only, over, local: texts }) =>
  (part.over ? over : over !== 'only') && (!at || [at].flat().includes(part.place)) && (!name || name === part.name) && (!only || only.test(kind)) && (texts !== false || !local));
