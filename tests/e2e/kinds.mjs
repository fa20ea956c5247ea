// Every kind of field that the page has: the formula in which all of them stand, the ways to them, and what to type there.
import { bench, closeOverlay, go, lineActs, openFindings, openOverlay, overlay, phaseActs, settled } from './page.mjs';

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
/**
 * What can be done with that line, and with that phase. It stands under what is in hand: where that is another one, the maker
 * has to go there first.
 */
const inHand = async (page, acts, take) => { if (!await acts.count()) await take(); };
export const ofLine = async (page) => {
  const line = page.locator('.line').nth(LINE);
  await inHand(page, line.locator('.acts'), () => lineActs(page, line));
  return line.locator('.acts');
};
export const ofPhase = async (page) => {
  const phase = page.locator('.phase').nth(PHASE);
  await inHand(page, phase.locator('> div > .acts'), () => phaseActs(page, phase));
  return phase.locator('> div > .acts');
};
/** The note of the line. */
const note = async (page) => {
  const acts = await ofLine(page);
  if (!await page.locator('[id^="note-"]:is(input)').count()) await press(acts.getByRole('button', { name: 'Note', exact: true }));
  await page.locator('[id^="note-"]:is(input)').waitFor();
};
/** The swap of the line, with an answer. */
export async function swapped(page) {
  if (!await page.locator('.swap').count()) {
    if (await overlay(page).count()) await closeOverlay(page);
    await press((await ofLine(page)).getByRole('button', { name: 'Swap this oil' }));
  }
  // Limits stay from swap to swap, and what was typed into one before may leave no oil.
  for (const field of ['most-of-one', 'cox', 'hlb', 'cost']) await page.locator(`#swap-${field}`).fill('');
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
const basis = (way) => async (page) => { await page.locator(`input[name=basis][value=${way}]`).check(); };
const entry = async (page, title) => {
  if (await page.locator('#search-fats').count()) await press(page.locator('.fats-head .actions button').first());
  await page.locator('#search-shelf').fill(ownOf(title));
  await press(page.locator('.shelf ul.list button', { hasText: ownOf(title) }).first());
  await page.locator('.entry .lot').first().waitFor();
};

/**
 * Where fields stand, and what makes them appear there. Each part can be asked for again and again. `own`: those of its fields
 * that stand in no part before it. `far`: what was typed there stays until the place is left. `over`: it lies over the page, and
 * nothing below it takes a press.
 */
export const PARTS = [
  { name: 'lines', place: 'Formula', show: async (page) => { await page.locator(page.viewportSize().width < 1100 ? '.line' : '#find-formula').first().waitFor(); } },
  { name: 'about', place: 'Formula', over: true, show: async (page) => { await openOverlay(page, 'About this formula'); await page.locator('#target-ph').waitFor(); } },
  { name: 'what is done with a phase', own: /^heat/, place: 'Formula', show: async (page) => { await ofPhase(page); } },
  { name: 'the note of a line', own: /^note/, place: 'Formula', show: note },
  {
    name: 'answer', own: /^(reason|person)/, place: 'Formula', show: async (page) => {
      await openFindings(page);
      await settled(page);
      await page.locator('.written > details').first().waitFor();
      await open(page, '.written > details');
      await page.locator('[id^="reason-"]').first().waitFor();
    },
  },
  { name: 'swap', own: /^swap/, place: 'Formula', show: swapped, far: true, over: true },
  {
    name: 'pair of emulsifiers', own: /^pair/, place: 'Formula', over: true, show: async (page) => {
      if (!await page.locator('#pair-hlb').count()) await bench(page, 'emulsifier-card');
      await page.locator('#pair-hlb').waitFor();
    },
  },
  { name: 'entry', place: 'Shelf', show: entry },
  { name: 'table of fats', place: 'Shelf', show: async (page) => { if (!await page.locator('#search-fats').count()) await press(page.locator('.shelf .actions button').first()); await page.locator('#search-fats').waitFor(); } },
  { name: 'jars', place: 'Batch', show: basis('jars') },
  { name: 'jars by volume', own: /density/, place: 'Batch', show: async (page) => { await basis('jars')(page); await page.locator('#fill-by').selectOption('1'); await page.locator('#plan-density').waitFor(); } },
  { name: 'a mass', own: /^plan-mass/, place: 'Batch', show: basis('mass') },
  { name: 'in hand', own: /^hand/, place: 'Batch', show: basis('in-hand') },
  { name: 'vessel', own: /vessel|head-room/, place: 'Batch', show: basis('vessel') },
  {
    name: 'lye', own: /^lye/, place: 'Batch', show: async (page) => {
      await open(page, '#lye-part');
      await page.locator('#lye-part input').first().check();
      await page.locator('#lye-alkali').selectOption('2');
      await page.locator('#lye-sodium-share').waitFor();
    },
  },
  {
    name: 'pH log', own: /^(ph|else|meter)/, place: 'Batch', show: async (page) => {
      if (!await page.locator('#ph-step').count()) {
        await basis('mass')(page);
        await page.locator('#plan-mass').fill('1000');
        if (await page.locator('#batch-target').getAttribute('aria-invalid') === 'true') await page.locator('#batch-target').fill('5.2');
        await press(button(page, 'Start the pH log'));
      }
      await page.locator('#ph-form').selectOption('1');
      await page.locator('#ph-strength').fill('10');
      await page.locator('#ph-step-reading').waitFor();
      await open(page, '.otherwise');
      await page.locator('#else-reading').waitFor();
      await open(page, '.meter details');
      await page.locator('#meter-first').waitFor();
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
    // What lies below something else is not there for the maker.
    if (field.closest('[inert]') || !field.checkVisibility({ visibilityProperty: true })) continue;
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

const NUMBER = /^(share|target-ph|heat|plan|hand|lye|batch-target|swap|pair|ph|else|meter)-|percent|value-(ph|heat|required|emulsifier|density|shelf|sv|iv)|water_activity|months|content/;
/** Something that can be typed into a field of this kind, and that stands nowhere else for each `n` from 1000 to 9999. */
export function fresh(kind, n) {
  if (/^lot-#-(date|received|opened|expiry)$/.test(kind)) return `${n}-05-03`;
  if (kind === 'plan-jars') return `${n}`;
  return NUMBER.test(kind) ? `3.${n}` : `Kept ${n} end`;
}

/** Goes to a place from another one, so that there is one to go back to. `title` is that of the formula. */
export async function arrive(page, part, title) {
  await go(page, part.place === 'Batch' ? 'Papers' : 'Batch');
  await go(page, part.place);
  await part.show(page, title);
}
