// Every state in which the page can be looked at: each place as it comes and with every fold open, everything that opens over
// it, a line and a phase in hand, a finding before and after it is answered, what came in by a file.
import fs from 'node:fs';
import { bring, closeOverlay, everyOverlay, go, lineActs, offer, openFindings, phaseActs, unfold } from './page.mjs';
import { choose, jar, keep } from './photographs.mjs';

const ARRIVING = {
  format: 'hundred-parts', version: 1,
  formula: { title: 'Pier lotion with a long title, as makers give them', phases: [{ name: 'Water phase', kind: 'water', lines: [{ ingredient: 'water', percent: 'fill-up' }, { ingredient: 'glycerin', percent: '4' }] }] },
};

/** Goes through all of them, and looks at each: `look` is given its name. */
export async function everyState(page, look) {
  for (const place of ['Formula', 'Shelf', 'Table of fats', 'Batch', 'Proof', 'Papers']) {
    if (place === 'Table of fats') {
      await page.getByRole('button', { name: place }).click();
      // A few are like all.
      await page.locator('#search-fats').fill('sunflower');
    } else {
      await go(page, place);
    }
    await look(place);
    await unfold(page);
    await look(`${place}, everything open`);
  }
  await go(page, 'Formula');
  await everyOverlay(page, look);
  await inHand(page, look);
  await go(page, 'Papers');
  for (const paper of ['safety-sheet', 'bundle']) {
    await page.locator(`input[name=paper][value=${paper}]`).click();
    await page.locator('.paper-title').first().waitFor();
    await look(paper);
  }
  await entry(page, look);
  await answered(page, look);
  await offer(page, ARRIVING);
  await look('something that came in');
  await recorded(page, look);
  await studied(page, look);
  await atStove(page, look);
}

/** At the stove: before the batch, a line, one that is off, a step with readings, a form, packs, the decision and the end. */
async function atStove(page, look) {
  await go(page, 'Batch');
  await page.locator('#stove-go').click();
  const title = page.locator('#stove-task');
  const main = page.locator('.stove-go > .primary');
  await title.waitFor();
  if (await page.getByRole('button', { name: 'Another batch' }).count()) await page.getByRole('button', { name: 'Another batch' }).click();
  await look('before a batch');
  await page.getByRole('button', { name: 'Begin the batch' }).click();
  const seen = new Set();
  for (let taps = 0; taps < 40; taps += 1) {
    const now = await title.innerText();
    const weighing = await page.locator('#stove-weighed').count() > 0;
    const kind = weighing ? 'weighing' : await page.locator('.step').getAttribute('data-kind', { timeout: 1000 }).catch(() => 'deciding');
    if (!seen.has(kind)) {
      seen.add(kind);
      await look(`at the stove: ${kind}`);
      if (weighing) await offAndMore(page, look);
    }
    if (kind === 'deciding') break;
    await main.click();
    await page.waitForFunction((before) => document.querySelector('#stove-task')?.innerText !== before, now);
  }
  await main.click();
  await title.filter({ hasText: 'released' }).waitFor();
  await look('a batch that is released');
  await page.locator('.stove-go > a').click();
  await page.locator('.places').waitFor();
}

/** A weighing that is off, and a form of the stove's menu. */
async function offAndMore(page, look) {
  await page.locator('#stove-weighed').fill('900');
  await page.locator('.stove-go > .primary').click();
  await page.locator('.remedies').waitFor();
  await look('a weighing that is off');
  await page.getByRole('button', { name: 'Weigh it again' }).click();
  await page.locator('#stove-weighed').fill('');
  await page.locator('.stove-head summary').click();
  await look('the menu at the stove');
  await page.getByRole('button', { name: 'Change the size of the batch' }).click();
  await page.locator('#stove-size').fill('1000');
  await look('another size');
  await page.locator('.stove-go > .back').click();
  await page.locator('#stove-weighed').waitFor();
}

/** A batch with its whole record: in the list, as it is, with an entry that is put right, and on paper. */
async function recorded(page, look) {
  const file = JSON.parse(fs.readFileSync(new URL('../formats/version-1-methods.json', import.meta.url), 'utf8'));
  await page.locator('.arrival').getByRole('button', { name: 'Do not import' }).click();
  await bring(page, file);
  await go(page, 'Batch');
  await page.locator('.batches').getByRole('button', { name: 'Record', exact: true }).click();
  await page.locator('.course li').first().waitFor();
  await look('a record');
  await page.getByRole('button', { name: 'Correct an entry' }).click();
  await page.getByRole('button', { name: 'Correct: Weighed: glycerin' }).click();
  await look('an entry that is put right');
  await closeOverlay(page);
  await page.locator('.batches').getByRole('button', { name: 'Batches' }).click();
  await page.locator('.overlay ul.list button').first().waitFor();
  await look('the list of batches');
  await page.locator('#find-batch').fill('L7');
  const lot = page.getByRole('button', { name: /^Lot L7 of Glycerin/ });
  await lot.waitFor();
  await look('lots that were found');
  await lot.click();
  await page.getByRole('button', { name: 'Print recall sheet' }).waitFor();
  await look('where a lot went');
  await closeOverlay(page);
  await go(page, 'Papers');
  await page.locator('input[name=paper][value=batch-record]').click();
  await page.locator('.paper-title').first().waitFor();
  await look('batch record');
}

