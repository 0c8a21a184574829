// How the planner page is shown: on a phone, on a wall, on paper, in forced colours, in the reader's units; and what
// stands beside the answer.
//
//   BUCKETLINE=target/debug/bucketline node --test tests/page/shown.test.mjs

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { test } from 'node:test';

import { BARN, DESKTOP, PHONE, command, headlineIs, marksOf, noViolation, onPage, planOf, settled, slot } from './browser.mjs';

test('the wall shows the sentence, the dots and the clock, and nothing else, all of it in sight', async () => {
  await onPage('scenarios/feed_mill_mutual_aid.json', { width: 1920, height: 1080 }, async (page) => {
    await page.getByLabel('Simulate').selectOption('1000');
    await settled(page);
    const looked = async (name) => {
      for (const [width, height] of [[1280, 800], [1920, 1080], [1024, 768]]) {
        await page.setViewportSize({ width, height });
        await page.getByRole('slider', { name: 'Minute after the alarm' }).fill('45');
        const tall = await page.evaluate(() => document.documentElement.scrollHeight);
        assert.ok(tall <= height, `${name}: ${tall} px of ${height}`);
        const out = await page.evaluate(() => {
          const foot = document.querySelector('footer').getBoundingClientRect().top;
          const parts = [...document.querySelectorAll('#verdict, #dots, .line svg, .play, .gauge, .tank, .lap')];
          return parts.filter((one) => one.offsetParent !== null || one.ownerSVGElement !== undefined).filter((one) => { const box = one.getBoundingClientRect(); return box.height < 1 || box.bottom > foot + 1 || box.right > window.innerWidth + 1; }).map((one) => one.className.baseVal ?? one.className ?? one.id);
        });
        assert.deepEqual(out, [], `${name} ${width} x ${height}`);
      }
    };
    await page.getByRole('button', { name: 'For the wall' }).click();
    assert.ok(await page.locator('#clock').isVisible());
    for (const gone of ['#plan', '#questions', '#why', '#sure']) assert.ok(!(await page.locator(gone).isVisible()), gone);
    await noViolation(page, 'wall');
    await looked('two tankers');
    await page.getByRole('button', { name: 'Back to the plan' }).click();
    assert.ok(await page.locator('#plan').isVisible());
    await page.getByRole('button', { name: 'All of them are asked and come' }).click();
    await settled(page);
    await page.waitForFunction(() => document.querySelectorAll('.lap').length === 10);
    await page.getByRole('button', { name: 'For the wall' }).click();
    await looked('ten tankers');
  });
});

/** The words of a PDF, page by page. */
function pagesOf(pdf) {
  const file = path.join(mkdtempSync(path.join(tmpdir(), 'printed-')), 'page.pdf');
  writeFileSync(file, pdf);
  return execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }).split('\f').slice(0, -1);
}

