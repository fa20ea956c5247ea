// An entry at the stove: how long from Enter until it is painted, and until the store has it.

/** Weighs `count` lines by Enter in an empty field, and times each. The page stands at the first line that is weighed. */
export async function entries(page, count) {
  const times = { painted: [], stored: [] };
  for (let n = 0; n < count; n += 1) {
    const field = page.locator('#stove-weighed');
    for (let steps = 0; steps < 6 && !await field.count(); steps += 1) await goOn(page);
    await field.focus();
    // The page is at rest: nothing of the entry before is still being written.
    await page.waitForTimeout(1000);
    await page.evaluate(() => {
      const before = document.querySelector('#stove-task').textContent;
      window.entry = new Promise((done) => {
        const told = { painted: 0, stored: 0 };
        let began = 0;
        let pending = false;
        addEventListener('keydown', () => { began = performance.now(); }, { capture: true, once: true });
        const look = () => {
          if (!told.painted && document.querySelector('#stove-task')?.textContent !== before) {
            told.painted = -1;
            requestAnimationFrame(() => setTimeout(() => { told.painted = performance.now() - began; look(); }));
          }
          const saved = document.querySelector('.top .saved span')?.textContent;
          pending ||= saved !== 'Saved';
          if (pending && saved === 'Saved' && !told.stored) told.stored = performance.now() - began;
          if (told.painted > 0 && told.stored) { watcher.disconnect(); done(told); }
        };
        const watcher = new MutationObserver(look);
        watcher.observe(document.body, { childList: true, subtree: true, characterData: true });
      });
    });
    await page.keyboard.press('Enter');
    const told = await page.evaluate(() => window.entry);
    times.painted.push(told.painted);
    times.stored.push(told.stored);
  }
  return times;
}

/** From the place of the formula to the first line that is weighed at the stove. */
export async function toFirstLine(page) {
  await page.evaluate(() => { location.hash = '#/stove'; });
  await page.getByRole('button', { name: 'Begin the batch' }).click();
  await page.locator('#stove-task').waitFor();
  for (let n = 0; n < 6 && !await page.locator('#stove-weighed').count(); n += 1) await goOn(page);
}

async function goOn(page) {
  const before = await page.locator('#stove-task').innerText();
  await page.locator('.stove-go > .primary').click();
  await page.waitForFunction((text) => document.querySelector('#stove-task')?.innerText !== text, before);
}
