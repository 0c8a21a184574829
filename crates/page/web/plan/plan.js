// The plan that is worked on: the scenario as it is saved, which of its rows are struck out, and every step back.

import { areAnothers, callsOf, namesAt } from './references.js';

const LISTS = ['drop_tanks', 'tankers', 'fill_sites', 'aid'];
const MOST_STEPS = 500;

/** The value at a path such as ['tankers', 1, 'capacity']. */
export function at(doc, path) {
  return path.reduce((value, key) => (value === null || value === undefined ? undefined : value[key]), doc);
}

/** "tankers[1].capacity". */
export function placeOf(path) {
  return path.reduce((place, key) => (typeof key === 'number' ? `${place}[${key}]` : place ? `${place}.${key}` : key), '');
}

/** ['tankers', 1, 'capacity']. */
export function pathOf(place) {
  return [...place.matchAll(/([^.[\]]+)|\[(\d+)\]/g)].map((found) => (found[2] === undefined ? found[1] : Number(found[2])));
}

/** Whether the page can show it as sentences: lists are lists, their rows are objects. */
export function hasShape(doc) {
  const isObject = (value) => value !== null && typeof value === 'object' && !Array.isArray(value);
  const objects = ['incident', 'attack_engine', 'supply', 'handling'];
  return (
    isObject(doc) &&
    objects.every((key) => doc[key] === undefined || isObject(doc[key])) &&
    (doc.options === undefined || Array.isArray(doc.options)) &&
    LISTS.every((key) => doc[key] === undefined || (Array.isArray(doc[key]) && doc[key].length <= 300 && doc[key].every(isObject)))
  );
}

export class Plan {
  constructor(text, struck = [], past = []) {
    this.listeners = [];
    this.past = past;
    this.future = [];
    this.lastStep = '';
    /** Names whose calls wait until theirs is one unit's alone, by the place that had them. */
    this.awaited = new Map();
    this.doc = JSON.parse(text);
    this.struck = new Set(struck);
  }

  /** Calls back after every change. */
  onChange(call) {
    this.listeners.push(call);
  }

  get(path) {
    return at(this.doc, path);
  }

  /** Puts a value in its place; undefined takes it away. Typing in one place is one step. */
  set(path, value) {
    this.step(placeOf(path), () => this.put(path, value));
  }

  /**
   * Gives a unit or a fill site another name, once it is typed whole: whoever calls it by the old one calls it by the new.
   * While the old name or the new one is also another's nobody can tell who is meant, and every call stays as it is; a
   * name that was only its own is kept in mind until the new one is.
   */
  rename(path, name) {
    const place = placeOf(path);
    const before = this.awaited.get(place) ?? namesAt(this.doc, path);
    this.step('', () => {
      this.put(path, name);
      const after = namesAt(this.doc, path);
      this.awaited.delete(place);
      if (areAnothers(this.doc, path, before)) return;
      if (areAnothers(this.doc, path, after)) {
        this.awaited.set(place, before);
        return;
      }
      for (const { which, put } of callsOf(this.doc, before, path[0] === 'fill_sites')) if (after[which] !== undefined) put(after[which]);
    });
  }

  put(path, value) {
    let holder = this.doc;
    for (const [depth, key] of path.slice(0, -1).entries()) {
      if (holder[key] === undefined || holder[key] === null || typeof holder[key] !== 'object') {
        if (value === undefined) return;
        holder[key] = typeof path[depth + 1] === 'number' ? [] : {};
      }
      holder = holder[key];
    }
    const last = path[path.length - 1];
    if (value === undefined && Array.isArray(holder)) holder.splice(last, 1);
    else if (value === undefined) delete holder[last];
    else holder[last] = value;
  }

  /** Puts a row at the end of a list. */
  add(list, row) {
    this.step('', () => {
      this.doc[list] = [...(this.doc[list] ?? []), row];
    });
  }

  /** Takes a row away for good. */
  remove(list, row) {
    this.awaited.clear();
    this.step('', () => {
      this.doc[list].splice(row, 1);
      const kept = [...this.struck].map(pathOf).filter(([of, at]) => of !== list || at !== row);
      this.struck = new Set(kept.map(([of, at]) => placeOf([of, of === list && at > row ? at - 1 : at])));
    });
  }

