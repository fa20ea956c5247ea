// Every kind of field that the page has: the formula in which all of them stand, the ways to them, and what to type there.
import { go, settled } from './page.mjs';

const phases = [
  { name: 'Water phase', kind: 'water', heat_c: '72', lines: [['water', 'fill-up'], ['glycerin', '4'], ['quince', '0.5']] },
  // The last line of the phase is an oil.
  { name: 'Oil phase', kind: 'oil', heat_c: '72', lines: [['cetearyl-olivate-sorbitan-olivate', '5'], ['plum-kernel', '8'], ['sunflower-high-oleic', '4']] },
  // More phenoxyethanol than the law allows: a Stop, which can be answered in writing.
  { name: 'Cool-down phase', kind: 'cool-down', heat_c: '40', lines: [['phenoxyethanol', '1.2'], ['lactic-acid', '0.15']] },
].map((phase) => ({ ...phase, lines: phase.lines.map(([ingredient, percent]) => ({ ingredient, percent })) }));
const own = (id, name) => ({
  id, own: true, values: { name, inci: 'Cydonia Fruit Water', allergen_statement: 'Linalool 0.1 %' },
  lots: [{ lot: 'L7', date: '2026-05-03', allergen_statement: 'Linalool 0.2 %' }],
});
/** The ingredient of the maker's own, with a lot, that goes with a formula. */
const ownOf = (title) => `Oil of ${title}`;
const formula = (title) => ({ formula: { title, target_ph: '5.2', notes: 'As it was.', phases }, batch: { basis: 'jars', jars: 12, fill_g: '100', loss_percent: '3', readability_g: '0.01' } });
/** A file of formulas that differ in their titles only, and of an own ingredient for each. */
export const file = (titles) => ({
  format: 'hundred-parts', version: 1, formulas: titles.map(formula),
  shelf: [own('quince', 'Quince water'), ...titles.map((title) => own(ownOf(title).toLowerCase().replaceAll(' ', '-'), ownOf(title)))],
});

/** Opens folded parts, by selector and place among them: what is in them is made then. */
const open = (page, selector, n = 0) => page.locator(selector).nth(n).evaluate((part) => { part.open = true; });
/** Presses something as a finger does in browsers where buttons take no focus: whatever has it keeps it. */
export const press = (target) => target.evaluate((element) => element.click());
export const button = (page, name, scope = '#app') => page.locator(scope).getByRole('button', { name, exact: true }).first();

/** The last line of the oil phase. */
export const LINE = 5;
const PHASE = 1;
export const lineMenu = async (page) => {
  await open(page, '.line .menu', LINE);
  await page.locator('.line').nth(LINE).locator('.menu button').first().waitFor({ state: 'attached' });
};
export const phaseMenu = async (page) => {
  await open(page, '.phase-head .menu', PHASE);
  await page.locator('.phase-head').nth(PHASE).locator('.menu button').first().waitFor({ state: 'attached' });
};
/** The card of the swap, with an answer. */
export async function swapped(page) {
  await lineMenu(page);
  await press(page.locator('.line').nth(LINE).locator('.menu button').first());
  await press(page.locator('.swap').getByRole('button', { name: 'Find' }).first());
  await button(page, 'Use this', '.swap').waitFor();
}
/** Chooses a paper. Drawing the one before may move the choices as they are pressed, so it is looked whether it was taken. */
async function paper(page, which) {
  const choice = page.locator(`input[name=paper][value=${which}]`);
  for (let n = 0; n < 5 && !await choice.isChecked(); n += 1) {
    await choice.click();
    await page.waitForTimeout(200);
  }
}
const basis = (n) => async (page) => { await page.locator('input[name=basis]').nth(n).check(); };
const entry = async (page, title) => {
  if (await page.locator('#search-fats').count()) await press(page.locator('.fats-head .actions button').first());
  await page.locator('#search-shelf').fill(ownOf(title));
  await press(page.locator('.shelf ul.list button', { hasText: ownOf(title) }).first());
  await page.locator('.entry .lot').first().waitFor();
};

/**
 * Where fields stand, and what makes them appear there. Each part can be asked for again and again. `own`: those of its fields
 * that stand in no part before it. `far`: what was typed there stays until the place is left.
 */