/** A study of that batch: as it begins, a pull in its form, with something measured, and with a photograph. */
async function studied(page, look) {
  await go(page, 'Proof');
  await page.getByRole('button', { name: 'Begin the study' }).click();
  await page.locator('.pulls button').first().waitFor();
  await look('a study that begins');
  await page.locator('.today .go').click();
  await look('a pull in its form');
  await page.locator('#pull-ph').fill('4.2');
  await page.locator('.pull-form .primary').click();
  await page.locator('.study-plot').waitFor();
  await unfold(page);
  await look('a study with a reading outside its limits');
  await page.locator('.today .go').click();
  await choose(page, await jar(page));
  await look('a photograph before it is kept');
  await keep(page);
  await page.locator('.pull-form .shot img').waitFor();
  await page.locator('.pull-form').getByRole('button', { name: 'Cancel' }).click();
  await page.locator('.shots-card .shot img').waitFor();
  await look('a study with a photograph');
  await page.locator('.shots-card .shot').click();
  await page.locator('.shot-large img').waitFor();
  await unfold(page);
  await look('a photograph over the page');
  await closeOverlay(page);
}

/** What can be done with a phase and with a line, its note, and a swap with its answer. */
async function inHand(page, look) {
  await phaseActs(page, page.locator('.phase').first());
  await look('a phase in hand');
  const line = page.locator('.line', { has: page.getByLabel('Percent Plum kernel oil') });
  await (await lineActs(page, line)).getByRole('button', { name: 'Note', exact: true }).click();
  await look('a line in hand');
  await line.getByRole('button', { name: 'Swap this oil' }).click();
  await page.getByRole('button', { name: 'Find the closest match' }).click();
  await page.locator('.swap .offer').first().waitFor();
  await look('a swap');
  await closeOverlay(page);
}

/** A fragrance with a lot of its own and a certificate of which not all is understood. */
async function entry(page, look) {
  await go(page, 'Shelf');
  await page.locator('#search-shelf').fill('lavender');
  await page.locator('.shelf .list button').first().click();
  await page.getByRole('button', { name: 'Add a lot' }).click();
  await page.locator('#lot-1-lot').fill('L7');
  await page.locator('#lot-1-allergen_statement').fill('Linalool 35 %\nsmells of summer');
  await page.locator('#value-certificate_limits').fill('5A 0.6\nsee annex 3b');
  // Delivered, past its day, and a price that cannot be read.
  await page.locator('#lot-1-amount').fill('100');
  await page.locator('#lot-1-expiry').fill('2026-01-31');
  await page.locator('#lot-1-price').fill('about 12 or 13');
  await page.locator('.store', { hasText: 'Low' }).waitFor({ state: 'attached' });
  await look('lots');
  await page.locator('.entry > header button').click();
  await look('stock that is low');
  await page.locator('#search-shelf').fill('glycerin');
  await page.locator('.shelf .ledger .list button', { hasText: 'Glycerin (vegetable)' }).click();
  await page.getByRole('button', { name: 'Add a lot' }).click();
  await page.locator('#lot-1-amount').fill('30');
  await page.locator('#value-price_per_kg').fill('6.20 EUR');
  await go(page, 'Batch');
  await page.locator('.cost dd').first().waitFor();
  await unfold(page);
  await look('a batch with stock and cost');
}

/** A line of which the law allows less: names to choose from, a Stop with its form, and the Stop with an answer. */
async function answered(page, look) {
  await go(page, 'Formula');
  await page.getByRole('button', { name: /Add line/ }).last().click();
  await page.keyboard.type('phenoxyethanol');
  await page.locator('.hits:not([hidden]) li').first().waitFor();
  await look('names to choose from');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.activeElement?.id.startsWith('share-'));
  await page.keyboard.type('1.2');
  await openFindings(page);
  const written = page.locator('.written');
  await written.locator('> details').first().evaluate((part) => { part.open = true; });
  await look('a Stop');
  await written.locator('textarea').first().fill('Exported to where 1.5 % is allowed.');
  await written.locator('input').first().fill('Ada Marsh');
  await page.locator('.written[data-standing=answered]').waitFor();
  await look('a Stop with its answer');
}
