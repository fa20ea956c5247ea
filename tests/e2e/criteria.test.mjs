// What the page promises wherever it stands: offline, alone, by keyboard, by touch, on paper. The numbers are those of the
// criteria that the project holds itself to (DEVELOPERS.md, Faults).
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { addAndOpen, bring, browser, closeOverlay, go, lines, newFormula, open, openOverlay, overlay, phaseActs, plain, saved, serve, unfold } from './page.mjs';
import { journal, title, until } from './fault.mjs';

const URL_ = process.env.HP_URL;
const DIST = process.env.HP_DIST;
const PLACES = ['Formula', 'Shelf', 'Batch', 'Papers'];
let chrome;
before(async () => { chrome = await browser(); });
after(() => chrome.close());
const fresh = (options = {}) => chrome.newContext({ viewport: { width: 820, height: 1180 }, ...options });
const temporary = (name) => path.join(fs.mkdtempSync(path.join(os.tmpdir(), 'hp-')), name);

/** A formula of twenty lines, as a file. */
const TWENTY = {
  format: 'hundred-parts', version: 1, batch: { jars: 12, fill_g: '100', loss_percent: '3', readability_g: '0.01' },
  formula: {
    title: 'Twenty lines', phases: [
      { name: 'Water phase', kind: 'water', heat_c: '72', lines: [['water', 'fill-up'], ['glycerin', '4'], ['sodium-phytate', '0.2'], ['xanthan-gum', '0.25'], ['propanediol', '2'], ['urea', '3'], ['allantoin', '0.3']] },
      { name: 'Oil phase', kind: 'oil', heat_c: '72', lines: [['plum-kernel', '8'], ['sunflower-high-oleic', '4'], ['shea', '3'], ['jojoba', '2.5'], ['squalane', '2'], ['cetearyl-olivate-sorbitan-olivate', '5'], ['cetyl-alcohol', '1.5']] },
      { name: 'Cool-down phase', kind: 'cool-down', heat_c: '40', lines: [['colloidal-oatmeal', '2'], ['panthenol-75', '1.5'], ['niacinamide', '2'], ['benzyl-alcohol-dehydroacetic-acid', '0.9'], ['tocopherol', '0.3'], ['lactic-acid', '0.15']] },
    ].map((phase) => ({ ...phase, lines: phase.lines.map(([ingredient, percent]) => ({ ingredient, percent })) })),
  },
};
test('criterion 1: with the server dead: start, reload, every address, create, calculate, print, QR, export, import', async () => {
  const server = await serve();
  const context = await fresh({ acceptDownloads: true });
  let page = await open(context, server.url);
  await page.waitForFunction(() => document.documentElement.dataset.offline === 'ready');
  await saved(page);
  await page.reload();
  await saved(page);
  await server.close();
  // A cold start: no page of it was open.
  await page.close();
  const failed = [];
  // What a page that is left had begun to fetch is given up by the browser: that is no failure.
  context.on('requestfailed', (request) => { if (request.failure()?.errorText !== 'net::ERR_ABORTED') failed.push(request.url()); });
  page = await open(context, server.url);
  await page.reload();
  await saved(page);
  for (const address of ['#/formula', '#/shelf', '#/batch', '#/papers', '?from=home#/batch', 'index.html#/papers']) {
    await page.goto('about:blank');
    await page.goto(server.url + address);
    await page.locator('.places [aria-current]').waitFor();
    assert.equal((await page.locator('.places [aria-current]').innerText()).toLowerCase(), address.match(/#\/(\w+)/)[1]);
  }
  await go(page, 'Formula');
  await newFormula(page);
  await until(page, () => document.querySelector('#title').value === '');
  await bring(page, TWENTY);
  await until(page, () => document.querySelector('#title').value === 'Twenty lines');
  await unfold(page);
  assert.equal(await page.locator('.total strong').innerText(), '100\u202f%');
  await openOverlay(page, 'Export and share');
  await page.getByRole('button', { name: 'Make a link' }).click();
  await page.getByRole('img', { name: /QR/ }).waitFor();
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Export everything' }).first().click()]);
  assert.match(fs.readFileSync(await download.path(), 'utf8'), /Twenty lines/);
  await go(page, 'Batch');
  await page.locator('#plan-jars').fill('6');
  await page.locator('.weigh-table').first().waitFor();
  const pdf = temporary('sheet.pdf');
  await page.pdf({ path: pdf });
  assert.match(execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8' }), /Niacinamide/);
  for (const place of ['Shelf', 'Papers']) { await go(page, place); await unfold(page); }
  assert.deepEqual(failed, [], 'no failed request');
  assert.deepEqual(page.wrong, []);
  await context.close();
});

test('criterion 2: a journey through every place asks no other server, and no file of the page names one', async () => {
  const context = await fresh();
  const elsewhere = [];
  context.on('request', (request) => { const to = new URL(request.url()); if (/^https?:$/.test(to.protocol) && to.origin !== new URL(URL_).origin) elsewhere.push(to.href); });
  const page = await open(context, URL_);
  await saved(page);
  for (const place of PLACES) {
    await go(page, place);
    await unfold(page);
    await page.waitForTimeout(200);
  }
  for (const paper of await page.locator('input[name=paper]').all()) await paper.click();
  assert.deepEqual(elsewhere, []);
  // Names of formats look like addresses; nothing is fetched from them.
  const format = /^http:\/\/www\.w3\.org\//;
  for (const file of fs.readdirSync(DIST, { recursive: true }).filter((name) => /\.(html|js|css|svg|json|webmanifest)$/.test(name) && !/schema\.json$/.test(name))) {
    const found = fs.readFileSync(path.join(DIST, file), 'utf8').match(/https?:\/\/[^\s"'`)<>;]+/g) ?? [];
    assert.deepEqual(found.filter((address) => !format.test(address)), [], file);
  }
  await context.close();
});

test('criterion 16: twenty lines make a link of at most 700 characters and a QR code of at most version 20; it opens offline', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  await bring(page, TWENTY);
  await until(page, () => document.querySelector('#title').value === 'Twenty lines');
  await openOverlay(page, 'Export and share');
  await page.getByRole('button', { name: 'Make a link' }).click();
  const link = await page.locator('#link').inputValue();
  assert.ok(link.length <= 700, `${link.length} characters`);
  // A code of version n has 17 + 4 n modules a side; the picture has a quiet zone of four at each edge.
  const side = Number((await page.locator('.qr').getAttribute('viewBox')).split(' ')[2]) - 8;
  assert.ok((side - 17) / 4 <= 20, `version ${(side - 17) / 4}`);
  const there = await lines(page);
  await context.close();
  // Another profile, that has the page but no network.
  const server = await serve();
  const clean = await fresh();
  const other = await open(clean, server.url);
  await other.waitForFunction(() => document.documentElement.dataset.offline === 'ready');
  await saved(other);
  await server.close();
  await other.goto('about:blank');
  await other.goto(server.url + link.slice(link.indexOf('#')));
  await other.getByRole('heading', { name: 'Review before importing' }).waitFor();
  assert.equal(new URL(other.url()).hash, '#/formula', 'the fragment is gone from the address');
  assert.equal(await title(other), 'Harbour hand lotion', 'nothing was touched yet');
  await addAndOpen(other);
  await until(other, () => document.querySelector('#title').value === 'Twenty lines');
  assert.deepEqual(await lines(other), there);
  await saved(other);
  const heads = await journal(other, `transaction.objectStore('heads').count().onsuccess = (event) => give(event.target.result);`);
  assert.equal(heads, 2, 'a formula of its own');
  assert.deepEqual(other.wrong, []);
  await clean.close();
});

test('criterion 18: notes, suppliers and lots are in no link unless ticked, and the card lists what is in it', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  const secret = structuredClone(TWENTY);
  secret.formula.title = 'Private';
  secret.formula.notes = 'SECRET-NOTE';
  secret.formula.phases[0].lines[1].note = 'SECRET-LINE';
  secret.formula.phases[0].lines[1].ingredient = 'quince';
  secret.shelf = [{ id: 'quince', own: true, values: { name: 'Quince water', inci: 'Cydonia Fruit Water', lot: 'SECRET-LOT', supplier_document: 'SECRET-SUPPLIER', notes: 'SECRET-SHELF' } }];
  await bring(page, secret);
  await until(page, () => document.querySelector('#title').value === 'Private');
  const said = await (await openOverlay(page, 'Export and share')).innerText();
  for (const word of ['phases', 'lines', 'batch plan', 'name and INCI', 'leaves out', 'suppliers', 'notes']) assert.ok(said.includes(word), word);
  for (const ticked of [false, true]) {
    await overlay(page).locator('input[type=checkbox]').setChecked(ticked);
    await page.getByRole('button', { name: 'Make a link' }).click();
    await page.waitForTimeout(100);
    const link = await page.locator('#link').inputValue();
    const clean = await fresh({ acceptDownloads: true });
    const other = await open(clean, link);
    await addAndOpen(other);
    await until(other, () => document.querySelector('#title').value === 'Private');
    await saved(other);
    await openOverlay(other, 'Export and share');
    const [download] = await Promise.all([other.waitForEvent('download'), other.getByRole('button', { name: 'Export everything' }).first().click()]);
    const text = fs.readFileSync(await download.path(), 'utf8');
    assert.ok(text.includes('Cydonia Fruit Water'));
    const secrets = [...new Set(text.match(/SECRET-[A-Z]+/g) ?? [])].sort();
    assert.deepEqual(secrets, ticked ? ['SECRET-LINE', 'SECRET-NOTE'] : []);
    await clean.close();
  }
  await context.close();
});

for (const locale of ['en-GB', 'de-DE', 'fr-FR']) {
  test(`criterion 22: numbers read alike in ${locale}, an ambiguous one asks, and the wheel changes nothing`, async () => {
    const context = await fresh({ locale });
    const page = await open(context, URL_);
    await saved(page);
    const share = page.locator('.share input').nth(1);
    for (const text of ['1,5', '1.5', ' 1,50 %']) {
      await share.fill('');
      await share.pressSequentially(text);
      assert.equal(await share.inputValue(), text, 'as typed');
      assert.match(await page.locator('.share input').nth(0).inputValue(), /^71[.,]7$/, text);
    }
    await go(page, 'Batch');
    await page.locator('.plan').getByLabel('Mass', { exact: true }).check();
    const mass = page.locator('#plan-mass');
    for (const text of ['1 234,5', "1'234.5", '1\u2009234.5', '1234,5']) {
      await mass.fill(text);
      assert.match(await page.locator('.batch-mass').innerText(), /1234[.,]5/, text);
    }
    await mass.fill('1.234');
    const answers = page.locator('#plan-mass-note button');
    await answers.first().waitFor();
    assert.ok(await answers.count() >= 2, 'asked which is meant');
    await answers.last().click();
    assert.equal(await answers.count(), 0);
    await mass.focus();
    const before = await mass.inputValue();
    const box = await mass.boundingBox();
    await page.mouse.move(box.x + 5, box.y + 5);
    for (const turn of [-120, 120, 480]) await page.mouse.wheel(0, turn);
    assert.equal(await mass.inputValue(), before);
    for (const place of PLACES) {
      await go(page, place);
      await unfold(page);
      assert.equal(await page.locator('input[type=number], input[type=range]').count(), 0, place);
    }
    assert.deepEqual(page.wrong, []);
    await context.close();
  });
}

test('criterion 22: a field that can be below zero has a sign to press where there are no keys', async () => {
  const context = await fresh({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  const page = await open(context, URL_);
  await saved(page);
  await page.locator('.phase-name').first().tap();
  await phaseActs(page, page.locator('.phase').first());
  const heat = page.locator('input[id^="heat-"]').first();
  await heat.fill('5');
  const sign = page.getByRole('button', { name: /^Plus or minus/ }).first();
  await sign.tap();
  assert.equal(await heat.inputValue(), '-5');
  await sign.tap();
  assert.equal(await heat.inputValue(), '5');
  await context.close();
});

test('criterion 23: `?` lists the shortcuts, by key, by pointer and by touch, and gives the focus back', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  const list = page.getByRole('heading', { name: 'Keyboard shortcuts' });
  for (const place of PLACES) {
    await go(page, place);
    // Whatever had the focus gets it back.
    await page.getByRole('link', { name: place, exact: true }).focus();
    await page.keyboard.press('?');
    await list.waitFor();
    await page.waitForFunction(() => document.activeElement?.id === 'overlay-title');
    await page.keyboard.press('Escape');
    await list.waitFor({ state: 'detached' });
    await page.waitForFunction((place) => document.activeElement?.textContent === place, place);
  }
  // In a text it is a character.
  await go(page, 'Formula');
  await page.locator('#title').fill('');
  await page.locator('#title').pressSequentially('Why?');
  assert.equal(await title(page), 'Why?');
  assert.equal(await list.count(), 0);
  await openOverlay(page, 'Keyboard shortcuts');
  assert.ok(await page.locator('.shortcuts kbd').count() >= 8);
  await closeOverlay(page);
  await context.close();
  const touch = await fresh({ viewport: { width: 320, height: 700 }, hasTouch: true, isMobile: true });
  const phone = await open(touch, URL_);
  await saved(phone);
  await phone.locator('.tools .menu > summary').tap();
  await phone.getByRole('button', { name: 'Keyboard shortcuts' }).tap();
  await phone.getByRole('heading', { name: 'Keyboard shortcuts' }).waitFor();
  await touch.close();
});

test('criterion 23: every control of every place is reached by Tab, with a ring that is seen and not under a bar', async () => {
  const context = await fresh();
  const page = await open(context, URL_);
  await saved(page);
  for (const place of PLACES) {
    await go(page, place);
    await page.waitForTimeout(200);
    const count = await page.evaluate(() => {
      let n = 0;
      document.activeElement?.blur();
      const radios = new Set();
      for (const element of document.querySelectorAll('a[href], button:not([disabled]), input:not([disabled]), select, textarea, summary, [tabindex="0"]')) {
        if (!element.checkVisibility({ visibilityProperty: true }) || element.closest('[hidden]') || element.tabIndex < 0) continue;
        // Of a group of radio buttons one is a stop; arrows go on from there.
        if (element.type === 'radio') { if (radios.has(element.name)) continue; radios.add(element.name); }
        element.dataset.stop = n;
        element.dataset.edge = getComputedStyle(element).borderTopColor;
        n += 1;
      }
      return n;
    });
    assert.ok(count > 5, place);
    const reached = new Set();
    const faults = [];
    // What can be done with a line stands under the line in hand: stops of their own on the way.
    for (let n = 0; n < count * 6 + 20 && reached.size < count; n += 1) {
      await page.keyboard.press('Tab');
      const found = await page.evaluate(() => {
        const element = document.activeElement;
        if (!element || element === document.body) return null;
        const style = getComputedStyle(element);
        const box = element.getBoundingClientRect();
        // An outline, or a border that is not there without the focus.
        const edged = element.dataset.edge === 'rgba(0, 0, 0, 0)' && style.borderTopColor !== element.dataset.edge && parseFloat(style.borderTopWidth) >= 2;
        const ring = edged || style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2;
        const at = document.elementFromPoint(Math.min(innerWidth - 2, Math.max(1, box.x + box.width / 2)), Math.min(innerHeight - 2, Math.max(1, box.y + box.height / 2)));
        const hidden = at && !element.contains(at) && !at.contains(element) && at.closest('.places, .bar, .top, .said');
        const group = element.type === 'radio' ? document.querySelector(`input[name="${element.name}"][data-stop]`) : element;
        return { stop: group?.dataset.stop, ring, hidden: hidden ? at.outerHTML.slice(0, 80) : null, what: element.outerHTML.slice(0, 90) };
      });
      if (!found) continue;
      if (found.stop !== undefined) reached.add(found.stop);
      if (!found.ring) faults.push(`no ring: ${found.what}`);
      if (found.hidden) faults.push(`under a bar: ${found.what} under ${found.hidden}`);
    }
    const missed = await page.evaluate((reached) => [...document.querySelectorAll('[data-stop]')].filter((element) => !reached.includes(element.dataset.stop)).map((element) => element.outerHTML.slice(0, 100)), [...reached]);
    assert.deepEqual(missed, [], `${place}: reached ${reached.size} of ${count}`);
    assert.deepEqual(faults, [], place);
  }
  await context.close();
});

test('criterion 25: on paper every row stands once, with a head on every page: title, version, mark and time', async () => {
  const context = await fresh({ colorScheme: 'dark' });
  const page = await open(context, URL_);
  await saved(page);
  await bring(page, TWENTY);
  await until(page, () => document.querySelector('#title').value === 'Twenty lines');
  await openOverlay(page, 'Versions');
  await page.getByRole('button', { name: 'Save version' }).click();
  const pages = async (format) => {
    const pdf = temporary('out.pdf');
    await page.pdf({ path: pdf, format: 'A4', landscape: format.includes('landscape'), printBackground: true });
    const text = plain(execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8' }));
    return [text.split('\f').filter((sheet) => sheet.trim()), pdf];
  };
  const head = /Twenty lines \u00b7 version 1 \u00b7 [0-9a-f]{8} \u00b7 .*\d/;
  await go(page, 'Batch');
  await page.locator('.weigh-table').first().waitFor();
  const names = await page.locator('.weigh-table tbody th .weighed-name .of').allTextContents();
  assert.equal(names.length, 20);
  for (const format of ['A4', 'A4 landscape']) {
    const [sheets, pdf] = await pages(format);
    for (const name of names.map(plain)) assert.equal(sheets.join('\n').split(`\u2610 ${name}`).length - 1, 1, `${name} on ${format}`);
    for (const [n, sheet] of sheets.entries()) assert.match(sheet, head, `page ${n + 1} of ${sheets.length}, ${format}`);
    if (format.includes('landscape')) assert.ok(sheets.length > 1, 'more than one page was tried');
    // Dark on light, whatever the screen is: the first page has more light than dark points.
    const picture = pdf.replace('.pdf', '');
    execFileSync('pdftoppm', ['-r', '20', '-gray', '-f', '1', '-l', '1', pdf, picture]);
    const pixels = fs.readFileSync(fs.readdirSync(path.dirname(pdf)).filter((name) => name.endsWith('.pgm')).map((name) => path.join(path.dirname(pdf), name))[0]).subarray(20);
    const light = pixels.filter((value) => value > 200).length / pixels.length;
    assert.ok(light > 0.75, `${Math.round(light * 100)} % light`);
  }
  await go(page, 'Papers');
  for (const which of ['safety-sheet', 'bundle']) {
    await page.locator(`input[name=paper][value=${which}]`).click();
    await page.waitForTimeout(200);
    const [sheets] = await pages('A4');
    for (const [n, sheet] of sheets.entries()) assert.match(sheet, head, `page ${n + 1} of ${sheets.length}, ${which}`);
  }
  // WebKit does not repeat heads of tables and may split rows: so each phase is a table of its own with its own head.
  await go(page, 'Batch');
  await page.locator('.weigh-table').first().waitFor();
  assert.equal(await page.locator('.weigh-table').count(), await page.locator('.weigh-table thead').count());
  await context.close();
});