test('it prints: the card, the plan, what was asked, the fire whole, the caution', async () => {
  await onPage('scenarios/feed_mill_mutual_aid.json', DESKTOP, async (page) => {
    await page.getByLabel('Simulate').selectOption('1000');
    await settled(page);
    await page.waitForFunction(() => document.querySelector('#whom table') !== null, null, { timeout: 120_000 });
    const told = [];
    for (const question of ['What goes on the run card?', 'What if we lose one?', 'What comes out by hand?']) {
      await page.getByRole('button', { name: question }).click();
      await page.waitForFunction((asked) => document.querySelector('#asking button[aria-pressed="true"]')?.textContent === asked && document.querySelector('#asking > [data-done="true"] h3') !== null, question, { timeout: 120_000 });
      told.push(await page.locator('#asking h3.title').textContent());
    }
    for (const format of ['Letter', 'A4']) {
      const pages = pagesOf(await page.pdf({ format }));
      const words = pages.join(' ').replace(/\s+/g, ' ');
      assert.ok(pages.every((one) => one.trim().split('\n').length >= 6), `${format}: no page is all but empty`);
      for (const there of [await page.locator('#verdict').textContent(), ...told.slice(1), 'The incident commander, local rules', 'Printed on']) assert.ok(words.includes(there), `${format}: ${there}`);
      assert.ok(/^\s*The run card$/m.test(pages[1]), 'the card is one sheet');
      const runCard = pages[1].replace(/\s+/g, ' ').split('The plan We want')[0];
      assert.match(runCard, /Do not use this plan.*no orders are printed/, 'the run card of a plan that fails');
      assert.ok(!/gate down|a load at least every|no load in the next/i.test(runCard), runCard);
      assert.match(pages[1].replace(/\s+/g, ' '), /^ ?The run card.*The plan We want/, 'the run card begins a sheet, and the plan goes on below it');
      assert.match(pages[0].replace(/\s+/g, ' '), /Whom to ask, and by when.*the crew backs out.*Minute by minute.*first water.*the lines run short, until minute.*and again/, 'the card');
    }
    // Drawn for paper, not blown up from a phone.
    await page.setViewportSize(PHONE);
    const wide = await page.evaluate(() => { window.dispatchEvent(new Event('beforeprint')); return document.querySelector('#card .line svg').viewBox.baseVal.width; });
    assert.equal(wide, 640);
    await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
    await page.setViewportSize(DESKTOP);
    await page.emulateMedia({ media: 'print' });
    for (const there of ['#verdict', '#dots', '#card', '#plan', '#card .line svg', '#fire .on-paper .picture svg', '#asked-before .picture svg', '.caution']) assert.ok(await page.locator(there).first().isVisible(), there);
    // A level at one minute says nothing on paper: the fire stands there whole.
    for (const gone of ['.tools', '.play', '.scene', '.hand', '.row-tools', '#fire input[type="range"]', '.larger']) assert.ok(!(await page.locator(gone).first().isVisible()), gone);
    assert.match(await page.locator('#called').textContent(), /^Feed mill/);
  });
});

/** Of each sheet of a PDF the share of its height that is blank below the last ink, margins and foot left out. */
function blankOf(pdf) {
  const folder = mkdtempSync(path.join(tmpdir(), 'printed-'));
  writeFileSync(path.join(folder, 'page.pdf'), pdf);
  execFileSync('pdftoppm', ['-r', '30', '-gray', path.join(folder, 'page.pdf'), path.join(folder, 'sheet')]);
  return readdirSync(folder).filter((name) => name.endsWith('.pgm')).sort().map((name) => {
    const bytes = readFileSync(path.join(folder, name));
    // A PGM of bytes: "P5", width and height, the greatest value, then the rows (its own description, netpbm).
    const [head, width, height] = /^P5\s+(\d+)\s+(\d+)\s+\d+\s/.exec(bytes.toString('latin1', 0, 40)).map((one, place) => (place === 0 ? one.length : Number(one)));
    // 1.5 cm of margin, and the line of the foot in the lower one.
    const [first, end] = [18, height - 24];
    const inked = (row) => bytes.subarray(head + row * width, head + (row + 1) * width).some((grey) => grey < 200);
    let last = end - 1;
    while (last > first && !inked(last)) last -= 1;
    return (end - 1 - last) / (end - first);
  });
}

test('no sheet is half empty because a picture did not fit on it, and each picture has its title', async () => {
  // That of the most sources and tankers among the examples, and the one that most begin with.
  for (const scenario of ['scenarios/schoolhouse_three_fill_sites.json', BARN]) {
    await onPage(scenario, DESKTOP, async (page) => {
      await page.getByLabel('Simulate').selectOption('1000');
      await settled(page);
      for (const question of ['What if we lose one?', 'How many tankers?', 'What is a minute worth?']) {
        await page.getByRole('button', { name: question }).click();
        await page.waitForFunction((asked) => document.querySelector('#asking button[aria-pressed="true"]')?.textContent === asked && document.querySelector('#asking > [data-done="true"] h3') !== null, question, { timeout: 120_000 });
      }
      for (const format of ['Letter', 'A4']) {
        const pdf = await page.pdf({ format });
        // The card is a sheet of its own, and the last ends where it ends.
        const blank = blankOf(pdf).slice(1, -1);
        assert.ok(blank.length >= 6 && blank.every((share) => share < 0.25), `${scenario} ${format}: ${blank.map((share) => Math.round(100 * share))}`);
        const words = pagesOf(pdf).join(' ').replace(/\s+/g, ' ');
        const titles = await page.evaluate(() => [...document.querySelectorAll('.picture svg')].map((one) => [one.querySelector('title').textContent, [...one.querySelectorAll('text')].map((text) => text.textContent).join(' ')]));
        for (const [title, drawn] of titles) assert.ok(drawn.startsWith(title) && words.includes(title), title);
      }
    });
  }
});

