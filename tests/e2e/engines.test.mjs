// What makers rely on, in every engine that their browsers are made of: WebKit in most tablets, Gecko, and Chromium to tell
// what is an engine's own. The many cases are in the other files, in Chromium alone.
import { test, after } from 'node:test';
import assert from 'node:assert/strict';
import fs from 'node:fs';
import http from 'node:http';
import path from 'node:path';
import { stopAll } from './engines/children.mjs';
import { ENGINES } from './engines/engines.mjs';
import { elsewhere, site } from './engines/site.mjs';

/** The engines that this machine lacks, named by the set-up: `cargo task test` says so before. */
const WITHOUT = (process.env.HP_WITHOUT ?? '').split(',');
/** Where pictures of the places are kept, if they are wanted. */
const PICTURES = process.env.HP_PICTURES;
const [WIDTH, HEIGHT] = [820, 1180];
after(stopAll);

const TITLE = 'Harbour hand lotion';
const share = '.share input';
const shareIs = (page, n, text) => page.until((css, n, text) => document.querySelectorAll(css)[n]?.value === text, share, n, text);
const titleIs = (page, text) => page.until((text) => document.querySelector('#title')?.value === text, text);
const names = (page) => page.evaluate(() => [...document.querySelectorAll('.line [role=combobox]')].map((field) => field.value));
const shares = (page) => page.evaluate((css) => [...document.querySelectorAll(css)].map((field) => field.value), share);
const settled = (page) => page.until(() => document.querySelector('#findings')?.getAttribute('aria-busy') === 'false');
const atPlace = (page, place) => page.seen('.places [aria-current]', place);
async function go(page, place) {
  await page.click('.places a', place);
  await atPlace(page, place);
}

/** Does something that changes what is kept, and waits until the journal has it. */
async function keep(page, act) {
  await page.evaluate(() => {
    let begun = false;
    window.kept = false;
    new MutationObserver((_, observer) => {
      const said = document.querySelector('.saved')?.textContent ?? '';
      begun ||= said.startsWith('Saving');
      if (begun && said === 'Saved') { observer.disconnect(); window.kept = true; }
    }).observe(document.body, { childList: true, characterData: true, subtree: true });
  });
  await act();
  await page.until(() => window.kept);
}

/** What stands on the scale for each line, in hundredths of a gram, once the batch is of this mass. */
async function weighed(page, batch) {
  await page.seen('.batch-mass strong', new RegExp(`^${batch}`));
  const figures = await page.evaluate(() => [...document.querySelectorAll('.weigh-table .grams strong')].map((figure) => figure.textContent));
  return figures.map((figure) => {
    const [, grams] = figure.match(/^(\d+\.\d\d)\s*g$/) ?? assert.fail(figure);
    return Math.round(Number(grams) * 100);
  });
}
const sum = (figures) => figures.reduce((all, one) => all + one, 0);

