// Every field of one thing, as the JSON Schema of the format describes it: a field that the format gains appears here
// by itself.

import { el } from '../base/dom.js';
import { placeOf } from './plan.js';
import { isCalled } from './references.js';
import { asText, asValue } from './slots.js';
import { asTold } from '../told/words.js';

/** The ways a time can be stated, by the keys of its object. */
const TIMES = [
  ['number', 'one time', () => 5],
  ['lognormal_duration', 'a mean and how much it varies', () => ({ mean: 5, cv: 0.3 })],
  ['triangular_duration', 'least, likely, most', () => ({ low: 3, likely: 5, high: 8 })],
  ['uniform_duration', 'anything between two', () => ({ low: 3, high: 8 })],
  ['sampled_duration', 'measured times', () => ({ samples: [4, 5, 6] })],
  ['rough_duration', 'one time, known roughly', () => ({ value: 5, guess: true })],
  ['exponential_duration', 'a mean, wildly varying', () => ({ mean: 5, shape: 'exponential' })],
];

/** What sentences of their own tell of the plan; all its other fields stand under "the rest". */
const TOLD = ['$schema', 'title', 'units', 'incident', 'attack_engine', 'supply', 'drop_tanks', 'tankers', 'aid', 'fill_sites', 'handling', 'options'];
/** Objects within objects are shown to this depth. */
const DEEPEST = 6;

/** All fields of the object at a path. */
export function fieldsOf(sentences, path, object) {
  const { schema } = sentences;
  const described = object === 'rest' ? { properties: Object.fromEntries(Object.entries(schema.properties).filter(([key]) => !TOLD.includes(key))) } : schema.$defs[object];
  const from = object === 'rest' ? [] : path;
  // The time for hooking up stands with the engine that drafts, where there is one.
  const isElsewhere = (key) => object === 'supply' && key === 'setup' && sentences.plan.get(['supply', 'engine']) !== undefined && sentences.plan.get(['supply', 'setup']) === undefined;
  return Object.entries(described.properties).filter(([key]) => !isElsewhere(key)).map(([key, field]) =>
    fieldAt(sentences, [...from, key], field, { isRequired: described.required?.includes(key) ?? false, depth: 0 }),
  );
}

function resolved(schema, field) {
  return field?.$ref === undefined ? field : schema.$defs[field.$ref.replace('#/$defs/', '')];
}

function nameOf(field) {
  return field?.$ref?.replace('#/$defs/', '') ?? '';
}

/** All the ways a field can be stated, one after the other. */
function waysOf(field) {
  return field.anyOf === undefined ? [field] : field.anyOf.flatMap(waysOf);
}

/** Keys that are no words of their own. */
const LABELS = { cv: 'How much it varies (share of the mean)', crew_cv: 'How much its crew varies', op: 'What is done', changes: 'Step by step', samples: 'Measured', mph: 'Speed', kmh: 'Speed', aid: 'Whose it is' };

function labelOf(key) {
  if (LABELS[key] !== undefined) return LABELS[key];
  const text = String(key).replaceAll('_', ' ');
  return text[0].toUpperCase() + text.slice(1);
}

/** What silence means, as a person says it. */
function silence(value) {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'number' ? asText(value) : String(value).replaceAll('_', ' ');
}

