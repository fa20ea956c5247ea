// What the tests at the stove share: a batch begun, its tasks by their headings, and taps that are counted.
import assert from 'node:assert/strict';
import { go, open } from './page.mjs';

export const tablet = { viewport: { width: 820, height: 1180 }, hasTouch: true };
export const phone = { viewport: { width: 390, height: 844 }, hasTouch: true };

/** A page at the stove. Its clock begins at an instant, and a test may push it on. */
export async function startStove(chromium, url, options, begin = true) {
  const context = await chromium.newContext(options);
  await context.clock.install({ time: new Date('2026-11-28T14:00:00Z') });
  const page = await open(context, url);
  await go(page, 'Batch');
  await page.locator('#stove-go').click();
  await page.locator('#stove-code').waitFor();
  if (begin) await page.getByRole('button', { name: 'Begin the batch' }).click();
  return page;
}

export const title = (page) => page.locator('#stove-task');
export const main = (page) => page.locator('.stove-go > .primary');
/** The next task is there: its heading says so. */
export const at = (page, text) => title(page).filter({ hasText: text }).waitFor();
/** The heading has taken the focus, a frame after it came: what is typed before that may go astray. */
export const headed = (page) => page.waitForFunction(() => document.activeElement?.id === 'stove-task');
/** The journal has all of it. The word stands outside of the stove, so that it is in the page and not seen there. */
export const kept = (page) => page.locator('.saved', { hasText: /^Saved$/ }).waitFor({ state: 'attached' });
export async function done(page, next) {
  await main(page).click();
  await at(page, next);
}
export const fits = async (page, what) => {
  const over = await page.evaluate(() => {
    const task = document.querySelector('.stove-task');
    return Math.max(document.documentElement.scrollHeight - window.innerHeight, task.scrollHeight - task.clientHeight);
  });
  assert.ok(over <= 0, `${what} has to be scrolled by ${over}`);
};
/** Types a reading and records it. */
export async function read(page, id, value) {
  await page.locator(`#stove-${id}`).fill(value);
  await page.locator(`#stove-${id}`).press('Enter');
  await page.locator(`#stove-${id}`).and(page.locator('[value=""], :not([value])')).first().waitFor({ state: 'attached' });
}
/** The same page, loaded again. */
export async function again(page) {
  await kept(page);
  await page.reload();
  await page.locator('.stove-frame').waitFor();
}

/** Goes by the main button until a heading is reached, and looks at every task on the way. */
export async function until(page, text, look = async () => {}) {
  for (let taps = 0; taps < 40; taps += 1) {
    const now = await title(page).innerText();
    if (now.includes(text)) return taps;
    await look(now);
    await main(page).click();
    await page.waitForFunction((before) => document.querySelector('#stove-task')?.innerText !== before, now, { polling: 50 });
  }
  throw new Error(`never came to ${text}`);
}

/** Taps something, and counts it. */
export async function tap(page, target) {
  page.taps = (page.taps ?? 0) + 1;
  await target.tap();
}
/** Taps a field and types into it over what stands there. A day is put together on a wheel of its own: that counts as one tap. */
export async function enter(page, id, text) {
  const field = page.locator(`#${id}`);
  await tap(page, field);
  await field.fill(text);
}
/** Taps the main button; the next task is there. */
export async function on(page, next) {
  await tap(page, main(page));
  await at(page, next);
}

/** What a reload has to bring back: the task, how far the batch is, and what is typed. Times and forecasts go on meanwhile. */
const place = (expected) => {
  const task = document.querySelector('.stove-task');
  const found = {
    text: (task?.innerText ?? '').replaceAll(/\d+:\d\d/g, 'm:ss').replace(/\n.* in about\n\d+\nmin\n.*/, ''),
    progress: document.querySelector('.stove-progress')?.getAttribute('aria-label') ?? '',
    timers: [...document.querySelectorAll('.stove-head .timer span')].map((timer) => timer.textContent),
    typed: [...task?.querySelectorAll('input[id]') ?? []].map((field) => `${field.id}: ${field.value}`),
  };
  return expected ? JSON.stringify(found) === JSON.stringify(expected) : found;
};
export const where = (page) => page.evaluate(place);
/** Looks that the page comes to this very place. */
export async function isAt(page, expected, what) {
  await page.waitForFunction(place, expected, { polling: 50 }).catch(() => {});
  assert.deepEqual(await where(page), expected, what);
}
/** Loads the page again, at once: nothing is waited for before that. It comes back to the very task. */
export async function stays(page) {
  const before = await where(page);
  await page.reload();
  await title(page).waitFor();
  await isAt(page, before, 'after a reload');
  page.reloads = (page.reloads ?? 0) + 1;
}
