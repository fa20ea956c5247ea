// At the stove nothing goes wrong without a word: what is not saved, not measured or not read is said, what is typed stays, and
// the focus is where the next thing is.
import { test, before, after } from 'node:test';
import assert from 'node:assert/strict';
import { noRoom, roomAgain } from './fault.mjs';
import { browser, plain } from './page.mjs';
import { again, at, kept, main, startStove, tablet, title, until } from './stove.mjs';

const URL_ = process.env.HP_URL;
let chromium;
before(async () => { chromium = await browser(); });
after(() => chromium.close());

const atStove = () => startStove(chromium, URL_, tablet);
/** Where the focus is: the id of it, or what it is. */
const focus = (page) => page.evaluate(() => document.activeElement.id || document.activeElement.localName);
const press = (page, name) => page.getByRole('button', { name, exact: true }).click();

test('stove: what cannot be saved is said there, and is saved once there is room', async () => {
  const page = await atStove();
  await until(page, 'Glycerin');
  await kept(page);
  await noRoom(page);
  await page.locator('#stove-weighed').fill('49.4');
  await main(page).click();
  await at(page, 'Xanthan gum');
  await page.locator('.stove .saved.trouble', { hasText: 'Not saved' }).waitFor();
  await roomAgain(page);
  await again(page);
  await at(page, 'Xanthan gum');
});

test('stove: a reading of the pH that is typed and not recorded yet is there after a reload', async () => {
  const page = await atStove();
  await until(page, 'Measure the pH');
  await press(page, 'Start the pH log');
  await page.locator('#ph-step-reading').fill('6.2');
  await again(page);
  await page.locator('#ph-step-reading').waitFor();
  assert.equal(await page.locator('#ph-step-reading').inputValue(), '6.2');
});

test('stove: the button of the pH says that it is as it should be only where that was measured', async () => {
  const page = await atStove();
  await until(page, 'Measure the pH');
  const said = async () => (await main(page).innerText()).split('\n')[0];
  const first = await said();
  await press(page, 'Start the pH log');
  await page.locator('#ph-step-reading').fill('6.2');
  await page.locator('#ph-step-reading').press('Enter');
  await page.locator('#ph-step', { hasText: 'Set aside' }).waitFor();
  const high = await said();
  await page.locator('.otherwise summary').click();
  await page.locator('#else-amount').fill('0.3');
  await page.locator('#else-amount').press('Enter');
  await page.locator('#ph-step', { hasText: 'Measure the pH of the batch' }).waitFor();
  await page.locator('#ph-step-reading').fill('5.2');
  await page.locator('#ph-step-reading').press('Enter');
  await page.locator('#ph-step', { hasText: 'Stop' }).waitFor();
  assert.deepEqual([first, high, await said()], ['Go on without setting the pH', 'Go on without setting the pH', 'The pH is as it should be']);
});

// The lines are 1236 g, of them 1.85 g of lactic acid in a cup of its own, "even if some is left". What goes in out of that cup
// was weighed: no batch of these lines comes to more than 1236 g.
test('stove: acid that was weighed as a line counts once where the pH is set with it', async () => {
  const page = await atStove();
  await until(page, 'Measure the pH');
  await press(page, 'Start the pH log');
  assert.match(await page.locator('#ph-titrant').evaluate((pick) => pick.selectedOptions[0].textContent), /Lactic Acid/);
  await page.locator('.otherwise summary').click();
  await page.locator('#else-amount').fill('0.3');
  await page.locator('#else-amount').press('Enter');
  await page.locator('.ph-log li', { hasText: '0.3' }).waitFor();
  await until(page, 'What came out of it');
  const [, all] = /of ([\d.]+) g accounted for/.exec(plain(await page.locator('.deciding').innerText()));
  assert.ok(Number(all) <= 1236, `${all} g`);
});

test('stove: what to do about a weighing that is off takes the focus', async () => {
  const page = await atStove();
  await until(page, 'Glycerin');
  await page.locator('#stove-weighed').fill('40');
  await page.locator('#stove-weighed').press('Enter');
  await at(page, '9.44');
  await page.waitForFunction(() => document.activeElement.id === 'stove-task').catch(() => {});
  assert.equal(await focus(page), 'stove-task');
});

test('stove: the focus is in the page once it is seen that a time is up', async () => {
  const page = await atStove();
  await until(page, 'Hold');
  await page.clock.fastForward(3_600_000);
  await page.getByRole('button', { name: 'Seen' }).focus();
  await page.keyboard.press('Enter');
  await page.locator('.time-is-up').waitFor({ state: 'detached' });
  await page.waitForFunction(() => document.activeElement !== document.body).catch(() => {});
  assert.notEqual(await focus(page), 'body');
});

test('stove: what stayed in the pot is seen once it is recorded', async () => {
  const page = await atStove();
  await until(page, 'Fill clean jars');
  for (const [id, mass] of [['lost', '5.1'], ['retained', '8.3']]) {
    await page.locator(`#stove-${id}`).fill(mass);
    await page.locator(`#stove-${id}`).press('Enter');
    await page.waitForFunction((id) => !document.getElementById(id).value, `stove-${id}`);
    assert.ok(plain(await page.locator('.step').innerText()).includes(`${mass} g`), `${mass} g are nowhere`);
  }
});

test('stove: a day that is typed by half is not left out without a word', async () => {
  const page = await atStove();
  await until(page, 'Glycerin');
  await page.locator('#stove-weighed').fill('49.4');
  await page.locator('#stove-expiry').focus();
  await page.keyboard.type('0303');
  assert.ok(await page.locator('#stove-expiry').evaluate((field) => field.validity.badInput), 'typed by half');
  await page.keyboard.press('Enter');
  // What follows from a key is shown before the next task of the page.
  await page.evaluate(() => new Promise((done) => setTimeout(done)));
  assert.match(await title(page).innerText(), /Glycerin/, 'it is still asked for');
});

test('stove: while the record of a batch is looked for, no other batch is offered', async () => {
  const page = await atStove();
  await until(page, 'Lay out');
  await kept(page);
  // The quick copy is gone, as where a browser was killed; and whatever is shown meanwhile is remembered.
  await page.addInitScript(() => {
    localStorage.clear();
    sessionStorage.clear();
    window.offered = false;
    new MutationObserver(() => { window.offered ||= document.querySelector('#stove-code') !== null; }).observe(document, { childList: true, subtree: true });
  });
  await page.reload();
  await at(page, 'Lay out');
  assert.equal(await page.evaluate(() => window.offered), false);
});
