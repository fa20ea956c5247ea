// What may harm and what is handed over: three mistakes in the worked example, their mending, the three papers, an answer.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { browser, closeOverlay, go, open, openOverlay, saved, settled } from './page.mjs';

const URL_ = process.env.HP_URL;
const OUT = process.env.HP_PDFS ?? fs.mkdtempSync(path.join(os.tmpdir(), 'hp-papers-'));
let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());

const fresh = (options = {}) => chrome.newContext({ viewport: { width: 820, height: 1180 }, ...options });

/** Grade and sentence of every finding that is not Fine, gravest first. */
const findings = (page) => settled(page).then(() => page.locator('.findings > ul > li').evaluateAll((rows) => rows.map((row) => [
  row.dataset.grade, row.querySelector('p').textContent.replaceAll('\u202f', ' '),
])));
/** What a finding begins with. */
const start = ([grade, text]) => `${grade} ${text.slice(0, 40)}`;
const share = (page, name) => page.locator('.line', { has: page.locator(`[role=combobox]`) })
  .filter({ has: page.getByLabel(`Percent ${name}`) }).locator('.share input');

/** Adds a line at the end of the last phase. */
async function add(page, name, percent) {
  await page.getByRole('button', { name: /Add line/ }).last().click();
  await page.waitForFunction(() => document.activeElement?.getAttribute('role') === 'combobox');
  await page.keyboard.type(name);
  await page.locator('.hits:not([hidden]) li').first().waitFor();
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.activeElement?.id.startsWith('share-'));
  await page.keyboard.type(percent);
}

/** Writes a value of an ingredient on the shelf. */
async function shelf(page, query, values) {
  await go(page, 'Shelf');
  await page.locator('#search-shelf').fill(query);
  await page.locator('.shelf .list button').first().click();
  for (const [field, text] of Object.entries(values)) await page.locator(`#value-${field}`).fill(text);
}

/** Prints what is shown; gives the text of the whole file and of each page, and the size of its pages in points. */
async function print(page, name, options = {}) {
  const file = path.join(OUT, `${name}.pdf`);
  await page.pdf({ path: file, format: 'A4', ...options });
  const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
  const plain = execFileSync('pdftotext', [file, '-'], { encoding: 'utf8' }).replaceAll('\u202f', ' ');
  const size = execFileSync('pdfinfo', ['-l', '1', file], { encoding: 'utf8' }).match(/Page.*size:\s+([\d.]+) x ([\d.]+)/);
  return { text, plain, words: plain.replace(/\s+/g, ' '), pages: text.split('\f').slice(0, -1), size: size.slice(1).map(Number) };
}