  /** Changes several things as one step. */
  alter(change) {
    this.step('', () => change(this.doc));
  }

  /** Takes a row from one list to the end of another, struck out or not as it was; what it states may change with it. */
  move(from, row, to, changed = (one) => one) {
    this.moveAll(from, [row], to, changed);
  }

  moveAll(from, rows, to, changed = (one) => one) {
    this.awaited.clear();
    this.step('', () => {
      const taken = new Set(rows);
      const order = this.doc[from].map((_, place) => place).filter((place) => !taken.has(place));
      const struck = new Set([...this.struck].filter((place) => pathOf(place)[0] !== from));
      order.forEach((old, place) => { if (this.isStruck(from, old)) struck.add(placeOf([from, place])); });
      this.doc[to] ??= [];
      for (const row of rows) {
        if (this.isStruck(from, row)) struck.add(placeOf([to, this.doc[to].length]));
        this.doc[to].push(changed(this.doc[from][row]));
      }
      this.doc[from] = order.map((old) => this.doc[from][old]);
      // A file may leave the aid out, and is then read by whoever knows none.
      if (from === 'aid' && this.doc.aid.length === 0) delete this.doc.aid;
      this.struck = struck;
    });
  }

  /** Strikes a row out, or brings it back. */
  strike(list, row) {
    this.step('', () => {
      const place = placeOf([list, row]);
      if (!this.struck.delete(place)) this.struck.add(place);
    });
  }

  isStruck(list, row) {
    return this.struck.has(placeOf([list, row]));
  }

  /** Another plan in place of this one; a step that can be taken back. */
  replace(doc, struck = []) {
    this.awaited.clear();
    this.step('', () => {
      this.doc = doc;
      this.struck = new Set(struck);
    });
  }

  step(place, change) {
    if (place === '' || place !== this.lastStep) {
      this.past.push(this.snapshot());
      if (this.past.length > MOST_STEPS) this.past.shift();
    }
    this.lastStep = place;
    this.future = [];
    change();
    this.changed();
  }

  /** The next change is a step of its own, also in the same place. */
  endStep() {
    this.lastStep = '';
  }

  snapshot() {
    return JSON.stringify({ doc: this.doc, struck: [...this.struck] });
  }

  undo() {
    this.swap(this.past, this.future);
  }

  redo() {
    this.swap(this.future, this.past);
  }

  swap(from, to) {
    if (from.length === 0) return;
    this.awaited.clear();
    to.push(this.snapshot());
    const { doc, struck } = JSON.parse(from.pop());
    this.doc = doc;
    this.struck = new Set(struck);
    this.lastStep = '';
    this.changed();
  }

  changed() {
    for (const call of this.listeners) call();
  }

  /**
   * What is answered: the plan without the rows that are struck out, and without drop tanks whose bringer is. Where a
   * tanker is bound to a fill site that is struck out, it goes where it can.
   */
  inForce() {
    const doc = structuredClone(this.doc);
    const places = {};
    const gone = new Set();
    const sitesGone = new Set();
    for (const list of ['tankers', 'aid']) {
      (doc[list] ?? []).forEach((row, place) => {
        if (this.isStruck(list, place)) namesOf(row, place).forEach((name) => gone.add(name));
      });
    }
    (doc.fill_sites ?? []).forEach((row, place) => {
      if (this.isStruck('fill_sites', place)) sitesGone.add(row.name ?? `Fill site ${place + 1}`);
    });
    const unbound = [];
    const unfilled = [];
    for (const list of LISTS) {
      if (doc[list] === undefined) continue;
      places[list] = [];
      doc[list] = doc[list].filter((row, place) => {
        const without = list === 'drop_tanks' && typeof row.brought_by === 'string' && gone.has(row.brought_by);
        if (without) unbound.push(place);
        // Whoever is only being written down cannot be asked yet, and takes nothing from the answer.
        const isUnfilled = list === 'aid' && !this.isStruck(list, place) && (row.capacity === undefined || row.response === undefined);
        if (isUnfilled) unfilled.push(place);
        const kept = !this.isStruck(list, place) && !without && !isUnfilled;
        if (kept) places[list].push(place);
        return kept;
      });
      for (const row of doc[list]) if (typeof row.fill_site === 'string' && sitesGone.has(row.fill_site)) delete row.fill_site;
    }
    // An option counts the rows of a list: where some are struck out it would change another one.
    const fewer = LISTS.filter((list) => places[list] !== undefined && places[list].length < this.doc[list].length);
    const isCounted = (way, list) => way.startsWith(`/${list}/`) && way !== `/${list}/-`;
    const counts = (change) => ['path', 'from'].some((key) => fewer.some((list) => isCounted(String(change?.[key] ?? ''), list)));
    const leftOut = [];
    const unready = [];
    if (Array.isArray(doc.options)) {
      places.options = [];
      doc.options = doc.options.filter((option, place) => {
        const isLeft = Array.isArray(option?.changes) && option.changes.some(counts);
        if (isLeft) leftOut.push(String(option.name));
        else if (!isWhole(option)) unready.push(place);
        else places.options.push(place);
        return places.options.at(-1) === place;
      });
      if (places.options.length === 0 && this.doc.options.length > 0) delete doc.options;
    }
    if (doc.aid?.length === 0 && unfilled.length > 0) delete doc.aid;
    return { text: JSON.stringify(doc, null, 2), places, unbound, unfilled, leftOut, unready };
  }

