// One fire as it can be looked at: what is so at any minute. No elements here: only what the story says.

import { minutes } from '../told/numbers.js';
import { flowOf } from './placed.js';

/** How many times short are told one by one on a card: it says how many there are. */
const MOST_SHORTS = 3;

/** What a tanker does, as its place on the loop fill - road - dump - road: which stretch, and whether it has water. */
const ON_THE_LOOP = {
  responding: ['coming', true],
  waiting_at_scene: ['scene', true],
  on_deck: ['scene', true],
  nurse_connecting: ['scene', true],
  pumping_off: ['scene', true],
  nurse_disconnecting: ['scene', false],
  positioning: ['scene', true],
  dumping: ['scene', true],
  clearing: ['scene', false],
  breaking_off: ['scene', true],
  standing_by: ['scene', false],
  in_repair: ['scene', false],
  out_of_service: ['scene', false],
  traveling_out: ['out', false],
  waiting_to_fill: ['fill', false],
  connecting: ['fill', false],
  filling: ['fill', false],
  disconnecting: ['fill', true],
  traveling_back: ['back', true],
};

/** To whom a line of the story happens, in words. */
function whoIsTold(who) {
  switch (who.kind) {
    case 'whole_fire':
      return 'this fire';
    case 'attack_lines':
      return 'attack lines';
    case 'watch':
      return 'the watch';
    case 'drop_tank':
      return `drop tank ${who.number}`;
    default:
      return who.name;
  }
}

/** Minutes in which nothing of a tanker is seen on its road. */
const HELD = { waiting_for_road: 0.5, crossing_one_lane: 0.5 };

