// The planner page in a real browser: a chief's path, typing while it computes, every question on every demo scenario
// against the command's JSON, the clock, sizes, offline, hostile files, storage, accessibility.
//
//   BUCKETLINE=target/debug/bucketline node --test tests/page/page.test.mjs

import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { test } from 'node:test';

import { BARN, DESKTOP, PHONE, command, noViolation, onPage, opened, root, settled, slot } from './browser.mjs';

test('a chief fills in an empty plan on a phone and gets the answer, then whom to ask', async () => {
  await onPage(undefined, PHONE, async (page) => {
    await settled(page);
    await page.getByRole('button', { name: 'Empty plan' }).tap();
    await page.waitForFunction(() => document.querySelector('#verdict').textContent.startsWith('No answer yet'));
    const fill = async (place, value) => slot(page, place).fill(value);
    await fill('title', 'Mill, Alder Road');
    await fill('incident.attack_flow', '285');
    await fill('incident.duration', '120');
    await fill('incident.reserve', '300');
    await fill('attack_engine.tank', '1,000');
    await fill('attack_engine.response', '8,5');
    await fill('tankers[0].name', 'Tanker 3');
    await fill('tankers[0].capacity', '3,000');
    await fill('tankers[0].response', '10');
    await fill('fill_sites[0].name', 'Quarry pond');
    await fill('fill_sites[0].out.miles', '2.4');
    await fill('fill_sites[0].flow', '900');
    await page.waitForFunction(() => /run short|keep their flow/.test(document.querySelector('#verdict').textContent));
    await page.getByRole('button', { name: 'A tanker that could be asked for' }).tap();
    await fill('aid[0].name', 'Aid tanker');
    await fill('aid[0].capacity', '2500');
    await fill('aid[0].response', '18');
    await settled(page);
    await page.locator("#asking").getByRole("button", { name: "Whom do we ask, and when?" }).tap();
    await page.waitForFunction(() => document.querySelector('#asking [data-done="true"] h3') !== null, null, { timeout: 60_000 });
    const kept = await page.evaluate(() => Object.values(localStorage).map((one) => JSON.parse(one).doc)[0]);
    const file = path.join(mkdtempSync(path.join(tmpdir(), 'plan-')), 'plan.json');
    writeFileSync(file, JSON.stringify(kept));
    assert.equal(kept.attack_engine.response, 8.5);
    assert.equal(await page.locator('#asking h3').first().textContent(), command('request', file, '--no-charts').told.verdict);
    assert.equal(await page.locator('#verdict').textContent(), command('risk', file, '--no-charts').told.verdict);
  });
});

test('typing never waits for an answer, and the last plan is the one answered', async () => {
  await onPage('scenarios/feed_mill_mutual_aid.json', DESKTOP, async (page) => {
    await settled(page);
    const flow = slot(page, 'incident.attack_flow[1].flow');
    await flow.click();
    const longest = await page.evaluate(() => {
      window.longest = 0;
      let last = performance.now();
      const on = (now) => {
        window.longest = Math.max(window.longest, now - last);
        last = now;
        requestAnimationFrame(on);
      };
      requestAnimationFrame(on);
      return 0;
    });
    assert.equal(longest, 0);
    await flow.fill('');
    await flow.pressSequentially('450', { delay: 60 });
    assert.equal(await flow.inputValue(), '450');
    await flow.press('Tab');
    await settled(page);
    // Generous: the machine that tests may be busy. An engine on the page's own thread would take seconds.
    assert.ok((await page.evaluate(() => window.longest)) < 700, String(await page.evaluate(() => window.longest)));
    const file = path.join(mkdtempSync(path.join(tmpdir(), 'plan-')), 'plan.json');
    const doc = JSON.parse(readFileSync(path.join(root, 'scenarios/feed_mill_mutual_aid.json'), 'utf8'));
    doc.incident.attack_flow[1].flow = 450;
    writeFileSync(file, JSON.stringify(doc));
    const told = command('risk', file, '--no-charts').told;
    assert.equal(await page.locator('#verdict').textContent(), told.verdict);
    for (const advice of told.advice) assert.ok((await page.locator('#reasons').textContent()).includes(advice.what), advice.what);
  });
});

/** What the command says, without what it says of its flags. */
function onAPage(text) {
  const words = {
    '`request` picks': 'the question whom to ask picks',
    'the file does not say whose': 'nothing says whose',
    'under `aid` of the file': 'listed as aid',
    '`bucketline risk`': 'the answer to the plan',
    '`hose.distance`': 'the distance for hose',
  };
  const said = Object.entries(words).reduce((told, [command, page]) => told.replaceAll(command, page), text);
  const asked = said.replace(/: bucketline request \S+.*$/, '; want that in the plan, and ask again');
  return asked.replace(/ \(--[a-z-]+\)| \(`[a-z_.]+`( of each)?\)|: --spare 0|; --more lists them/g, '');
}

