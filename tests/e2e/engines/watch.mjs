// What a page must never do, seen from within: for engines whose driver tells nothing of it. Both functions run in the page.

/** Begins to watch, as early as the document can be spoken to. Gives false where it is watched already. */
export function watch() {
  if (window.watched) return false;
  const wrong = window.watched = [];
  const note = (what, text) => wrong.push(`${what}: ${text}`);
  addEventListener('error', (event) => note('error', event.message ?? `${event.target?.outerHTML?.slice(0, 120)} did not load`), true);
  addEventListener('unhandledrejection', (event) => note('rejection', event.reason));
  const real = console.error;
  console.error = (...all) => { note('console', all.join(' ')); real.apply(console, all); };
  const refused = (event) => note('refused', `${event.effectiveDirective} ${event.blockedURL ?? event.blockedURI}`);
  document.addEventListener('securitypolicyviolation', refused);
  // What was refused before this began.
  if (window.ReportingObserver) {
    const before = new ReportingObserver((reports, observer) => { reports.forEach(({ body }) => refused(body)); observer.disconnect(); }, { types: ['csp-violation'], buffered: true });
    before.observe();
  }
  return true;
}

/** What was seen so far, with every request of the document to elsewhere. */
export function seen() {
  const elsewhere = performance.getEntriesByType('resource').map(({ name }) => new URL(name)).filter(({ protocol, origin }) => /^(https?|wss?):$/.test(protocol) && origin !== location.origin);
  return [...window.watched ?? ['error: the page was not watched'], ...elsewhere.map(({ href }) => `request to ${href}`)];
}
