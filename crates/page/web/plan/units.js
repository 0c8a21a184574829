// A plan in other units.

/** The unit of bare numbers in a part of the schema: `{us, metric, metric_per_us}`, or null. */
export function unitIn(schema) {
  if (schema === undefined || schema === null || typeof schema !== 'object') return null;
  if (schema['x-bare-unit'] !== undefined) return schema['x-bare-unit'];
  for (const one of schema.anyOf ?? []) {
    const found = unitIn(one);
    if (found !== null) return found;
  }
  return null;
}

/** Turns every bare number into the other units, exactly: shown is each as `asSaid` has it. Texts with a unit stay as they are. */
export function turned(value, schema, whole, to) {
  const resolved = (one) => (one?.$ref === undefined ? one : whole.$defs[one.$ref.replace('#/$defs/', '')]);
  const within = resolved(schema);
  if (value === null || typeof value !== 'object' || within === undefined) return;
  const fitting = (of, key) => [of, ...(of.anyOf ?? []).flatMap((one) => [resolved(one), ...(resolved(one)?.anyOf ?? []).map(resolved)])].find((one) => one?.properties?.[key] !== undefined);
  if (Array.isArray(value)) {
    const items = within.items ?? (within.anyOf ?? []).map(resolved).find((one) => one?.items !== undefined)?.items;
    value.forEach((one, place) => {
      if (typeof one === 'number') value[place] = converted(one, unitIn(items), to);
      else if (items !== undefined) turned(one, items, whole, to);
    });
    return;
  }
  if (typeof value.path === 'string' && within.properties?.op !== undefined) turnedChange(value, whole, to);
  for (const [key, one] of Object.entries(value)) {
    const field = fitting(within, key)?.properties[key];
    if (field === undefined) continue;
    const road = { miles: 'km', mph: 'kmh', km: 'miles', kmh: 'mph' }[key];
    if (road !== undefined && typeof one === 'number' && (to === 'metric') === (key[0] === 'm')) {
      const perUs = 1.609344;
      delete value[key];
      value[road] = exactly(to === 'metric' ? one * perUs : one / perUs);
    } else if (road !== undefined) continue;
    else if (typeof one === 'number') value[key] = converted(one, unitIn(field), to);
    else if (one !== null && typeof one === 'object') turned(one, field, whole, to);
  }
}

const OBJECTS = { tankers: 'tanker', aid: 'tanker', drop_tanks: 'drop_tank', fill_sites: 'fill_site', incident: 'incident', attack_engine: 'attack_engine', supply: 'supply', handling: 'handling' };

/** What an option puts somewhere: in the units of the place that it goes to. */
function turnedChange(change, whole, to) {
  const way = change.path.replace(/^\//, '').split('/');
  let schema = whole.$defs[OBJECTS[way[0]]];
  if (schema === undefined) return;
  const isRow = ['tankers', 'aid', 'drop_tanks', 'fill_sites'].includes(way[0]);
  // Within a holder, what is put in reads as a field of it.
  const keys = way.slice(isRow ? 2 : 1);
  if (keys.length === 0) {
    turned(change.value, schema, whole, to);
    return;
  }
  const last = keys.pop();
  for (const key of keys) {
    const field = schema?.properties?.[key];
    const ways = [field, ...(field?.anyOf ?? [])].map((one) => (one?.$ref === undefined ? one : whole.$defs[one.$ref.replace('#/$defs/', '')]));
    schema = ways.flatMap((one) => [one, ...(one?.anyOf ?? []).map((each) => whole.$defs[each.$ref?.replace('#/$defs/', '')] ?? each)]).find((one) => one?.properties !== undefined);
  }
  if (schema === undefined) return;
  const holder = { [last]: change.value };
  turned(holder, schema, whole, to);
  const [key] = Object.keys(holder);
  change.value = holder[key];
  if (key !== last) change.path = `${change.path.slice(0, -last.length)}${key}`;
}

function converted(number, unit, to) {
  if (unit === null || unit.us === unit.metric) return number;
  return exactly(to === 'metric' ? number * unit.metric_per_us : number / unit.metric_per_us);
}

/** How far a number may be from a shorter one and still be that: what is left of turning it there and back. */
const SAME = 1e-9;
/** With no more figures than these a number is said as it is, turned or not. */
const MOST_SAID = 6;
/** The most that are kept of one. */
const MOST_FIGURES = 12;

/** The number with so few figures as are the same. */
function shortest(number) {
  for (let figures = 1; figures < MOST_FIGURES; figures += 1) {
    const short = Number(number.toPrecision(figures));
    if (Math.abs(short - number) <= SAME * Math.abs(number)) return { short, figures };
  }
  return { short: Number(number.toPrecision(MOST_FIGURES)), figures: MOST_FIGURES };
}

/** The number as exactly as it was, so that the answer is that of the plan before; a round figure that comes back is round again. */
function exactly(number) {
  const { short, figures } = shortest(number);
  return figures <= MOST_SAID ? short : Number(number.toPrecision(MOST_FIGURES));
}

/** What one of a unit is in metric: a US gallon is 231 cubic inches of 25.4 mm, a mile 1.609344 km, exact by definition; psi of pounds and standard gravity. */
const METRIC = { gal: ['L', 3.785411784], gpm: ['L/min', 3.785411784], mi: ['km', 1.609344], mph: ['km/h', 1.609344], ft: ['m', 0.3048], ft2: ['m2', 0.09290304], in: ['mm', 25.4], psi: ['kPa', 6.894757293168361] };

/** A number of a unit in the other units; as it is where that is the same in both. */
function inOthers(number, unit) {
  if (METRIC[unit] !== undefined) return number * METRIC[unit][1];
  const [, perUs] = Object.values(METRIC).find(([metric]) => metric === unit) ?? ['', 1];
  return number / perUs;
}

/** A measure as a person says it: one that was turned, and so is shorter in the other units, to three figures; any other as it was typed. */
export function asSaid(number, unit) {
  const { figures } = shortest(number);
  const isTurned = figures > MOST_SAID && shortest(inOthers(number, unit)).figures < figures;
  return isTurned ? Number(number.toPrecision(3)) : number;
}
