// What of a page's words is cut off, or stands over other words. Runs in the page.

/**
 * Faults of what is shown: a page that must be scrolled sideways, words that a box cuts off, words that stand on others.
 * Where something lies over the page, that alone is looked at.
 */
export const cut = () => {
  const over = document.querySelector('.overlay');
  const root = over ?? document.body;
  const faults = [document.documentElement, ...document.querySelectorAll('.overlay')]
    .filter((one) => one.scrollWidth > one.clientWidth)
    .map((one) => `${one.scrollWidth - one.clientWidth} px too wide: ${one.className || 'the page'}`);
  // What stays in sight while the rest is scrolled below it, and what opens over the rest.
  const LAYERS = '.top, .bar, .places, .said, .overlay > header, .entry > header, .menu > div, .hits, .crash, .late';
  /** Read by programs alone, or a width that is only held free. */
  const UNSEEN = '.skip, .ghost, .print-only, noscript, script, option, .seg input, svg';
  const styles = new Map();
  const style = (element) => {
    if (!styles.has(element)) styles.set(element, getComputedStyle(element));
    return styles.get(element);
  };
  /** Told in one line, on purpose, of what a press shows whole: substances of a row, what the formula is for. */
  const SHORT = '.line:not(.in-hand) .inci, .who small, .about';
  /** Which of its axes a box cuts (hidden) and which it only scrolls. */
  const clips = (element) => {
    const { overflowX, overflowY, contentVisibility, contain } = style(element);
    const paints = contentVisibility === 'auto' || /paint|content|strict/.test(contain);
    const of = (overflow) => (['hidden', 'clip'].includes(overflow) || (paints && overflow === 'visible') ? 'cuts' : overflow === 'visible' ? '' : 'scrolls');
    return [of(overflowX), of(overflowY)];
  };
  const told = (element) => element.outerHTML.replace(/>.*/s, '>').slice(0, 90);
  const silent = (element) => { for (let one = element; one; one = one.parentElement) if (style(one).clipPath.startsWith('inset(50%')) return true; return false; };
  const seen = (element) => !element.closest(UNSEEN) && !silent(element) && element.checkVisibility({ visibilityProperty: true, contentVisibilityAuto: true });

  /** What is left of a rectangle within the boxes around it; a fault for the first that cuts words. */
  const within = (rect, from, words) => {
    const left = { left: rect.left, top: rect.top, right: rect.right, bottom: rect.bottom };
    let [scrolledX, reported] = [false, false];
    for (let box = from; box && box !== document.documentElement; box = box.parentElement) {
      const [x, y] = clips(box);
      if (x || y) {
        const edge = box.getBoundingClientRect();
        const cutX = x === 'cuts' && !scrolledX && (left.right > edge.right + 1.5 || left.left < edge.left - 1.5);
        // A line of text is higher than its letters: a fifth of it may go.
        const slack = 1.5 + (rect.bottom - rect.top) * 0.2;
        const cutY = y === 'cuts' && (left.bottom > edge.bottom + slack || left.top < edge.top - slack);
        if ((cutX || cutY) && words && !reported && !(cutX && box.matches(SHORT))) {
          faults.push(`cut off: "${words.slice(0, 40)}" in ${told(box)}`);
          reported = true;
        }
        if (x) { left.left = Math.max(left.left, edge.left); left.right = Math.min(left.right, edge.right); }
        if (y) { left.top = Math.max(left.top, edge.top); left.bottom = Math.min(left.bottom, edge.bottom); }
        scrolledX ||= x === 'scrolls';
      }
      if (style(box).position === 'fixed') break;
    }
    if (words && !scrolledX && (left.right > innerWidth + 1.5 || left.left < -1.5)) faults.push(`beside the window: "${words.slice(0, 40)}" in ${told(from)}`);
    return left;
  };

  const shown = [];
  const add = (element, rect, words) => {
    if (rect.width < 1 || rect.height < 1) return;
    const left = within(rect, element, words);
    // Letters take about the middle half of their line.
    const quarter = (rect.bottom - rect.top) / 4;
    const box = { left: left.left + 1, right: left.right - 1, top: Math.max(left.top, rect.top + quarter), bottom: Math.min(left.bottom, rect.bottom - quarter) };
    if (box.right > box.left && box.bottom > box.top) shown.push({ ...box, element, words, layer: element.closest(LAYERS) });
  };
  const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
  for (let text = walker.nextNode(); text; text = walker.nextNode()) {
    const words = text.data.trim();
    if (!words || !seen(text.parentElement)) continue;
    const range = document.createRange();
    range.selectNodeContents(text);
    for (const rect of range.getClientRects()) add(text.parentElement, rect, words);
  }
  const boxes = [...root.querySelectorAll('button:not(.about, .add-line), a[href], summary, select, .fills')].filter(seen)
    .map((element) => ({ element, layer: element.closest(LAYERS), box: within(element.getBoundingClientRect(), element.parentElement) }));
  const pen = document.createElement('canvas').getContext('2d');
  // What is typed scrolls within its field; that nothing else stands on it is looked at.
  for (const field of root.querySelectorAll('input:not([type=checkbox], [type=radio], [type=file]), textarea, select')) {
    if (!seen(field)) continue;
    const [box, pad] = [field.getBoundingClientRect(), style(field)];
    const side = (name) => parseFloat(pad[`padding${name}`]) + parseFloat(pad[`border${name}Width`]);
    const rect = { left: box.left + side('Left'), right: box.right - side('Right'), top: box.top + side('Top'), bottom: box.bottom - side('Bottom') };
    // The words alone, where they leave room in the field.
    pen.font = pad.font;
    pen.letterSpacing = pad.letterSpacing;
    pen.wordSpacing = pad.wordSpacing;
    const words = Math.max(pen.measureText(field.value ?? '').width, 1);
    if (field.tagName === 'INPUT') rect[pad.textAlign === 'right' ? 'left' : 'right'] = pad.textAlign === 'right' ? Math.max(rect.left, rect.right - words) : Math.min(rect.right, rect.left + words);
    add(field, { ...rect, width: rect.right - rect.left, height: rect.bottom - rect.top }, field.value || field.id);
  }
  for (const { element, layer, box } of boxes) {
    for (const one of shown) {
      if (one.layer !== layer || element.contains(one.element) || one.element.contains(element)) continue;
      if (Math.min(one.right, box.right) - Math.max(one.left, box.left) > 2 && Math.min(one.bottom, box.bottom) - Math.max(one.top, box.top) > 2) faults.push(`on a button: "${one.words.slice(0, 30)}" on ${told(element)}`);
    }
  }
  shown.sort((a, b) => a.top - b.top);
  shown.forEach((one, n) => {
    for (let m = n + 1; m < shown.length && shown[m].top < one.bottom; m += 1) {
      const other = shown[m];
      if (other.element === one.element || other.layer !== one.layer) continue;
      const wide = Math.min(one.right, other.right) - Math.max(one.left, other.left);
      const high = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
      if (wide > 2 && high > 2) faults.push(`on each other: "${one.words.slice(0, 30)}" and "${other.words.slice(0, 30)}" in ${told(other.element)}`);
    }
  });
  return [...new Set(faults)];
};
