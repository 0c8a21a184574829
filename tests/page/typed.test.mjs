// What is typed on the planner page, and what a tap does to the plan, in a browser.

import assert from 'node:assert/strict';
import { test } from 'node:test';

import { BARN, DESKTOP, PHONE, headlineIs, marksOf, onPage, planOf, settled, slot } from './browser.mjs';

const SITES = 'scenarios/sawmill_two_fill_sites.json';
const AID = 'scenarios/feed_mill_mutual_aid.json';
const isTold = (page, says) => page.waitForFunction((words) => document.querySelector('#notice').textContent.includes(words), says);

test('how a time varies is typed as it is shown, and what cannot be read says how', async () => {
  await onPage(BARN, DESKTOP, async (page) => {
    await settled(page);
    const box = page.locator('[data-row="attack_engine"] .sentence input').nth(2);
    const type = async (words) => {
      await box.fill(words);
      await box.press('Tab');
      return (await planOf(page)).attack_engine.response;
    };
    assert.deepEqual(await type('11 ±20%'), { mean: 11, cv: 0.2 });
    assert.equal(await box.inputValue(), '11');
    assert.ok((await page.locator('[data-row="attack_engine"] .sentence').textContent()).includes('(±20%)'));
    assert.deepEqual(await type('12'), { mean: 12, cv: 0.2 }, 'a new middle keeps how it varies');
    assert.deepEqual(await type('10 to 14'), { low: 10, high: 14 });
    assert.equal(await box.inputValue(), '10 to 14');
    await settled(page);
    assert.deepEqual(await type('10-14'), { low: 10, high: 14 });
    assert.deepEqual(await type('~11'), { value: 11, guess: true });
    await settled(page);
    await box.fill('11 or so');
    await headlineIs(page, 'one mistake to put right');
    assert.match((await marksOf(page)).join(), /A time that varies is typed as 11 ±15%, 10 to 14, or 4 \(3 to 8\)\./);
    assert.equal(await box.getAttribute('aria-invalid'), 'true');
  });
});