const demos = readdirSync(path.join(root, 'scenarios')).filter((name) => /_.*\.json$/.test(name));
const asked = { 'How many tankers?': 'size', 'Whom do we ask, and when?': 'request', 'What if we lose one?': 'lose', 'How much can we hold, and from when?': 'hold', 'What is a minute worth?': 'levers', 'How would each fill site be graded?': 'grade', 'What should we buy?': 'compare', 'What comes out by hand?': 'check', 'What goes on the run card?': 'card' };
for (const demo of demos) {
  test(`the page shows what the command answers: ${demo}`, async () => {
    await onPage(`scenarios/${demo}`, DESKTOP, async (page) => {
      // Few fires, so that all questions on all scenarios take no longer than they need.
      await page.getByLabel('Simulate').selectOption('1000');
      await settled(page);
      assert.equal(await page.locator('#verdict').textContent(), command('risk', `scenarios/${demo}`, '--runs', '1000', '--no-charts').told.verdict);
      for (const [button, question] of Object.entries(asked)) {
        await page.getByRole('button', { name: button }).click();
        const panel = page.locator('#asking [role="region"]').first();
        let expected;
        try {
          expected = command(question, `scenarios/${demo}`, ...(question === 'check' ? [] : ['--runs', '1000']), ...(question === 'grade' ? ['--share', '0.95'] : []), ...(['check', 'grade'].includes(question) ? [] : [question === 'card' ? '--no-pages' : '--no-charts']));
        } catch {
          await page.waitForFunction(() => /Nobody could be asked|nothing to compare yet/.test(document.querySelector('#asking').textContent));
          await page.getByRole('button', { name: button }).click();
          continue;
        }
        await page.waitForFunction(() => document.querySelector('#asking > [data-done="true"]') !== null, null, { timeout: 120_000 });
        assert.equal(await panel.locator('h3.title').textContent(), onAPage(expected.told.verdict), question);
        const { reserve } = JSON.parse(readFileSync(path.join(root, 'scenarios', demo), 'utf8')).incident;
        assert.equal(/the crew backs out/.test(await panel.textContent()), reserve !== undefined && reserve !== 0, `${question} tells of the reserve`);
        const text = (await panel.textContent()).toLowerCase();
        for (const block of expected.told.points) {
          // The page has buttons of its own for what the command is told.
          const says = block.says === undefined ? undefined : onAPage(block.says).toLowerCase();
          if (says !== undefined && !['watch', 'aid'].includes(block.label)) assert.ok(text.includes(says), `${question}: ${block.says}`);
        }
        await page.getByRole('button', { name: button }).click();
      }
    });
  });
}

test('the clock plays, is dragged and is stopped for the class', async () => {
  await onPage(BARN, DESKTOP, async (page) => {
    await settled(page);
    const tells = (...which) => page.waitForFunction((verdict) => document.querySelector('#fire').textContent.includes(verdict), command('replay', BARN, ...which, '--no-charts').told.verdict);
    await tells('--typical');
    await page.getByRole('button', { name: 'If all goes to plan' }).click();
    await tells('--planned');
    await page.getByRole('slider', { name: 'Minute after the alarm' }).fill('21');
    assert.equal(await page.locator('.minute').textContent(), 'Minute 21.0');
    await page.getByRole('button', { name: '1 min on' }).click();
    assert.equal(await page.locator('.minute').textContent(), 'Minute 22.0');
    await page.locator('#verdict').click();
    await page.keyboard.press('Space');
    await page.waitForFunction(() => Number(document.querySelector('.minute').textContent.split(' ')[1]) > 22.4);
    await page.getByRole('button', { name: 'Stop here and ask the class' }).click();
    const card = page.getByRole('group', { name: 'A question to the class' });
    await card.getByRole('button', { name: 'What happened next' }).click();
    assert.ok((await card.locator('li').count()) > 3);
    await card.getByRole('button', { name: 'Done' }).click();
    assert.equal(await card.count(), 0);
    await page.getByRole('button', { name: 'The worst' }).click();
    const worst = command('risk', BARN, '--no-charts').worst_run;
    const verdict = command('replay', BARN, '--run', String(worst), '--no-charts').told.verdict;
    await page.waitForFunction((told) => document.querySelector('#fire').textContent.includes(told), verdict);
    await page.getByRole('button', { name: 'To the first shortfall' }).click();
    assert.ok((await page.locator('.gauge').textContent()).includes('The lines run short.'));
  });
});

