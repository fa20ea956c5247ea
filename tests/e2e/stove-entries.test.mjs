// What goes into the record of a batch besides masses typed at the stove: ticks of the weigh sheet, lots with their day, what was
// looked at, codes by the maker's own pattern, and what a scale sends by itself.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { browser, closeOverlay, go, open, openOverlay, plain, saved } from './page.mjs';

const URL_ = process.env.HP_URL;
let chromium;
before(async () => { chromium = await browser(); });
after(async () => { await chromium?.close(); });

async function atBatch(prepare = async () => {}) {
  const context = await chromium.newContext({ viewport: { width: 820, height: 1180 }, hasTouch: true });
  await context.clock.install({ time: new Date('2026-11-28T14:00:00Z') });
  await prepare(context);
  const page = await open(context, URL_);
  await go(page, 'Batch');
  await page.locator('.weigh-table').first().waitFor();
  return page;
}
const toStove = (page) => page.locator('#stove-go').click();
const begin = (page) => page.getByRole('button', { name: 'Begin the batch' }).click();
const title = (page) => page.locator('#stove-task');
const main = (page) => page.locator('.stove-go > .primary');
const at = (page, text) => title(page).filter({ hasText: text }).waitFor();
async function until(page, text) {
  for (let taps = 0; taps < 40; taps += 1) {
    const now = await title(page).innerText();
    if (now.includes(text)) return;
    await main(page).click();
    await page.waitForFunction((before) => document.querySelector('#stove-task')?.innerText !== before, now);
  }
  throw new Error(`never came to ${text}`);
}
/** The record of the batch as its place shows it. */
async function record(page) {
  await page.locator('.stove-head .close').click();
  await saved(page);
  await go(page, 'Batch');
  await page.getByRole('button', { name: 'Record', exact: true }).first().click();
  await page.locator('.overlay').waitFor();
  const text = plain(await page.locator('.overlay').innerText());
  await closeOverlay(page);
  return text;
}
const tick = (page, name) => page.getByRole('checkbox', { name: new RegExp(name) });

test('stove: ticks of the weigh sheet are entries while a batch is made, and taking one away crosses it out', async () => {
  const page = await atBatch();
  // Before a batch, a tick is the device's own.
  await tick(page, 'Glycerin').check();
  await toStove(page);
  const over = page.getByRole('checkbox', { name: 'The line ticked on the weigh sheet is weighed for this batch' });
  assert.equal(await over.isChecked(), false, 'only the maker knows');
  await over.check();
  await begin(page);
  await at(page, 'Clean and disinfect');
  await page.locator('.stove-head .close').click();
  assert.equal(await tick(page, 'Glycerin').isChecked(), true);
  await tick(page, 'Xanthan gum').check();
  await saved(page);
  await page.reload();
  await page.locator('.weigh-table').first().waitFor();
  await tick(page, 'Xanthan gum').and(page.locator(':checked')).waitFor();
  await tick(page, 'Xanthan gum').uncheck();
  await toStove(page);
  await until(page, 'Lay out');
  await main(page).click();
  // Glycerin was weighed, by its tick; the gum was not.
  await at(page, 'Xanthan gum');
  const text = await record(page);
  assert.match(text, /Weighed: glycerin \(vegetable\)\s+49\.44 g · ticked/);
  assert.match(text, /The tick was taken away/);
  assert.deepEqual(page.wrong, []);
});

test('stove: ticks that stay from before are not taken for weighed', async () => {
  const page = await atBatch();
  await tick(page, 'Glycerin').check();
  await toStove(page);
  await begin(page);
  await until(page, 'Glycerin');
  await page.locator('.stove-head .close').click();
  assert.equal(await tick(page, 'Glycerin').isChecked(), false);
});

test('stove: a lot has its day, and one that is past is told before it goes in', async () => {
  const page = await atBatch();
  await toStove(page);
  await begin(page);
  await at(page, 'Clean and disinfect');
  await page.locator('#stove-clearance').fill('Ada Marsh');
  await main(page).click();
  await at(page, 'Lay out');
  await page.locator('#stove-scale').fill('100 g weight shows 100.01 g');
  await main(page).click();
  await at(page, 'Glycerin');
  await page.locator('#stove-lot').fill('G-2207');
  await page.locator('#stove-expiry').fill('2026-11-27');
  await page.locator('.passed', { hasText: 'This lot was good until 2026-11-27' }).waitFor();
  await page.locator('#stove-expiry').fill('2026-11-28');
  await page.locator('.passed').filter({ hasNotText: 'good until' }).waitFor({ state: 'attached' });
  await page.locator('#stove-weighed').fill('49.5');
  await main(page).click();
  await at(page, 'Xanthan gum');
  // Looked at once more: the lot and its day are there.
  await page.locator('.stove-go .back').click();
  await at(page, 'Glycerin');
  assert.deepEqual([await page.locator('#stove-lot').inputValue(), await page.locator('#stove-expiry').inputValue()], ['G-2207', '2026-11-28']);
  const text = await record(page);
  for (const said of [/Ada Marsh/, /100 g weight shows 100\.01 g/, /G-2207/, /good until 2026-11-28/]) assert.match(text, said);
});

