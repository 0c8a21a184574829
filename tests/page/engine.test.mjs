// The engine in the planner page against the program: every question on every scenario, to the last bit.
//
//   BUCKETLINE=target/debug/bucketline ENGINE=crates/page/built node --test tests/page/engine.test.mjs
//
// Both print numbers with as many digits as tell one double from the next, so that equal numbers are equal bits.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';
import vm from 'node:vm';
import { gunzipSync } from 'node:zlib';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
const program = path.resolve(root, process.env.BUCKETLINE ?? 'target/debug/bucketline');
const built = path.resolve(root, process.env.ENGINE ?? 'crates/page/built');

const engine = vm.runInThisContext(`${readFileSync(path.join(built, 'engine.js'), 'utf8')}\nwasm_bindgen;`);
engine.initSync({ module: gunzipSync(readFileSync(path.join(built, 'engine.wasm.gz'))) });

const folders = ['scenarios', 'scenarios/drills'];
const scenarios = folders.flatMap((folder) =>
  readdirSync(path.join(root, folder)).filter((name) => /_.*\.json$/.test(name)).map((name) => path.join(folder, name)),
);
const RUNS = 128;
/** The question as the page asks it, and what the command is told. */
const questions = [
  [{ question: 'risk', tries_help: true }, ['risk', '--runs', RUNS]],
  [{ question: 'check' }, ['check']],
  [{ question: 'size' }, ['size', '--runs', RUNS]],
  [{ question: 'request' }, ['request', '--runs', RUNS]],
  [{ question: 'lose', target: 0.1 }, ['lose', '--runs', RUNS, '--target', '10%']],
  [{ question: 'hold' }, ['hold', '--runs', RUNS]],
  [{ question: 'levers' }, ['levers', '--runs', RUNS]],
  [{ question: 'grade', share: 0.95 }, ['grade', '--runs', RUNS, '--share', '0.95']],
  [{ question: 'compare' }, ['compare', '--runs', RUNS]],
  [{ question: 'card' }, ['card', '--runs', RUNS]],
];

function native(words, scenario) {
  const charts = ['check', 'grade'].includes(words[0]) ? [] : [words[0] === 'card' ? '--no-pages' : '--no-charts'];
  const [command, ...others] = words.map(String);
  return JSON.parse(execFileSync(program, [command, scenario, ...others, ...charts, '--json'], { cwd: root, encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'], maxBuffer: 1 << 26 }));
}

function asked(what, scenario, ask) {
  const text = readFileSync(path.join(root, scenario), 'utf8');
  return JSON.parse(engine[what](JSON.stringify({ name: scenario, text, ask })));
}

/**
 * Whether two results are the same but for the last digit or two of what goes through the logarithm, the exponential
 * and the powers of the platform's own library: ends of intervals, flows of hydrants. What is counted is the same.
 */
function same(one, other, at = '') {
  if (typeof one === 'number' && typeof other === 'number' && !Object.is(one, other)) {
    // Of what a sentence tells each may be such an end.
    const isEnd = /\.(ci_low|ci_high|ci)(\.\d+)?$/.test(at) || /\.\w*values\.\d+\.share$/.test(at);
    // And each may be of what the inputs may be.
    const isToldDoubt = /\.told\..*values\.\d+\.\w+$/.test(at);
    // A hydrant's flow by its test, and what it lets pass, goes through the platform's powers.
    const isFlow = /_(gpm|lpm)$/.test(at);
    // What the inputs may be is drawn through the same library, and shares of variance are small differences.
    const isDoubt = /\.doubt\./.test(at);
    const within = isDoubt || isToldDoubt ? 1e-6 : isEnd || isFlow ? 1e-12 : 0;
    assert.ok(within > 0 && Math.abs(one - other) <= within * Math.max(1e-3, Math.abs(one)), `${at}: ${one}, ${other}`);
  } else if (one !== null && other !== null && typeof one === 'object' && typeof other === 'object') {
    assert.deepEqual(Object.keys(one), Object.keys(other), at);
    for (const key of Object.keys(one)) same(one[key], other[key], `${at}.${key}`);
  } else {
    assert.equal(one, other, at);
  }
}

test('there are scenarios to compare on', () => {
  assert.ok(existsSync(program), `${program} is not built`);
  assert.ok(scenarios.length >= 15, scenarios.join(' '));
});

for (const scenario of scenarios) {
  test(`the page answers as the program does: ${scenario}`, () => {
    let answered = 0;
    for (const [ask, words] of questions) {
      const reply = asked('answer', scenario, { ...ask, runs: RUNS });
      if (reply.reply === 'refused') {
        assert.throws(() => native(words, scenario), `${words[0]} is refused by the page alone`);
        continue;
      }
      assert.equal(reply.reply, 'answered', words[0]);
      same(reply.answer, native(words, scenario), words[0]);
      answered += 1;
    }
    assert.ok(answered >= 6, `${answered} answers`);
  });

  test(`the clock tells the fire that the program tells: ${scenario}`, () => {
    for (const [ask, words] of [[{ run: 7, seed: 1 }, ['replay', '--run', 7]], [{}, ['replay', '--planned']]]) {
      const { answer } = asked('fire', scenario, ask);
      same(answer.story, native(words, scenario), 'replay');
      const { course } = answer;
      assert.ok(course.length > 20 && course.every((one, place) => place === 0 || one.minute >= course[place - 1].minute));
      // What the lines were given, added up over the watch, is what the fire delivered.
      const given = course.slice(1).reduce((sum, one, place) => sum + (one.minute - course[place].minute) * course[place].given, 0);
      const delivered = answer.story.delivered_gal ?? answer.story.delivered_l;
      assert.ok(Math.abs(given - delivered) < 0.05 * delivered + 1, `${given} given, ${delivered} delivered`);
    }
  });
}

test('reach is answered alike', () => {
  const scenario = 'scenarios/hay_barn_two_tankers.json';
  const reply = asked('answer', scenario, { question: 'reach', runs: 128, share: 0.95, today: { year: 2026, month: 11, day: 29 } });
  same(reply.answer, native(['reach', '--runs', 128, '--share', '0.95'], scenario), 'reach');
});

test('a mistake is told in plain words, and in the word of the reader', () => {
  const text = readFileSync(path.join(root, 'scenarios/hay_barn_two_tankers.json'), 'utf8').replace('"capacity": 3000', '"capcity": 3000');
  for (const [tender, word] of [[false, 'tanker'], [true, 'tender']]) {
    const read = JSON.parse(engine.read('barn.json', text, tender));
    assert.equal(read.read, 'wrong');
    const unknown = read.mistakes.find((one) => one.kind === 'unknown_key');
    assert.match(unknown.place, /^tankers\[\d\]\.capcity$/);
    assert.equal(unknown.problem, `a ${word} has no capcity`);
    assert.equal(unknown.cure, 'a field with a similar name exists: capacity');
  }
});

test('every field is described in plain words, in the word of the reader and the units of the plan', () => {
  const { pump_off: pumpOff } = JSON.parse(engine.schema(true, true)).$defs.tanker.properties;
  assert.match(pumpOff.description, /L\/min\.$/);
  assert.match(JSON.parse(engine.schema(true, false)).$defs.tanker.description, /^A tender, or with count/);
});
