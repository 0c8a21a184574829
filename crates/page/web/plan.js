// The plan that is worked on: the scenario as it is saved, which of its rows are struck out, and every step back.

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
    LISTS.every((key) => doc[key] === undefined || (Array.isArray(doc[key]) && doc[key].length <= 300 && doc[key].every(isObject)))
  );
}

export class Plan {
  constructor(text, struck = []) {
    this.listeners = [];
    this.past = [];
    this.future = [];
    this.lastStep = '';
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
    this.step(placeOf(path), () => {
      let holder = this.doc;
      path.slice(0, -1).forEach((key, depth) => {
        if (holder[key] === undefined || holder[key] === null || typeof holder[key] !== 'object') {
          if (value === undefined) return;
          holder[key] = typeof path[depth + 1] === 'number' ? [] : {};
        }
        holder = holder[key];
      });
      const last = path[path.length - 1];
      if (value === undefined && Array.isArray(holder)) holder.splice(last, 1);
      else if (value === undefined) delete holder[last];
      else holder[last] = value;
    });
  }

  /** Puts a row at the end of a list. */
  add(list, row) {
    this.step('', () => {
      this.doc[list] = [...(this.doc[list] ?? []), row];
    });
  }

  /** Takes a row away for good. */
  remove(list, row) {
    this.step('', () => {
      this.doc[list].splice(row, 1);
      const kept = [...this.struck].map(pathOf).filter(([of, at]) => of !== list || at !== row);
      this.struck = new Set(kept.map(([of, at]) => placeOf([of, of === list && at > row ? at - 1 : at])));
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
    for (const list of LISTS) {
      if (doc[list] === undefined) continue;
      places[list] = [];
      doc[list] = doc[list].filter((row, place) => {
        const without = list === 'drop_tanks' && typeof row.brought_by === 'string' && gone.has(row.brought_by);
        if (without) unbound.push(place);
        const kept = !this.isStruck(list, place) && !without;
        if (kept) places[list].push(place);
        return kept;
      });
      for (const row of doc[list]) if (typeof row.fill_site === 'string' && sitesGone.has(row.fill_site)) delete row.fill_site;
    }
    // An option counts the rows of a list: where some are struck out it would change another one.
    const fewer = LISTS.filter((list) => places[list] !== undefined && places[list].length < this.doc[list].length);
    const counts = (change) => ['path', 'from'].some((key) => fewer.some((list) => String(change?.[key] ?? '').startsWith(`/${list}/`)));
    const all = Array.isArray(doc.options) ? doc.options : [];
    const left = all.filter((option) => Array.isArray(option?.changes) && option.changes.some(counts));
    if (left.length > 0) doc.options = all.filter((option) => !left.includes(option));
    return { text: JSON.stringify(doc, null, 2), places, unbound, leftOut: left.map((option) => String(option.name)) };
  }
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
