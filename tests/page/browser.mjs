// A browser with the planner page in it, watched: whatever it logs, asks the network for or trips over is kept.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { after, before } from 'node:test';
import { fileURLToPath, pathToFileURL } from 'node:url';

import { chromium } from 'playwright-core';

export const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
export const program = path.resolve(root, process.env.BUCKETLINE ?? 'target/debug/bucketline');

const FLAGS = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'];

export async function browser() {
  return chromium.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', headless: true, args: FLAGS });
}

/** Writes the page with a scenario (or the one it comes with) and gives its address. */
export function pageFile(scenario) {
  const folder = mkdtempSync(path.join(tmpdir(), 'planner-'));
  execFileSync(program, ['page', ...(scenario === undefined ? [] : [scenario]), '--out', folder], { cwd: root });
  return pathToFileURL(path.join(folder, 'planner.html')).href;
}

/** Opens an address at a size; `seen` collects what must stay empty. */
export async function opened(context, address) {
  const page = await context.newPage();
  const seen = { errors: [], requests: [] };
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) seen.errors.push(message.text());
  });
  page.on('pageerror', (error) => seen.errors.push(String(error)));
  page.on('request', (request) => {
    if (!request.url().startsWith('blob:') && request.url() !== address) seen.requests.push(request.url());
  });
  page.on('worker', (worker) => worker.on('console', (message) => seen.errors.push(message.text())));
  await page.goto(address);
  return { page, seen };
}

/** Waits until the sharpest answer stands there. */
export async function settled(page) {
  await page.waitForFunction(() => document.querySelector('#reasons').dataset.done === 'true' && !document.querySelector('#answer').classList.contains('is-old'), null, { timeout: 60_000 });
}

/** A place of the plan as a box to type into. */
export function slot(page, place) {
  return page.locator(`#sentences input[data-place="${place}"]`).first();
}

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
export const PHONE = { width: 375, height: 667 };
export const DESKTOP = { width: 1280, height: 800 };
export const BARN = 'scenarios/hay_barn_two_tankers.json';

let chrome;
before(async () => {
  chrome = await browser();
});
after(() => chrome.close());

/** A page of its own, with nothing kept from others; nothing may go wrong on it. */
export async function onPage(scenario, viewport, work, options = {}) {
  const context = await chrome.newContext({ viewport, offline: true, hasTouch: viewport.width < 500, ...options });
  const address = pageFile(scenario);
  const { page, seen } = await opened(context, address);
  try {
    await work(page, context, address);
    assert.deepEqual(seen, { errors: [], requests: [] });
  } finally {
    await context.close();
  }
}

export function command(...words) {
  return JSON.parse(execFileSync(program, [...words, '--json'], { cwd: root, encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'], maxBuffer: 1 << 26 }));
}

export async function noViolation(page, where) {
  // Run in the page's own world: its policy lets no script in.
  const found = await page.evaluate(`${axe}; axe.run(document, { resultTypes: ['violations'] })`);
  assert.deepEqual(found.violations.map((one) => `${where}: ${one.id}: ${one.nodes[0].html.slice(0, 160)} ${one.nodes[0].failureSummary}`), []);
}

export const planOf = (page) => page.evaluate(() => Object.values(localStorage).map((one) => JSON.parse(one).doc)[0]);
export const marksOf = (page) => page.locator('#sentences .mistake, #sentences .needed').allTextContents();
export const headlineIs = (page, words) => page.waitForFunction((says) => document.querySelector('#verdict').textContent.includes(says), words, { timeout: 60_000 });
