// Pictures for the tests, made in the page or byte by byte, and what the page keeps of them.
import { bring, go, saved } from './page.mjs';
import fs from 'node:fs';

/** A study of a batch with a target pH, begun today. */
export async function begin(page) {
  const file = JSON.parse(fs.readFileSync(new URL('../formats/version-1-methods.json', import.meta.url), 'utf8'));
  file.records[0].entries.pop();
  file.records[0].made_from.formula.target_ph = '5.2';
  await bring(page, file);
  await go(page, 'Proof');
  await page.getByRole('button', { name: 'Begin the study' }).click();
  await page.locator('.pulls button').first().waitFor();
  await saved(page);
}

/** A jar with cream in it, of a colour and a size, as a JPEG file; `noise` makes it as large as a camera's. */
export const jar = async (page, { width = 1600, height = 1200, cream = '#efe3c8', noise = false, halves = null } = {}) => Buffer.from(await page.evaluate(
  ([width, height, cream, noise, halves]) => {
    const canvas = Object.assign(document.createElement('canvas'), { width, height });
    const pen = canvas.getContext('2d');
    pen.fillStyle = '#7d8a86';
    pen.fillRect(0, 0, width, height);
    const round = (x, y, w, h, colour) => { pen.fillStyle = colour; pen.beginPath(); pen.ellipse(width * x, height * y, width * w, height * h, 0, 0, 7); pen.fill(); };
    round(0.5, 0.55, 0.38, 0.4, '#f8f8f6');
    round(0.5, 0.52, 0.33, 0.34, cream);
    round(0.42, 0.45, 0.1, 0.06, 'rgba(255,255,255,.5)');
    if (halves) halves.forEach((colour, n) => { pen.fillStyle = colour; pen.fillRect(n * width / 2, 0, width / 2, height); });
    if (noise) {
      const pixels = pen.getImageData(0, 0, width, height);
      for (let n = 0; n < pixels.data.length; n += 1) if (n % 4 < 3) pixels.data[n] = Math.random() * 255;
      pen.putImageData(pixels, 0, 0);
    }
    return canvas.toDataURL('image/jpeg', 0.95).split(',')[1];
  },
  [width, height, cream, noise, halves],
), 'base64');

/** The same file as a phone writes it: how it was held, where, and words that must not be found again (Exif 2.3, memory). */
export function fromCamera(jpeg, orientation) {
  const words = Buffer.from('HOMEADDRESS 59.91 N\0');
  const entry = (tag, type, count, value) => { const one = Buffer.alloc(12); one.writeUInt16BE(tag, 0); one.writeUInt16BE(type, 2); one.writeUInt32BE(count, 4); value(one); return one; };
  const short = (n) => (one) => one.writeUInt16BE(n, 8);
  const long = (n) => (one) => one.writeUInt32BE(n, 8);
  const first = [entry(0x010e, 2, words.length, long(8 + 2 + 3 * 12 + 4)), entry(0x0112, 3, 1, short(orientation)), entry(0x8825, 4, 1, long(8 + 2 + 3 * 12 + 4 + words.length))];
  const degrees = Buffer.alloc(24);
  [59, 1, 54, 1, 36, 1].forEach((n, at) => degrees.writeUInt32BE(n, at * 4));
  const gpsAt = 8 + 2 + 36 + 4 + words.length;
  const gps = [entry(1, 2, 2, (one) => one.write('N\0', 8)), entry(2, 5, 3, long(gpsAt + 2 + 24 + 4))];
  const count = (n) => { const two = Buffer.alloc(2); two.writeUInt16BE(n); return two; };
  const none = Buffer.alloc(4);
  const tiff = Buffer.concat([Buffer.from('MM\0*\0\0\0\x08', 'latin1'), count(3), ...first, none, words, count(2), ...gps, none, degrees]);
  const inside = Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff]);
  const segment = Buffer.concat([Buffer.from([0xff, 0xe1]), count(inside.length + 2), inside]);
  const note = Buffer.concat([Buffer.from([0xff, 0xfe]), count(2 + 8), Buffer.from('at home!')]);
  return Buffer.concat([jpeg.subarray(0, 2), segment, note, jpeg.subarray(2)]);
}

export const pull = (page, name) => page.locator('.pulls').getByRole('button', { name });
/** Gives the form that is open a file, and waits for the preview. */
export async function choose(page, buffer, input = '#photograph-choose') {
  await page.locator(input).setInputFiles({ name: 'photo.jpg', mimeType: 'image/jpeg', buffer });
  await page.locator('.shot-preview').waitFor();
}
export const keep = (page) => page.getByRole('button', { name: 'Keep this photograph' }).click();
/** Opens a pull, keeps a photograph in it and leaves it. */
export async function photograph(page, name, buffer, caption = '') {
  await pull(page, name).click();
  await choose(page, buffer);
  if (caption) await page.locator('#photograph-caption').fill(caption);
  await keep(page);
  await page.locator('.shot-preview').waitFor({ state: 'detached' });
  await page.locator('.pull-form').getByRole('button', { name: 'Cancel' }).click();
  await page.locator('.pull-form').waitFor({ state: 'detached' });
  await saved(page);
}

/** What the store of photographs has: by name, the digest of the bytes that lie there, and the bytes in base64. */
export const stored = (page) => page.evaluate(async () => {
  const done = (request) => new Promise((resolve, reject) => { request.onsuccess = () => resolve(request.result); request.onerror = () => reject(request.error); });
  if (!(await indexedDB.databases()).some(({ name }) => name === 'hundred-parts-photographs')) return {};
  const database = await done(indexedDB.open('hundred-parts-photographs'));
  const store = database.transaction('bytes').objectStore('bytes');
  const [keys, all] = [done(store.getAllKeys()), done(store.getAll())];
  const found = {};
  for (const [n, bytes] of (await all).entries()) {
    const hex = [...new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))].map((byte) => byte.toString(16).padStart(2, '0')).join('');
    found[(await keys)[n]] = { digest: hex, base64: btoa([...bytes].map((byte) => String.fromCharCode(byte)).join('')) };
  }
  database.close();
  return found;
});

/** The digests that entries of stored studies name. */
export const named = (page) => page.evaluate(async () => {
  const done = (request) => new Promise((resolve) => { request.onsuccess = () => resolve(request.result); });
  const database = await done(indexedDB.open('hundred-parts'));
  const bodies = await done(database.transaction('bodies').objectStore('bodies').getAll());
  database.close();
  const studies = bodies.map((text) => JSON.parse(text)).filter(({ record }) => record?.entries?.[0]?.event === 'study-begun');
  return studies.flatMap(({ record }) => record.entries.filter(({ event }) => event === 'photographed').map(({ sha256 }) => sha256));
});

/** Width, height and some pixels of bytes, by the browser's own reader. */
export const looked = (page, base64, at) => page.evaluate(async ([base64, at]) => {
  const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
  const picture = await createImageBitmap(new Blob([bytes], { type: 'image/jpeg' }));
  const canvas = Object.assign(document.createElement('canvas'), { width: picture.width, height: picture.height });
  const pen = canvas.getContext('2d');
  pen.drawImage(picture, 0, 0);
  return { width: picture.width, height: picture.height, pixels: at.map(([x, y]) => [...pen.getImageData(x * picture.width, y * picture.height, 1, 1).data].slice(0, 3)) };
}, [base64, at]);