test('a plan in which nothing varies takes the usual spread, and gives it back', async () => {
  await onPage(BARN, PHONE, async (page) => {
    await settled(page);
    await page.evaluate(() => localStorage.clear());
    const plain = (value) => (value === null || typeof value !== 'object' ? value : Array.isArray(value) ? value.map(plain) : (value.mean ?? value.likely ?? Object.fromEntries(Object.entries(value).filter(([key]) => key !== 'cv').map(([key, one]) => [key, plain(one)]))));
    const doc = plain(JSON.parse(await page.evaluate(() => JSON.parse(document.querySelector('#scenario-data').textContent).text)));
    await page.setInputFiles('#file', { name: 'plain.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(doc)) });
    await settled(page);
    await page.getByRole('button', { name: 'Usual spread', exact: true }).click();
    await isTold(page, 'judgement, no measurement');
    await settled(page);
    assert.equal(await page.getByRole('button', { name: 'Usual spread', exact: true }).count(), 0);
    const spread = await planOf(page);
    assert.deepEqual([spread.tankers[0].response, spread.fill_sites[0].out.cv, spread.whole_fire], [{ mean: 11, cv: 0.15 }, 0.15, { driving_cv: 0.1, handling_cv: 0.15, response_cv: 0.15 }]);
    await page.getByRole('button', { name: 'Undo' }).click();
    assert.deepEqual(await planOf(page), doc);
  });
});

test('each fill site alone and all of them stand side by side', async () => {
  await onPage(SITES, PHONE, async (page) => {
    await page.getByLabel('Simulate').selectOption('1000');
    await settled(page);
    await page.getByRole('button', { name: 'Which site?' }).click();
    await page.waitForFunction(() => document.querySelector('#asking > [data-done="true"] h3') !== null, null, { timeout: 120_000 });
    assert.match(await page.locator('#asking h3.title').textContent(), /alone.*fires of 100; with all of them in /);
    const rows = await page.locator('#asking tbody tr').evaluateAll((all) => all.map((row) => [...row.children].map((cell) => cell.textContent)));
    assert.equal(rows.length, 3);
    // All of them is the plan itself: the figure of the answer at the top.
    const headline = await page.locator('#dots svg').getAttribute('aria-label');
    assert.ok(headline.includes(`run short in ${rows[2][1]}:`), `${headline} ${rows[2]}`);
    // One struck out is what the other does alone.
    await page.locator('[data-row="fill_sites[1]"]').getByRole('button', { name: 'Strike out' }).click();
    await settled(page);
    await page.waitForFunction(() => document.querySelector('#asking').textContent.includes('only one fill site'));
    assert.ok((await page.locator('#dots svg').getAttribute('aria-label')).includes(`run short in ${rows[0][1]}:`));
  });
});

test('whom the page would ask comes into the plan at a tap', async () => {
  await onPage(AID, DESKTOP, async (page) => {
    await page.getByLabel('Simulate').selectOption('5000');
    await settled(page);
    const target = page.locator('#asking').getByRole('combobox');
    await page.getByRole('button', { name: 'Whom do we ask, and when?' }).click();
    await target.selectOption('20');
    await page.waitForFunction(() => document.querySelector('#asking > [data-done="true"] h3') !== null, null, { timeout: 120_000 });
    const before = await planOf(page);
    await page.locator('#asking').getByRole('button', { name: 'Put them in the plan' }).click();
    await isTold(page, 'In the plan now');
    const after = await planOf(page);
    assert.ok(after.tankers.length > before.tankers.length && after.tankers.every((row, place) => place < before.tankers.length || row.requested_at !== undefined || row.alarm !== undefined));
    await page.getByRole('button', { name: 'Undo' }).click();
    assert.deepEqual(await planOf(page), before);
  });
});

test('a row that moved says where it went, a copied one what is not its own yet, and a step back what it took back', async () => {
  await onPage(BARN, PHONE, async (page) => {
    await settled(page);
    await page.locator('[data-row="tankers[1]"]').getByRole('button', { name: 'Only if asked for' }).click();
    await isTold(page, 'Tanker 5 stands under "Who could be asked for" now.');
    await page.locator('#notice').getByRole('button', { name: 'Show it' }).click();
    assert.equal(await page.evaluate(() => document.activeElement.dataset.place), 'aid[0].name');
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.getByRole('button', { name: 'Another tanker' }).click();
    const row = page.locator('[data-row="tankers[2]"]');
    assert.ok((await row.textContent()).includes('copied from the one above'));
    assert.equal(await row.locator('.is-copied').count(), 2);
    await slot(page, 'tankers[2].capacity').fill('2000');
    assert.equal(await row.locator('.is-copied').count(), 1);
    await slot(page, 'tankers[2].response.mean').fill('9');
    assert.ok(!(await row.textContent()).includes('copied from'));
    await page.getByRole('button', { name: 'Undo' }).click();
    await isTold(page, 'Taken back: Tanker 4: on scene in, min, is 13.');
  });
});

test('a number that may be read two ways is asked about, and what nobody means is told at once', async () => {
  await onPage(BARN, PHONE, async (page) => {
    await settled(page);
    await page.getByRole('button', { name: 'Empty plan' }).click();
    await headlineIs(page, 'No answer yet');
    await slot(page, 'tankers[0].capacity').fill('2.400');
    await slot(page, 'tankers[0].capacity').press('Enter');
    assert.equal(await page.evaluate(() => document.activeElement.dataset.place), 'tankers[0].response', 'Enter goes on');
    await page.waitForFunction(() => document.querySelector('[data-row="tankers[0]"] .two-ways')?.textContent.includes('Was 2,400 meant?'));
    await page.getByRole('button', { name: 'It is 2,400' }).click();
    assert.equal((await planOf(page)).tankers[0].capacity, 2400);
    await slot(page, 'fill_sites[0].out.miles').fill('200');
    await page.waitForFunction(() => /very far to haul water/.test(document.querySelector('[data-row="fill_sites[0]"] .marks').textContent));
    assert.equal(await page.locator('[data-row="fill_sites[0]"] .warned').count(), 1);
    await slot(page, 'attack_engine.tank').fill('60');
    await page.waitForFunction(() => /no fire engine's tank/.test(document.querySelector('[data-row="attack_engine"] .marks').textContent));
    assert.ok((await page.locator('[data-row="supply"] .sentence').textContent()).includes('no drop tank'));
  });
});

test('the mark at which the crew backs out stands on the engine, and the minute stands by the handle and over the tankers', async () => {
  await onPage(BARN, PHONE, async (page) => {
    await settled(page);
    await page.getByRole('slider', { name: 'Minute after the alarm' }).fill('21');
    assert.equal(await page.locator('.back-out').count(), 1);
    // 400 of 1,250 gal.
    assert.equal(await page.locator('.back-out').evaluate((one) => one.style.bottom), '32%');
    assert.equal(await page.locator('#fire .minute').textContent(), 'Minute 21.0');
    assert.ok((await page.getByRole('heading', { name: /^Who is where/ }).textContent()).includes('minute 21.0'));
  });
});

test('a row that is only being written down takes nothing from the answer, and is kept', async () => {
  await onPage('scenarios/feed_mill_mutual_aid.json', DESKTOP, async (page) => {
    await settled(page);
    const verdict = await page.locator('#verdict').textContent();
    await page.getByRole('button', { name: 'A tanker that could be asked for' }).click();
    await slot(page, 'aid[5].capacity').fill('');
    await settled(page);
    assert.equal(await page.locator('#verdict').textContent(), verdict);
    assert.match(await page.locator('[data-row="aid[5]"] .marks').textContent(), /^Nobody to ask yet/);
    const kept = await page.evaluate(() => Object.values(localStorage).map((one) => JSON.parse(one).doc)[0]);
    assert.equal(kept.aid.length, 6);
  });
});

test('how often one comes is typed as it is said, and the limit of a question outlives the page', async () => {
  await onPage('scenarios/feed_mill_mutual_aid.json', DESKTOP, async (page) => {
    await settled(page);
    await page.getByRole('button', { name: 'A tanker that could be asked for' }).click();
    const often = slot(page, 'aid[5].turnout');
    await often.fill('3/4');
    await often.press('Tab');
    const doc = () => page.evaluate(() => Object.values(localStorage).map((one) => JSON.parse(one))[0]);
    assert.equal((await doc()).doc.aid[5].turnout, 0.75);
    assert.equal(await often.inputValue(), '75');
    await page.locator('#asking').getByRole('button', { name: 'Whom do we ask, and when?' }).click();
    await page.getByLabel('The lines may run short in').selectOption('20');
    assert.equal((await doc()).settings.target, 20);
    await page.reload();
    await settled(page);
    await page.locator('#asking').getByRole('button', { name: 'Whom do we ask, and when?' }).click();
    assert.equal(await page.getByLabel('The lines may run short in').inputValue(), '20');
  });
});