test('nothing that was not asked is printed', async () => {
  await onPage(BARN, DESKTOP, async (page) => {
    await page.getByLabel('Simulate').selectOption('1000');
    await settled(page);
    const pages = pagesOf(await page.pdf({ format: 'Letter' }));
    assert.ok(!pages.some((one) => /^\s*Ask\s*$/m.test(one)));
    await page.getByRole('button', { name: 'What if we lose one?' }).click();
    await page.waitForFunction(() => document.querySelector('#asking > [data-done="true"] h3') !== null, null, { timeout: 120_000 });
    const told = await page.locator('#asking h3.title').textContent();
    await page.getByRole('button', { name: 'What if we lose one?' }).click();
    const folded = async () => pagesOf(await page.pdf({ format: 'Letter' })).join(' ').replace(/\s+/g, ' ');
    assert.ok((await folded()).includes(told), 'what was asked is printed though it is folded away');
    // The card is worked out last, while nobody waits.
    const withCard = async () => {
      let printed = '';
      for (let tries = 0; tries < 30 && !printed.includes('The run card'); tries += 1) printed = await folded();
      return printed;
    };
    assert.match(await withCard(), /The run card Do not use this plan: the lines run short in \S+ fires of 100/, 'more than 5 of 100: no orders');
    // With less flow it holds, and has them.
    await slot(page, 'incident.attack_flow[1].flow').fill('240');
    await settled(page);
    assert.match(await withCard(), /The run card.*first water at minute.*a load at least every/i, 'the orders of a plan that holds');
    await slot(page, 'tankers[0].capacity').fill('2,500');
    await settled(page);
    assert.ok(!(await folded()).includes(told), 'the answer was to another plan');
    await page.getByRole('button', { name: 'For the wall' }).click();
    assert.match(await folded(), /Minute by minute.*Where they fill.*The clock/, 'paper takes the whole of it from the wall too');
    assert.ok(!(await page.locator('#plan').isVisible()), 'and the wall stays');
  });
});

test('how long the lines are short stands under the headline', async () => {
  const CHAPEL = 'scenarios/chapel_late_mutual_aid.json';
  await onPage(CHAPEL, PHONE, async (page) => {
    await settled(page);
    const risk = command('risk', CHAPEL, '--no-charts');
    const mean = (risk.interrupted_minutes_mean / risk.interruption_probability).toFixed(1);
    assert.match(await page.locator('#how-long').textContent(), new RegExp(`^Where they run short, it is for ${mean} minutes on average, in the worst 5 of 100 fires for ${Math.round(risk.interrupted_minutes_worst_5_percent)} or more\\.$`));
    await slot(page, 'tankers[0].capacity').fill('');
    await headlineIs(page, 'No answer yet');
    assert.ok(!(await page.locator('#how-long').isVisible()));
  });
});

test('whom to ask stands there by when; where every fire is short the sentence says how long', async () => {
  await onPage('scenarios/feed_mill_mutual_aid.json', PHONE, async (page) => {
    await settled(page);
    const risk = command('risk', 'scenarios/feed_mill_mutual_aid.json', '--no-charts');
    assert.equal(risk.interruption_probability, 1);
    assert.ok((await page.locator('#verdict').textContent()).includes(`for ${risk.interrupted_minutes_mean.toFixed(1)} minutes on average`));
    assert.ok(!(await page.locator('#how-long').isVisible()));
    await page.waitForFunction(() => document.querySelector('#whom table') !== null, null, { timeout: 120_000 });
    const request = command('request', 'scenarios/feed_mill_mutual_aid.json', '--no-charts');
    const words = await page.locator('#whom').textContent();
    assert.ok(words.startsWith(request.told.verdict));
    for (const { name } of request.ask_for) assert.ok(words.includes(name), name);
    // Only a delay that is shown, as every shorter one, to stay under the target counts.
    const fails = request.late.findIndex((one) => request.ci_high + Math.max(0, one.outcome.higher_by.ci_high) >= request.target);
    const later = (fails < 0 ? request.late : request.late.slice(0, fails)).at(-1)?.later_by_min;
    const minutes = [...new Set(request.ask_for.map((one) => one.requested_at_min))];
    assert.deepEqual(await page.locator('#whom tbody td:nth-child(2)').allTextContents(), minutes.map((minute) => (later === undefined ? 'do not wait' : `minute ${minute + later}`)));
  });
});

