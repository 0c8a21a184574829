// The page's modules that know no browser: the plan with its steps back, what is told.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';

import { howLong } from '../../crates/page/web/told/answer.js';
import { calls, latest } from '../../crates/page/web/told/aid.js';
import { bestOf, sitesTold, verdictOf } from '../../crates/page/web/told/sites.js';
import { forSale, kindOf } from '../../crates/page/web/plan/options.js';
import { Plan, hasShape, placeInPlan, withStruck } from '../../crates/page/web/plan/plan.js';
import { giveUsualSpread } from '../../crates/page/web/plan/usual.js';
import { asked, onceAsked } from '../../crates/page/web/plan/rows.js';
import { askFor, sitesAlone } from '../../crates/page/web/plan/variants.js';
import { whatChanged } from '../../crates/page/web/whole/undone.js';
import { asText } from '../../crates/page/web/plan/slots.js';
import { turned, unitIn } from '../../crates/page/web/plan/units.js';

const here = (name) => new URL(`../../scenarios/${name}`, import.meta.url);
const text = readFileSync(here('hay_barn_two_tankers.json'), 'utf8');
const schema = JSON.parse(readFileSync(here('scenario.schema.json'), 'utf8'));

test('how long the lines are short is told of the fires in which they are', () => {
  const of = (share, mean, worst) => howLong({ interruption_probability: share, interrupted_minutes_mean: mean, interrupted_minutes_worst_5_percent: worst });
  assert.equal(of(0, 0, 0), '');
  assert.equal(of(0.06, 0.066, 0.4), 'Where they run short, it is for 1.1 minutes on average.');
  assert.equal(of(0.5, 6, 31.4), 'Where they run short, it is for 12 minutes on average, in the worst 5 of 100 fires for 31 or more.');
  assert.equal(of(0.01, 0.0001, 0), 'Where they run short, it is for under 0.1 minutes on average.');
  assert.equal(of(0.1, 0.1, 0.5), 'Where they run short, it is for 1 minute on average.');
});

