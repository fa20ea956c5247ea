// What a page shows, read from outside of the program: its fields, and its sum reckoned once more.

/** Units of a percent: a millionth. */
const WHOLE = 100_000_000n;

/** A typed percent in millionths, in plain forms only; null for every other text. */
export function millionths(text) {
  const found = text.trim().replace(/\s*%$/, '').match(/^(\d{0,3})(?:[.,](\d{0,6}))?$/);
  if (!found || !(found[1] || found[2])) return null;
  return BigInt(found[1] || '0') * 1_000_000n + BigInt((found[2] ?? '').padEnd(6, '0'));
}

/** Reads the sum with all that it is made of, in the page. */
export const readSum = () => {
  const total = document.querySelector('.total');
  if (!total) return null;
  return {
    text: total.querySelector('strong').textContent,
    shares: [...document.querySelectorAll('.line .share')].map((share) => ({ text: share.querySelector('input').value, fills: !share.querySelector('.fills').hidden })),
  };
};

/**
 * What is wrong with a sum that the page calls whole, reckoned in integers from the shares that it shows. Null if nothing is, or
 * if a share was typed in a form that is not read here; `seen` counts those that were looked at.
 */
export function wrongSum(sum, seen) {
  // With an unread share it says 'so far', and 'short' or 'over' where the hundred is missed.
  if (!sum || /[a-z]/.test(sum.text)) return null;
  // A line in which nothing was typed counts nothing.
  const shares = sum.shares.filter(({ text }) => text.trim() !== '').map(({ text, fills }) => [millionths(text), fills, text]);
  if (shares.some(([share, fills]) => share === null && !fills)) return null;
  const fillUps = shares.filter(([, fills]) => fills).length;
  if (shares.some(([share]) => share === null)) return null;
  seen.count += 1;
  const total = shares.reduce((all, [share]) => all + share, 0n);
  if (fillUps > 1) return `${fillUps} lines fill up`;
  if (total !== WHOLE) return `${shares.map(([, , text]) => text).join(' + ')} is ${total} millionths, and the page says ${sum.text}`;
  return millionths(sum.text) === WHOLE ? null : `the page calls ${sum.text} whole`;
}

/**
 * Every field of the place that is kept: texts, and the choices of formula, plan, lye and papers. What is the browser's own
 * business (searches, forms that note something on a press) is left out. Lines and phases are known by their places: their
 * numbers may be others after a reload. Runs in the page.
 */
export const readFields = () => {
  const all = {};
  const places = (of) => [...document.querySelectorAll(of)];
  const [lines, phases, hands] = [places('.line'), places('.formula .phase'), places('[id^="hand-"]:is(input)')];
  // A lot of which nothing was entered is not kept.
  const lot = (field) => field.id.match(/^lot-\d+-/)?.[0];
  const entered = [...new Set(places('[id^="lot-"]').filter((field) => lot(field) && field.value.trim()).map(lot))];
  const name = (field) => {
    const kind = field.id.replace(/\d+/g, '#');
    const [line, phase] = [lines.indexOf(field.closest('.line')), phases.indexOf(field.closest('.phase'))];
    if (line >= 0) return `line ${line} ${kind}`;
    if (phase >= 0) return `phase ${phase} ${kind}`;
    if (lot(field)) return `lot ${entered.indexOf(lot(field))} ${field.id.slice(lot(field).length)}`;
    return hands.includes(field) ? `in hand ${hands.indexOf(field)}` : field.id;
  };
  for (const field of document.querySelectorAll('#app input, #app textarea, #use, #area, #audience, #pack, #region, .plan select, .lye select, .paper-side select')) {
    if (!field.id || field.readOnly || ['checkbox', 'radio', 'file'].includes(field.type)) continue;
    if (field.matches('input[data-local], [data-local] *')) continue;
    if (lot(field) && !entered.includes(lot(field))) continue;
    // What answers a finding stands and falls with it, and findings follow a moment later.
    const answers = /^(reason|person)-/.test(field.id);
    if (answers && document.querySelector('#findings')?.getAttribute('aria-busy') !== 'false') continue;
    // The field of a remark comes by itself only where there is one.
    if (/^note-\d+$/.test(field.id) && !field.value.trim()) continue;
    // Blanks alone are nothing typed.
    all[name(field)] = field.value.trim() && field.value;
  }
  // What is open over the page, and what is in hand: a reload closes the one and lays down the other.
  const over = document.querySelector('#overlay-title')?.textContent ?? null;
  const acts = document.querySelector('.acts[role=group]:not(.families)');
  const hand = acts && { line: lines.indexOf(acts.closest('.line')), phase: phases.indexOf(acts.closest('.phase')) };
  return { over, hand, entry: document.querySelector('.entry #entry-title')?.textContent ?? null, place: location.hash, fields: all };
};
