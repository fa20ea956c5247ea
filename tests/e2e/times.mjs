// What the benchmarks share: times in order, and when a page can be used.
export const sorted = (times) => [...times].sort((a, b) => a - b);
/** The time below which this share of them lies. */
export const at = (times, share) => sorted(times)[Math.min(times.length - 1, Math.floor(times.length * share))];
export const ms = (time) => `${time.toFixed(1).padStart(8)} ms`;

/** Usable: the first field stands in the page and a frame with it was begun. */
export const watch = (context) => context.addInitScript(() => {
  window.usable = new Promise((done) => {
    new MutationObserver((_, observer) => {
      if (!document.querySelector('.share input')) return;
      observer.disconnect();
      requestAnimationFrame(() => done(performance.now()));
    }).observe(document, { childList: true, subtree: true });
  });
});