  /** Whether it is one's own plan, made over an example: it has another name. */
  isBegunFrom(example) {
    return example !== null && Array.isArray(example.notes) && this.doc.title !== example.title;
  }

  /**
   * The plan as a file: as it is answered, and what is struck out in its notes, which every reader of the file skips.
   *
   * - Given: the example that the page began with, if any. A plan of another name is one's own: the example's notes, and
   *   rows of it that are struck out, say nothing of it and are left out.
   */
  saved(example = null) {
    const doc = JSON.parse(this.inForce().text);
    const { places, unbound, unfilled } = this.inForce();
    const kept = [];
    const isOfExample = (list, row) => this.isBegunFrom(example) && (example[list] ?? []).some((one) => isSame(one, row));
    // Whoever is left out for good is called by nobody.
    const gone = new Set(LISTS.flatMap((list) => (this.doc[list] ?? []).flatMap((row, place) => (!this.isStruck(list, place) || !isOfExample(list, row) ? [] : list === 'fill_sites' ? [row.name] : namesOf(row, place)))));
    if (this.isBegunFrom(example)) {
      const own = [doc.notes ?? []].flat().filter((note) => !example.notes.includes(note));
      if (own.length === 0) delete doc.notes;
      else if (Array.isArray(doc.notes)) doc.notes = own;
    }
    for (const list of LISTS) {
      (this.doc[list] ?? []).forEach((row, place) => {
        const isGone = this.isStruck(list, place) ? isOfExample(list, row) : gone.has(row.fill_site) || (list === 'drop_tanks' && gone.has(row.brought_by));
        if (isGone) return;
        if (this.isStruck(list, place)) kept.push({ list, place, row });
        else if ((list === 'drop_tanks' && unbound.includes(place)) || (list === 'aid' && unfilled.includes(place))) kept.push({ list, place, row, comes: true });
        else if (typeof row.fill_site === 'string' && doc[list][places[list].indexOf(place)].fill_site === undefined) kept.push({ list, place, fill_site: row.fill_site });
      });
    }
    (this.doc.options ?? []).forEach((row, place) => {
      if (!places.options?.includes(place)) kept.push({ list: 'options', place, row, comes: true });
    });
    if (kept.length > 0) {
      const notes = typeof doc.notes === 'string' ? 'text' : Array.isArray(doc.notes) ? 'list' : 'none';
      doc.notes = [...[doc.notes ?? []].flat(), ...kept.map((one) => `${KEPT}${JSON.stringify({ ...one, notes })}`)];
    }
    return `${JSON.stringify(doc, null, 2)}\n`;
  }
}

/** Whether two rows say the same, in whatever order. */
function isSame(one, other) {
  const sorted = (_, value) => (value !== null && typeof value === 'object' && !Array.isArray(value) ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1))) : value);
  return JSON.stringify(one, sorted) === JSON.stringify(other, sorted);
}

const KEPT = 'Struck out on the planner page: ';