/** Everything that the paper on the page says stands in the file, whatever the lines and pages it is broken into. */
async function holdsAll(page, paper) {
  const squash = (text) => text.replace(/[\s\u202f\u00ad\u2010-]+/g, '');
  const foot = await page.evaluate(() => getComputedStyle(document.documentElement).getPropertyValue('--foot') || document.documentElement.dataset.foot || '');
  // Lines of a cell may stand between those of its neighbours: it is looked for word by word.
  const said = await page.locator('.paper :is(p, li, td, th, h2, h3, h4):not(.hidden):not(.print-only)').evaluateAll((all) => all
    .filter((one) => !one.closest('[aria-hidden=true]') && !one.querySelector('p, li, td'))
    .flatMap((one) => (one.closest('table') ? one.textContent.split(/\s+/) : [one.textContent.trim()])).filter(Boolean));
  assert.ok(said.length > 15, `${said.length} texts`);
  const pages = paper.plain.split('\f').map((text) => text.replaceAll(foot.replace(/^["']|["']$/g, '') || '\0', ''));
  const whole = squash(pages.map((text) => text.replace(/\d+ ?\/ ?\d+\s*$/, '')).join(' '));
  for (const text of said) assert.ok(whole.includes(squash(text)), `not in the file: ${text}`);
}

const holds = (paper, ...texts) => {
  for (const text of texts) assert.ok(paper.words.includes(text), `${text} is not in: ${paper.words}`);
};

const STATEMENT = 'Linalool\t78-70-6\t35 %\nLinalyl acetate 38\nCoumarin 0,1';

test('three mistakes are found, mended by what is proposed, and the papers hold what the sheet holds', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  // The law comes a moment after the page.
  await page.getByText('This program cannot judge what the law asks of this product in Annex').first().waitFor({ state: 'attached' });
  const clean = await findings(page);
  assert.deepEqual(clean.map(([grade]) => grade), ['care', 'unknown', 'unknown', 'unknown'], 'the worked example: soya in the tocopherol, an entry of the annexes that no program can judge, a pH that the formula is not estimated to have, no documents named');

  // An oil over the limit of its certificate. The statement and the limit are invented for this test.
  await shelf(page, 'lavender', { allergen_statement: `${STATEMENT}\nsmells of summer`, certificate_limits: '5A 0.6\n5C 0.2', supplier_document: 'Allergens and certificate of lot L7' });
  const readOf = (id) => page.locator('.field', { has: page.locator(`#${id}`) }).locator('.read');
  const read = readOf('value-allergen_statement');
  await read.getByText('Linalool: 35\u202f% \u2013 on labels: Linalool').waitFor();
  assert.match(await read.innerText(), /Substances read: 3/);
  assert.match(await read.innerText(), /Not recognised, so not counted[^]*smells of summer/);
  await page.locator('#value-allergen_statement').fill(STATEMENT);
  await read.getByText('smells').waitFor({ state: 'detached' });
  // What was read of the certificate stands below it, with what of it counts for this product: leave-on for hands is 5C.
  const certificate = readOf('value-certificate_limits');
  await certificate.getByText('Category 5C: at most 0.2\u202f%').waitFor();
  assert.match(await certificate.innerText(), /Limits read: 2\. For the open formula \(category 5C\), 0\.2\u202f% counts\./);
  await page.locator('#value-certificate_limits').fill('5A 0.6\n5C 0.2\nsee annex 3b');
  await certificate.getByText('Not recognised, so not counted').waitFor();
  assert.match(await certificate.innerText(), /would count, but only once all lines are recognised[^]*see annex 3b[^]*Write each as a category/);
  await page.locator('#value-certificate_limits').fill('5A 0.6\n5C 0.2');
  // Two more lots; the one of the latest day counts.
  for (const [n, lot, date, statement] of [[1, 'L7', '2026-05-03', STATEMENT], [2, 'L6', '2025-11-20', 'Geraniol 3 %\nfull of sun']]) {
    await page.getByRole('button', { name: 'Add a lot' }).click();
    await page.locator(`#lot-${n}-lot`).fill(lot);
    await page.locator(`#lot-${n}-date`).fill(date);
    await page.locator(`#lot-${n}-allergen_statement`).fill(statement);
  }
  await readOf('lot-2-allergen_statement').getByText('full of sun').waitFor();
  await page.locator('#lot-2-allergen_statement').fill('Geraniol 3 %');
  await go(page, 'Formula');
  await add(page, 'lavender', '0.5');
  // A preservative over its maximum: phenoxyethanol 1.0 %, Regulation (EC) 1223/2009 Annex V entry 29.
  await add(page, 'phenoxyethanol', '1.2');
  await page.getByLabel('Percent Phenoxyethanol').waitFor();
  // A pH at which dehydroacetic acid does nothing any more. Common practice, no source: it works up to about 6.
  await openOverlay(page, 'About this formula');
  await page.locator('#target-ph').fill('6.4');
  await closeOverlay(page);

  const found = await findings(page);
  const planted = found.filter((one) => !clean.some((known) => start(known) === start(one)));
  const rest = found.length - planted.length;
  assert.equal(rest, clean.length, 'what the worked example shows is still there');
  assert.equal(planted.length, 3, planted.join('\n'));
  const [over, scent, ph] = ['Phenoxyethanol adds up to 1.2 %', 'Lavender', 'Dehydroacetic'].map((text) => planted.find(([, said]) => said.includes(text)));
  assert.equal(over[0], 'stop');
  assert.match(over[1], /allows 1 %/);
  assert.equal(scent[0], 'stop');
  assert.match(scent[1], /0\.5 %.*0\.2 %/);
  assert.match(scent[1], /This is based on your document: Allergens and certificate of lot L7/);
  assert.match(ph[1], /pH 6\.4/);
  // The bar that is always in sight counts them and leads to them.
  assert.equal((await page.locator('.jump .hidden').allTextContents()).join(' ').replace(/\s+/g, ' '), 'Findings: 2 Stop 2 Care 3 Unknown');
  assert.deepEqual(await page.locator('.jump [aria-hidden]').allTextContents(), ['2', '2', '3']);
  await page.locator('.jump').click();
  await page.waitForFunction(() => document.activeElement.id === 'findings');

  const row = (text) => page.locator('.findings > ul > li', { hasText: text });
  const before = await share(page, 'Phenoxyethanol').inputValue();
  await row('Phenoxyethanol adds up to').locator('.mend').click();
  await page.locator('.toast').getByRole('button', { name: 'Undo' }).click();
  assert.equal(await share(page, 'Phenoxyethanol').inputValue(), before, 'a mend is undone like anything else');
  await row('Phenoxyethanol adds up to').locator('.mend').click();
  await row('Lavender').locator('.mend').first().click();
  await row('Dehydroacetic').locator('.mend').first().click();
  assert.deepEqual((await findings(page)).map(start), clean.map(start));
  assert.ok(Number(await share(page, 'Phenoxyethanol').inputValue()) <= 1);
  assert.equal(await share(page, 'Lavender essential oil').inputValue(), '0.2');

  // The papers. Which lot counts is chosen here, and named wherever it counts.
  const fine = page.locator('.findings details[data-grade=fine]');
  await fine.locator('summary').first().click();
  await fine.getByText('Counted from Lavender essential oil, lot L7 of 2026-05-03, the newest of 3.').waitFor();
  await go(page, 'Papers');
  const lot = page.getByLabel('Lavender essential oil');
  await lot.selectOption({ label: 'lot L6 of 2025-11-20' });
  await page.locator('.paper', { hasText: 'lot L6 of 2025-11-20, chosen for this formula' }).waitFor();
  assert.match(await page.locator('.paper').innerText(), /Ingredients: .*Geraniol/);
  await lot.selectOption({ label: 'the newest: lot L7 of 2026-05-03' });
  await page.locator('.paper', { hasText: 'lot L7 of 2026-05-03, the newest of 3' }).waitFor();
  // What the label lacks leads to its field.
  await page.getByRole('button', { name: 'The batch code.' }).click();
  await page.waitForFunction(() => document.activeElement.id === 'paper-batch_code');
  await page.keyboard.type('L7-2511');
  const texts = {
    responsible: 'Marsh Lane Workshop', address: '3 Marsh Lane, Harbour Town', function: 'Hand lotion', net_content: '100 mL',
    best_before: '05/2027', after_opening_months: '6', storage: 'Cool and dark.',
  };
  for (const [field, text] of Object.entries(texts)) await page.locator(`#paper-${field}`).fill(text);
  await page.locator('#paper-net_content').fill('a jar');
  await page.getByText('Write a mass or a volume').waitFor();
  await page.locator('#paper-net_content').fill('100 mL');
  const inci = (await page.locator('.paper').innerText()).match(/Ingredients: (.*)/)[1];
  // In falling order; the two allergens above 0.001 % behind the others (Regulation (EC) 1223/2009 Annex III, leave-on).
  assert.match(inci, /^Aqua, Prunus Domestica Seed Oil, .*Linalool/);

  const large = ['Hand lotion', '100 mL', 'Best used before the end of: 05/2027', '6M', 'Batch L7-2511', 'Cool and dark.', 'Marsh Lane Workshop, 3 Marsh Lane, Harbour Town', `Ingredients: ${inci}`];
  await page.locator('#label-sheet').selectOption({ label: 'A4, one large label of 180 × 120\u00a0mm' });
  let paper = await print(page, 'label-one', { preferCSSPageSize: true });
  holds(paper, ...large, 'Print at actual size', 'lot L7 of 2026-05-03, the newest of 3');
  await holdsAll(page, paper);
  assert.deepEqual(paper.size.map(Math.round), [595, 842]);
  assert.equal(paper.pages.length, 2, 'the sheet, and what to know before it is printed');
  for (const [sheet, count, size] of [['A4, 14', 14, [595, 842]], ['A4, 21', 21, [595, 842]], ['Letter, 10', 10, [612, 792]]]) {
    const option = page.locator('#label-sheet option', { hasText: `${sheet} labels` });
    await page.locator('#label-sheet').selectOption(await option.getAttribute('value'));
    paper = await print(page, `label-${count}`, { preferCSSPageSize: true });
    assert.deepEqual(paper.size.map(Math.round), size, sheet);
    assert.equal(paper.pages[0].split('Batch L7-2511').length - 1, count, 'all labels stand on the first page');
    // Nothing on a label is cut, on paper and in the preview.
    for (const media of ['print', 'screen']) {
      await page.emulateMedia({ media });
      const cut = await page.locator('.label').evaluateAll((all) => all.filter((one) => one.scrollHeight > one.clientHeight).length);
      assert.equal(cut, 0, `${sheet}, ${media}`);
    }
    await page.emulateMedia({ media: null });
  }
  // The preview has the width of its column; on paper the sheet has its true size, 96 pixels to the inch.
  await page.emulateMedia({ media: 'print' });
  const box = await page.locator('.labels > svg').boundingBox();
  assert.ok(Math.abs(box.width - 215.9 / 25.4 * 96) < 1, `${box.width} px wide`);
  await page.emulateMedia({ media: null });

  for (const format of ['A4', 'Letter']) {
    await page.locator('input[name=paper][value=safety-sheet]').click();
    await page.locator('.paper-title', { hasText: 'Safety sheet' }).waitFor();
    // The button keeps a version and calls the dialog; the paper says which version it is.
    await page.evaluate(() => { globalThis.print = () => { globalThis.dialogs = (globalThis.dialogs ?? 0) + 1; }; });
    await page.getByRole('button', { name: 'Print safety sheet' }).click();
    await page.waitForFunction(() => globalThis.dialogs > 0);
    await page.locator('.paper .print-only', { hasText: 'Version 1' }).waitFor({ state: 'attached' });
    paper = await print(page, `safety-${format}`, { format });
    holds(paper, 'Version 1', 'Safety sheet: Harbour hand lotion', inci, 'Linalool', 'Cautions for use', 'First aid', 'Storage: Cool and dark.', 'This paper is not a safety assessment', 'Rules as known on');
    assert.ok(!paper.text.includes('Print safety sheet') && !paper.text.includes('Missing from the label'), 'the paper alone is printed');
    paper.pages.forEach((text, n) => assert.match(text, new RegExp(`${n + 1} ?/ ?${paper.pages.length}\\s*$`)));
    await holdsAll(page, paper);

    await page.locator('input[name=paper][value=bundle]').click();
    await page.locator('.paper-title', { hasText: 'bundle' }).waitFor();
    paper = await print(page, `bundle-${format}`, { format });
    holds(paper, 'bundle: Harbour hand lotion', inci, 'Linalool', 'Allergens and certificate of lot L7', 'Findings and answers', 'Progress', 'Not in this bundle', 'Marsh Lane Workshop', '0 found');
    for (const name of inci.split(', ')) holds(paper, name);
    await holdsAll(page, paper);
    paper.pages.forEach((text, n) => {
      assert.match(text, new RegExp(`${n + 1} ?/ ?${paper.pages.length}\\s*$`));
      assert.match(text, /not a safety assessment/i, `the foot of page ${n + 1}`);
    });
  }
  assert.deepEqual(page.wrong, []);
  await context.close();
});

// The rows that say against what each ingredient was checked take the second page.
test('the safety sheet of the worked example is a sheet of two pages, on A4 and on Letter', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  await go(page, 'Papers');
  await page.locator('input[name=paper][value=safety-sheet]').click();
  // With what the law says, which comes a moment after the page.
  await page.locator('.paper', { hasText: 'looked up in Annexes II to VI' }).waitFor();
  for (const format of ['A4', 'Letter']) {
    const paper = await print(page, `safety-demo-${format}`, { format });
    assert.equal(paper.pages.length, 2, format);
    await holdsAll(page, paper);
  }
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('a Stop is answered by a person with a reason, the papers show both, and another value asks anew', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  await add(page, 'phenoxyethanol', '1.2');
  const row = page.locator('.findings > ul > li', { hasText: 'Phenoxyethanol adds up to' });
  const stand = row.locator('.written');
  const standing = (key) => row.locator(`.written[data-standing=${key}]`).waitFor();
  await standing('open');
  await row.locator('.written summary').click();
  await stand.locator('textarea').pressSequentially('Exported to where 1.5 % is allowed.');
  await standing('unfinished');
  await stand.locator('input').pressSequentially('Ada Marsh');
  await standing('answered');
  const today = new Date();
  const day = [today.getFullYear(), today.getMonth() + 1, today.getDate()].map((n) => String(n).padStart(2, '0')).join('-');
  const told = `Accepted by Ada Marsh, ${day}: Exported to where 1.5 % is allowed.`;
  assert.equal(await stand.locator('.standing').innerText(), told);

  await go(page, 'Papers');
  await page.locator('input[name=paper][value=bundle]').click();
  await page.locator('.paper-title', { hasText: 'bundle' }).waitFor();
  holds(await print(page, 'bundle-answered'), told, '1 found, 0 without an answer');

  await go(page, 'Formula');
  await share(page, 'Phenoxyethanol').fill('1.3');
  await standing('lapsed');
  await go(page, 'Papers');
  await page.getByRole('link', { name: /One Stop has not been answered/ }).click();
  await row.locator('.written summary').click();
  await page.getByRole('button', { name: 'Confirm for the current value' }).click();
  await standing('answered');
  await page.getByRole('button', { name: 'Withdraw the answer' }).click();
  await standing('open');
  await page.locator('.toast').getByRole('button', { name: 'Undo' }).click();
  await standing('answered');
  // It is kept.
  await saved(page);
  await page.reload();
  await row.waitFor();
  assert.equal(await stand.getAttribute('data-standing'), 'answered');
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('the region is chosen, and what differs there is said', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  await openOverlay(page, 'About this formula');
  for (const [region, text] of [['Great Britain', 'Great Britain'], ['United States', 'The law of the United States differs'], ['another country', 'where you sell this or give it away were not checked']]) {
    await page.locator('#region').selectOption({ label: region });
    await page.locator('.findings', { hasText: text }).waitFor();
    assert.ok((await findings(page)).some(([, said]) => said.toLowerCase().includes(text.toLowerCase())), region);
    assert.match(await page.locator('.findings').innerText(), /Rules as known on \d{4}-\d{2}-\d{2}\. Laws change: check what has changed since\./);
  }
  assert.deepEqual(page.wrong, []);
  await context.close();
});
