// One fire as the page shows it, minute by minute, without a browser.

import assert from 'node:assert/strict';
import { test } from 'node:test';

import { Story } from '../../crates/page/web/fire/story.js';

test('levels run straight between the moments at which a flow changed', () => {
  const lines = { kind: 'attack_lines' };
  const tanker = { kind: 'tanker', name: 'T' };
  const line = (at_min, who, what) => ({ at_min, who, what, says: what });
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
      tanker_trips: [{ name: 'T' }],
      timeline: [line(12, tanker, 'dumping'), line(14, tanker, 'traveling_out'), line(18, tanker, 'filling'), line(20, lines, 'shortfall_began'), line(22, tanker, 'traveling_back'), line(25, lines, 'shortfall_ended')],
    },
  });
  assert.deepEqual(story.levelsAt(15), { engine: 500, drop_tanks: [250], wanted: 100, given: 100 });
  assert.equal(story.levelsAt(20).given, 0);
  assert.equal(story.levelsAt(3).engine, 1000);
  assert.deepEqual(story.shorts, [{ from: 20, to: 25 }]);
  assert.deepEqual([19.9, 20, 25].map((minute) => story.isShort(minute)), [false, true, false]);
  assert.equal(story.lapAt(0, 1), null, 'not asked for yet');
  const parts = [7, 13, 16, 19, 26].map((minute) => story.lapAt(0, minute)).map(({ part, along }) => [part, along]);
  assert.deepEqual(parts, [['coming', 0.5], ['scene', 0.5], ['out', 0.5], ['fill', 0.25], ['back', 0.5]]);
});

test('a fire that is short to the end is short at its last minute', () => {
  const story = new Story({
    tankers_asked_min: [],
    drop_tanks_hold: [],
    engine_holds: 1000,
    course: [{ minute: 10, engine: 0, drop_tanks: [], wanted: 800, given: 0 }, { minute: 30, engine: 0, drop_tanks: [], wanted: 800, given: 0 }],
    story: { end_min: 30, tanker_trips: [], timeline: [{ at_min: 27, who: { kind: 'attack_lines' }, what: 'shortfall_began', says: 'SHORT' }] },
  });
  assert.deepEqual([26, 27, 29.9, 30].map((minute) => story.isShort(minute)), [false, true, true, true]);
});

test('that one does not come is known when it is told, and no sooner', () => {
  const lines = [{ at_min: 17, who: { kind: 'tanker', name: 'T' }, what: 'stays_away', says: 'does not come' }];
  const story = new Story({ story: { timeline: lines, end_min: 60, tanker_trips: [{ name: 'T' }] }, tankers_asked_min: [3], course: [], drop_tanks_hold: [] });
  assert.equal(story.lapAt(0, 2), null);
  assert.equal(story.lapAt(0, 16).says, 'on the way for the first time');
  assert.equal(story.lapAt(0, 17).says, 'does not come');
  assert.deepEqual(story.marks(), [], 'nobody arrives');
});
