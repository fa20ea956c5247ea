// Programs that the tests start beside themselves: each ends with the tests, whatever becomes of those.
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import net from 'node:net';
import os from 'node:os';
import path from 'node:path';

const running = new Set();
const folders = new Set();

/** Starts a program in a process group of its own, so that what it starts in turn ends with it. */
export function start(program, args, { env = {}, stdio = 'ignore' } = {}) {
  const child = spawn(program, args, { detached: true, stdio, env: { ...process.env, ...env } });
  child.gone = new Promise((done) => { child.on('exit', done); child.on('error', done); });
  child.gone.then((why) => { child.why = why; });
  running.add(child);
  return child;
}

/** Ends it with all that it started. */
export async function stop(child) {
  kill(child);
  await child.gone;
}

function kill(child) {
  running.delete(child);
  // The group may outlive the program that it is named after, and both may be gone by themselves.
  try { if (child.pid) process.kill(-child.pid, 'SIGKILL'); } catch { /* gone */ }
}

/** A folder that is removed at the end. */
export function folder(name) {
  const made = fs.mkdtempSync(path.join(os.tmpdir(), `hp-${name}-`));
  folders.add(made);
  return made;
}

/** Ends whatever still runs. */
export const stopAll = () => Promise.all([...running].map(stop));

process.on('exit', () => {
  running.forEach(kill);
  for (const one of folders) fs.rmSync(one, { recursive: true, force: true, maxRetries: 3 });
});
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.once(signal, () => process.exit(1));

/** A port that nobody listens on now. */
export async function freePort() {
  const server = net.createServer();
  await new Promise((done) => server.listen(0, '127.0.0.1', done));
  const { port } = server.address();
  await new Promise((done) => server.close(done));
  return port;
}

/** Asks until there is an answer; in vain if the program that is to give it has ended. */
export async function answer(child, ask, what, seconds = 30) {
  const end = Date.now() + seconds * 1000;
  for (;;) {
    const found = await ask();
    if (found) return found;
    if (child.exitCode !== null || child.signalCode !== null || child.pid === undefined) throw new Error(`${what} ended: ${child.why}`);
    if (Date.now() > end) throw new Error(`${what} did not answer within ${seconds} s`);
    await new Promise((done) => setTimeout(done, 50));
  }
}