/** The last of the entries, in order of `minute`, that is not after the minute. */
export function lastBefore(entries, minute) {
  let [low, high] = [0, entries.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (entries[middle].minute <= minute) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

export class Story {
  constructor(fire) {
    this.fire = fire;
    this.story = { ...fire.story, timeline: fire.story.timeline.map((line) => ({ ...line, minute: line.at_min, who: whoIsTold(line.who), tanker: line.who.kind === 'tanker' ? line.who.name : null })) };
    this.end = this.story.end_min;
    this.names = this.story.tanker_trips.map((tanker) => tanker.name);
    this.laps = this.names.map((name, place) => this.lapsOf(name, fire.tankers_asked_min[place]));
    this.shorts = spansBetween(this.story.timeline, 'shortfall_began', 'shortfall_ended', this.end);
    this.turns = this.story.timeline.filter((line) => isTurn(line.what));
  }

  /** A tanker's day in stretches: from when to when, on which part of its loop. */
  lapsOf(name, asked) {
    const lines = this.story.timeline.filter((line) => line.tanker === name && (line.what in ON_THE_LOOP || line.what in HELD));
    const stays = this.story.timeline.find((line) => line.tanker === name && line.what === 'stays_away');
    // Until it is known nobody at the fire can tell one that does not come from one that is late.
    const known = stays === undefined ? null : Math.max(asked, stays.minute);
    const until = lines[0]?.minute ?? this.end;
    const laps = stays === undefined
      ? [{ minute: asked, until, part: 'coming', loaded: true, says: 'on the way for the first time' }]
      : [...(known > asked ? [{ minute: asked, until: known, part: 'coming', loaded: true, says: 'on the way for the first time' }] : []), { minute: known, until, part: 'away', loaded: true, says: 'does not come' }];
    let loaded = true;
    let way = 'out';
    lines.forEach((line, place) => {
      const until = lines[place + 1]?.minute ?? this.end;
      let part;
      if (line.what in HELD) part = `${loaded ? 'back' : 'out'}-held`;
      else [part, loaded] = ON_THE_LOOP[line.what];
      if (part === 'out' || part === 'back') way = part;
      laps.push({ minute: line.minute, until, part, loaded, way, what: line.what, says: line.says, at: line.at });
    });
    return laps;
  }

  /** What a tanker does at a minute, and how far along it is; null before it is asked for. */
  lapAt(place, minute) {
    const laps = this.laps[place];
    const lap = laps[lastBefore(laps, minute)];
    if (lap === undefined) return null;
    const along = lap.until > lap.minute ? Math.min(1, (minute - lap.minute) / (lap.until - lap.minute)) : 1;
    return { ...lap, along };
  }

  /** Levels and flows at a minute; levels run straight between the moments at which a flow changed. */
  levelsAt(minute) {
    const { course } = this.fire;
    const place = lastBefore(course, minute);
    if (place < 0) return { drop_tanks: this.fire.drop_tanks_hold.map(() => 0), engine: this.fire.engine_holds, wanted: 0, given: 0 };
    const [here, next] = [course[place], course[place + 1] ?? course[place]];
    const share = next.minute > here.minute ? Math.min(1, (minute - here.minute) / (next.minute - here.minute)) : 0;
    const between = (from, to) => from + share * (to - from);
    return {
      drop_tanks: here.drop_tanks.map((level, tank) => between(level, next.drop_tanks[tank])),
      engine: between(here.engine, next.engine),
      wanted: here.wanted,
      given: Math.min(here.given, here.wanted),
    };
  }

  /** Whether a drop tank is set up by a minute. */
  isReady(tank, minute) {
    return this.story.timeline.some((line) => line.what === 'drop_tank_ready' && line.at?.number === tank + 1 && line.minute <= minute);
  }

  isShort(minute) {
    // One that lasts to the end of what is watched is short at that minute too.
    return this.shorts.some(({ from, to }) => from <= minute && (minute < to || to >= this.end));
  }

  /** Whether another fire goes exactly the same way. */
  isLike(other) {
    const way = (story) => JSON.stringify(story.story.timeline.map(({ minute, who, what }) => [minute, who, what]));
    return way(this) === way(other);
  }

  /** What has just happened, the latest first. */
  before(minute, many) {
    const place = lastBefore(this.turns, minute);
    return this.turns.slice(Math.max(0, place + 1 - many), place + 1).reverse();
  }

  /** What happens next. */
  after(minute, many) {
    const place = lastBefore(this.turns, minute);
    return this.turns.slice(place + 1, place + 1 + many);
  }

  /** The marks on the line: who comes, what is set up, when the lines want another flow. */
  marks() {
    const kinds = { attack_engine_arrived: 'arrival', supply_engine_arrived: 'arrival', drop_tank_arrived: 'arrival', drop_tank_ready: 'set up', fill_site_ready: 'set up', hooked_up: 'set up', supply_established: 'set up', first_water: 'flow', flow_wanted: 'flow' };
    const marks = this.turns.filter((line) => kinds[line.what] !== undefined).map((line) => ({ minute: line.minute, kind: kinds[line.what], says: `${line.who}: ${line.says}${flowOf(line)}` }));
    this.laps.forEach((laps, place) => {
      const there = laps.find((lap) => lap.part !== 'coming' && lap.part !== 'away');
      if (there !== undefined) marks.push({ minute: there.minute, kind: 'arrival', says: `${this.names[place]} on scene` });
    });
    return marks.sort((one, other) => one.minute - other.minute);
  }

  /** The fire in its minutes, for paper: the marks, and the first times that the lines are short. */
  keyMinutes() {
    const until = (to) => (to >= this.end ? 'to the end' : `until minute ${minutes(to)}`);
    const shorts = this.shorts.slice(0, MOST_SHORTS).map(({ from, to }) => ({ minute: from, says: `the lines run short, ${until(to)}` }));
    const more = this.shorts[MOST_SHORTS];
    if (more !== undefined) shorts.push({ minute: more.from, says: 'and again' });
    return [...this.marks(), ...shorts].sort((one, other) => one.minute - other.minute);
  }
}

/** What turns a fire, in contrast to a tanker's every step. */
const STEPS = new Set(['connecting', 'disconnecting', 'positioning', 'clearing', 'nurse_connecting', 'nurse_disconnecting', 'waiting_at_scene', 'waiting_to_fill', 'crossing_one_lane', 'waiting_for_road']);

function isTurn(what) {
  return !STEPS.has(what);
}

function spansBetween(timeline, begins, ends, end) {
  const spans = [];
  let from = null;
  for (const line of timeline) {
    if (line.what === begins) from = line.minute;
    if (line.what === ends && from !== null) {
      spans.push({ from, to: line.minute });
      from = null;
    }
  }
  if (from !== null) spans.push({ from, to: end });
  return spans;
}
