// What an independent checker (Lighthouse, its preset for phones: 4x slower, 1.6 Mbit/s) says of a first visit. It tells; it
// does not judge. HP_RUNS: how many visits, of which the median is told.
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import { createRequire } from 'node:module';
import os from 'node:os';
import path from 'node:path';
import { host, pack } from '../host.mjs';

const RUNS = Number(process.env.HP_RUNS ?? 5);
const CATEGORIES = ['performance', 'accessibility', 'best-practices', 'seo'];
const METRICS = ['first-contentful-paint', 'largest-contentful-paint', 'speed-index', 'total-blocking-time', 'cumulative-layout-shift', 'interactive'];
const PROGRAM = path.join(path.dirname(createRequire(import.meta.url).resolve('lighthouse/package.json')), 'cli/index.js');

/** One visit with a profile of its own; the report as Lighthouse writes it. */
const visit = (url) => new Promise((done, fail) => {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'hp-lighthouse-'));
  const file = path.join(folder, 'report.json');
  const child = spawn(process.execPath, [
    PROGRAM, url, '--quiet', '--output=json', `--output-path=${file}`, '--no-enable-error-reporting',
    `--only-categories=${CATEGORIES}`, '--chrome-flags=--headless=new --no-sandbox --disable-gpu --no-first-run --disable-background-networking --disable-component-update --disable-sync',
  ], { stdio: ['ignore', 'inherit', 'inherit'], env: { ...process.env, CHROME_PATH: process.env.CHROMIUM ?? '/usr/bin/chromium' } });
  child.on('error', fail);
  child.on('exit', (code) => {
    const report = code === 0 && JSON.parse(fs.readFileSync(file, 'utf8'));
    fs.rmSync(folder, { recursive: true });
    if (report) done(report); else fail(new Error(`Lighthouse ended with ${code}`));
  });
});

const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];
const row = (what, text) => console.log(`${what.padEnd(28)} ${text}`);

/** What costs points in a category, the dearest first. */
function lost(report, category) {
  return report.categories[category].auditRefs
    .map(({ id, weight }) => ({ weight, ...report.audits[id] }))
    .filter(({ weight, score }) => weight > 0 && score !== null && score < 1)
    .sort((a, b) => b.weight * (1 - b.score) - a.weight * (1 - a.score));
}

const server = await host(pack(process.env.HP_DIST));
try {
  const reports = [];
  for (let n = 0; n < RUNS; n += 1) reports.push(await visit(server.url));
  row('Lighthouse', `${reports[0].lighthouseVersion}, phone, median of ${RUNS}; load of this machine ${os.loadavg()[0].toFixed(1)} on ${os.cpus().length} processors`);
  for (const category of CATEGORIES) {
    const scores = reports.map((report) => Math.round(report.categories[category].score * 100));
    row(category, `${String(median(scores)).padStart(3)}   (${scores.join(', ')})`);
    const middle = reports[scores.indexOf(median(scores))];
    for (const audit of lost(middle, category)) row(`  ${audit.id}`, `${Math.round(audit.score * 100)} of 100 ${audit.displayValue ?? ''} ${audit.details?.items?.length ? JSON.stringify(audit.details.items.slice(0, 3)).slice(0, 400) : ''}`);
  }
  for (const metric of METRICS) row(metric, `${median(reports.map((report) => report.audits[metric].numericValue)).toFixed(metric.endsWith('shift') ? 4 : 0)}`);
} finally {
  server.end();
}