test('a picture fits a phone, and opens in words that can be read', async () => {
  await onPage(BARN, PHONE, async (page) => {
    await page.getByLabel('Simulate').selectOption('1000');
    await settled(page);
    await page.getByRole('button', { name: 'What if we lose one?' }).tap();
    await page.waitForFunction(() => document.querySelector('#asking > [data-done="true"] .picture') !== null, null, { timeout: 120_000 });
    const picture = page.locator('#asking .picture').first();
    const slides = await picture.evaluate((one) => [one, one.firstElementChild].some((part) => part.scrollWidth > part.clientWidth));
    assert.ok(!slides, 'nothing to slide');
    for (const [how, open] of [['by its button', () => picture.getByRole('button', { name: 'Show it larger' }).tap()], ['by a tap', () => picture.locator('svg').tap()]]) {
      await open();
      const large = page.locator('dialog.large');
      assert.ok(await large.isVisible(), how);
      const least = await large.locator('svg').evaluate((one) => (one.getBoundingClientRect().width / one.viewBox.baseVal.width) * Math.min(...[...one.querySelectorAll('text')].map((text) => parseFloat(getComputedStyle(text).fontSize))));
      assert.ok(least >= 11, `${least} px`);
      await noViolation(page, 'a large picture');
      await page.keyboard.press('Escape');
      await large.waitFor({ state: 'detached' });
    }
    await picture.getByRole('button', { name: 'Show it larger' }).tap();
    await page.getByRole('button', { name: 'Close' }).tap();
    await page.locator('dialog.large').waitFor({ state: 'detached' });
  });
});

test('times are typed as people say them, a slip of a road is told once, and too much is called too much', async () => {
  await onPage(BARN, DESKTOP, async (page) => {
    await settled(page);
    const duration = slot(page, 'incident.duration');
    for (const [typed, kept] of [['1h30', 90], ['1:30', 90], ['1,5 h', '1.5 h'], ['1.5 h', '1.5 h']]) {
      await duration.fill(typed);
      await duration.blur();
      await settled(page);
      assert.equal((await planOf(page)).incident.duration, kept, typed);
      assert.deepEqual(await marksOf(page), [], typed);
    }
    await slot(page, 'attack_engine.response.mean').fill('1:30');
    await headlineIs(page, 'one mistake');
    assert.deepEqual(await marksOf(page), ['1:30 can be read two ways. Type minutes: 90 where it is hours and minutes, 1.5 where it is minutes and seconds.']);
    await slot(page, 'attack_engine.response.mean').fill('9');
    await slot(page, 'fill_sites[0].ready.mean').fill('1h05');
    await settled(page);
    assert.equal((await planOf(page)).fill_sites[0].ready.mean, 65);
    await slot(page, 'fill_sites[0].out.miles').fill('1e9');
    await headlineIs(page, 'one mistake');
    const marks = await marksOf(page);
    assert.equal(marks.length, 1, marks.join('\n'));
    assert.match(marks[0], /1,000,000,000 mi is out of range/);
  });
});

