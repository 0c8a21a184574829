// The page's modules that know no browser: numbers as they are typed, the plan with its steps back, the minutes of a
// fire.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';

import { ofHundred, shown, typed } from '../../crates/page/web/numbers.js';
import { Plan, hasShape, placeInPlan } from '../../crates/page/web/plan.js';
import { turned, unitIn } from '../../crates/page/web/sentences.js';
import { Story } from '../../crates/page/web/story.js';

const here = (name) => new URL(`../../scenarios/${name}`, import.meta.url);
const text = readFileSync(here('hay_barn_two_tankers.json'), 'utf8');
const schema = JSON.parse(readFileSync(here('scenario.schema.json'), 'utf8'));

test('numbers are taken with comma or point, with thousands apart or not', () => {
  for (const [words, number] of [
    ['3000', 3000], ['3,000', 3000], ['3 000', 3000], ['3\u202f000', 3000], ['1,234,567.5', 1234567.5], ['2.4', 2.4], ['2,4', 2.4], ['0,25', 0.25],
    ['1.234.567', 1234567], ['1.250,5', 1250.5], [' 12 ', 12], ['-3', -3], ['.5', 0.5], ['2.400', 2.4], ['12,50', 12.5],
  ]) assert.equal(typed(words), number, words);
  for (const words of ['', 'ten', '11000 L', '1,2,3', '3.0.0', '1e3', '--2', '5%']) assert.ok(Number.isNaN(typed(words)), words);
});

test('what the page shows of a number is read back as that number', () => {
  for (const number of [0, 0.05, 2.4, 999, 1000, 1250, 12345.678, 1e6, 0.125]) assert.equal(typed(shown(number, 12)), number);
});

test('a rare fire is never rounded to none, nor a near-certain one to all', () => {
  assert.deepEqual([0, 0.0002, 0.001, 0.063, 0.17, 0.95, 0.9996, 1].map(ofHundred), ['0', 'under 0.1', '0.1', '6.3', '17', '95', 'over 99.9', '100']);
});

test('every change can be taken back and made again, and typing in one place is one step', () => {
  const plan = new Plan(text);
  const before = plan.snapshot();
  for (const value of [2, 25, 250]) plan.set(['tankers', 0, 'capacity'], value);
  plan.add('tankers', { name: 'Tanker 40', capacity: 3000, response: 12 });
  plan.strike('tankers', 0);
  plan.remove('fill_sites', 0);
  plan.set(['supply', 'engine', 'name'], undefined);
  const after = plan.snapshot();
  for (let step = 0; step < 5; step += 1) plan.undo();
  assert.equal(plan.snapshot(), before);
  assert.equal(plan.past.length, 0);
  for (let step = 0; step < 5; step += 1) plan.redo();
  assert.equal(plan.snapshot(), after);
});

test('who is struck out does not come, nor the drop tank that it brings; a mistake leads to its row all the same', () => {
  const plan = new Plan(text);
  const bringer = plan.doc.drop_tanks[0].brought_by;
  const place = plan.doc.tankers.findIndex((row) => row.name === bringer);
  assert.ok(place >= 0, bringer);
  plan.strike('tankers', place);
  const { text: answered, places, unbound } = plan.inForce();
  const doc = JSON.parse(answered);
  assert.ok(!doc.tankers.some((row) => row.name === bringer));
  assert.equal(doc.drop_tanks.length, plan.doc.drop_tanks.length - 1);
  assert.deepEqual(unbound, [0]);
  assert.equal(placeInPlan('tankers[0].capacity', places), `tankers[${place === 0 ? 1 : 0}].capacity`);
  plan.strike('tankers', place);
  assert.deepEqual(JSON.parse(plan.inForce().text), JSON.parse(text));
});

test('an option that counts the rows of a list is left out while one of them is struck out', () => {
  const plan = new Plan(readFileSync(here('hay_barn_what_to_buy.json'), 'utf8'));
  const all = plan.doc.options.length;
  plan.strike('drop_tanks', 0);
  const { text: answered, leftOut } = plan.inForce();
  assert.ok(leftOut.length > 0 && leftOut.length < all, `${leftOut} of ${all}`);
  const kept = JSON.parse(answered).options;
  assert.equal(kept.length, all - leftOut.length);
  assert.ok(!JSON.stringify(kept).includes('"/drop_tanks/'));
});

test('only what can be shown as sentences is opened', () => {
  for (const odd of [null, 3, [], { tankers: 'x' }, { tankers: [1] }, { incident: [] }, { aid: Array(301).fill({}) }]) assert.ok(!hasShape(odd), JSON.stringify(odd)?.slice(0, 40));
  assert.ok(hasShape({}) && hasShape(JSON.parse(text)));
});

test('a plan in other units is the same plan, and back again the same numbers', () => {
  const doc = JSON.parse(text);
  const metric = structuredClone(doc);
  turned(metric, schema, schema, 'metric');
  // A US gallon is 231 cubic inches of 25.4 mm, a mile 1.609344 km: exact by definition.
  assert.equal(metric.attack_engine.tank, Number((doc.attack_engine.tank * 231 * 2.54 ** 3 / 1000).toPrecision(6)));
  assert.equal(metric.fill_sites[0].out.km, Number((doc.fill_sites[0].out.miles * 1.609344).toPrecision(6)));
  assert.equal(metric.fill_sites[0].out.miles, undefined);
  assert.deepEqual(metric.attack_engine.response, doc.attack_engine.response, 'minutes stay');
  turned(metric, schema, schema, 'us');
  const near = (one, other, at) => {
    if (typeof one === 'number') assert.ok(Math.abs(one - other) <= 2e-5 * Math.abs(one), `${at}: ${one}, ${other}`);
    else if (one !== null && typeof one === 'object') for (const key of Object.keys(one)) near(one[key], other[key], `${at}.${key}`);
    else assert.equal(one, other, at);
  };
  near(doc, metric, '');
  assert.equal(unitIn(schema.$defs.tanker.properties.capacity).metric, 'L');
});

test('levels run straight between the moments at which a flow changed', () => {
  const line = (minute, who, what) => ({ minute, who, what, says: what });
  const story = new Story({
    tankers_asked_min: [2],
    drop_tanks_hold: [3000],
    engine_holds: 1000,
    course: [
      { minute: 10, engine: 1000, drop_tanks: [0], wanted: 100, given: 100 },
      { minute: 20, engine: 0, drop_tanks: [500], wanted: 100, given: 0 },
      { minute: 25, engine: 0, drop_tanks: [0], wanted: 100, given: 100 },
    ],
    story: {
      end_min: 30,
      tankers: [{ name: 'T' }],
      timeline: [line(12, 'T', 'dumping'), line(14, 'T', 'traveling_out'), line(18, 'T', 'filling'), line(20, 'attack lines', 'shortfall_began'), line(22, 'T', 'traveling_back'), line(25, 'attack lines', 'shortfall_ended')],
    },
  });
  assert.deepEqual(story.levelsAt(15), { engine: 500, drop_tanks: [250], wanted: 100, given: 100 });
  assert.equal(story.levelsAt(20).given, 0);
  assert.equal(story.levelsAt(3).engine, 1000);
  assert.deepEqual(story.shorts, [{ from: 20, to: 25 }]);
  assert.equal(story.lapAt(0, 1), null, 'not asked for yet');
  const parts = [7, 13, 16, 19, 26].map((minute) => story.lapAt(0, minute)).map(({ part, along }) => [part, along]);
  assert.deepEqual(parts, [['coming', 0.5], ['scene', 0.5], ['out', 0.5], ['fill', 0.25], ['back', 0.5]]);
});
