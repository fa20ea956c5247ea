// An independent accessibility checker (axe-core), with the size of targets switched on.
import fs from 'node:fs';
import { createRequire } from 'node:module';

const axe = fs.readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export const EVERY_RULE = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/** What stays in sight while the rest is scrolled: some target may lie half below it at any time, and is scrolled out. */
const BARS = '.top, .bar, .places, .said, .overlay > header, .entry > header';

/** What it finds on the page as it is shown now: a line for each rule that is broken. */
export async function violations(page, rules = EVERY_RULE) {
  if (!await page.evaluate(() => 'axe' in globalThis)) await page.evaluate(axe);
  await page.evaluate((bars) => document.querySelectorAll(bars).forEach((bar) => { bar.style.position = 'static'; }), BARS);
  const found = await page.evaluate((runOnly) => globalThis.axe.run({ runOnly, resultTypes: ['violations'], preload: false, ...(Array.isArray(runOnly) && { rules: { 'target-size': { enabled: true } } }) }), rules);
  await page.evaluate((bars) => document.querySelectorAll(bars).forEach((bar) => { bar.style.position = ''; }), BARS);
  return found.violations.map((v) => `${v.id}: ${v.nodes.slice(0, 3).map((n) => n.html.slice(0, 160)).join(' | ')}`);
}