test('stove: codes follow the pattern that the maker writes, and a pattern that is none is told', async () => {
  const page = await atBatch();
  await toStove(page);
  await page.getByText('How codes are made').click();
  await page.locator('#stove-pattern').fill('H{ww}-{n');
  await page.locator('#stove-pattern-note', { hasText: 'A brace has no partner' }).waitFor();
  assert.equal(await page.locator('#stove-code').inputValue(), '261128-1');
  await page.locator('#stove-pattern').fill('H{ww}-{nn}');
  // ISO 8601: 28 November 2026 is the Saturday of week 48.
  await page.locator('#stove-code').and(page.locator('[value="H48-01"]')).or(page.locator('#stove-code')).first().waitFor();
  assert.equal(await page.locator('#stove-code').inputValue(), 'H48-01');
  await page.reload();
  await page.locator('#stove-code').waitFor();
  assert.equal(await page.locator('#stove-code').inputValue(), 'H48-01');
});

/** A device that speaks the Weight Scale service: `scale.send(bytes)` is what it would send. */
const simulated = () => {
  class Target extends EventTarget {}
  const measurement = Object.assign(new Target(), { value: null, startNotifications: async () => measurement });
  const service = { getCharacteristic: async (id) => { window.scale.asked.push(id); return measurement; } };
  const device = new Target();
  device.gatt = {
    connect: async () => ({ getPrimaryService: async (id) => { window.scale.asked.push(id); return service; } }),
    disconnect: () => device.dispatchEvent(new Event('gattserverdisconnected')),
  };
  window.scale = {
    asked: [],
    refuse: false,
    send: (...bytes) => {
      measurement.value = new DataView(Uint8Array.from(bytes).buffer);
      measurement.dispatchEvent(new Event('characteristicvaluechanged'));
    },
    leave: () => device.gatt.disconnect(),
  };
  Object.defineProperty(navigator, 'bluetooth', {
    configurable: true,
    value: {
      requestDevice: async (options) => {
        window.scale.asked.push(options.filters[0].services[0]);
        if (window.scale.refuse) throw new DOMException('User cancelled', 'NotFoundError');
        return device;
      },
    },
  });
};

// Source: Bluetooth SIG, assigned numbers (0x181D Weight Scale, 0x2A9D Weight Measurement) and GATT Specification Supplement, "Weight
// Measurement": flags, then 16 bits in steps of 5 g, low byte first.
test('stove: a scale that sends what it shows is read, where its steps are fine enough for the line', async () => {
  const page = await atBatch((context) => context.addInitScript(simulated));
  await toStove(page);
  await begin(page);
  await until(page, 'Glycerin');
  const connect = async () => {
    await page.locator('.stove-head summary').click();
    await page.getByRole('button', { name: 'Connect a scale by Bluetooth' }).click();
  };
  await page.evaluate(() => { window.scale.refuse = true; });
  await connect();
  await page.locator('.scale-says', { hasText: 'No scale was connected' }).waitFor();
  await page.evaluate(() => { window.scale.refuse = false; });
  await connect();
  await page.locator('.scale-says', { hasText: 'The scale is connected' }).waitFor();
  assert.deepEqual((await page.evaluate(() => window.scale.asked)).slice(-3), [0x181D, 0x181D, 0x2A9D]);
  // 10 steps: 50 g, of a line of 49.44 g that may be off by 0.99 g.
  await page.evaluate(() => window.scale.send(0, 10, 0));
  await page.locator('.scale-says', { hasText: 'too coarse for this line' }).waitFor();
  assert.equal(await page.getByRole('button', { name: 'Take it' }).count(), 0);
  await page.evaluate(() => window.scale.send(0, 0xFF, 0xFF));
  await page.locator('.scale-says', { hasText: 'could not weigh' }).waitFor();
  await page.evaluate(() => window.scale.send(7));
  await page.locator('.scale-says', { hasText: 'no weight' }).waitFor();
  await until(page, 'Purified water');
  const target = Number(await page.locator('.weighing .figure strong').innerText());
  assert.ok(target > 500, 'a line that may be off by more than half a step of 5 g');
  const steps = Math.round(target / 5);
  await page.evaluate((n) => window.scale.send(0, n & 255, n >> 8), steps);
  await page.getByRole('button', { name: 'Take it' }).click();
  assert.equal(Number(await page.locator('#stove-weighed').inputValue()), steps * 5);
  await page.locator('.judged[data-verdict="within"]').waitFor();
  await main(page).click();
  await page.evaluate(() => window.scale.leave());
  const text = await record(page);
  assert.match(text, new RegExp(`${steps * 5} g[^]*from the scale`));
  assert.deepEqual(page.wrong, []);
});

test('stove: without Bluetooth nothing is said of it', async () => {
  const page = await atBatch((context) => context.addInitScript(() => {
    Object.defineProperty(navigator, 'bluetooth', { configurable: true, value: undefined });
  }));
  await toStove(page);
  await begin(page);
  await page.locator('.stove-head summary').click();
  await page.getByRole('button', { name: 'Give the batch up' }).waitFor();
  assert.equal(await page.getByRole('button', { name: /scale/ }).count(), 0);
});