test('a mistake is marked in its sentence with its cure, and undone', async () => {
  await onPage(BARN, PHONE, async (page) => {
    await settled(page);
    const verdict = await page.locator('#verdict').textContent();
    const tank = slot(page, 'tankers[0].capacity');
    await tank.fill('18');
    await page.waitForFunction(() => document.querySelector('[data-place="tankers[0].capacity"]').getAttribute('aria-invalid') === 'true');
    const words = await page.locator('.row .mistake').first().textContent();
    assert.match(words, /18.*from 100 to 50,000 gal.*check it for missing digits/is);
    await page.getByRole('button', { name: 'Undo' }).tap();
    await page.waitForFunction((told) => document.querySelector('#verdict').textContent === told, verdict, { timeout: 60_000 }).catch(() => {});
    await settled(page);
    assert.equal(await page.locator('#verdict').textContent(), verdict);
    await page.locator('[data-row="tankers[0]"]').getByRole('button', { name: 'Strike out' }).tap();
    await page.waitForFunction((told) => document.querySelector('#verdict').textContent !== told, verdict);
    await page.locator('[data-row="tankers[0]"]').getByRole('button', { name: 'Bring back' }).tap();
    await settled(page);
    assert.equal(await page.locator('#verdict').textContent(), verdict);
  });
});

test('every field that the format describes for a tanker and for the plan can be reached', async () => {
  const schema = JSON.parse(readFileSync(path.join(root, 'scenarios/scenario.schema.json'), 'utf8'));
  await onPage(BARN, DESKTOP, async (page) => {
    await page.locator('[data-row="tankers[0]"]').getByRole('button', { name: /^More about/ }).click();
    for (const key of Object.keys(schema.$defs.tanker.properties)) assert.equal(await page.locator(`[data-field="tankers[0].${key}"]`).count(), 1, key);
    await page.getByRole('button', { name: 'More about the rest' }).click();
    const told = ['$schema', 'title', 'units', 'incident', 'attack_engine', 'supply', 'drop_tanks', 'tankers', 'aid', 'fill_sites', 'handling', 'options'];
    const rest = Object.keys(schema.properties).filter((key) => !told.includes(key));
    assert.ok(rest.includes('whole_fire') && rest.includes('notes'), String(rest));
    for (const key of rest) assert.equal(await page.locator(`[data-field="${key}"]`).count(), 1, key);
    await page.locator('input[data-place="tankers[0].breakdown_per_trip"]').fill('5%');
    await settled(page);
    const kept = await page.evaluate(() => Object.values(localStorage).map((one) => JSON.parse(one).doc)[0]);
    assert.equal(kept.tankers[0].breakdown_per_trip, '5%');
  });
});

test('a closed tab loses nothing, and the same file is saved and opened', async () => {
  await onPage(BARN, DESKTOP, async (page, context, address) => {
    await settled(page);
    await slot(page, 'tankers[0].capacity').fill('2222');
    await page.waitForTimeout(200);
    await page.close();
    const { page: again } = await opened(context, address);
    await settled(again);
    assert.equal(await slot(again, 'tankers[0].capacity').inputValue(), '2,222');
    const [download] = await Promise.all([again.waitForEvent('download'), again.getByRole('button', { name: 'Save' }).click()]);
    const saved = readFileSync(await download.path(), 'utf8');
    const doc = JSON.parse(readFileSync(path.join(root, BARN), 'utf8'));
    doc.tankers[0].capacity = 2222;
    assert.deepEqual(JSON.parse(saved), doc);
    await again.setInputFiles('#file', path.join(root, 'scenarios/orchard_metric.json'));
    await again.waitForFunction(() => document.querySelector('#notice').textContent.includes('is open'));
    await settled(again);
    assert.equal(await again.locator('#verdict').textContent(), command('risk', 'scenarios/orchard_metric.json', '--no-charts').told.verdict);
  });
});