export const PARTS = [
  { name: 'lines', place: 'Formula', show: async (page) => { await open(page, '.about > details'); await page.locator('#target-ph').waitFor(); } },
  { name: 'menu of a phase', own: /^heat/, place: 'Formula', show: phaseMenu },
  { name: 'menu of a line', own: /^note/, place: 'Formula', show: lineMenu },
  {
    name: 'answer', own: /^(reason|person)/, place: 'Formula', show: async (page) => {
      await settled(page);
      await page.locator('.written > details').first().waitFor();
      await open(page, '.written > details');
      await page.locator('[id^="reason-"]').first().waitFor();
    },
  },
  { name: 'swap', own: /^swap/, place: 'Formula', show: swapped, far: true },
  { name: 'pair of emulsifiers', own: /^pair/, place: 'Formula', show: async (page) => { await settled(page); await page.locator('.beside details', { has: page.locator('h2', { hasText: 'Emul' }) }).first().evaluate((part) => { part.open = true; }); await page.locator('#pair-hlb').waitFor(); } },
  { name: 'entry', place: 'Shelf', show: entry },
  { name: 'table of fats', place: 'Shelf', show: async (page) => { if (!await page.locator('#search-fats').count()) await press(page.locator('.shelf .actions button').first()); await page.locator('#search-fats').waitFor(); } },
  { name: 'jars', place: 'Batch', show: basis(0) },
  { name: 'jars by volume', own: /density/, place: 'Batch', show: async (page) => { await basis(0)(page); await page.locator('#fill-by').selectOption('1'); await page.locator('#plan-density').waitFor(); } },
  { name: 'a mass', own: /^plan-mass/, place: 'Batch', show: basis(1) },
  { name: 'in hand', own: /^hand/, place: 'Batch', show: basis(2) },
  { name: 'vessel', own: /vessel|head-room/, place: 'Batch', show: basis(3) },
  {
    name: 'lye', own: /^lye/, place: 'Batch', show: async (page) => {
      await open(page, '#lye-part');
      await page.locator('#lye-part input').first().check();
      await page.locator('#lye-alkali').selectOption('2');
      await page.locator('#lye-sodium-share').waitFor();
    },
  },
  {
    name: 'pH log', own: /^(ph|else)/, place: 'Batch', show: async (page) => {
      if (!await page.locator('#ph-step').count()) {
        await basis(1)(page);
        await page.locator('#plan-mass').fill('1000');
        if (await page.locator('#batch-target').getAttribute('aria-invalid') === 'true') await page.locator('#batch-target').fill('5.2');
        await press(button(page, 'Start the pH log'));
      }
      await page.locator('#ph-form').selectOption('1');
      await page.locator('#ph-strength').fill('10');
      await page.locator('#ph-step-reading').waitFor();
      await open(page, '.otherwise');
      await page.locator('#else-reading').waitFor();
    },
  },
  { name: 'label', place: 'Papers', show: async (page) => { await paper(page, 'label'); } },
  { name: 'bundle', own: /water|test|stability|assessor|notified/, place: 'Papers', show: async (page) => { await paper(page, 'bundle'); await page.locator('#paper-assessor').waitFor(); } },
];

/** The fields for text that can be seen and written in. Where there is one for each line, a row of them. */
export const fields = (page) => page.evaluate(() => {
  const found = [];
  for (const field of document.querySelectorAll('#app input, #app textarea')) {
    if (['checkbox', 'radio', 'file'].includes(field.type) || field.readOnly || field.disabled) continue;
    if (!field.checkVisibility({ visibilityProperty: true })) continue;
    found.push({
      id: field.id, kind: field.id.replace(/\d+/g, '#'), area: field.tagName === 'TEXTAREA', type: field.type,
      local: field.matches('input[data-local], [data-local] *'),
      number: field.classList.contains('number'), text: field.value,
    });
  }
  return found;
});

/** One field of each kind of a part: of those that each line has, the one of the last line of the oil phase. */
export async function kinds(page, part) {
  const rows = {};
  for (const field of await fields(page)) if (!part.own || part.own.test(field.kind)) (rows[field.kind] ??= []).push(field);
  return Object.values(rows).map((row) => row[LINE] ?? row[0]);
}

const NUMBER = /^(share|target-ph|heat|plan|hand|lye|batch-target|swap|pair|ph|else)-|percent|value-(ph|heat|required|emulsifier|density|shelf|sv|iv)|water_activity|months|content/;
/** Something that can be typed into a field of this kind, and that stands nowhere else for each `n` from 1000 to 9999. */
export function fresh(kind, n) {
  if (/^lot-#-date$/.test(kind)) return `${n}-05-03`;
  if (kind === 'plan-jars') return `${n}`;
  return NUMBER.test(kind) ? `3.${n}` : `Kept ${n} end`;
}

/** Goes to a place from another one, so that there is one to go back to. `title` is that of the formula. */
export async function arrive(page, part, title) {
  await go(page, part.place === 'Batch' ? 'Papers' : 'Batch');
  await go(page, part.place);
  await part.show(page, title);
}