/** A file as it was opened, with what was struck out when it was saved: `{doc, struck}`. */
export function withStruck(opened) {
  const doc = structuredClone(opened);
  const struck = [];
  const kept = [];
  if (!Array.isArray(doc.notes)) return { doc, struck };
  const notes = doc.notes.filter((note) => {
    const one = keptIn(note);
    if (one !== null) kept.push(one);
    return one === null;
  });
  if (kept.length === 0) return { doc, struck };
  const was = kept[0].notes;
  if (was === 'none' && notes.length === 0) delete doc.notes;
  else doc.notes = was === 'text' && notes.length === 1 ? notes[0] : notes;
  // From the front of each list: so each row comes to its old place.
  kept.sort((one, other) => one.place - other.place);
  for (const { list, place, row, comes } of kept.filter((one) => one.row !== undefined)) {
    doc[list] ??= [];
    const at = Math.min(place, doc[list].length);
    doc[list].splice(at, 0, row);
    if (!comes) struck.push(placeOf([list, at]));
  }
  for (const { list, place, fill_site: site } of kept) if (site !== undefined && doc[list]?.[place] !== undefined) doc[list][place].fill_site ??= site;
  return { doc, struck };
}

/** What a note of a saved plan keeps; null where it is a note like any other. */
function keptIn(note) {
  if (typeof note !== 'string' || !note.startsWith(KEPT)) return null;
  let one;
  try {
    one = JSON.parse(note.slice(KEPT.length));
  } catch {
    return null;
  }
  const isRow = one?.row !== null && typeof one?.row === 'object' && !Array.isArray(one.row);
  const isSound = [...LISTS, 'options'].includes(one?.list) && Number.isInteger(one.place) && one.place >= 0 && (isRow || typeof one.fill_site === 'string');
  return isSound ? one : null;
}

/** Whether an option says all it has to say to be compared. */
function isWhole(option) {
  // A mean that was emptied leaves how much it varies behind.
  const isEmptied = (value) => value !== null && typeof value === 'object' && 'cv' in value && !('mean' in value);
  const isGiven = (value) => value !== undefined && value !== '' && !isEmptied(value);
  if (option === null || typeof option !== 'object' || !isGiven(option.name) || !Array.isArray(option.changes) || option.changes.length === 0) return false;
  return option.changes.every((change) => {
    if (!isGiven(change?.op) || !isGiven(change.path)) return false;
    if (['move', 'copy'].includes(change.op)) return isGiven(change.from);
    if (change.op === 'remove') return true;
    const row = String(change.path).replace(/^\//, '');
    const needs = { 'tankers/-': ['capacity', 'response'], 'drop_tanks/-': change.value?.brought_by === undefined ? ['capacity', 'response'] : ['capacity'] }[row] ?? [];
    return isGiven(change.value) && needs.every((key) => isGiven(change.value[key]));
  });
}

/** The full names of a row: of a group each one's. */
export function namesOf(row, place) {
  const name = typeof row.name === 'string' && row.name !== '' ? row.name : `Tanker ${place + 1}`;
  const count = Number.isInteger(row.count) && row.count <= 1000 ? row.count : 0;
  if (row.count === undefined || count === 0) return [name];
  return Array.from({ length: count }, (_, number) => `${name} ${number + 1}`);
}

/** A place in what was answered, as the place in the plan with its struck-out rows. */
export function placeInPlan(place, places) {
  const path = pathOf(place);
  if (typeof path[1] === 'number' && places[path[0]] !== undefined) path[1] = places[path[0]][path[1]] ?? path[1];
  return placeOf(path);
}

/** A name for another row of a list: "Tanker 4", "Fill site 2". */
export function freeName(list, doc, word) {
  const taken = new Set(['tankers', 'aid', 'fill_sites'].flatMap((key) => (doc[key] ?? []).map((row) => row.name)));
  const base = list === 'fill_sites' ? 'Fill site' : list === 'aid' ? `Aid ${word}` : word[0].toUpperCase() + word.slice(1);
  for (let number = (doc[list] ?? []).length + 1; ; number += 1) if (!taken.has(`${base} ${number}`)) return `${base} ${number}`;
}

/** A name that no unit has. */
export function freeUnit(base, doc) {
  const taken = new Set([doc.attack_engine?.name, ...['tankers', 'aid'].flatMap((key) => (doc[key] ?? []).flatMap((row, place) => namesOf(row, place)))]);
  for (let number = 1; ; number += 1) {
    const name = number === 1 ? base : `${base} ${number}`;
    if (!taken.has(name)) return name;
  }
}
