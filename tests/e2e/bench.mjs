// What the maker waits for, measured on the finished page. A benchmark tells; it does not judge.
import { FORMULAS, browser, closeOverlay, lineActs, offer, openFormulas, saved, settled } from './page.mjs';
import { entries, toFirstLine } from './bench-stove.mjs';
import { host, pack } from './host.mjs';
import { at, ms, sorted, watch } from './times.mjs';

const DIST = process.env.HP_DIST;
/** A page of one button, built the same way: 29 kB (Brotli). Measured once when the project began. */
const ONE_BUTTON = 29_000;
/** Above it the build fails: `FIRST_VISIT` in src/bin/task/build/sizes.rs. */
const LIMIT = Number(process.env.HP_LIMIT);

const packed = pack(DIST);

const mean = (times) => times.reduce((sum, time) => sum + time, 0) / times.length;

function forty() {
  const oils = ['olive', 'shea', 'glycerin', 'sunflower-high-oleic', 'panthenol-75'];
  const line = (_, n) => ({ ingredient: oils[n % oils.length], percent: n % 4 === 0 ? '0.02' : '1.25' });
  const phase = (name, kind, lines) => ({ name, kind, lines });
  const lines = Array.from({ length: 39 }, line);
  return {
    format: 'hundred-parts', version: 1,
    formula: { title: 'Forty lines', phases: [
      phase('Water phase', 'water', [{ ingredient: 'water', percent: 'fill-up' }, ...lines.slice(0, 13)]),
      phase('Oil phase', 'oil', lines.slice(13, 30)), phase('Cool-down phase', 'cool-down', lines.slice(30))] },
    batch: { jars: 12, fill_g: '100', readability_g: '0.01' },
  };
}

/**
 * From the key to the frame that shows it, as the browser itself measures it: the duration of W3C Event Timing, in steps
 * of 8 ms, presentation included. Keys come at the pace of a quick typist, and nothing asks the page meanwhile.
 */
async function keystrokes(page, selector, count) {
  await page.evaluate((selector) => {
    window.durations = [];
    window.watcher?.disconnect();
    const note = (list) => list.getEntries().filter(({ name }) => name === 'keydown').forEach(({ duration }) => window.durations.push(duration));
    window.watcher = new PerformanceObserver(note);
    window.watcher.observe({ type: 'event', durationThreshold: 16 });
    document.querySelector(selector).focus();
  }, selector);
  // What a change of the window brings with it is over.
  await page.waitForTimeout(1000);
  for (let n = 0; n < count; n += 1) {
    await page.keyboard.press(n % 2 ? 'Backspace' : String(n % 10));
    await page.waitForTimeout(180);
  }
  await page.waitForTimeout(500);
  // What took less than a frame is not told: it counts as one.
  const told = await page.evaluate(() => window.durations);
  return [...told, ...Array.from({ length: Math.max(0, count - told.length) }, () => 16)];
}

/** How long the page worked on a key without waiting for the screen: from the key to the end of all that follows it. */
async function work(page, selector, count) {
  return page.evaluate(async ([selector, count]) => {
    const field = document.querySelector(selector);
    const times = [];
    for (let n = 0; n < count; n += 1) {
      field.value = `1.${n % 10}`;
      const begun = performance.now();
      field.dispatchEvent(new Event('input', { bubbles: true }));
      await Promise.resolve();
      await new Promise((done) => { const { port1, port2 } = new MessageChannel(); port1.onmessage = done; port2.postMessage(0); });
      document.body.getBoundingClientRect();
      times.push(performance.now() - begun);
    }
    return times;
  }, [selector, count]);
}

// Of the page's own timers: what follows from a change begins so long after the last key (`ui/desk/recomputing.rs`).
const A_MOMENT = 300;
/** Times it from now on. */
const timeFindings = (context) => context.addInitScript((moment) => {
  const begin = window.setTimeout;
  window.followed = [];
  const timed = (call) => () => { const begun = performance.now(); call(); window.followed.push(performance.now() - begun); };
  window.setTimeout = (call, wait, ...rest) => begin.call(window, wait === moment ? timed(call) : call, wait, ...rest);
}, A_MOMENT);
/** How long all that follows from a change takes in one go: sheet, every rule, and the annexes of the law. */
async function findings(page, selector, count) {
  await page.evaluate(() => { window.followed.length = 0; });
  for (let n = 0; n < count; n += 1) {
    await page.locator(selector).fill(`1.${n % 10}`);
    await settled(page);
  }
  // What is written of each change waits as long, and is much shorter.
  return sorted(await page.evaluate(() => window.followed)).slice(-count);
}

/**
 * A swap over the whole table of fats, again and again: how long the answer is computed (the press itself, nothing else
 * happens in it), and how long until it stands laid out in the page.
 */