test('a plan turned to other units shows what one would say, answers as before, and comes back as it was', async () => {
  await onPage(BARN, DESKTOP, async (page) => {
    await settled(page);
    const [plan, verdict] = [await planOf(page), await page.locator('#verdict').textContent()];
    const units = page.locator('select[data-place="units"]').or(page.locator('#plan-units select')).first();
    await units.selectOption('metric');
    await settled(page);
    // By hand: 3,000 gal of 3.785411784 L are 11,356.2 L.
    const tank = slot(page, 'tankers[0].capacity');
    assert.equal(await tank.inputValue(), '11,400');
    await tank.focus();
    await page.keyboard.press('Tab');
    assert.ok(Math.abs((await planOf(page)).tankers[0].capacity - 3000 * 3.785411784) < 1e-6, 'looked at, it stays');
    for (const one of await page.locator('#sentences input[aria-label$=", L"], #sentences input[aria-label$=", L/min"], #sentences input[aria-label$=", km"]').all()) {
      const figures = (await one.inputValue()).replace(/[^\d]/g, '').replace(/^0+|0+$/g, '');
      assert.ok(figures.length <= 3, `${await one.getAttribute('aria-label')}: ${await one.inputValue()}`);
    }
    assert.equal(await page.locator('#verdict').textContent(), verdict);
    await units.selectOption('us');
    await settled(page);
    const sorted = (value) => (value === null || typeof value !== 'object' ? value : Array.isArray(value) ? value.map(sorted) : Object.fromEntries(Object.keys(value).sort().map((key) => [key, sorted(value[key])])));
    assert.deepEqual(sorted(await planOf(page)), sorted({ ...plan, units: 'us' }));
    assert.equal(await tank.inputValue(), '3,000');
  });
});

test("warnings speak the reader's units", async () => {
  await onPage(BARN, DESKTOP, async (page) => {
    await settled(page);
    await slot(page, 'tankers[0].capacity').fill('12,000');
    await settled(page);
    const warned = page.locator('[data-row="drop_tanks[0]"] .warned, [data-row="tankers[0]"] .warned, #sentences .warned');
    assert.match((await warned.allTextContents()).join(' '), /3,500 gal/);
    await page.getByLabel('Answers in').selectOption('metric');
    await page.waitForFunction(() => [...document.querySelectorAll('#sentences .warned')].some((one) => /13,\d{3} L/.test(one.textContent)), null, { timeout: 30_000 });
    await settled(page);
    const words = (await warned.allTextContents()).join(' ');
    assert.ok(!/ gal\b/.test(words), words);
  });
});

test('on a phone the clock is one screen: line, handle, water and tankers; of many tankers, the first of them', async () => {
  // A common size of a phone's screen, in px of the style.
  const screen = { width: 390, height: 844 };
  const inSight = (page) =>
    page.evaluate(() => {
      const [top, foot] = [document.querySelector('#verdict').getBoundingClientRect().bottom, document.querySelector('#jump').getBoundingClientRect().top];
      const parts = [...document.querySelectorAll('#clock-head, .line svg, #fire input[type="range"], #fire .play, .gauge, .tank, .lap')];
      return parts.filter((one) => { const box = one.getBoundingClientRect(); return box.height < 1 || box.top < top || box.bottom > foot || box.left < 0 || box.right > window.innerWidth; }).map((one) => one.outerHTML.slice(0, 60));
    });
  const atTheClock = async (page) => {
    await page.getByRole('link', { name: 'Clock', exact: true }).tap();
    await page.getByRole('slider', { name: 'Minute after the alarm' }).fill('21');
    await page.waitForFunction(() => document.querySelector('#clock-head').getBoundingClientRect().top < 200);
  };
  await onPage(BARN, screen, async (page) => {
    await settled(page);
    for (const tankers of [2, 3]) {
      await page.waitForFunction((count) => document.querySelectorAll('.lap').length === count, tankers);
      await atTheClock(page);
      assert.deepEqual(await inSight(page), [], `${tankers} tankers`);
      // A truck at the dump or fill site is not cut off by the edge of its loop.
      assert.deepEqual(await page.evaluate(() => [...document.querySelectorAll('.lap svg')].map((one) => [one.getBoundingClientRect(), one.querySelector('.truck').getBoundingClientRect()]).filter(([loop, truck]) => truck.left < loop.left || truck.right > loop.right).length), 0);
      await noViolation(page, 'the clock on a phone');
      if (tankers === 2) {
        await page.getByRole('button', { name: 'Another tanker' }).tap();
        await settled(page);
      }
    }
    // What is seldom pressed follows, and is read where it is seen.
    const order = await page.evaluate(() => [...document.querySelectorAll('[data-clock="on"], .lap, [data-clock="stop"]')].map((one) => one.getBoundingClientRect().top));
    assert.deepEqual(order, [...order].sort((one, other) => one - other));
    await page.getByRole('button', { name: 'For the wall' }).tap();
    assert.ok(await page.locator('.play [data-clock="stop"]').isVisible(), 'the wall has its own order');
    await page.getByRole('button', { name: 'Back to the plan' }).tap();
    assert.equal(await page.locator('.play [data-clock="stop"]').count(), 0);
  });
  await onPage('scenarios/feed_mill_mutual_aid.json', screen, async (page) => {
    await page.getByLabel('Simulate').selectOption('1000');
    await settled(page);
    await page.getByRole('button', { name: 'All of them are asked and come' }).tap();
    await page.waitForFunction(() => document.querySelectorAll('.lap').length === 10);
    await settled(page);
    await atTheClock(page);
    const hidden = await inSight(page);
    assert.ok(hidden.length < 10 && hidden.every((one) => one.startsWith('<div class="lap"')), hidden.join(' '));
  });
});

