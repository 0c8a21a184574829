// A browser with the planner page in it, watched: whatever it logs, asks the network for or trips over is kept.

import { execFileSync } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
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
