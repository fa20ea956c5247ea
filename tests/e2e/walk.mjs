// A walk through the page by chance: what a maker, a child or a cat may do next. Every step is told in a few words.
import { chance } from './chance.mjs';

const PLAUSIBLE = ['4', '12', '0.25', '1,5', '7', '100', 'q.s.', 'rest', 'ad 100', 'glyc', 'olive', 'Rose water', 'Pier lotion', '5.2', '72', 'L7', '36 months', 'linalool 0.5 %', '16:0 8; oleic 50', 'a', ' ', '12,5 g'];
const HOSTILE = [
  '-1', '1e308', '99999999999999999999999999', '0.0000000000001', '1.2.3', 'NaN', '\u221e', '\u0661\u0662', '1.234', '100.0000001', '<img src=x onerror=alert(1)>',
  '\u202egnp.exe\u2066', '\u0000\u0007', '\u{1f600}\u{1f600}', 'a\u0301\u0301\u0301', '=1+1', '"\\\'', 'x'.repeat(3000), '\n\r\t', '\ufeff\u200b', '{"format":"hundred-parts"}', '\ud800',
];
const KEYS = [
  'Tab', 'Tab', 'Shift+Tab', 'Enter', 'Enter', 'Escape', 'ArrowDown', 'ArrowUp', 'ArrowLeft', 'ArrowRight', 'Backspace', 'Delete', 'Home', 'End', 'Control+a', ' ', '?',
  'Alt+ArrowDown', 'Alt+ArrowUp', 'Alt+Shift+ArrowDown', 'Alt+Shift+ArrowUp', 'Control+z', 'Control+z', 'Control+Shift+z', 'Control+y',
];
const SIZES = [[390, 844], [820, 1180], [1280, 900]];
export const PLACES = ['#/formula', '#/shelf', '#/batch', '#/papers'];

/** Marks what can be pressed or written in, in order, and says what it is. Runs in the page. */
const mark = (fieldsOnly) => {
  const found = [];
  for (const element of document.querySelectorAll('#app a[href], #app button, #app summary, #app input, #app select, #app textarea, #app .handle, #app .veil')) {
    delete element.dataset.walk;
    // What is said for a while only is pressed by a step of its own.
    if (element.disabled || element.closest('.said, [inert]') || !element.checkVisibility({ visibilityProperty: true })) continue;
    const text = element.matches('textarea, input:not([type=checkbox], [type=radio], [type=file])') && !element.readOnly;
    if (fieldsOnly && !text) continue;
    element.dataset.walk = found.length;
    found.push(`${element.tagName.toLowerCase()} ${element.id || element.getAttribute('aria-label') || element.textContent || element.value}`.slice(0, 50));
  }
  return found;
};

/** A step of the walk, decided: `told` says what it is, `act` does it. `edits` if it types something. */
export class Walk {
  constructor(page, seed) {
    Object.assign(this, { page, seed, dice: chance(seed), told: [] });
  }

  say(text) {
    this.told.push(`${this.told.length}: ${text}`);
  }

  async target(fieldsOnly = false) {
    const all = await this.page.evaluate(mark, fieldsOnly);
    if (!all.length) return null;
    const n = this.dice.below(all.length);
    return { n, name: all[n] };
  }

  /** Where the middle of what was marked stands, in sight. */
  place(n) {
    return this.page.evaluate((n) => {
      const element = document.querySelector(`[data-walk="${n}"]`);
      if (!element) return null;
      element.scrollIntoView({ block: 'center' });
      const box = element.getBoundingClientRect();
      return { x: Math.min(innerWidth - 2, Math.max(1, box.x + box.width / 2)), y: Math.min(innerHeight - 2, Math.max(1, box.y + box.height / 2)) };
    }, n);
  }

  async press(touch) {
    const target = await this.target();
    if (!target) return;
    this.say(`${touch ? 'touch' : 'click'} ${target.name}`);
    const at = await this.place(target.n);
    if (!at) return;
    if (touch) await this.page.touchscreen.tap(at.x, at.y);
    else await this.page.mouse.click(at.x, at.y);
  }

