// A page in a browser that is driven by W3C WebDriver: what a maker does there, by pointer and keys, and what is seen.
import fs from 'node:fs';
import { seen, watch } from './watch.mjs';

const KEYS = {
  Backspace: '\ue003', Tab: '\ue004', Enter: '\ue007', Shift: '\ue008', Control: '\ue009', Alt: '\ue00a', Escape: '\ue00c', Space: ' ',
  End: '\ue010', Home: '\ue011', ArrowLeft: '\ue012', ArrowUp: '\ue013', ArrowRight: '\ue014', ArrowDown: '\ue015', Delete: '\ue017',
};

/** How long a page may take until what is waited for holds. */
const PATIENCE = 20_000;
const GLANCE = 40;

/** Texts pass as they are, patterns as what they are made of. */
const sent = (text) => (text instanceof RegExp ? { source: text.source, flags: text.flags } : text ?? null);

/**
 * Runs in the page: the elements of a selector that can be seen and whose text is this one, or fits this pattern. As a text, so
 * that it can stand before what goes on with them.
 */
const FOUND = `const found = (css, text) => {
  const fits = text && text.source !== undefined ? (of) => new RegExp(text.source, text.flags).test(of) : (of) => text === null || of === text;
  return [...document.querySelectorAll(css)].filter((one) => one.checkVisibility({ visibilityProperty: true }) && fits(one.textContent.trim()));
};`;

export class Page {
  /** `session` as the two functions of `wire.mjs` give it; `log` gives what the driver itself knows of errors. */
  constructor(session, { log = async () => [], close }) {
    this.session = session;
    this.log = log;
    this.close = close;
    this.before = [];
  }

  /** Runs a function in the page with plain values, and waits for what it promises. */
  evaluate(run, ...values) {
    return this.session.send('execute', { script: `${FOUND} return (${run}).apply(null, arguments);`, args: values });
  }

  /** Waits until a function of the page gives something that holds, and gives that. */
  async until(run, ...values) {
    const end = Date.now() + PATIENCE;
    for (;;) {
      // A document that is on its way answers with an error.
      const [value, error] = await this.evaluate(run, ...values).then((result) => [result], (failure) => [null, failure]);
      if (value) return value;
      if (Date.now() > end) throw error ?? new Error(`in vain: ${run} ${JSON.stringify(values)}`);
      await new Promise((done) => setTimeout(done, GLANCE));
    }
  }

  /** Opens an address, in another document than the one that is shown. */
  async open(address) {
    await this.leave();
    await this.session.send('navigate', { url: address });
    await this.arrived();
  }

  async reload() {
    await this.leave();
    // By the page itself: a driver's own way may pass over what is kept offline, as with Shift held.
    await this.evaluate(() => { setTimeout(() => location.reload()); });
    await this.arrived();
  }

  /** What was wrong goes with the document, so it is asked before. */
  async leave() {
    if (await this.evaluate(() => Boolean(window.watched))) this.before.push(...await this.evaluate(seen));
    await this.evaluate(() => { window.left = true; });
  }

  async arrived() {
    await this.until(() => !window.left);
    await this.until(`() => { (${watch})(); return true; }`);
    // The stove stands in no bar of places.
    await this.until(() => document.querySelector('.places [aria-current], .stove-frame') !== null);
  }

  /** All that must never happen and did. */
  async wrong() {
    return [...this.before, ...await this.evaluate(seen), ...await this.log()];
  }

  /** Waits until one can be seen. */
  seen(css, text) {
    return this.until((css, text) => found(css, text).length > 0, css, sent(text));
  }

  /** Waits until none can be seen any more. */
  gone(css, text) {
    return this.until((css, text) => found(css, text).length === 0, css, sent(text));
  }

  /** Presses one with the pointer, once it stands still and nothing lies over it. */
  async click(css, text = null, n = 0) {
    const at = await this.until(async (css, text, n) => {
      const one = found(css, text).at(n);
      if (!one) return null;
      one.scrollIntoView({ block: 'center', inline: 'nearest', behavior: 'instant' });
      const middle = () => {
        const { left, top, width, height } = one.getBoundingClientRect();
        return [Math.round(left + width / 2), Math.round(top + height / 2)];
      };
      const [x, y] = middle();
      await new Promise((done) => setTimeout(done, 60));
      const [later, below] = middle();
      const hit = document.elementFromPoint(x, y);
      const its = hit && (one.contains(hit) || hit.contains(one) && hit.closest('label, summary, button, a') !== null);
      return x === later && y === below && its ? [x, y] : null;
    }, css, sent(text), n);
    const [x, y] = at;
    await this.session.send('actions', {
      actions: [{
        type: 'pointer', id: 'pointer', parameters: { pointerType: 'mouse' },
        actions: [{ type: 'pointerMove', duration: 0, x, y, origin: 'viewport' }, { type: 'pointerDown', button: 0 }, { type: 'pointerUp', button: 0 }],
      }],
    });
  }

  /** Presses keys: `Enter`, `Control+z`, and so many times. */
  async press(keys, times = 1) {
    const held = keys.split('+').map((key) => KEYS[key] ?? key);
    const once = [...held.map((value) => ({ type: 'keyDown', value })), ...held.toReversed().map((value) => ({ type: 'keyUp', value }))];
    await this.keys(Array.from({ length: times }, () => once).flat());
  }

  /** Types a text, key upon key. */
  async type(text) {
    await this.keys([...text].flatMap((value) => [{ type: 'keyDown', value }, { type: 'keyUp', value }]));
  }

  keys(actions) {
    return this.session.send('actions', { actions: [{ type: 'key', id: 'keys', actions }] });
  }

  /** Goes into a field and types over what stands there. */
  async fill(css, text, n = 0) {
    await this.until((css, n) => {
      const field = found(css, null).at(n);
      field?.focus();
      field?.select();
      return Boolean(field) && document.activeElement === field;
    }, css, n);
    if (text) await this.type(text); else await this.press('Backspace');
  }

  textOf(css, n = 0) {
    return this.until((css, n) => found(css, null).at(n)?.textContent.trim(), css, n);
  }

  valueOf(css, n = 0) {
    return this.evaluate((css, n) => document.querySelectorAll(css)[n]?.value, css, n);
  }

  /** What has the focus: its id, or else its text. */
  focused() {
    return this.evaluate(() => document.activeElement?.id || document.activeElement?.textContent.trim().slice(0, 60));
  }

  /** Makes the page, not the window, so many pixels wide and high. */
  async size(width, height) {
    let [more, higher] = [0, 0];
    for (let n = 0; n < 5; n += 1) {
      await this.session.send('window', { width: width + more, height: height + higher });
      await new Promise((done) => setTimeout(done, 100));
      const [wide, high] = await this.evaluate(() => [innerWidth, innerHeight]);
      if (wide === width && high === height) return;
      [more, higher] = [more + width - wide, higher + height - high];
    }
    throw new Error(`the page cannot be made ${width} px wide and ${height} px high`);
  }

  /** A picture of what the window shows, as a file. */
  async screenshot(file) {
    const picture = await this.session.send('screenshot', { full: false });
    fs.writeFileSync(file, Buffer.from(picture, 'base64'));
  }
}