test('a hostile file is a text like any other, or is refused with its cure', async () => {
  await onPage(BARN, DESKTOP, async (page) => {
    await settled(page);
    const folder = mkdtempSync(path.join(tmpdir(), 'hostile-'));
    const open = async (name, content) => {
      await page.evaluate(() => { document.querySelector('#notice').textContent = ''; });
      writeFileSync(path.join(folder, name), content);
      await page.setInputFiles('#file', path.join(folder, name));
      await page.waitForFunction(() => document.querySelector('#notice').textContent !== '', null, { timeout: 60_000 });
      return page.locator('#notice').textContent();
    };
    assert.match(await open('deep.json', '['.repeat(200_000)), /was not opened/);
    assert.match(await open('large.json', ' '.repeat(50 * 1024 * 1024)), /larger than 8 MB/);
    assert.match(await open('none.json', 'no json'), /was not opened/);
    assert.match(await open('rows.json', JSON.stringify({ tankers: Array(5_000).fill({}) })), /was not opened/);
    const doc = JSON.parse(readFileSync(path.join(root, BARN), 'utf8'));
    const evil = '<img src=x onerror="window.evil=1"></script><script>window.evil=1</script>';
    doc.title = evil;
    doc.tankers[0].name = evil;
    doc.drop_tanks.forEach((tank) => delete tank.brought_by && (tank.response = 12));
    doc.fill_sites[0].name = 'javascript:alert(1)';
    doc.tankers.forEach((tanker) => delete tanker.fill_site);
    assert.match(await open('evil.json', JSON.stringify(doc)), /is open/);
    await settled(page);
    await page.getByRole('button', { name: 'What if we lose one?' }).click();
    await page.waitForFunction(() => document.querySelector('#asking > [data-done="true"]') !== null, null, { timeout: 120_000 });
    assert.equal(await page.evaluate(() => window.evil), undefined);
    assert.equal(await page.locator('#sentences img, #asking img, #fire img, #asking script').count(), 0);
    assert.equal(await slot(page, 'tankers[0].name').inputValue(), evil);
  });
});

for (const [name, viewport] of Object.entries({ phone: PHONE, tablet: { width: 768, height: 1024 }, desktop: DESKTOP, wall: { width: 1920, height: 1080 } })) {
  test(`nothing is cut off, too small to touch or out of reach: ${name}`, async () => {
    for (const colorScheme of ['light', 'dark']) {
      await onPage(
        'scenarios/feed_mill_mutual_aid.json',
        viewport,
        async (page) => {
          await settled(page);
          await page.locator('[data-row="tankers[0]"]').getByRole('button', { name: /^More about/ }).click();
          await page.getByRole('button', { name: 'What if we lose one?' }).click();
          await page.waitForFunction(() => document.querySelector('#asking > [data-done="true"]') !== null, null, { timeout: 120_000 });
          await page.evaluate(() => window.scrollTo(0, 1500));
          const fixed = await page.evaluate(() => Math.max(...['#answer', '#verdict'].map((one) => document.querySelector(one).getBoundingClientRect().bottom)));
          assert.ok(fixed <= 130, `${fixed} px stay covered`);
          const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
          assert.ok(wide <= 0, `${wide} px too wide`);
          const small = await page.evaluate(() =>
            [...document.querySelectorAll('button, select, input:not([type="file"]), summary')]
              .filter((one) => one.offsetParent !== null)
              .map((one) => [one.outerHTML.slice(0, 90), one.getBoundingClientRect()])
              .filter(([, box]) => box.height < 43.5 || box.width < 43.5)
              .map(([html, box]) => `${Math.round(box.width)} x ${Math.round(box.height)}: ${html}`),
          );
          assert.deepEqual(small, []);
          await noViolation(page, `${name}, ${colorScheme}`);
        },
        { colorScheme },
      );
    }
  });
}

test('words and units follow the reader', async () => {
  await onPage(BARN, DESKTOP, async (page) => {
    await settled(page);
    await page.getByLabel('The truck that carries water is a').selectOption('tender');
    await page.getByLabel('Answers in').selectOption('metric');
    await page.getByRole('button', { name: 'How many tenders?' }).click();
    await page.waitForFunction(() => document.querySelector('#asking > [data-done="true"]') !== null, null, { timeout: 120_000 });
    assert.equal(await page.locator('#asking h3.title').textContent(), command('size', BARN, '--tender', '--no-charts').told.verdict);
    assert.match(await page.locator('.gauge').textContent(), /L\/min/);
  });
});

test('the keyboard reaches everything in the order it is read', async () => {
  await onPage(BARN, DESKTOP, async (page) => {
    await settled(page);
    const seen = [];
    for (let press = 0; press < 40; press += 1) {
      await page.keyboard.press('Tab');
      seen.push(await page.evaluate(() => document.activeElement.dataset.place ?? document.activeElement.id ?? document.activeElement.textContent));
    }
    const order = ['open', 'save', 'title', 'incident.duration', 'attack_engine.tank', 'tankers[0].capacity'].map((one) => seen.indexOf(one));
    assert.ok(order.every((place, number) => place >= 0 && (number === 0 || place > order[number - 1])), `${order} in ${seen}`);
  });
});

