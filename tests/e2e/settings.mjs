// What people set who see less: more room between letters and lines, and the colours of the system.

/** The spacing that WCAG 2.2 names (1.4.12). */
const SPACING = '* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; } p { margin-bottom: 2em !important; }';

/** Switches that spacing on or off. It comes by the debugging protocol: the page's own policy allows no style from elsewhere. */
export async function spacing(page) {
  const session = await page.context().newCDPSession(page);
  await session.send('DOM.enable');
  await session.send('CSS.enable');
  const { frameTree } = await session.send('Page.getFrameTree');
  const { styleSheetId } = await session.send('CSS.createStyleSheet', { frameId: frameTree.frame.id });
  return async (on) => {
    await session.send('CSS.setStyleSheetText', { styleSheetId, text: on ? SPACING : '' });
    const spaced = await page.evaluate(() => getComputedStyle(document.querySelector('main')).letterSpacing !== 'normal');
    if (spaced !== on) throw new Error('the spacing did not take hold');
  };
}

/**
 * What nobody could make out in the colours of the system: something to press or to write in without a border, words or a sign;
 * something chosen that looks like what is not; a mark of a picture that the ground swallows. Runs in the page.
 */
export const unseen = () => {
  const faults = [];
  const told = (element) => element.outerHTML.replace(/>.*/s, '>').slice(0, 100);
  const shown = (element) => element.checkVisibility({ visibilityProperty: true, contentVisibilityAuto: true }) && !element.closest('.skip, [inert]');
  const numbers = (colour) => colour.match(/[\d.]+/g).map(Number);
  const ground = numbers(getComputedStyle(document.body).backgroundColor);
  /** The contrast of WCAG between a colour, laid over the ground, and the ground. */
  const contrast = (colour, opacity) => {
    const [r, g, b, a = 1] = numbers(colour);
    const over = [r, g, b].map((part, n) => part * a * opacity + ground[n] * (1 - a * opacity));
    const light = (parts) => parts.map((part) => part / 255).map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4))
      .reduce((sum, part, n) => sum + part * [0.2126, 0.7152, 0.0722][n], 0);
    const [one, other] = [light(over), light(ground)].sort((x, y) => y - x);
    return (one + 0.05) / (other + 0.05);
  };
  const lined = (style, side) => style[`border${side}Style`] !== 'none' && parseFloat(style[`border${side}Width`]) > 0 && contrast(style[`border${side}Color`], 1) >= 3;
  for (const element of document.querySelectorAll('button, a[href], summary, input, select, textarea')) {
    // What lies over a word is pressed by the word; ticks and the like the browser draws itself.
    if (!shown(element) || element.matches('.seg input, [type=checkbox], [type=radio], [type=file]')) continue;
    const style = getComputedStyle(element);
    const outlined = style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 1;
    const field = element.matches('input, select, textarea');
    const words = !field && element.innerText.trim() && contrast(style.color, 1) >= 4.5;
    const before = getComputedStyle(element, '::before');
    const sign = before.maskImage !== 'none' ? contrast(before.backgroundColor, 1) >= 3 : !['none', '""'].includes(before.content) && contrast(before.color, 1) >= 3;
    if (!outlined && !lined(style, 'Bottom') && !words && !sign) faults.push(`cannot be seen: ${told(element)}`);
  }
  for (const element of document.querySelectorAll('.go, button.primary, .toast')) {
    if (shown(element) && !lined(getComputedStyle(element), 'Top')) faults.push(`has no border: ${told(element)}`);
  }
  // Behind words browsers lay the ground, whatever fills the box.
  for (const element of document.querySelectorAll('.toast, .toast button, .seg label, .hits li, .list button')) {
    if (shown(element) && contrast(getComputedStyle(element).color, 1) < 4.5) faults.push(`its words cannot be read: ${told(element)}`);
  }
  /** What a thing is told by, colours and fills apart. */
  const look = (element) => { const style = getComputedStyle(element); return [style.outlineStyle, style.outlineWidth, style.borderTopStyle, style.borderTopWidth].join(); };
  for (const [all, chosen] of [['.seg label', ':has(:checked)'], ['[aria-pressed]', '[aria-pressed=true]'], ['.places a', '[aria-current]'], ['.list button', '[aria-current]'], ['.hits li', '[aria-selected=true]']]) {
    const [is, others] = [[...document.querySelectorAll(all + chosen)], [...document.querySelectorAll(`${all}:not(${chosen})`)]].map((list) => list.filter(shown));
    if (is.length && others.length && look(is[0]) === look(others[0])) faults.push(`looks like the rest: ${told(is[0])}`);
  }
  for (const mark of document.querySelectorAll('.picture :is(.own, .full, .half, .ring, rect.acid:not(.poly, .mono))')) {
    if (!shown(mark)) continue;
    const style = getComputedStyle(mark);
    const drawn = style.fill === 'none' || mark.matches('.own, .ring') ? contrast(style.stroke, Number(style.strokeOpacity)) : contrast(style.fill, Number(style.fillOpacity));
    if (drawn < 3) faults.push(`${drawn.toFixed(1)} : 1 on the ground: ${told(mark)}`);
  }
  return [...new Set(faults)];
};

/** Whether what has the focus shows it, colours and fills apart. Runs in the page. */
export const ring = () => {
  const element = document.activeElement;
  const rings = [element, element.closest('label')].filter(Boolean).map((one) => getComputedStyle(one));
  const seen = rings.some((style) => style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2);
  return seen || element === document.body ? null : element.outerHTML.slice(0, 100);
};