test('what is told by a filled place or a mark is told in forced colours too', async () => {
  await onPage(
    BARN,
    DESKTOP,
    async (page) => {
      await settled(page);
      await page.getByRole('slider', { name: 'Minute after the alarm' }).fill('21');
      const [ground, ...filled] = await page.evaluate(() => [document.body, ...document.querySelectorAll('.bar i, .tank .column i, [data-clock="typical"]')].map((one) => getComputedStyle(one).backgroundColor));
      const hue = (colour) => colour.match(/\d+/g).slice(0, 3).join();
      assert.ok(filled.length >= 5 && filled.every((one) => hue(one) !== hue(ground)), `${filled} on ${ground}`);
    },
    { forcedColors: 'active' },
  );
});

test('the title of an answer stands once on the page, and with the picture where that stands alone', async () => {
  await onPage(BARN, PHONE, async (page) => {
    await page.getByLabel('Simulate').selectOption('1000');
    await settled(page);
    await page.getByRole('button', { name: 'What if we lose one?' }).tap();
    await page.waitForFunction(() => document.querySelector('#asking > [data-done="true"] .picture') !== null, null, { timeout: 120_000 });
    const title = await page.locator('#asking h3.title').textContent();
    const seen = (where) => page.locator(where).evaluate((root) => [...root.querySelectorAll('text')].filter((one) => { const [box, sheet] = [one.getBoundingClientRect(), root.getBoundingClientRect()]; return box.height > 0 && box.top >= sheet.top; }).map((one) => one.textContent).join(' '));
    assert.ok(!(await seen('#asking .picture svg')).startsWith(title.slice(0, 30)), 'not in the picture below it');
    assert.ok((await seen('#asking .picture svg')).startsWith('How often the lines run short'), 'what is drawn is still said, and nothing is cut off');
    // Nothing is blank where the title was: the first words stand at the top.
    const above = await page.locator('#asking .picture svg').evaluate((root) => Math.min(...[...root.querySelectorAll('text')].map((one) => one.getBoundingClientRect()).filter((box) => box.height > 0).map((box) => box.top)) - root.getBoundingClientRect().top);
    assert.ok(above >= 0 && above < 20, `${above} px`);
    await page.getByRole('button', { name: 'Show it larger' }).first().tap();
    assert.ok((await seen('dialog.large svg')).startsWith(title.slice(0, 30)), 'shown large it has its title');
  });
});

test('on a wide desk the shorter column stays beside the longer one', async () => {
  await onPage(BARN, { width: 1440, height: 900 }, async (page) => {
    await page.getByLabel('Simulate').selectOption('1000');
    await settled(page);
    const blank = () =>
      page.evaluate(async () => {
        const [left, right] = [document.querySelector('#plan'), document.querySelector('.beside')];
        let most = 0;
        for (let at = 0; at < document.documentElement.scrollHeight - window.innerHeight; at += 150) {
          window.scrollTo(0, at);
          await new Promise((done) => requestAnimationFrame(done));
          const foot = Math.min(window.innerHeight, document.querySelector('main').getBoundingClientRect().bottom);
          for (const one of [left, right]) most = Math.max(most, foot - one.lastElementChild.getBoundingClientRect().bottom);
        }
        return most;
      });
    assert.ok((await blank()) <= 2, `${await blank()} px, the plan is the longer one`);
    await page.getByRole('button', { name: 'What if we lose one?' }).click();
    await page.waitForFunction(() => document.querySelector('#asking > [data-done="true"] .picture') !== null, null, { timeout: 120_000 });
    assert.ok((await blank()) <= 2, `${await blank()} px, the answer is the longer one`);
  });
});

