// What the cases share: farms in temporary folders, servers on them, a browser,
// and the few words in which a case asks for things.
import assert from 'node:assert/strict';
import { execFileSync, spawn } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

export { assert };
export const TODAY = '2027-03-01';
export const PHONE = { width: 390, height: 844 };
export const DESK = { width: 1280, height: 800 };
const here = dirname(fileURLToPath(import.meta.url));
const axeSource = readFileSync(join(here, 'node_modules/axe-core/axe.min.js'), 'utf8');

const top = mkdtempSync(join(tmpdir(), 'leat-pages-'));
const servers = [];
let port = 8300 + (process.pid % 500);
let leat = '';
export function useLeat(path) { leat = path; }

export function run(...words) {
  return runWith('', ...words);
}
export function runWith(input, ...words) {
  return execFileSync(leat, words, { encoding: 'utf8', input, stdio: ['pipe', 'pipe', 'pipe'] });
}

let planned = null;
/** The demo farm with an accepted plan, once for all cases. */
export function makePlanned() {
  planned = join(top, 'planned');
  run('new', planned);
  run('plan', planned, '--accept', '--no-ceiling', '--moves', '6000', '--today', TODAY);
}
/** A folder with the demo farm and an accepted plan of few moves, or blank. */
export function makeFarm(name, { blank = false } = {}) {
  const dir = join(top, name);
  if (blank) {
    run('new', dir, '--blank');
    return dir;
  }
  if (planned === null) makePlanned();
  cpSync(planned, dir, { recursive: true });
  return dir;
}

/** The server on a folder, listening; on another port where one is taken. */
export async function openFarm(dir, more = []) {
  for (let tries = 0; ; tries++) {
    try {
      return await openAt(dir, ++port, more);
    } catch (error) {
      if (tries === 20 || !/is taken/.test(error.message)) throw error;
    }
  }
}
async function openAt(dir, at, more) {
  const child = spawn(leat, ['open', dir, '--port', String(at), '--today', TODAY, ...more],
    { stdio: ['ignore', 'pipe', 'pipe'] });
  servers.push(child);
  let said = '';
  const url = await new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error(`no server: ${said}`)), 20000);
    const hear = (data) => {
      said += data;
      const found = /https?:\/\/localhost:\d+/.exec(said);
      if (found !== null) { clearTimeout(timer); resolve(found[0]); }
    };
    child.stdout.on('data', hear);
    child.stderr.on('data', hear);
    child.on('exit', (code) => reject(new Error(`server ended with ${code}: ${said}`)));
  });
  return { url, stop: () => child.kill() };
}

let browser = null;
export async function openBrowser() {
  browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-background-networking', '--disable-component-update',
      '--disable-sync', '--disable-dev-shm-usage',
      // A microphone that beeps.
      '--use-fake-device-for-media-stream', '--use-fake-ui-for-media-stream'],
  });
}
export async function closeAll() {
  await browser?.close();
  for (const child of servers) child.kill();
  rmSync(top, { recursive: true, force: true });
}

/** A person with a device of his own; what its pages complain of is kept. */
export async function person(size = PHONE, more = {}) {
  const context = await browser.newContext({
    viewport: size, locale: 'en-GB', reducedMotion: 'reduce', ...more,
  });
  context.setDefaultTimeout(15000);
  const complaints = [];
  context.on('page', (page) => {
    page.on('pageerror', (error) => complaints.push(String(error)));
    page.on('console', (message) => {
      const text = message.text();
      // A refused request is the case's own business; all else is a defect.
      if (message.type() === 'error' && !/Failed to load resource/.test(text)) complaints.push(text);
    });
  });
  return { context, complaints, page: await context.newPage() };
}

export async function goTo(page, url, place) {
  if (page.url().startsWith(url)) {
    await page.evaluate((hash) => { location.hash = hash; }, `#/${place}`);
  } else {
    await page.goto(`${url}/#/${place}`);
  }
  await page.locator('main h1').first().waitFor();
  await settled(page);
}
/** Nothing is being fetched any more. */
export async function settled(page) {
  await page.waitForFunction(() => document.querySelector('main h1') !== null &&
    ![...document.querySelectorAll('main [role=status]')].some((e) => e.textContent === '…' || /^(Fetching|Buscando)/.test(e.textContent)));
}

export async function journal(url, facts = {}) {
  const query = new URLSearchParams({ limit: '1000', ...facts });
  const answer = await fetch(`${url}/api/journal?${query}`);
  assert.equal(answer.status, 200);
  return (await answer.json()).entries;
}
/** Waits until the journal holds what is asked for. */
export async function untilTold(url, is, what) {
  for (let i = 0; i < 150; i++) {
    const found = (await journal(url)).filter(is);
    if (found.length > 0) return found;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`the journal never told: ${what}`);
}
export const api = async (url, path) => (await fetch(url + path)).json();

/** Violations of WCAG 2.2 A and AA that axe-core finds, in a few words. */
export async function violations(page) {
  await page.evaluate(axeSource);
  const found = await page.evaluate(() => globalThis.axe.run(document, {
    runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
  }));
  return found.violations.map((v) => `${v.id}: ${v.nodes.slice(0, 3).map((n) => n.html.slice(0, 160)).join(' | ')}`);
}
/** The widest overflow of the page beyond its window, px. */
export const overflow = (page) =>
  page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
/** Controls under 48 px, text links inside sentences apart. */
export const smallTargets = (page) => page.evaluate(() => {
  const asked = 'button, .button, .tile, .doors a, .nav a, select, summary, .stopped, input:not([type=checkbox]):not([type=file])';
  return [...document.querySelectorAll(asked)].filter((e) => {
    const box = e.getBoundingClientRect();
    return box.width > 0 && box.height > 0 && (box.height < 47.5 || box.width < 47.5) && !e.closest('svg');
  }).map((e) => `${e.tagName} ${e.className} ${e.textContent.slice(0, 20)} ${Math.round(e.getBoundingClientRect().width)}x${Math.round(e.getBoundingClientRect().height)}`);
});

export function shotFolder() {
  const folder = process.env.SHOTS;
  if (folder !== undefined) mkdirSync(folder, { recursive: true });
  return folder;
}
export async function shoot(page, name) {
  const folder = shotFolder();
  if (folder !== undefined) await page.screenshot({ path: join(folder, `${name}.png`) });
}