function fieldAt(sentences, path, field, { isRequired, depth, label }) {
  const { plan, schema } = sentences;
  const key = label ?? labelOf(path[path.length - 1]);
  const ways = waysOf(field);
  const names = ways.map(nameOf);
  const value = plan.get(path);
  const place = placeOf(path);
  const help = el('span', { class: 'help' }, asTold(field.description ?? resolved(schema, field)?.description ?? ''));
  const shell = (...parts) => el('div', { class: 'field', 'data-field': place }, el('span', { class: 'label' }, key), help, ...parts);
  const again = () => sentences.render();
  const put = (to) => {
    plan.set(path, to);
    again();
  };
  const choose = (choices, now, pick) =>
    el('select', { 'aria-label': key, 'data-place': place, 'data-tool': 'way', onchange: (event) => pick(event.target.value) }, choices.map(([one, says]) => el('option', { value: one, selected: one === now }, says)));

  const list = ways.find((way) => way.type === 'array');
  const takesNumber = ways.some((way) => way.type === 'number' || way.type === 'integer');
  const objects = names.filter((name) => name !== '');
  const absent = isRequired ? [] : [['', `not stated${field.default !== undefined && typeof field.default !== 'object' ? ` (${silence(field.default)})` : ''}`]];

  if (field.enum !== undefined) {
    return shell(choose([...absent, ...field.enum.map((one) => [one, one.replaceAll('_', ' ')])], value ?? '', (to) => put(to === '' ? undefined : to)));
  }
  if (field.type === 'boolean') {
    const now = value === true ? 'yes' : value === false ? 'no' : '';
    return shell(choose([...absent, ['yes', 'yes'], ['no', 'no']], now, (to) => put(to === '' ? undefined : to === 'yes')));
  }
  if (objects.some((name) => name.endsWith('_duration'))) {
    const now = value === undefined ? '' : (TIMES.find(([name]) => isOf(schema, value, name)) ?? ['number'])[0];
    const turn = (to) => put(to === '' ? undefined : keptMiddle(value, TIMES.find(([name]) => name === to)[2]()));
    return shell(
      el('div', { class: 'parts' }, choose([...absent, ...TIMES.filter(([name]) => name === 'number' || objects.includes(name))], now, turn), now === 'number' ? box(sentences, path, key, 'min') : null),
      now === 'number' || now === '' ? null : within(sentences, path, schema.$defs[now], depth),
    );
  }
  if (list !== undefined) {
    const isOne = !Array.isArray(value) && value !== undefined;
    const rows = Array.isArray(value) ? value : isOne ? [value] : [];
    const items = list.items;
    const itemName = nameOf(items) || nameOf(waysOf(items)[0]);
    const others = ways.filter((way) => way !== list);
    // One text or one object may stand for a list of one; a number beside a list is another way to state it.
    if (isOne && others.length > 0 && typeof value !== 'object') return shell(box(sentences, path, key, unitOf(sentences, field)));
    const put1 = (rowsNow) => put(rowsNow.length === 0 && !isRequired ? undefined : rowsNow);
    return shell(
      rows.map((row, number) =>
        el(
          'div',
          { class: 'fields' },
          itemName === '' || waysOf(items).some((way) => way.type === 'number' || way.type === 'string')
            ? box(sentences, isOne ? path : [...path, number], `${key} ${number + 1}`, unitOf(sentences, items))
            : within(sentences, isOne ? path : [...path, number], resolved(schema, items), depth),
          el('button', { type: 'button', onclick: () => put1(rows.filter((_, one) => one !== number)) }, `Without ${key.toLowerCase()} ${number + 1}`),
        ),
      ),
      el('button', { type: 'button', 'data-place': place, 'data-tool': 'another', onclick: () => put([...rows, blank(schema, items)]) }, rows.length === 0 ? `State ${key.toLowerCase()}` : `Another of ${key.toLowerCase()}`),
    );
  }
  if (objects.length > 0) {
    const one = objects.find((name) => isOf(schema, value, name));
    const now = value === undefined ? '' : value === null ? 'null' : (one ?? 'number');
    const choices = [...absent, ...(takesNumber ? [['number', 'a number']] : []), ...objects.map((name) => [name, name.replaceAll('_', ' ')]), ...(ways.some((way) => way.type === 'null') ? [['null', 'without end']] : [])];
    const turn = (to) => put(to === '' ? undefined : to === 'null' ? null : to === 'number' ? 0 : blank(schema, { $ref: `#/$defs/${to}` }));
    const isFixed = choices.length === 1;
    if (isFixed && value === undefined) return shell(el('button', { type: 'button', onclick: () => turn(objects[0]) }, `State ${key.toLowerCase()}`));
    return shell(
      el('div', { class: 'parts' }, isFixed ? null : choose(choices, now, turn), now === 'number' ? box(sentences, path, key, unitOf(sentences, field)) : null),
      one !== undefined && depth < DEEPEST ? within(sentences, path, schema.$defs[one], depth) : null,
    );
  }
  if (Object.keys(field).every((name) => name === 'description')) return shell(anything(sentences, path, key));
  return shell(el('div', { class: 'parts' }, box(sentences, path, key, unitOf(sentences, field), field.default)));
}

/** The fields of an object within another. */
function within(sentences, path, described, depth) {
  return el(
    'div',
    { class: 'fields' },
    Object.entries(described.properties).map(([key, field]) =>
      fieldAt(sentences, [...path, key], field, { isRequired: described.required?.includes(key) ?? false, depth: depth + 1 }),
    ),
  );
}

