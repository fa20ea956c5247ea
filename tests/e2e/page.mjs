// What the journeys share: a browser, a server that can be ended, and words for what a maker does.
import { chromium } from 'playwright-core';
import http from 'node:http';
import fs from 'node:fs';
import path from 'node:path';

/** Media types by ending. */
export const KINDS = {
  '.html': 'text/html; charset=utf-8', '.js': 'text/javascript', '.wasm': 'application/wasm', '.css': 'text/css',
  '.svg': 'image/svg+xml', '.png': 'image/png', '.json': 'application/json', '.webmanifest': 'application/manifest+json',
};

/**
 * Serves the finished page until `close` is called: then it is dead, as for a tablet without a signal. `each` sees every
 * request before it is answered.
 */
export async function serve(dist = process.env.HP_DIST, each = () => {}) {
  const sockets = new Set();
  const server = http.createServer((request, response) => {
    each(request, response);
    const name = decodeURIComponent(request.url.split('?')[0]).replace(/\/$/, '/index.html');
    const file = path.join(dist, path.normalize(name));
    if (!fs.existsSync(file)) { response.writeHead(404); response.end(); return; }
    response.writeHead(200, { 'content-type': KINDS[path.extname(file)] ?? 'application/octet-stream', 'cache-control': 'no-cache' });
    response.end(fs.readFileSync(file));
  });
  server.on('connection', (socket) => { sockets.add(socket); socket.on('close', () => sockets.delete(socket)); });
  await new Promise((done) => server.listen(0, '127.0.0.1', done));
  return {
    url: `http://127.0.0.1:${server.address().port}/`,
    close: () => new Promise((done) => { server.close(done); sockets.forEach((socket) => socket.destroy()); }),
  };
}

// The driver's own list of what is switched off, since the last list counts; then the windows of Chromium's address bar,
// two of which would be made and drawn beside every page: that took a fifth of the time.
const OFF = [
  'AvoidUnnecessaryBeforeUnloadCheckSync', 'DestroyProfileOnBrowserClose', 'HttpsUpgrades', 'HttpsFirstBalancedModeAutoEnable',
  'LensOverlay', 'MediaRouter', 'PaintHolding', 'ThirdPartyStoragePartitioning', 'AvoidCorsURLLoaderRestartOnRedirect',
  'OptimizationHints', 'NetworkTimeServiceQuerying', 'AimEnabled', 'PreconnectToSearch',
  'WebUIOmniboxPopup', 'WebUIOmniboxAimPopup', 'WebUIOmniboxFullPopup',
];
export const CHROMIUM = {
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: [
    '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
    '--disable-component-update', '--disable-sync', `--disable-features=${OFF.join()}`,
  ],
};
export const browser = () => chromium.launch(CHROMIUM);

/** A page that remembers what must never happen: errors, refused content, requests to elsewhere. It is open once `ready` is seen. */
export async function open(context, url, ready = '.places [aria-current]') {
  const page = await context.newPage();
  // A campaign runs beside other work, and must not fail for want of time.
  page.setDefaultTimeout(process.env.HP_SOAK === '1' ? 180_000 : 15_000);
  page.wrong = [];
  page.on('pageerror', (error) => page.wrong.push(`error: ${error.message}`));
  page.on('console', (message) => { if (/Content Security Policy|Trusted|panicked/i.test(message.text())) page.wrong.push(message.text()); });
  page.on('request', (request) => {
    const target = new URL(request.url());
    if (/^https?:$/.test(target.protocol) && target.origin !== new URL(url).origin) page.wrong.push(`request to ${target.origin}`);
  });
  await page.goto(url);
  await page.locator(ready).waitFor();
  await whole(page);
  return page;
}