test('by when to ask at the latest: the longest delay that still does what is wanted', () => {
  const delay = (by, more, most) => ({ later_by_min: by, outcome: { interruption_probability: 0.01 + more, higher_by: { by: more, ci_low: 0, ci_high: most } } });
  const ask = (minute, name, response) => ({ requested_at_min: minute, name, response_min: response });
  const answer = { target: 0.05, ci_high: 0.015, late: [delay(5, 0, 0.005), delay(10, 0.02, 0.03), delay(15, 0.03, 0.04)], ask_for: [ask(3, 'Ford', 12), ask(0, 'Ridge', 20), ask(3, 'Mill', 15)] };
  assert.equal(latest(answer), 10, 'of 15 minutes later only the middle is under the target');
  assert.deepEqual(calls(answer), [{ minute: 0, latest: 10, names: ['Ridge'], there: [20] }, { minute: 3, latest: 13, names: ['Ford', 'Mill'], there: [15, 18] }]);
  assert.equal(latest({ ...answer, target: 0.005 }), null);
  assert.equal(latest({ ...answer, late: [delay(5, 0.03, 0.04), delay(10, 0, 0)] }), null, 'a longer delay is no better than a shorter one');
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

test('a plan in other units is exactly the same plan, shown in figures as a person says them, and back again the same numbers', () => {
  const doc = JSON.parse(text);
  doc.incident.reserve = 410;
  const metric = structuredClone(doc);
  turned(metric, schema, schema, 'metric');
  // A US gallon is 231 cubic inches of 25.4 mm, a mile 1.609344 km: exact by definition.
  const litres = 231 * 2.54 ** 3 / 1000;
  const near = (one, other) => assert.ok(Math.abs(one - other) <= 1e-9 * Math.abs(other), `${one}, ${other}`);
  near(metric.attack_engine.tank, doc.attack_engine.tank * litres);
  near(metric.incident.reserve, 410 * litres);
  near(metric.fill_sites[0].out.km, doc.fill_sites[0].out.miles * 1.609344);
  assert.equal(metric.fill_sites[0].out.miles, undefined);
  assert.deepEqual(metric.attack_engine.response, doc.attack_engine.response, 'minutes stay');
  // By hand: 410 gal are 1,552.0 L, said as 1,550.
  assert.equal(asText(metric.incident.reserve, 'L'), '1,550');
  for (const tanker of metric.tankers) assert.match(asText(tanker.capacity, 'L'), /^\d{1,3}(,\d00|,\d\d0|,000)$/);
  turned(metric, schema, schema, 'us');
  assert.deepEqual(Object.keys(doc).filter((key) => JSON.stringify(sorted(doc[key])) !== JSON.stringify(sorted(metric[key]))), []);
  assert.equal(unitIn(schema.$defs.tanker.properties.capacity).metric, 'L');
  // 800 L/min is 211.34 gpm, 5,000 L 1,320.9 gal, 2.5 km 1.5534 mi.
  const there = { attack_engine: { tank: 5000 }, incident: { attack_flow: 800 }, fill_sites: [{ out: { km: 2.5 } }] };
  turned(there, schema, schema, 'us');
  assert.deepEqual([there.attack_engine.tank, there.incident.attack_flow].map((one) => asText(one, 'gal')), ['1,320', '211']);
  assert.equal(asText(there.fill_sites[0].out.miles, 'mi'), '1.55');
  // What was typed stands as it was typed, however many figures a person gave it; minutes are never turned.
  assert.deepEqual([asText(1136, 'L'), asText(11356.2, 'L'), asText(4.1234567, 'min')], ['1,136', '11,356.2', '4.1234567']);
  for (const unit of ['gal', 'L', 'gpm', 'km', '']) assert.deepEqual([1234567, 1234.5678, 12345678.9].map((one) => asText(one, unit)), ['1,234,567', '1,234.5678', '12,345,678.9'], unit);
  // 3 mi are 4.828032 km, 1,234,567 gal 4,673,344.5 L: turned, and said so.
  assert.deepEqual([asText(4.828032, 'km'), asText(4.828032, 'mi')], ['4.83', '4.828032']);
  const long = { attack_engine: { tank: 1234567 } };
  turned(long, schema, schema, 'metric');
  near(long.attack_engine.tank, 1234567 * litres);
  assert.equal(asText(long.attack_engine.tank, 'L'), '4,670,000');
  turned(long, schema, schema, 'us');
  assert.equal(asText(long.attack_engine.tank, 'gal'), '1,234,567');
  turned(there, schema, schema, 'metric');
  assert.deepEqual(there, { attack_engine: { tank: 5000 }, incident: { attack_flow: 800 }, fill_sites: [{ out: { km: 2.5 } }] });
});

test('of every unit that is another one in metric a turned number is said in three figures', () => {
  const units = new Map();
  const walk = (value) => {
    if (value === null || typeof value !== 'object') return;
    const bare = value['x-bare-unit'];
    if (bare !== undefined && bare.us !== bare.metric) units.set(bare.us, bare);
    Object.values(value).forEach(walk);
  };
  walk(schema);
  assert.ok(units.size >= 6, [...units.keys()].join(' '));
  for (const { us, metric, metric_per_us: perUs } of units.values()) {
    const [there, back] = [Number((37 * perUs).toPrecision(12)), Number((37 / perUs).toPrecision(12))];
    for (const [number, unit] of [[there, metric], [back, us]]) {
      const figures = asText(number, unit).replace(/\D/g, '').replace(/^0+/, '');
      assert.ok(figures.length <= 6, `${number} ${unit}: ${figures}`);
    }
  }
});

/** The same object with its keys in order. */
function sorted(value) {
  if (value === null || typeof value !== 'object') return value;
  if (Array.isArray(value)) return value.map(sorted);
  return Object.fromEntries(Object.keys(value).sort().map((key) => [key, sorted(value[key])]));
}

test('what an option would change is turned to the other units with the plan', () => {
  const change = (path, value) => ({ name: path, changes: [{ op: 'add', path, value }] });
  const doc = { options: [change('/tankers/-', { capacity: 1000, response: 10 }), change('fill_sites/Pond/flow', 1000), change('/fill_sites/0/out/miles', 2), change('/drop_tanks/0/setup', 4), change('tankers/Tanker 3/response', { mean: 7, cv: 0.2 })] };
  turned(doc, schema, schema, 'metric');
  const [tanker, flow, road, setup, response] = doc.options.map((one) => one.changes[0]);
  const near = (one, other) => assert.ok(Math.abs(one - other) <= 1e-9 * other, `${one}, ${other}`);
  near(tanker.value.capacity, 231 * 2.54 ** 3);
  assert.equal(tanker.value.response, 10);
  near(flow.value, 231 * 2.54 ** 3);
  assert.equal(road.path, '/fill_sites/0/out/km');
  assert.ok(Math.abs(road.value - 2 * 1.609344) <= 1e-9, String(road.value));
  assert.deepEqual([setup.value, response.value], [4, { mean: 7, cv: 0.2 }]);
});

test('what is struck out goes into the file and comes back from it, each row in its place', () => {
  const plan = new Plan(text);
  plan.doc.tankers[1].fill_site = plan.doc.fill_sites[0].name;
  plan.doc.fill_sites.push({ name: 'Otter pond', flow: 500, out: { miles: 3 }, back: { miles: 3 } });
  plan.doc.options = [{ name: 'counts', changes: [{ op: 'add', path: '/tankers/1/capacity', value: 3500 }] }, { name: 'not yet', changes: [{ op: 'add', path: '/tankers/-', value: {} }] }];
  plan.doc.tankers.push({ name: 'Tanker 9', capacity: 2000, response: 20 });
  plan.strike('tankers', 2);
  plan.strike('tankers', 0);
  plan.strike('fill_sites', 0);
  const saved = JSON.parse(plan.saved());
  // Read by anything else it is the plan as it is answered, with notes.
  assert.equal(saved.tankers.length, 1);
  assert.ok(saved.notes.every((note) => typeof note === 'string' && note.length <= 10_000));
  const { notes, ...others } = saved;
  const { notes: own, ...answered } = JSON.parse(plan.inForce().text);
  assert.deepEqual(others, answered);
  assert.ok(notes.length > own.length);
  const { doc, struck } = withStruck(saved);
  assert.deepEqual(sorted(doc), sorted(plan.doc));
  assert.deepEqual(new Set(struck), plan.struck);
  assert.deepEqual(new Plan(JSON.stringify(doc), struck).inForce().text.length, plan.inForce().text.length);
  for (const notes of [undefined, 'one text', ['a', 'b']]) {
    const other = new Plan(text);
    other.set(['notes'], notes);
    other.strike('tankers', 1);
    assert.deepEqual(withStruck(JSON.parse(other.saved())).doc.notes, notes);
  }
  // A file may have been put in another order by hand; rows come back from the front of their list.
  const turned = { ...saved, notes: [...saved.notes].reverse() };
  assert.deepEqual(withStruck(turned).doc.tankers, plan.doc.tankers);
  const odd = { notes: ['Struck out on the planner page: nothing', 'Struck out on the planner page: {"list":"__proto__","place":0,"row":{}}'] };
  assert.deepEqual(withStruck(odd), { doc: odd, struck: [] });
});

test("a plan of one's own carries neither the notes nor the struck-out rows of the example it was made over", () => {
  const starter = readFileSync(new URL('../../crates/scenario-file/src/starters/scenario.json', import.meta.url), 'utf8');
  const example = JSON.parse(starter);
  const plan = new Plan(starter);
  const bringer = plan.doc.tankers.findIndex((row) => row.name === plan.doc.drop_tanks[0].brought_by);
  assert.ok(bringer >= 0);
  plan.strike('tankers', bringer);
  assert.deepEqual(JSON.parse(plan.saved(example)), JSON.parse(plan.saved()), 'it is still the example');
  plan.set(['title'], 'Mill, Alder Road');
  plan.add('tankers', { name: 'Tender 9', capacity: 2500, response: 12 });
  plan.add('tankers', { name: 'Tender 10', capacity: 2500, response: 12 });
  plan.strike('tankers', plan.doc.tankers.length - 1);
  plan.doc.notes.push('The gate is locked on Sundays.');
  const saved = JSON.parse(plan.saved(example));
  assert.equal(saved.notes[0], 'The gate is locked on Sundays.');
  assert.ok(saved.notes.length === 2 && saved.notes[1].includes('Tender 10'), JSON.stringify(saved.notes));
  const { doc } = withStruck(saved);
  assert.deepEqual(doc.notes, ['The gate is locked on Sundays.']);
  // Nothing in it calls for who was left out.
  assert.ok(!doc.drop_tanks.some((row) => row.brought_by === example.tankers[bringer].name));
});

test('who is asked comes with all that is said of it, in one step', () => {
  const plan = new Plan(text);
  plan.add('aid', { name: 'Ridge', capacity: 2500, response: 12 });
  plan.add('aid', { name: 'Ford', capacity: 2000, response: 15 });
  plan.add('aid', { name: 'Mill', capacity: 2200, response: 14 });
  plan.strike('aid', 2);
  const before = plan.snapshot();
  plan.moveAll('aid', [0, 1], 'tankers', (row) => ({ ...row, requested_at: 0 }));
  assert.deepEqual(plan.doc.tankers.slice(-2), [{ name: 'Ridge', capacity: 2500, response: 12, requested_at: 0 }, { name: 'Ford', capacity: 2000, response: 15, requested_at: 0 }]);
  assert.deepEqual([plan.doc.aid.length, plan.isStruck('aid', 0), plan.isStruck('aid', 2)], [1, true, false]);
  plan.move('aid', 0, 'tankers');
  assert.ok(plan.isStruck('tankers', plan.doc.tankers.length - 1) && plan.doc.aid === undefined);
  plan.undo();
  plan.undo();
  assert.equal(plan.snapshot(), before);
});

test('an option that is not filled in yet is left out, and the plan is answered', () => {
  const plan = new Plan(text);
  plan.add('options', { name: 'One more', changes: [{ op: 'add', path: '/tankers/-', value: { name: 'New tanker' } }] });
  assert.equal(JSON.parse(plan.inForce().text).options, undefined);
  assert.deepEqual(plan.inForce().unready, [0]);
  plan.set(['options', 0, 'changes', 0, 'value', 'capacity'], 3000);
  plan.set(['options', 0, 'changes', 0, 'value', 'response'], 12);
  assert.deepEqual([JSON.parse(plan.inForce().text).options.length, plan.inForce().unready], [1, []]);
  plan.strike('tankers', 0);
  assert.equal(JSON.parse(plan.inForce().text).options.length, 1, 'it counts no rows');
  assert.equal(kindOf(plan.doc.options[0]), 'tanker');
});

test('a name that is typed anew is followed wherever it is called, once it is whole', () => {
  const plan = new Plan(JSON.stringify({
    attack_engine: { name: 'Engine 3' },
    drop_tanks: [{ capacity: 3000, brought_by: 'Tanker 3' }, { capacity: 2000, brought_by: 'Aid tanker 2' }, { capacity: 2000, brought_by: 'Engine 3' }],
    tankers: [{ name: 'Tanker 3', capacity: 3000 }, { name: 'Tanker 1', capacity: 2000, fill_site: 'Pond' }],
    aid: [{ name: 'Aid tanker', count: 2, capacity: 2500, fill_site: 'Pond' }],
    fill_sites: [{ name: 'Pond', source_pump: { brought_by: 'Tanker 1' } }],
    options: [{ name: 'larger', changes: [{ op: 'replace', path: 'tankers/Tanker 3/capacity', value: 4000 }, { op: 'add', path: '/drop_tanks/-', value: { capacity: 1000, brought_by: 'Tanker 3' } }] }],
  }), ['aid[0]']);
  plan.rename(['tankers', 0, 'name'], 'Tanker 12');
  assert.equal(plan.doc.drop_tanks[0].brought_by, 'Tanker 12');
  assert.equal(plan.doc.options[0].changes[0].path, 'tankers/Tanker 12/capacity');
  assert.equal(plan.doc.options[0].changes[1].value.brought_by, 'Tanker 12');
  assert.equal(plan.doc.fill_sites[0].source_pump.brought_by, 'Tanker 1');
  plan.rename(['tankers', 1, 'name'], 'Old tanker');
  assert.equal(plan.doc.fill_sites[0].source_pump.brought_by, 'Old tanker');
  plan.rename(['aid', 0, 'name'], 'County');
  assert.equal(plan.doc.drop_tanks[1].brought_by, 'County 2');
  plan.rename(['attack_engine', 'name'], 'Engine 9');
  assert.equal(plan.doc.drop_tanks[2].brought_by, 'Engine 9');
  plan.rename(['fill_sites', 0, 'name'], 'Mill pond');
  assert.deepEqual([plan.doc.tankers[1].fill_site, plan.doc.aid[0].fill_site], ['Mill pond', 'Mill pond']);
  // A step back takes the name and its calls back; other values move no name.
  plan.undo();
  assert.deepEqual([plan.doc.fill_sites[0].name, plan.doc.tankers[1].fill_site], ['Pond', 'Pond']);
  plan.set(['tankers', 0, 'capacity'], 'Old tanker');
  assert.equal(plan.doc.fill_sites[0].source_pump.brought_by, 'Old tanker');
});

test('while a name is two units\', every call stays as it is, and what was one\'s own is found again', () => {
  const plan = new Plan(JSON.stringify({
    drop_tanks: [{ brought_by: 'Tanker 8' }, { brought_by: 'Tanker 7' }],
    tankers: [{ name: 'Tanker 8', fill_site: 'Pond' }, { name: 'Tanker 7' }],
    fill_sites: [{ name: 'Pond' }, { name: 'Creek' }],
  }));
  const brought = () => plan.doc.drop_tanks.map((row) => row.brought_by);
  plan.rename(['tankers', 0, 'name'], 'Tanker 7');
  assert.deepEqual(brought(), ['Tanker 8', 'Tanker 7']);
  plan.rename(['tankers', 0, 'name'], 'Tanker 71');
  assert.deepEqual(brought(), ['Tanker 71', 'Tanker 7']);
  // Who shares a name and gives it up leaves the calls to the other.
  plan.rename(['tankers', 0, 'name'], 'Tanker 7');
  plan.awaited.clear();
  plan.rename(['tankers', 1, 'name'], 'Tanker 9');
  assert.deepEqual(brought(), ['Tanker 71', 'Tanker 7']);
  plan.rename(['fill_sites', 0, 'name'], 'Creek');
  assert.equal(plan.doc.tankers[0].fill_site, 'Pond');
  plan.rename(['fill_sites', 0, 'name'], 'Ford');
  assert.equal(plan.doc.tankers[0].fill_site, 'Ford');
  plan.undo();
  assert.deepEqual([plan.doc.fill_sites[0].name, plan.doc.tankers[0].fill_site], ['Creek', 'Pond']);
});

test('the usual spread goes to whatever is a plain time, and to nothing else', () => {
  const doc = {
    attack_engine: { response: 9, water_on: 0 }, supply: { engine: { setup: 5 } }, drop_tanks: [{ setup: 3 }], tankers: [{ response: '11 min', turnout: 0.9 }, { response: { low: 3, high: 8 } }, { response: 20, aid: 'mutual' }], aid: [{ response: 20 }],
    fill_sites: [{ flow: 900, ready: 14, out: { miles: 2 }, back: { minutes: 5 } }, { out: { miles: 2, cv: 0.3 }, back: {} }], handling: { fill_connect: 1 },
  };
  giveUsualSpread(doc);
  assert.deepEqual(doc, {
    attack_engine: { response: { mean: 9, cv: 0.15 }, water_on: 0 }, supply: { engine: { setup: { mean: 5, cv: 0.3 } } }, drop_tanks: [{ setup: { mean: 3, cv: 0.3 } }], tankers: [{ response: { mean: '11 min', cv: 0.15 }, turnout: 0.9 }, { response: { low: 3, high: 8 } }, { response: { mean: 20, cv: 0.2 }, aid: 'mutual' }], aid: [{ response: { mean: 20, cv: 0.2 } }],
    fill_sites: [{ flow: 900, ready: { mean: 14, cv: 0.2 }, out: { miles: 2, cv: 0.15 }, back: { minutes: { mean: 5, cv: 0.15 } } }, { out: { miles: 2, cv: 0.3 }, back: {} }], handling: { fill_connect: { mean: 1, cv: 0.3 } },
    whole_fire: { driving_cv: 0.1, handling_cv: 0.15, response_cv: 0.15 },
  });
});

test('which site does best is said only where the fires can tell', () => {
  const of = (name, share, half) => ({ name, answer: { interruption_probability: share, ci_low: share - half, ci_high: share + half } });
  const [pond, creek, well] = [of('Pond', 0.4, 0.02), of('Creek', 0.2, 0.02), { name: 'Well', answer: null }];
  assert.equal(verdictOf([pond, creek, well], { interruption_probability: 0.1 }), 'Creek is the best fill site alone: the lines run short in 20 fires of 100; with all of them in 10.');
  assert.deepEqual(bestOf([pond, of('Creek', 0.37, 0.02)]).map((one) => one.name), ['Creek', 'Pond']);
  assert.match(verdictOf([pond, of('Creek', 0.37, 0.02)], null), /^Creek and Pond alone are too close to tell: .* 37 and 40 fires/);
});

test('whom to ask comes into the plan at its minute, of a group each alone where only some are asked', () => {
  const plan = new Plan(JSON.stringify({ tankers: [{ name: 'Own' }], aid: [{ name: 'Ridge', capacity: 1 }, { name: 'Ford', count: 3 }, { name: 'Mill', count: 2 }, { name: 'Late', alarm: 'second' }, { name: 'Gone' }] }), ['aid[4]']);
  askFor(plan, [{ name: 'Ford 2', requested_at_min: 4 }, { name: 'Mill 1', requested_at_min: 0 }, { name: 'Mill 2', requested_at_min: 0 }, { name: 'Late', requested_at_min: 12 }]);
  assert.deepEqual(plan.doc.tankers, [{ name: 'Own' }, { name: 'Ford 2', requested_at: 4, aid: 'mutual' }, { name: 'Mill', count: 2, requested_at: 0, aid: 'mutual' }, { name: 'Late', alarm: 'second', aid: 'mutual' }]);
  assert.deepEqual(plan.doc.aid, [{ name: 'Ridge', capacity: 1 }, { name: 'Ford 1' }, { name: 'Ford 3' }, { name: 'Gone' }]);
  assert.deepEqual([...plan.struck], ['aid[3]']);
  plan.undo();
  assert.equal(plan.doc.aid.length, 5);
});

test('each fill site alone: the others are struck, and who was bound to one of them goes where he can', () => {
  const plan = new Plan(JSON.stringify({ tankers: [{ name: 'T', fill_site: 'Creek' }], fill_sites: [{ name: 'Pond' }, { name: 'Creek' }, { name: 'Well' }] }), ['fill_sites[2]']);
  const alone = sitesAlone(plan);
  assert.deepEqual(alone.map((one) => [one.name, JSON.parse(one.text).fill_sites.map((row) => row.name), JSON.parse(one.text).tankers[0].fill_site]), [['Pond', ['Pond'], undefined], ['Creek', ['Creek'], 'Creek']]);
  assert.deepEqual([...plan.struck], ['fill_sites[2]'], 'the plan itself stays');
});

test('a step back says what it took back', () => {
  const plan = new Plan(JSON.stringify({ title: 'Barn', tankers: [{ name: 'T1', capacity: 3000 }, { name: 'T2' }], drop_tanks: [{ brought_by: 'T1' }] }));
  const told = (change, says = null, unit = '') => {
    const before = JSON.parse(plan.snapshot());
    change();
    return whatChanged(before, JSON.parse(plan.snapshot()), () => (says === null ? null : { says, unit }));
  };
  assert.equal(told(() => plan.set(['tankers', 0, 'capacity'], 2500), 'T1: its tank', 'gal'), 'T1: its tank, gal, is 2,500');
  assert.equal(told(() => plan.undo(), 'T1: its tank', 'gal'), 'T1: its tank, gal, is 3,000');
  // A comma in what the box says, as in a name, is no unit; a number that was turned is said in its unit.
  assert.equal(told(() => plan.set(['tankers', 0, 'capacity'], 9463.52946), 'Ford, L: its tank', 'L'), 'Ford, L: its tank, L, is 9,460');
  assert.equal(told(() => plan.set(['tankers', 0, 'requested_at'], 4.8280321), 'T1: asked for, km'), 'T1: asked for, km is 4.8280321');
  assert.equal(told(() => plan.strike('tankers', 1)), 'T2 is struck out');
  assert.equal(told(() => plan.undo()), 'T2 is in the plan');
  assert.equal(told(() => plan.remove('tankers', 1)), 'who comes');
  assert.equal(told(() => plan.rename(['tankers', 0, 'name'], 'T9'), 'Name'), 'Name is T9');
  assert.equal(told(() => plan.set(['tankers', 0, 'dump'], 1)), 'T9');
  assert.equal(told(() => plan.replace({ title: 'Mill', tankers: [] })), 'the plan as a whole');
  assert.equal(told(() => {}), 'the last change');
});

test('what was tried becomes something to buy where it is for sale', () => {
  const doc = JSON.parse(text);
  const tanker = forSale(doc, { kind: 'one_more_tanker', like: 'Tanker 5' }, 'tanker', []);
  const like = doc.tankers.find((one) => one.name === 'Tanker 5');
  assert.deepEqual([tanker.op, tanker.path, tanker.value.capacity, tanker.value.name], ['add', '/tankers/-', like.capacity, 'New tanker']);
  assert.deepEqual(tanker.value.response, like.response);
  assert.ok(!Object.is(tanker.value.response, like.response), 'a copy');
  // 250 gpm more than 900: in litres as large a part.
  const more = { kind: 'moved', input: { kind: 'site_flow', fill_site: 'Quarry pond' }, now: { flow_gpm: 900 }, way: 'more', moved_by: { flow_gpm: 250 } };
  assert.deepEqual(forSale(doc, more, 'tanker', []), { op: 'add', path: 'fill_sites/Quarry pond/flow', value: 1150 });
  const metric = { ...doc, fill_sites: [{ ...doc.fill_sites[0], flow: 3600 }] };
  assert.equal(forSale(metric, more, 'tanker', []).value, 4600);
  assert.equal(forSale(doc, { kind: 'moved', input: { kind: 'tankers_arrive' }, now: null, way: 'less', moved_by: { time_min: 5 } }, 'tanker', []), null);
  assert.equal(forSale(doc, { kind: 'one_more_tanker', like: 'Nobody' }, 'tanker', []), null);
});

test('somebody who is only being written down is left out and kept in the file', () => {
  const plan = new Plan(JSON.stringify({ tankers: [{ name: 'Own' }], aid: [{ name: 'Ridge', capacity: 2000, response: 20 }, { name: 'Ford', capacity: 1500 }] }));
  const { text: inForce, unfilled } = plan.inForce();
  assert.deepEqual(JSON.parse(inForce).aid.map((row) => row.name), ['Ridge']);
  assert.deepEqual(unfilled, [1]);
  const again = withStruck(JSON.parse(plan.saved()));
  assert.deepEqual(again.doc.aid.map((row) => row.name), ['Ridge', 'Ford']);
  assert.deepEqual(again.struck, []);
});

test('whoever is asked stays mutual aid, and is called with an alarm where there is one', () => {
  assert.deepEqual(asked({ name: 'Ridge' }), { name: 'Ridge', requested_at: 0, aid: 'mutual' });
  assert.deepEqual(asked({ name: 'Ford', alarm: 'second', aid: 'automatic' }), { name: 'Ford', alarm: 'second', aid: 'automatic' });
  assert.deepEqual(onceAsked(asked({ name: 'Ridge' })), { name: 'Ridge' });
  assert.deepEqual(onceAsked({ name: 'Ford', requested_at: 4, aid: 'automatic' }), { name: 'Ford', requested_at: 4, aid: 'automatic' });
});

test('where every fire is short with any site alone, how long it is tells them apart', () => {
  const of = (name, mean) => ({ name, answer: { interruption_probability: 1, ci_low: 1, ci_high: 1, interrupted_minutes_mean: mean } });
  assert.equal(verdictOf([of('Pond', 58), of('Hydrant', 41)], null), 'The lines run short in every fire with any fill site alone; it is shortest with Hydrant, for 41 minutes on average, 58 with Pond.');
  assert.match(sitesTold([of('Pond', 58)], null, 1000, 'tender').points[0].feet[0], /every tender fills there/);
});