async function swaps(page, count) {
  const line = page.locator('.line').nth(await page.locator('.line [role=combobox]').evaluateAll((names) => names.findIndex((name) => /^Olive/.test(name.value))));
  await (await lineActs(page, line)).getByRole('button', { name: 'Swap this oil' }).click();
  await page.locator('.swap button.primary').waitFor();
  return page.evaluate(async (count) => {
    const turn = () => new Promise((done) => { const { port1, port2 } = new MessageChannel(); port1.onmessage = done; port2.postMessage(0); });
    const button = document.querySelector('.swap button.primary');
    const keeping = [...document.querySelectorAll('.swap .tick input')].at(-1);
    const [computed, shown] = [[], []];
    for (let n = 0; n < count; n += 1) {
      // Another wish clears the answer, so that each press computes and shows one anew.
      keeping.click();
      await turn();
      const begun = performance.now();
      button.click();
      computed.push(performance.now() - begun);
      await turn();
      document.body.getBoundingClientRect();
      shown.push(performance.now() - begun);
    }
    if (!document.querySelector('.swap .offer')) throw new Error('no mixture was shown');
    return { computed, shown };
  }, count);
}

async function slow(page, { cpu = 4, network = false } = {}) {
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: cpu });
  if (network) {
    await session.send('Network.enable');
    await session.send('Network.emulateNetworkConditions', { offline: false, latency: 150, downloadThroughput: 1.6e6 / 8, uploadThroughput: 0.75e6 / 8 });
  }
}

/** What was asked for before that moment and waited for: no icon, no face, and no style sheet of what is not shown yet. */
const asked = (page, moment) => page.evaluate((moment) => {
  const behind = [...document.querySelectorAll('link[rel=icon], link[rel=stylesheet][media]')].map(({ href }) => href);
  return performance.getEntries()
    .filter(({ entryType, startTime }) => ['navigation', 'resource'].includes(entryType) && startTime < moment)
    .filter(({ name, initiatorType }) => initiatorType !== 'css' && !behind.includes(name))
    .map(({ name }) => new URL(name).pathname.slice(1) || 'index.html');
}, moment);
const usable = (page) => page.evaluate(() => window.usable);

async function fill(page, count) {
  await page.evaluate((count) => new Promise((done, fail) => {
    const request = indexedDB.open('hundred-parts');
    request.onerror = () => fail(request.error);
    request.onsuccess = () => {
      const write = request.result.transaction(['heads', 'bodies'], 'readwrite');
      const [heads, bodies] = ['heads', 'bodies'].map((name) => write.objectStore(name));
      const body = 'x'.repeat(4000);
      for (let n = 0; n < count; n += 1) {
        const id = (n + 1).toString(16).padStart(16, '0');
        heads.put(JSON.stringify({ id, rev: 1, title: `Lotion number ${n}`, changed: n, binned: null, step: 0, crc: 0 }), id);
        bodies.put(body, id);
      }
      write.oncomplete = () => { request.result.close(); done(); };
      write.onabort = () => fail(write.error);
    };
  }), count);
}

const row = (what, text) => console.log(`${what.padEnd(44)} ${text}`);

const bytes = (names) => [...names].reduce((sum, name) => sum + (packed.get(name)?.length ?? 0), 0);