for (const [name, { start, talks }] of Object.entries(ENGINES)) {
  const options = { skip: WITHOUT.includes(name) && `no ${name} on this machine` };

  /** A test with a server of its own, that fails for whatever must never happen on any of its pages. */
  const inEngine = (what, steps) => test(`${name}: ${what}`, options, async () => {
    const [server, world] = [await site(), await elsewhere()];
    const pages = [];
    /** A page in an empty profile. */
    const fresh = async (address = server.url) => {
      const page = await start(world.proxy);
      pages.push(page);
      await page.size(WIDTH, HEIGHT);
      await page.open(address);
      return page;
    };
    /** Looks whether all was well with a page, and ends it. */
    const done = async (page) => {
      assert.deepEqual(await page.wrong(), []);
      await page.close();
    };
    try {
      await steps({ server, fresh, done });
      assert.deepEqual([...server.refused, ...talks ? [] : world.asked], []);
    } finally {
      await Promise.all(pages.map((page) => page.close()));
      await server.close();
    }
  });

  inEngine('from the example to weighed jars, a label, and a link that another maker opens', async ({ fresh, done }) => {
    const page = await fresh();
    await titleIs(page, TITLE);
    assert.equal(await page.textOf('.total strong'), '100\u202f%');
    await keep(page, () => page.fill(share, '5', 1));
    // The fill-up line gives what the other takes.
    await shareIs(page, 0, '68.2');
    assert.equal(await page.textOf('.total strong'), '100\u202f%');
    await settled(page);
    const written = [await names(page), await shares(page)];

    await go(page, 'Batch');
    await page.fill('#plan-jars', '7');
    const grams = await weighed(page, '721.00');
    assert.equal(grams.length, 14);
    assert.equal(sum(grams), 72100);
    await page.click('.weigh-table tbody label');
    await page.seen('.bar .total', /1 of 14/);

    await go(page, 'Papers');
    await page.seen('.paper', new RegExp(TITLE));
    assert.match(await page.textOf('.paper'), /Aqua/);

    await go(page, 'Formula');
    await page.click('.tools .menu > summary');
    await page.click('.tools .menu button', 'Export and share');
    await page.click('.overlay button', 'Make a link');
    await page.until(() => document.querySelector('#link')?.value);
    const link = await page.valueOf('#link');
    await page.seen('.qr');
    await done(page);

    const other = await fresh(link);
    await other.seen('.arrival h2', 'Review before importing');
    assert.equal(await other.evaluate(() => location.hash), '#/formula', 'the fragment is gone from the address');
    await shareIs(other, 1, '4.00');
    await other.click('.arrival button', 'Add to your formulas');
    await other.click('.toast button', 'Open');
    await shareIs(other, 1, '5');
    assert.deepEqual([await names(other), await shares(other)], written);
    await done(other);
  });

  inEngine('an edit is there after a reload, and with the server dead the page starts, works and keeps', async ({ server, fresh, done }) => {
    const page = await fresh();
    await page.seen('.saved', 'Saved');
    await keep(page, () => page.fill(share, '5', 1));
    await page.reload();
    await shareIs(page, 1, '5');
    await page.click('.tools button:not([disabled])', /Undo/);
    await shareIs(page, 1, '4.00');
    // Typed just before the reload, without a pause to write it in.
    await page.fill('#title', 'Pier lotion');
    await page.reload();
    await titleIs(page, 'Pier lotion');
    await page.seen('.saved', 'Saved');

    await page.until(() => document.documentElement.dataset.offline === 'ready');
    await server.close();
    await assert.rejects(fetch(server.url), 'the server is dead');
    await page.reload();
    await titleIs(page, 'Pier lotion');
    await keep(page, () => page.fill(share, '6', 1));
    await page.reload();
    await shareIs(page, 1, '6');
    // Whole: the second part of the program and its tables are there too.
    await go(page, 'Shelf');
    await page.fill('#search-shelf', 'glycerin');
    await page.seen('.shelf .list button', /Glycerin/);
    await go(page, 'Batch');
    assert.equal(sum(await weighed(page, '1236.00')), 123600);
    await done(page);
  });

  inEngine('by keys alone: a percent, a line by search, undo, the batch, a tick', async ({ fresh, done }) => {
    const page = await fresh();
    await page.seen('.saved', 'Saved');
    const start = [await names(page), await shares(page)];
    /** Tab until something has the focus that fits. Not backwards: WebKit's driver never comes back from Shift and Tab. */
    const reach = async (css) => {
      const holds = () => page.evaluate((css) => document.activeElement.matches(css), css);
      for (let n = 0; n < 200 && !await holds(); n += 1) await page.press('Tab');
      assert.ok(await holds(), `${css} is reached by Tab`);
    };
    await reach('.share input');
    const first = await page.focused();
    await page.press('ArrowDown');
    await page.until((first) => document.activeElement.id !== first, first);
    await page.press('Control+a');
    await page.type('5');
    await shareIs(page, 1, '5');
    await shareIs(page, 0, '68.2');

    await reach('.add-line');
    await page.press('Enter');
    await page.until(() => document.activeElement.matches('[role=combobox]'));
    await page.type('niacin');
    await page.seen('.hits li');
    await page.press('Enter');
    await page.until(() => document.activeElement.id.startsWith('share-'));
    await page.type('1.5');
    const added = await names(page);
    assert.equal(added.length, 15);
    assert.ok(added.some((one) => /niacinamide/i.test(one)), added.join());
    assert.equal(await page.textOf('.total strong'), '100\u202f%');

    // The percent, what was chosen, what was typed to find it, the line, and the percent before it.
    await page.press('Control+z', 4);
    await page.until(() => document.querySelectorAll('.line').length === 14);
    await shareIs(page, 1, '5');
    await page.press('Control+z');
    await shareIs(page, 1, '4.00');
    assert.deepEqual([await names(page), await shares(page)], start);

    // Not by the links of the places: after the last of them Tab goes to the browser's own controls, and no driver comes back.
    await reach('.makes');
    await page.press('?');
    await page.seen('.overlay h2', 'Keyboard shortcuts');
    await page.press('Escape');
    await page.gone('.overlay');
    await page.until(() => document.activeElement.matches('.makes'));
    await page.press('Enter');
    await atPlace(page, 'Batch');
    await page.until(() => document.activeElement.id === 'plan-jars');
    await page.type('7');
    await page.seen('.batch-mass strong', /^721\.00/);
    await reach('.weigh-table tbody input');
    await page.press('Space');
    await page.seen('.bar .total', /1 of 14/);
    // A tick is no text: there too the key shows what it shows elsewhere.
    await page.press('?');
    await page.seen('.overlay h2', 'Keyboard shortcuts');
    await page.press('Escape');
    await page.gone('.overlay');
    await done(page);
  });

  inEngine('at the stove: two lines weighed, a lot, a step, back to the very step by a reload, and the batch given up', async ({ fresh, done }) => {
    const page = await fresh();
    await page.seen('.saved', 'Saved');
    await go(page, 'Batch');
    await page.click('#stove-go', 'Start at the stove');
    await page.fill('#stove-maker', 'Ada Marsh');
    const main = '.stove-go > .primary';
    /** The heading takes the focus a frame later: what is typed before would go astray. */
    const headed = () => page.until(() => document.activeElement.id === 'stove-task');
    /** Does something at the stove, and waits for what is next. */
    const on = async (act, next) => {
      await keep(page, act);
      await page.seen('#stove-task', next);
      await headed();
    };
    const stays = async (step, task) => {
      await page.seen('#stove-task', task);
      assert.equal(await page.evaluate(() => document.querySelector('.stove-progress').getAttribute('aria-label')), step);
    };
    await on(() => page.click(main, 'Begin the batch'), /^Clean and disinfect/);
    await on(() => page.click(main, /^All is clean/), /^Lay out/);
    await on(() => page.click(main, /^All is laid out/), /^Glycerin/);
    await page.fill('#stove-weighed', '49.4');
    await page.seen('.judged[data-verdict="within"]', /^0\.04\s*g under/);
    await page.fill('#stove-lot', 'L0412');
    await on(() => page.click(main), 'Xanthan gum');
    await page.fill('#stove-weighed', '3.09');
    await on(() => page.press('Enter'), /^Stir/);
    await on(() => page.click(main, /^Done/), 'Purified water');

    // Typed, and not recorded: it is there after a reload, and after one has gone and come back.
    await page.fill('#stove-weighed', '855.3');
    await page.reload();
    await stays('Step 6 of 28', 'Purified water');
    assert.equal(await page.valueOf('#stove-weighed'), '855.3');
    await page.click('.stove-head .close');
    await atPlace(page, 'Batch');
    await page.seen('#stove-go', 'Continue at the stove');
    await page.reload();
    await page.click('#stove-go', 'Continue at the stove');
    await stays('Step 6 of 28', 'Purified water');
    assert.equal(await page.valueOf('#stove-weighed'), '855.3');

    await page.click('.stove-head .menu > summary');
    await page.click('.stove-head .menu button', 'Give the batch up');
    await headed();
    await page.fill('#stove-give-up', 'Power cut');
    await on(() => page.click(main, 'Record'), /: given up$/);
    await page.click(main, 'To the plan and the records');
    await atPlace(page, 'Batch');
    await page.click('.batches button', 'Record');
    for (const said of [/49\.4\s*g · lot L0412 · typed/, /3\.09\s*g · typed/, /made by Ada Marsh/, /Given up.*Power cut/s]) await page.seen('.course li', said);
    assert.equal((await page.evaluate(() => [...document.querySelectorAll('.course li')].filter((one) => one.textContent.includes('Weighed')).length)), 2);
    await done(page);
  });

  test(`${name}: an error, a refusal and a request to elsewhere do not pass unseen`, options, async () => {
    const world = await elsewhere();
    const answers = {
      '/': ['text/html', '<div class="places"><a aria-current="page" href="#">Here</a></div><script>never()</script><script src="late.js"></script><img alt="" src="http://elsewhere.invalid/1.png">'],
      '/late.js': ['text/javascript', `const wait = setInterval(() => {
        if (!window.watched) return;
        clearInterval(wait);
        console.error('said');
        Promise.reject(new Error('rejected'));
        throw new Error('thrown');
      }, 50);`],
    };
    const heard = [];
    const server = http.createServer((request, response) => {
      if (request.url === '/refused') heard.push(request.url);
      const [type, text] = answers[request.url] ?? ['text/plain', ''];
      response.writeHead(200, { 'content-type': type, 'content-security-policy': "script-src 'self'; report-uri /refused" }).end(text);
    });
    await new Promise((done) => server.listen(0, '127.0.0.1', done));
    const page = await start(world.proxy);
    try {
      await page.open(`http://127.0.0.1:${server.address().port}/`);
      await page.until(() => window.watched.some((one) => one.includes('thrown')));
      const wrong = (await page.wrong()).join('\n');
      for (const word of ['thrown', 'rejected', 'said']) assert.match(wrong, new RegExp(word));
      assert.equal(heard.length, 1, 'the refusal was reported');
      assert.ok([...world.asked, wrong].some((one) => one.includes('elsewhere.invalid')), 'the request was seen');
    } finally {
      await page.close();
      server.close();
      server.closeAllConnections();
    }
  });

  inEngine('every place fits into a tablet held upright', async ({ fresh, done }) => {
    const page = await fresh();
    await page.seen('.saved', 'Saved');
    for (const [place, ready] of [['Formula', '#findings[aria-busy="false"]'], ['Batch', '.weigh-table'], ['Shelf', '.shelf .list button'], ['Papers', '.paper']]) {
      await go(page, place);
      await page.seen(ready);
      const [wide, room] = await page.evaluate(() => [document.documentElement.scrollWidth, document.documentElement.clientWidth]);
      assert.ok(wide <= room, `${place} is ${wide} px wide in a window of ${room} px`);
      if (!PICTURES) continue;
      fs.mkdirSync(PICTURES, { recursive: true });
      await page.screenshot(path.join(PICTURES, `${place}-${name}.png`.toLowerCase()));
    }
    await done(page);
  });
}