  /** Presses without taking the focus, right after something was typed: as where buttons take none. */
  async typeAndPress() {
    const target = await this.target();
    await this.type();
    if (!target) return;
    this.say(`and at once, without the focus, ${target.name}`);
    await this.page.evaluate((n) => { document.querySelector(`[data-walk="${n}"]`)?.click?.(); }, target.n);
  }

  text() {
    return this.dice.weighed([[3, PLAUSIBLE], [1, HOSTILE]]);
  }

  async type() {
    const inField = await this.page.evaluate(() => document.activeElement?.matches('input:not([type=checkbox], [type=radio], [type=file]), textarea') ?? false);
    if (!inField || this.dice.below(3) === 0) {
      const target = await this.target(true);
      if (!target) return;
      this.say(`focus on ${target.name}`);
      await this.page.evaluate((n) => { document.querySelector(`[data-walk="${n}"]`)?.focus(); }, target.n);
    }
    const text = this.dice.of(this.text());
    const over = this.dice.below(2) === 0;
    this.say(`type ${over ? 'over all ' : ''}${JSON.stringify(text.length > 40 ? `${text.slice(0, 10)}… (${text.length})` : text)}`);
    if (over) await this.page.keyboard.press('Control+a');
    // Long and strange texts are pasted, the others typed.
    if (/^[ -~]{1,20}$/.test(text)) await this.page.keyboard.type(text);
    else await this.page.keyboard.insertText(text);
  }

  async key() {
    const key = this.dice.of(KEYS);
    this.say(`key ${key}`);
    await this.page.keyboard.press(key === ' ' ? 'Space' : key);
  }

  async choose() {
    const list = await this.page.evaluate(() => [...document.querySelectorAll('#app select:not([inert] *)')].filter((list) => list.checkVisibility()).map((list) => [list.id, list.options.length]));
    if (!list.length) return;
    const [id, count] = this.dice.of(list);
    const n = this.dice.below(count);
    this.say(`choose ${n} of ${id}`);
    await this.page.evaluate(([id, n]) => {
      const list = document.getElementById(id);
      if (!list) return;
      list.selectedIndex = n;
      list.dispatchEvent(new Event('change', { bubbles: true }));
    }, [id, n]);
  }

  async history() {
    const way = this.dice.of(['back', 'back', 'forward']);
    this.say(`history ${way}`);
    // Never out of the page: there is nothing of it elsewhere.
    await this.page.evaluate((way) => { if (way === 'back' ? navigation.canGoBack : navigation.canGoForward) history[way](); }, way);
  }

  async goTo() {
    const to = this.dice.of(PLACES);
    this.say(`address ${to}`);
    await this.page.evaluate((to) => { location.hash = to; }, to);
  }

  async typeAndLeave() {
    await this.type();
    await (this.dice.below(2) ? this.history() : this.goTo());
  }

  async resize() {
    const [width, height] = this.dice.of(SIZES);
    this.say(`window ${width} x ${height}`);
    await this.page.setViewportSize({ width, height });
  }

  async said() {
    this.say('press what is said for a while');
    await this.page.evaluate(() => { document.querySelector('.said button')?.click(); });
  }

  /** One step; gives `reload` if a reload is what comes next, which the test does. */
  async step() {
    const kind = this.dice.weighed([
      [26, 'press'], [8, 'touch'], [20, 'type'], [18, 'key'], [6, 'typeAndPress'], [5, 'typeAndLeave'], [3, 'choose'],
      [3, 'history'], [4, 'goTo'], [2, 'resize'], [2, 'said'], [2, 'reload'], [2, 'haste'],
    ]);
    if (kind === 'touch') await this.press(true);
    else if (kind === 'haste') await this.type();
    else if (kind !== 'reload') await this[kind](false);
    return kind;
  }
}