test('on a phone every part of the page is one tap away, and on a desk the row of links is not there', async () => {
  await onPage(BARN, PHONE, async (page) => {
    await settled(page);
    await page.evaluate(() => window.scrollTo(0, 1200));
    for (const [link, head] of [['Why', '#why-head'], ['Clock', '#clock-head'], ['Ask', '#questions-head'], ['Plan', '#plan-head']]) {
      await page.getByRole('link', { name: link, exact: true }).tap();
      await page.waitForFunction((one) => { const { top, bottom } = document.querySelector(one).getBoundingClientRect(); return top >= document.querySelector('#verdict').getBoundingClientRect().bottom && bottom <= document.querySelector('#jump').getBoundingClientRect().top; }, head);
      assert.equal(await page.evaluate(() => document.querySelector('#jump').getBoundingClientRect().bottom <= window.innerHeight + 1), true, 'the links stay in sight');
    }
    await page.setViewportSize(DESKTOP);
    assert.ok(!(await page.locator('#jump').isVisible()));
  });
});

test('on a phone the wall is one column, nothing on top of anything', async () => {
  await onPage(BARN, PHONE, async (page) => {
    await settled(page);
    await page.getByRole('button', { name: 'For the wall' }).tap();
    for (const [width, height] of [[375, 667], [667, 375], [768, 1024]]) {
      await page.setViewportSize({ width, height });
      const edges = await page.evaluate(() => ['#answer', '#clock', '.scene', 'footer'].map((one) => document.querySelector(one).getBoundingClientRect()).map(({ top, bottom }) => [top, bottom]));
      const [answer, clock, scene, foot] = edges;
      assert.ok(answer[1] <= clock[0] + 1 && scene[1] <= foot[0] + 1 && scene[1] - scene[0] > 200, `${width}: ${edges.join(' | ')}`);
      assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth), `${width} px`);
      assert.ok(await page.evaluate(() => [...document.querySelectorAll('.lap, .tank, .gauge')].every((one) => one.getBoundingClientRect().height > 20 && one.getBoundingClientRect().bottom <= document.querySelector('.scene').getBoundingClientRect().bottom + 1)), `${width}: every part is there`);
    }
  });
});

test('no line of a sentence begins with a comma', async () => {
  await onPage('scenarios/feed_mill_mutual_aid.json', PHONE, async (page) => {
    await page.locator('.sentence').first().waitFor();
    const marks = await page.evaluate(() => {
      const found = [];
      for (const sentence of document.querySelectorAll('.sentence')) {
        const left = sentence.getBoundingClientRect().left;
        for (const walker = document.createTreeWalker(sentence, NodeFilter.SHOW_TEXT); walker.nextNode(); ) {
          const node = walker.currentNode;
          if (!/^[,.]/.test(node.data)) continue;
          const range = document.createRange();
          range.setStart(node, 0);
          range.setEnd(node, 1);
          found.push(range.getBoundingClientRect().left - left);
        }
      }
      return found;
    });
    assert.ok(marks.length > 10 && Math.min(...marks) > 10, marks.join(' '));
  });
});

test('an empty plan stays in the units of the one before', async () => {
  await onPage('scenarios/orchard_metric.json', PHONE, async (page) => {
    await settled(page);
    await page.getByRole('button', { name: 'Empty plan' }).tap();
    await headlineIs(page, '8 things still to fill in');
    assert.equal(await slot(page, 'tankers[0].capacity').getAttribute('aria-label'), 'Tanker 1: its tank, L');
    assert.ok(!(await page.locator('#clock').isVisible()), 'nothing to show yet');
  });
});