/** All lines of the ledger stand: they come a few at a time. */
export const whole = (page) => page.locator('.growing').waitFor({ state: 'detached' });
export const saved = (page) => page.locator('.saved', { hasText: /^Saved$/ }).waitFor();
/** A text whose spaces are all plain ones: the narrow one between number and unit comes out of a PDF as one of several. */
export const plain = (text) => text.replaceAll(/[\u202f\u00a0\u2009]/g, ' ');
/** What follows from the last change has been worked out. */
export const settled = (page) => page.locator('#findings[aria-busy="false"]').waitFor();
/** What lies over the page: a list, a bench, the ways to pass a formula on. While it does, the rest takes no press. */
export const overlay = (page) => page.locator('.overlay');
export async function closeOverlay(page) {
  await overlay(page).locator('> header').getByRole('button', { name: 'Close' }).click();
  await overlay(page).waitFor({ state: 'detached' });
}
/** Nothing lies over the page any more. */
const uncovered = async (page) => { if (await overlay(page).count()) await closeOverlay(page); };
/** Presses one of the buttons behind the three points of the header. */
export async function fromMenu(page, name) {
  await uncovered(page);
  await page.locator('.tools .menu > summary').click();
  await page.locator('.tools .menu').getByRole('button', { name, exact: true }).click();
}
/** Opens something over the page from there: `About this formula`, `Versions`, `Export and share`, `Keyboard shortcuts`. */
export async function openOverlay(page, name) {
  const heading = overlay(page).getByRole('heading', { level: 2, name, exact: true });
  if (!await heading.count()) await fromMenu(page, name);
  await heading.waitFor();
  return overlay(page);
}
/** The findings: over the page on a phone, else beside the lines. */
export async function openFindings(page) {
  if (page.viewportSize().width >= 600) return;
  if (await page.locator('.overlay #findings').count()) return;
  await uncovered(page);
  await page.locator('.jump').click();
  await page.locator('.overlay #findings').waitFor();
}
/** Opens what a button stands for: a bench, or the annexes at the foot of the findings. */
export async function bench(page, id) {
  await uncovered(page);
  if (id === 'annexes-card') await openFindings(page);
  await page.locator(`#${id}`).click();
  await page.locator(`.overlay:not(:has(#${id}))`).waitFor();
  return overlay(page);
}
export const BENCHES = ['oil-phase-card', 'ph-card', 'preservation-card', 'emulsifier-card', 'annexes-card'];
/** The list of formulas: beside the lines on a wide window, else over the page. */
export async function openFormulas(page) {
  // The place may be on its way: the address knows it first.
  await page.waitForFunction(() => document.querySelector('.places [aria-current]')?.getAttribute('href') === (location.hash || '#/formula'));
  const place = await page.locator('.places [aria-current]').innerText();
  const beside = place === 'Formula' && page.viewportSize().width >= 1100;
  if (!beside && !await page.locator('.overlay #find-formula').count()) {
    await uncovered(page);
    await page.locator('#formulas-open').click();
  }
  await page.locator(`${beside ? 'aside' : '.overlay'} #find-formula`).waitFor();
}
/** Its rows. Beside each title stands the day of its last change. */
export const FORMULAS = '#find-formula ~ ul.list button';
export const formulas = (page) => page.locator(FORMULAS);
export const titles = (page) => formulas(page).evaluateAll((rows) => rows.map((row) => row.firstChild.textContent));
/** Opens the formula of this title, and no longer one that only begins with it. */
export async function pickFormula(page, title) {
  await openFormulas(page);
  await formulas(page).and(page.locator(`xpath=//button[text()="${title}"]`)).first().click();
}
/** Begins a formula from nothing: of what one can start from, the empty one comes first. */
export async function newFormula(page) {
  await openFormulas(page);
  await page.getByRole('button', { name: 'New formula' }).click();
  await page.locator('.overlay .start').first().getByRole('button').click();
}

/** Opens everything that lies over the formula, one after the other, and looks at it. */
export async function everyOverlay(page, look) {
  const start = async () => { await openFormulas(page); await page.getByRole('button', { name: 'New formula' }).click(); await page.locator('.overlay .start').nth(2).waitFor(); };
  const ways = [
    ['Your formulas', () => openFormulas(page)], ['New formula', start], ['Findings', () => openFindings(page)],
    ...['About this formula', 'Method', 'Versions', 'Export and share', 'Keyboard shortcuts'].map((name) => [name, () => openOverlay(page, name)]),
    ...BENCHES.map((id) => [id, () => bench(page, id)]),
  ];
  for (const [name, show] of ways) {
    await show();
    await overlay(page).locator('details').evaluateAll((parts) => parts.forEach((part) => { part.open = true; }));
    await look(name);
    await uncovered(page);
  }
}

/** Takes a line into the hand, and gives what can be done with it. */
export async function lineActs(page, line) {
  await line.locator('.share input').focus();
  const acts = line.locator('.acts');
  await acts.getByRole('button').first().waitFor();
  return acts;
}
/** Takes a phase into the hand, and gives what can be done with it. */
export async function phaseActs(page, phase) {
  await phase.locator('.phase-name').focus();
  const acts = phase.locator('> div > .acts');
  await acts.getByRole('button').first().waitFor();
  return acts;
}

export const go = async (page, place) => {
  await uncovered(page);
  await page.getByRole('link', { name: place, exact: true }).click();
  // The browser tells of another address a moment later.
  await page.locator('.places [aria-current]', { hasText: new RegExp(`^${place}$`) }).waitFor({ state: 'attached' });
};
export const total = (page) => page.locator('.total strong').innerText();
/** Name and percent of every line, in order. */
export const lines = (page) => page.locator('.line').evaluateAll((rows) => rows.map((row) => [
  row.querySelector('[role=combobox]').value, row.querySelector('.share input').value,
]));
/** Adds what came in. It opens nothing by itself: where it is one formula, the page offers to open it, and that is done. */
export async function addAndOpen(page) {
  await page.getByRole('button', { name: 'Add to your formulas' }).click();
  await page.locator('.toast').getByRole('button', { name: 'Open', exact: true }).click();
}

/** Opens every fold of the place that is shown. */
export const unfold = (page) => page.locator('.work details').evaluateAll((parts) => parts.forEach((part) => { part.open = true; }));

/** Gives the page a file: a document, or any text. What came in is shown, and not kept yet. */
export async function offer(page, file) {
  await openOverlay(page, 'Export and share');
  const text = typeof file === 'string' ? file : JSON.stringify(file);
  await page.locator('#import').setInputFiles({ name: 'in.json', mimeType: 'application/json', buffer: Buffer.from(text) });
  await page.locator('.arrival').first().waitFor();
}

/** Gives the page a file with formulas, and adds what is in it. */
export async function bringAll(page, file, add = () => page.getByRole('button', { name: 'Add to your formulas' }).click()) {
  await offer(page, file);
  await add();
  // The reminder of a copy elsewhere, due after ten saves, may stand there too.
  await page.locator('.arrival').filter({ hasNotText: 'Keep a copy outside this browser' }).waitFor({ state: 'detached' });
  await saved(page);
}

/** Gives the page a file with one formula, adds it and opens it. */
export const bring = (page, file) => bringAll(page, file, () => addAndOpen(page));