function unitOf(sentences, field) {
  for (const way of waysOf(field)) if (way['x-bare-unit'] !== undefined) return way['x-bare-unit'][sentences.units];
  return field['x-bare-unit']?.[sentences.units] ?? '';
}

/** A box to type into. Text stays text; a number is taken with comma or point. */
function box(sentences, path, label, unit, silent) {
  const { plan, schema } = sentences;
  const isText = isTextField(schema, path);
  const value = plan.get(path);
  return [
    el('input', {
      type: 'text',
      'aria-label': unit === '' ? label : `${label}, ${unit}`,
      'data-place': placeOf(path),
      'data-says': label,
      'data-unit': unit,
      value: isText ? String(value ?? '') : asText(value, unit),
      placeholder: silent === undefined || typeof silent === 'object' ? '' : `not stated: ${silence(silent)}`,
      autocomplete: 'off',
      spellcheck: 'false',
      size: isText ? 28 : 10,
      oninput: (event) => {
        const text = event.target.value;
        if (isCalled(path)) return;
        plan.set(path, isText ? (text === '' ? undefined : text) : asValue(text, unit, placeOf(path)));
      },
      onchange: (event) => {
        if (isCalled(path)) {
          plan.rename(path, event.target.value || undefined);
          sentences.renamed(path);
        }
        plan.endStep();
        event.target.value = isText ? String(plan.get(path) ?? '') : asText(plan.get(path), unit);
      },
    }),
    unit === '' ? null : ` ${unit}`,
  ];
}

/** Whether a field holds a name or a note and no number. */
function isTextField(schema, path) {
  let field = schema;
  for (const key of path) {
    const fits = waysOf(field).map((way) => resolved(schema, way)).flatMap((way) => waysOf(way ?? {})).map((way) => resolved(schema, way));
    field = typeof key === 'number' ? fits.find((way) => way?.items !== undefined)?.items : fits.find((way) => way?.properties?.[key] !== undefined)?.properties[key];
    if (field === undefined) return false;
  }
  const kinds = waysOf(field);
  return kinds.some((way) => way.type === 'string') && !kinds.some((way) => way.type === 'number' || way.type === 'integer');
}

/** Any JSON at all: what an option puts in place of something. */
function anything(sentences, path, label) {
  const value = sentences.plan.get(path);
  return el('textarea', {
    'aria-label': label,
    'data-place': placeOf(path),
    value: value === undefined ? '' : JSON.stringify(value),
    onchange: (event) => {
      const text = event.target.value.trim();
      let read = text;
      try {
        read = JSON.parse(text);
      } catch {
        // Then it is a text; the check says so where a text is wrong.
      }
      sentences.plan.set(path, text === '' ? undefined : read);
    },
  });
}

/** Whether a value has the shape of a named object: it has a key that must be there. */
function isOf(schema, value, name) {
  if (value === null || typeof value !== 'object' || Array.isArray(value)) return false;
  const described = schema.$defs[name];
  const must = described?.required ?? [];
  if (must.length > 0) return must.every((key) => key in value) || (Object.keys(value).length > 0 && Object.keys(value).every((key) => key in described.properties) && must.some((key) => key in value));
  return described !== undefined && Object.keys(value).every((key) => key in described.properties);
}

/** The same time stated another way keeps its middle. */
function keptMiddle(from, to) {
  const middle = typeof from === 'number' ? from : (from?.mean ?? from?.likely ?? from?.value ?? NaN);
  if (!Number.isFinite(middle)) return to;
  if (typeof to === 'number') return middle;
  if ('mean' in to) return { ...to, mean: middle };
  const about = (factor) => Number((middle * factor).toPrecision(3));
  if ('value' in to) return { ...to, value: middle };
  if ('likely' in to) return { low: about(0.7), likely: middle, high: about(1.5) };
  if ('low' in to) return { low: about(0.7), high: about(1.5) };
  return { samples: [middle] };
}

/** Something to fill in: an object with nothing stated, a number, a text. */
function blank(schema, field) {
  const way = waysOf(field)[0];
  if (nameOf(way) !== '') return {};
  const found = resolved(schema, way);
  if (found.type === 'string') return '';
  if (found.type === 'array') return [];
  return found.type === 'number' || found.type === 'integer' ? 0 : {};
}