test('what is struck out, the steps back and the words are kept, in the browser and in the file', async () => {
  await onPage(BARN, DESKTOP, async (page, context, address) => {
    await settled(page);
    await page.getByLabel('The truck that carries water is a').selectOption('tender');
    await page.locator('[data-row="tankers[1]"]').getByRole('button', { name: 'Strike out' }).click();
    await page.waitForTimeout(200);
    await page.close();
    const { page: again, seen } = await opened(context, address);
    await settled(again);
    assert.equal(await again.getByLabel('The truck that carries water is a').inputValue(), 'tender');
    assert.ok(await again.getByRole('button', { name: 'Another tender' }).isVisible());
    const [download] = await Promise.all([again.waitForEvent('download'), again.getByRole('button', { name: 'Save', exact: true }).click()]);
    const file = await download.path();
    const verdict = await again.locator('#verdict').textContent();
    assert.equal(command('risk', file, '--tender', '--no-charts').told.verdict, verdict, 'the file is answered as the page is');
    await again.getByRole('button', { name: 'Undo' }).click();
    await again.waitForFunction(() => document.querySelector('.struck') === null);
    await again.setInputFiles('#file', file);
    await again.waitForFunction(() => document.querySelector('#notice').textContent.includes('is open'));
    await settled(again);
    assert.equal(await again.locator('#verdict').textContent(), verdict);
    assert.equal(await again.locator('[data-row="tankers[1]"]').getAttribute('class'), 'row struck');
    assert.deepEqual(seen, { errors: [], requests: [] });
  });
});

test('the class is asked without the answer in sight, and the wall is left with Escape', async () => {
  await onPage('scenarios/feed_mill_mutual_aid.json', DESKTOP, async (page) => {
    await settled(page);
    await page.getByRole('slider', { name: 'Minute after the alarm' }).fill('20');
    await page.getByRole('button', { name: 'Stop here and ask the class' }).click();
    for (const hidden of ['#verdict', '#sure', '#dots', '#reasons', '#asking']) assert.ok(!(await page.locator(hidden).isVisible()), hidden);
    // Everything after the minute is covered to the edge of the drawing.
    const [cover, drawn] = await page.evaluate(() => [document.querySelector('.cover').getBoundingClientRect(), document.querySelector('.line svg').getBoundingClientRect()]);
    const last = await page.evaluate(() => Math.max(...[...document.querySelectorAll('.this-short, .shorts, .wants, .mark')].map((one) => one.getBoundingClientRect().right)));
    assert.ok(cover.width > drawn.width / 2 && cover.right >= last, `${cover.width} of ${drawn.width}`);
    await page.getByRole('button', { name: 'Done: show everything again' }).click();
    assert.ok(await page.locator('#verdict').isVisible());
    await page.getByRole('button', { name: 'For the wall' }).click();
    assert.ok(await page.locator('#called').isVisible());
    // On the wall all of the question is in sight, with what came next too.
    await page.getByRole('button', { name: 'Stop here and ask the class' }).click();
    await page.getByRole('button', { name: 'What happened next' }).click();
    const [card, foot] = await page.evaluate(() => ['.stop-card', 'footer'].map((one) => document.querySelector(one).getBoundingClientRect()));
    assert.ok(card.bottom <= foot.top + 1, `${card.bottom} over ${foot.top}`);
    // Who leaves the wall leaves the class.
    await page.keyboard.press('Escape');
    assert.ok(await page.locator('#plan').isVisible());
    assert.ok(await page.locator('#verdict').isVisible());
    assert.equal(await page.locator('.stop-card').count(), 0);
  });
});

test('what is read out is of the question that is open', async () => {
  await onPage(BARN, DESKTOP, async (page) => {
    await settled(page);
    await page.getByRole('button', { name: 'What comes out by hand?' }).click();
    await page.waitForFunction(() => document.querySelector('#asking > [data-done="true"] h3') !== null);
    assert.notEqual(await page.locator('#asking .unseen').textContent(), '');
    await page.getByRole('button', { name: 'What should we buy?' }).click();
    await page.waitForFunction(() => document.querySelector('#asking .unseen').textContent.startsWith('There is nothing to compare yet'));
    await page.getByRole('button', { name: 'What comes out by hand?' }).click();
    await page.waitForFunction(() => document.querySelector('#asking > [data-done="true"] h3') !== null);
    await slot(page, 'incident.duration').fill('0');
    await page.waitForFunction(() => document.querySelector('#asking .unseen').textContent.startsWith('First put the plan right'));
  });
});
