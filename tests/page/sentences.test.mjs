// The plan as sentences, in a browser: what is filled in, named, moved, struck out and bought.

import assert from 'node:assert/strict';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { test } from 'node:test';

import { BARN, DESKTOP, command, headlineIs, marksOf, onPage, planOf, settled, slot } from './browser.mjs';

/** An empty plan, in which the words of the headline say how much is missing. */
async function onEmpty(work, viewport = DESKTOP) {
  await onPage(undefined, viewport, async (page) => {
    await settled(page);
    await page.getByRole('button', { name: 'Empty plan' }).click();
    await page.waitForFunction(() => document.querySelector('#verdict').textContent.startsWith('No answer yet'));
    await work(page);
  });
}

test('an empty plan counts each missing thing once and asks for none in words of the file', async () => {
  await onEmpty(async (page) => {
    await headlineIs(page, '8 things still to fill in');
    const marks = await marksOf(page);
    assert.equal(marks.length, 8, marks.join('\n'));
    for (const one of marks) assert.match(one, /^Still to fill in: [^`]+\.$/);
    await page.locator('select[data-place="units"]').selectOption('metric');
    await headlineIs(page, '8 things still to fill in');
    assert.equal(await slot(page, 'fill_sites[0].out.km').getAttribute('aria-invalid'), 'true');
    assert.ok((await marksOf(page)).every((one) => !/mile/i.test(one)), (await marksOf(page)).join('\n'));
    await page.getByRole('button', { name: 'Show the first' }).click();
    assert.equal(await page.evaluate(() => document.activeElement.dataset.place), 'title');
  });
});

test('another step keeps the flow that was just typed', async () => {
  await onEmpty(async (page) => {
    await slot(page, 'incident.attack_flow').fill('150');
    await page.getByRole('button', { name: 'Another step' }).click();
    assert.deepEqual((await planOf(page)).incident.attack_flow, [{ from: 0, flow: 150 }, { from: 5, flow: 150 }]);
    assert.equal(await slot(page, 'incident.attack_flow[0].flow').inputValue(), '150');
  });
});

test('another engine drafts with the same time to hook up, and when it comes is asked for', async () => {
  await onPage(BARN, DESKTOP, async (page) => {
    await settled(page);
    const before = await planOf(page);
    await page.getByRole('button', { name: 'Another engine drafts' }).click();
    await headlineIs(page, 'No answer yet: one thing still to fill in.');
    const { supply } = await planOf(page);
    assert.deepEqual(supply.engine, { name: 'Supply engine', setup: before.supply.setup });
    assert.equal(supply.setup, undefined);
    assert.equal(await slot(page, 'supply.engine.response').inputValue(), '');
    await slot(page, 'supply.engine.response').fill('12');
    await settled(page);
    await page.getByRole('button', { name: 'The attack engine drafts itself' }).click();
    await settled(page);
    assert.deepEqual((await planOf(page)).supply, before.supply);
  });
});

test('marks stay when more is shown of anything', async () => {
  await onEmpty(async (page) => {
    await slot(page, 'incident.duration').fill('0');
    await headlineIs(page, 'one mistake to put right');
    const before = await marksOf(page);
    for (const about of ['the fire', 'the draft']) {
      await page.getByRole('button', { name: `More about ${about}` }).click();
      assert.deepEqual(await marksOf(page), before, about);
      assert.equal(await slot(page, 'incident.duration').getAttribute('aria-invalid'), 'true');
    }
  });
});

test('a plan whose every fill site is struck out says so where they stand', async () => {
  await onPage(BARN, DESKTOP, async (page) => {
    await settled(page);
    await page.locator('[data-row="fill_sites[0]"]').getByRole('button', { name: 'Strike out' }).click();
    await headlineIs(page, 'No answer yet: one mistake to put right.');
    assert.equal(await page.locator('[data-row="fill_sites"] .mistake').textContent(), 'Every fill site is struck out. Bring one back, or add another.');
    await page.getByRole('button', { name: 'Show the first' }).click();
    assert.ok(await page.locator('[data-row="fill_sites"] .mistake').evaluate((one) => one === document.activeElement));
  });
});

test('what to buy is said in a sentence, and the answer stays while it is filled in', async () => {
  await onPage(BARN, DESKTOP, async (page) => {
    await settled(page);
    const verdict = await page.locator('#verdict').textContent();
    await page.getByRole('button', { name: 'What should we buy?' }).click();
    await page.waitForFunction(() => document.querySelector('#asking').textContent.includes('nothing to compare yet'));
    await page.locator('#asking').getByRole('button', { name: 'One more tanker', exact: true }).click();
    await slot(page, 'options[0].changes[0].value.capacity').fill('');
    await page.waitForFunction(() => document.querySelector('[data-row="options[0]"] .marks').textContent.startsWith('Not compared until'));
    await settled(page);
    assert.equal(await page.locator('#verdict').textContent(), verdict);
    await slot(page, 'options[0].changes[0].value.capacity').fill('3,500');
    await page.locator('#sentences').getByRole('button', { name: 'Change one figure' }).click();
    await page.locator('select[data-place="options[1].changes[0].path"]').selectOption({ label: 'Quarry pond: its flow' });
    await slot(page, 'options[1].changes[0].value').fill('1,500');
    await slot(page, 'options[1].name').fill('A larger pump');
    await page.locator('#sentences').getByRole('button', { name: 'One more drop tank' }).click();
    await settled(page);
    await page.waitForFunction(() => document.querySelector('#asking > [data-done="true"] h3') !== null, null, { timeout: 120_000 });
    const file = path.join(mkdtempSync(path.join(tmpdir(), 'plan-')), 'plan.json');
    const doc = await planOf(page);
    writeFileSync(file, JSON.stringify(doc));
    assert.deepEqual(doc.options.map((one) => one.name), ['Another tanker', 'A larger pump', 'Another drop tank']);
    assert.equal(doc.options[1].changes[0].value, 1500);
    assert.equal(await page.locator('#asking h3.title').textContent(), command('compare', file, '--no-charts').told.verdict);
    const text = await page.locator('#sentences').textContent();
    assert.ok(!/JSON|RFC/.test(text));
  });
});

test('what was tried becomes a choice whose cost is typed, and is compared', async () => {
  await onPage(BARN, DESKTOP, async (page) => {
    await settled(page);
    await page.getByRole('button', { name: 'What should we buy?' }).click();
    await page.locator('#asking').getByRole('button', { name: 'What it would cost: one more tanker like Tanker 5' }).click();
    assert.equal(await page.evaluate(() => document.activeElement.dataset.place), 'options[0].cost');
    await slot(page, 'options[0].cost').fill('90,000');
    await settled(page);
    await page.waitForFunction(() => document.querySelector('#asking > [data-done="true"] h3') !== null, null, { timeout: 120_000 });
    const doc = await planOf(page);
    const like = doc.tankers.find((one) => one.name === 'Tanker 5');
    const [{ cost, changes: [{ value }] }] = doc.options;
    assert.deepEqual([cost, value.capacity, value.response], [90_000, like.capacity, like.response]);
    assert.ok((await page.locator('#asking').textContent()).includes('90,000'), 'its cost stands beside what it does');
  });
});

test('who could be asked for is asked and comes, alone or with all others', async () => {
  await onPage(BARN, DESKTOP, async (page) => {
    await settled(page);
    for (const [place, name] of [[0, 'Ridge'], [1, 'Ford']]) {
      await page.getByRole('button', { name: 'A tanker that could be asked for' }).click();
      await slot(page, `aid[${place}].name`).fill(name);
      await slot(page, `aid[${place}].capacity`).fill('2500');
      await slot(page, `aid[${place}].response`).fill('12');
    }
    await settled(page);
    assert.ok((await page.locator('#reasons').textContent()).includes('count on nobody under'));
    assert.ok(!/--|`/.test(await page.locator('#reasons').textContent()));
    await page.locator('[data-row="aid[0]"]').getByRole('button', { name: 'It is asked and comes' }).click();
    await settled(page);
    assert.equal(await slot(page, 'tankers[2].name').inputValue(), 'Ridge');
    assert.equal(await slot(page, 'tankers[2].requested_at').inputValue(), '0');
    assert.equal((await planOf(page)).aid.length, 1);
    await page.locator('[data-row="tankers[2]"]').getByRole('button', { name: 'Only if asked for' }).click();
    await page.getByRole('button', { name: 'All of them are asked and come' }).click();
    await settled(page);
    const doc = await planOf(page);
    assert.deepEqual([doc.tankers.slice(2).map((one) => one.name), doc.aid], [['Ford', 'Ridge'], undefined]);
    // Nobody twice in the list of who brings a drop tank.
    const brings = await page.locator('select[data-place="drop_tanks[0].brought_by"] option').allTextContents();
    assert.equal(new Set(brings).size, brings.length, brings.join());
  });
});

test('a drop tank that nobody brings yet asks for one thing, in its sentence', async () => {
  await onPage(BARN, DESKTOP, async (page) => {
    await settled(page);
    await page.locator('select[data-place="drop_tanks[0].brought_by"]').selectOption('');
    await headlineIs(page, 'one thing still to fill in');
    assert.deepEqual(await marksOf(page), ['Still to fill in: drop tank 1: on scene in, min.']);
    assert.equal(await slot(page, 'drop_tanks[0].response').getAttribute('aria-invalid'), 'true');
  });
});

test('a unit that is typed along stands alone, and a row goes by its new name', async () => {
  await onPage(BARN, DESKTOP, async (page) => {
    await settled(page);
    const row = page.locator('[data-row="fill_sites[0]"]');
    await slot(page, 'fill_sites[0].out.miles').fill('3 km');
    assert.ok(!(await row.locator('.sentence').textContent()).includes('mi away'));
    await slot(page, 'fill_sites[0].name').fill('Otter pond');
    await slot(page, 'fill_sites[0].name').press('Tab');
    assert.ok(await row.getByRole('button', { name: 'More about Otter pond' }).isVisible());
    assert.equal(await slot(page, 'fill_sites[0].flow').getAttribute('aria-label'), 'Otter pond: its flow, gpm');
  });
});

test("numbers are written as the reader's locale writes them", async () => {
  await onPage(
    BARN,
    DESKTOP,
    async (page) => {
      await settled(page);
      assert.equal(await slot(page, 'tankers[0].capacity').inputValue(), '3.000');
      assert.equal(await slot(page, 'fill_sites[0].out.miles').inputValue(), '2,4');
      const told = command('risk', BARN, '--no-charts').told.verdict;
      assert.equal((await page.locator('#verdict').textContent()).replace(/(\d)\.(\d{3})/g, '$1,$2'), told);
      await slot(page, 'tankers[0].capacity').fill('3.500');
      await slot(page, 'fill_sites[0].out.miles').fill('2.5');
      const doc = await planOf(page);
      assert.deepEqual([doc.tankers[0].capacity, doc.fill_sites[0].out.miles], [3500, 2.5]);
    },
    { locale: 'de-DE' },
  );
});

test('a name typed key by key passes through another unit\'s, and nobody is mistaken for it', async () => {
  await onPage(BARN, DESKTOP, async (page) => {
    await settled(page);
    const name = slot(page, 'tankers[0].name');
    await name.press('ControlOrMeta+a');
    await page.keyboard.type('Tanker 51');
    const brings = page.locator('select[data-place="drop_tanks[0].brought_by"]');
    await name.press('Tab');
    const doc = await planOf(page);
    assert.deepEqual([doc.tankers[0].name, doc.tankers[1].name, doc.drop_tanks[0].brought_by], ['Tanker 51', 'Tanker 5', 'Tanker 51']);
    assert.equal(await brings.inputValue(), 'Tanker 51');
    assert.deepEqual(await brings.locator('option').allTextContents(), ['its own vehicle', 'Tanker 51', 'Tanker 5', 'Engine 3']);
    assert.ok(await page.getByRole('button', { name: 'More about Tanker 51' }).isVisible());
    // Left as another's name for a while: the call waits for its own.
    await name.fill('Tanker 5');
    await name.press('Tab');
    await name.fill('Old tanker');
    await name.press('Tab');
    assert.equal((await planOf(page)).drop_tanks[0].brought_by, 'Old tanker');
    assert.equal(await brings.inputValue(), 'Old tanker');
    await name.fill('');
    await name.press('Tab');
    assert.ok(await page.getByRole('button', { name: 'More about Tanker 1' }).isVisible());
    assert.equal(await name.getAttribute('placeholder'), 'Tanker 1');
  });
});