const chrome = await browser();
try {
  const server = await host(packed);
  // Cold start: nothing in any cache, over a slow line, on a slow device.
  const cold = [];
  // What the page had asked for when it could be used. The rest of the program and the offline copy come behind it.
  const needed = new Set();
  for (let n = 0; n < 5; n += 1) {
    const context = await chrome.newContext({ viewport: { width: 390, height: 844 } });
    await watch(context);
    const page = await context.newPage();
    await slow(page, { network: true });
    await page.goto(server.url, { waitUntil: 'commit' });
    const moment = await usable(page);
    cold.push(moment);
    (await asked(page, moment)).forEach((name) => needed.add(name));
    await context.close();
  }
  const first = bytes(needed);
  row('first visit, until it can be used', `${first} bytes Brotli, limit ${LIMIT}: ${(first / LIMIT).toFixed(2)} of it; ${(first / ONE_BUTTON).toFixed(1)} one-button pages`);
  const rest = bytes([...packed.keys()].filter((name) => name !== '_headers'));
  row('  all, behind it, with the offline copy', `${rest} bytes Brotli`);
  row('cold start to usable, 4x, 150 ms, 1.6 Mbit/s', `${ms(at(cold, 0.5))} median of ${cold.length} (goal 2000)`);

  // By touch: no pointer rests on the page, which would be looked for under it in every frame.
  const context = await chrome.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true });
  await watch(context);
  await timeFindings(context);
  const page = await context.newPage();
  await page.goto(server.url);
  await saved(page);
  await page.evaluate(() => navigator.serviceWorker.ready);
  await offer(page, forty());
  await page.getByRole('button', { name: 'Add to your formulas' }).tap();
  await page.locator('.toast').getByRole('button', { name: 'Open', exact: true }).tap();
  await page.waitForFunction(() => document.querySelectorAll('.line').length === 40);
  await saved(page);
  await slow(page);
  const painted = await keystrokes(page, '.share input[id="share-3"]', 300);
  row('key to painted frame, 40 lines, 4x', `${ms(at(painted, 0.5))} median, ${at(painted, 0.95).toFixed(1)} ms p95 (limit 50, goal 16)`);
  const bare = await context.newPage();
  await bare.setContent('<input id="bare" value="1">');
  await slow(bare);
  const least = await keystrokes(bare, '#bare', 300);
  row('  a page of one field and no script', `${ms(at(least, 0.5))} median, ${at(least, 0.95).toFixed(1)} ms p95; ratio ${(at(painted, 0.5) / at(least, 0.5)).toFixed(1)}`);
  await bare.close();
  const worked = await work(page, '.share input[id="share-3"]', 100);
  row('  of it the work, layout included', `${ms(at(worked, 0.5))} median, ${at(worked, 0.95).toFixed(1)} ms p95`);
  // A tablet, and a line of the oil phase: the sums of two phases change with it, and cells of the square.
  await page.setViewportSize({ width: 820, height: 1180 });
  const large = await keystrokes(page, '.share input[id="share-20"]', 300);
  row('  on a tablet, sums and square with it', `${ms(at(large, 0.5))} median, ${at(large, 0.95).toFixed(1)} ms p95 (limit 50)`);
  // The recogniser and the law are there before anything is measured: they are built in the seconds after the start.
  await page.locator('#annexes-card').waitFor();
  await page.waitForFunction(() => !/loading/.test(document.querySelector('#annexes-card').textContent));
  const followed = await findings(page, '.share input[id="share-3"]', 60);
  row('findings and annexes, 40 lines, 4x', `${ms(at(followed, 0.5))} median, ${at(followed, 0.95).toFixed(1)} ms p95 of ${followed.length} (goal 30)`);
  await page.setViewportSize({ width: 390, height: 844 });
  const { computed, shown } = await swaps(page, 120);
  await closeOverlay(page);
  row('oil swap over the whole table, 4x', `${ms(mean(computed))} mean, ${ms(at(computed, 0.5))} median, ${at(computed, 0.95).toFixed(1)} ms p95 (goal 5)`);
  row('  and its answer drawn, layout included', `${ms(at(shown, 0.5))} median, ${at(shown, 0.95).toFixed(1)} ms p95`);
  await saved(page);

  const stove = await chrome.newContext({ viewport: { width: 820, height: 1180 }, hasTouch: true });
  const making = await stove.newPage();
  await making.goto(server.url);
  await saved(making);
  await toFirstLine(making);
  await slow(making);
  const noted = await entries(making, 12);
  row('entry at the stove on screen, 4x', `${ms(at(noted.painted, 0.5))} median, ${at(noted.painted, 0.95).toFixed(1)} ms p95 (goal 16.7)`);
  row('  and in the store', `${ms(at(noted.stored, 0.5))} median, ${at(noted.stored, 0.95).toFixed(1)} ms p95 (goal 100)`);
  await stove.close();

  const starts = async () => {
    const times = [];
    for (let n = 0; n < 9; n += 1) {
      // The page before is at rest: what it still works on would be counted with the next one.
      await page.locator('.jump').waitFor();
      await page.waitForTimeout(1000);
      await page.reload({ waitUntil: 'commit' });
      times.push(await usable(page));
    }
    return times;
  };
  server.end();
  const offline = await starts();
  row('offline restart to usable, 4x', `${ms(at(offline, 0.5))} median of ${offline.length} (goal 500)`);
  await fill(page, 2000);
  const many = await starts();
  row('  with 2,000 formulas in store', `${ms(at(many, 0.5))} median, ${(at(many, 0.5) - at(offline, 0.5)).toFixed(1)} ms more (limit 100)`);
  await slow(page, { cpu: 1 });
  await openFormulas(page);
  await page.waitForFunction((rows) => document.querySelectorAll(rows).length > 40, FORMULAS);
  const search = await work(page, '#find-formula', 60);
  row('search in 2,000 formulas, work a key, 1x', `${ms(at(search, 0.5))} median, ${at(search, 0.95).toFixed(1)} ms p95 (a frame: 16.7)`);
  await context.close();
} finally {
  await chrome.close();
}
