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

/** Turns every bare number into the other units, with no more digits than it needs; texts with a unit stay as they are. */
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
      value[road] = rounded(to === 'metric' ? one * perUs : one / perUs);
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
  return rounded(to === 'metric' ? number * unit.metric_per_us : number / unit.metric_per_us);
}

/** How far a number may be from the one it was turned from: far less than anybody knows a flow or a road. */
const NEAR = 0.0005;

/** The number with the fewest digits that is as good as the same: turned back, a round figure is round again. */
function rounded(number) {
  for (let figures = 1; figures < 6; figures += 1) {
    const short = Number(number.toPrecision(figures));
    if (Math.abs(short - number) <= NEAR * Math.abs(number)) return short;
  }
  return Number(number.toPrecision(6));
}
