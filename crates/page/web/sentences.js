// The plan as sentences with numbers to tap.

import { el } from './dom.js';
import { shown, typed } from './numbers.js';
import { placeOf, namesOf } from './plan.js';
import { fieldsOf } from './fields.js';

/** What a slot shows of a value: a number as the page writes numbers, a text as it is. */
export function asText(value) {
  if (typeof value === 'number') return shown(value, 12);
  if (typeof value === 'string' || typeof value === 'boolean') return String(value);
  return '';
}

/** What was typed, as a scenario holds it: a number where it is one, else the text; nothing where it is empty. */
export function asValue(text) {
  if (text.trim() === '') return undefined;
  if (['true', 'false'].includes(text.trim())) return text.trim() === 'true';
  const number = typed(text);
  return Number.isNaN(number) ? text.trim() : number;
}

/** Where the number of a duration stands that one sentence has room for; none where it takes more than one. */
export function mainPart(value) {
  if (value === null || typeof value !== 'object') return [];
  for (const key of ['mean', 'likely', 'value']) if (key in value) return [key];
  return null;
}

export class Sentences {
  constructor(root, plan, schema, word) {
    Object.assign(this, { root, plan, schema, word });
    this.open = new Set();
  }

  get units() {
    return this.plan.doc.units === 'metric' ? 'metric' : 'us';
  }

  /** The unit of a bare number in a field, by the name of its object. */
  unit(object, key) {
    const found = unitIn(this.schema.$defs[object]?.properties[key]);
    return found === null ? '' : found[this.units];
  }

  /** Writes all sentences anew; what has the focus keeps it. */
  render() {
    const held = document.activeElement?.dataset?.place;
    const tool = document.activeElement?.dataset?.tool;
    this.root.replaceChildren(
      this.fire(),
      this.engine(),
      this.supply(),
      ...this.list('tankers', `The ${this.word()}s`, (row, place) => this.tanker('tankers', row, place), `Another ${this.word()}`),
      ...this.list('drop_tanks', 'Drop tanks', (row, place) => this.dropTank(row, place), 'Another drop tank'),
      ...this.list('fill_sites', 'Where they fill', (row, place) => this.fillSite(row, place), 'Another fill site'),
      ...this.list('aid', 'Who could be asked for', (row, place) => this.tanker('aid', row, place), `A ${this.word()} that could be asked for`),
      el('h3', {}, 'Handling'),
      this.handling(),
      el('h3', {}, 'Everything else'),
      this.rest(),
    );
    const again = held && this.root.querySelector(tool ? `[data-place="${CSS.escape(held)}"][data-tool="${tool}"]` : `[data-place="${CSS.escape(held)}"]`);
    if (again && document.activeElement === document.body) again.focus();
  }

  // Slots.

  /** A number, or a text with a unit, to type over. */
  number(path, label, unit = '', hint = '') {
    // A number that is known roughly is an object with its value.
    const value = this.plan.get(path);
    const whole = value !== null && typeof value === 'object' && 'value' in value ? [...path, 'value'] : path;
    return this.slot(whole, label, unit, { inputmode: 'decimal', hint });
  }

  /** A time: of one with a spread its middle. The hint is what silence means. */
  time(path, label, hint = '') {
    const part = mainPart(this.plan.get(path));
    if (part !== null) return this.number([...path, ...part], label, 'min', hint);
    const value = this.plan.get(path);
    const told = Array.isArray(value.samples) ? `one of ${value.samples.length} measured times` : `${asText(value.low)} to ${asText(value.high)} min`;
    return el('b', { 'data-place': placeOf(path) }, told);
  }

  name(path, label, hint = '') {
    return this.slot(path, label, '', { hint, isName: true });
  }

  slot(path, label, unit, { inputmode = 'text', hint = '', isName = false }) {
    const value = this.plan.get(path);
    const text = asText(value);
    const size = Math.max(isName ? 6 : 2, text.length, text === '' ? hint.length : 0);
    const input = el('input', {
      type: 'text',
      inputmode,
      class: isName ? 'name' : null,
      style: null,
      size: Math.min(size + (isName ? 1 : 0), 34),
      value: text,
      placeholder: hint,
      autocomplete: 'off',
      spellcheck: 'false',
      'aria-label': unit === '' ? label : `${label}, ${unit}`,
      'data-place': placeOf(path),
      oninput: (event) => {
        event.target.size = Math.min(Math.max(isName ? 7 : 2, event.target.value.length), 34);
        this.plan.set(path, isName ? event.target.value || undefined : asValue(event.target.value));
      },
      onchange: (event) => {
        this.plan.endStep();
        event.target.value = asText(this.plan.get(path));
      },
      onfocus: (event) => event.target.select(),
    });
    const says = typeof value === 'string' && !isName && /[a-z%³]/i.test(value) ? '' : unit;
    return el('span', { class: 'slot' }, input, says === '' ? null : ` ${says}`);
  }

  choice(path, label, choices, pick) {
    const now = this.plan.get(path) ?? '';
    return el(
      'select',
      {
        'aria-label': label,
        'data-place': placeOf(path),
        onchange: (event) => {
          if (pick) pick(event.target.value);
          else this.plan.set(path, event.target.value === '' ? undefined : event.target.value);
          this.render();
        },
      },
      choices.map(([value, text]) => el('option', { value, selected: value === now }, text)),
    );
  }

  // Rows.

  /** A sentence with its tools, its mistakes, and all its fields when they are asked for. */
  row(path, object, sentence, { about, isStruck = false, tools = [], plain = false }) {
    const place = placeOf(path);
    const isOpen = this.open.has(place);
    const fields = () => fieldsOf(this, path, object);
    return el(
      'div',
      { class: `row${isStruck ? ' struck' : ''}`, 'data-row': place, role: 'group', 'aria-label': about },
      el('p', { class: 'sentence' }, sentence),
      el('div', { class: 'marks' }),
      el(
        'div',
        { class: 'row-tools' },
        plain
          ? null
          : el(
              'button',
              {
                type: 'button',
                'aria-expanded': String(isOpen),
                'data-place': place,
                'data-tool': 'more',
                onclick: () => {
                  if (!this.open.delete(place)) this.open.add(place);
                  this.render();
                },
              },
              isOpen ? 'Less' : `More about ${about}`,
            ),
        tools,
      ),
      isOpen ? el('div', { class: 'fields' }, fields()) : null,
    );
  }

  list(key, heading, rowOf, another) {
    const rows = this.plan.doc[key] ?? [];
    return [
      el('h3', {}, heading),
      ...rows.map(rowOf),
      el('p', { class: 'add' }, el('button', { type: 'button', 'data-place': key, 'data-tool': 'add', onclick: () => this.add(key) }, another)),
    ];
  }

  /** A row of a list: it can be struck out, brought back, and taken away. */
  listed(list, place, object, about, sentence) {
    const isStruck = this.plan.isStruck(list, place);
    const at = placeOf([list, place]);
    const tools = [
      el(
        'button',
        {
          type: 'button',
          'aria-pressed': String(isStruck),
          'data-place': at,
          'data-tool': 'strike',
          onclick: () => {
            this.plan.strike(list, place);
            this.render();
          },
        },
        isStruck ? 'Bring back' : 'Strike out',
      ),
      isStruck
        ? el(
            'button',
            {
              type: 'button',
              'data-place': at,
              'data-tool': 'remove',
              onclick: () => {
                this.plan.remove(list, place);
                this.open.clear();
                this.render();
              },
            },
            'Take away for good',
          )
        : null,
    ];
    return this.row([list, place], object, sentence, { about, isStruck, tools });
  }

  add(list) {
    const rows = this.plan.doc[list] ?? [];
    const copied = rows.length > 0 ? structuredClone(rows[rows.length - 1]) : firstRow(list);
    delete copied.count;
    if (list !== 'drop_tanks') copied.name = freeName(list, this.plan.doc, this.word());
    if (list === 'drop_tanks' && copied.brought_by !== undefined && rows.length > 0) {
      const taken = new Set(rows.map((row) => row.brought_by));
      const free = this.bringers().find(([name]) => name !== '' && !taken.has(name));
      if (free) copied.brought_by = free[0];
    }
    this.plan.add(list, copied);
    this.render();
    this.root.querySelector(`[data-row="${list}[${rows.length}]"] input`)?.focus();
  }

  bringers() {
    const units = ['tankers', 'aid'].flatMap((list) => (this.plan.doc[list] ?? []).flatMap((row, place) => namesOf(row, place).slice(0, 30)));
    for (const engine of [this.plan.doc.attack_engine, this.plan.doc.supply?.engine]) if (engine?.name) units.push(engine.name);
    return [['', 'its own vehicle'], ...units.map((name) => [name, name])];
  }

  // Sentences.

  fire() {
    const flow = this.plan.get(['incident', 'attack_flow']);
    const gpm = this.unit('incident', 'attack_flow');
    const path = ['incident', 'attack_flow'];
    let wants;
    let tools = [];
    if (Array.isArray(flow)) {
      wants = flow.flatMap((step, place) => [
        place === 0 ? '' : place + 1 === flow.length ? ' and ' : ', ',
        step !== null && typeof step === 'object' && typeof step.flow === 'object' && step.flow !== null
          ? el('b', {}, 'what the building asks for')
          : this.number([...path, place, 'flow'], `Flow wanted, step ${place + 1}`, gpm),
        place === 0 ? ' from first water' : [' from ', this.number([...path, place, 'from'], `Step ${place + 1} begins, after first water`, 'min'), ' after it'],
      ]);
      tools = [
        el('button', { type: 'button', 'data-place': 'incident', 'data-tool': 'step', onclick: () => this.addStep(flow) }, 'Another step'),
        flow.length > 1
          ? el(
              'button',
              { type: 'button', 'data-place': 'incident', 'data-tool': 'unstep', onclick: () => { this.plan.set([...path, flow.length - 1], undefined); this.render(); } },
              'Without the last step',
            )
          : null,
      ];
    } else if (flow !== null && typeof flow === 'object') {
      wants = el('b', {}, 'what the building asks for');
    } else {
      wants = this.number(path, 'Flow wanted', gpm);
      tools = [
        el('button', { type: 'button', 'data-place': 'incident', 'data-tool': 'step', onclick: () => this.addStep([{ from: 0, flow }]) }, 'Another step'),
      ];
    }
    return el(
      'div',
      {},
      this.row([], 'scenario', [this.name(['title'], 'What the plan is called', 'Name of the fire or place')], { about: 'the name', plain: true }),
      this.row(
        ['incident'],
        'incident',
        ['We want ', wants, ' for ', this.number(['incident', 'duration'], 'For how long', 'min'), '. ', this.number(['incident', 'reserve'], 'Kept in the engine for backing out', this.unit('incident', 'reserve'), '0'), ' stay in the engine for backing out.'],
        { about: 'the fire', tools },
      ),
    );
  }

  addStep(steps) {
    const last = steps[steps.length - 1] ?? {};
    const from = typeof last.from === 'number' ? last.from + 5 : 5;
    this.plan.set(['incident', 'attack_flow'], [...steps, { from, flow: last.flow }]);
    this.render();
  }

  engine() {
    const at = (key) => ['attack_engine', key];
    return this.row(
      ['attack_engine'],
      'attack_engine',
      [this.name(at('name'), 'Name of the attack engine', 'Attack engine'), ', ', this.number(at('tank'), "The attack engine's tank", this.unit('attack_engine', 'tank')), ' in its tank, on scene in ', this.time(at('response'), 'The attack engine is on scene in'), ', first water ', this.time(at('water_on'), 'First water after', '0'), ' later.'],
      { about: 'the attack engine' },
    );
  }

  supply() {
    const engine = this.plan.get(['supply', 'engine']);
    const turn = (own) => {
      if (own) this.plan.set(['supply', 'engine'], undefined);
      else this.plan.set(['supply', 'engine'], { name: 'Supply engine', response: 15, setup: 5 });
      this.render();
    };
    const at = (key) => ['supply', 'engine', key];
    const sentence =
      engine !== undefined && engine !== null && typeof engine === 'object'
        ? [this.name(at('name'), 'Name of the engine that drafts', 'Supply engine'), ' drafts from the drop tank: on scene in ', this.time(at('response'), 'The engine that drafts is on scene in'), ', hooked up in ', this.time(at('setup'), 'Hooking up the draft', '0'), '.']
        : ['The attack engine drafts from the drop tank itself, hooked up in ', this.time(['supply', 'setup'], 'Hooking up the draft', '0'), '.'];
    const tools = [
      el('button', { type: 'button', 'data-place': 'supply', 'data-tool': 'turn', onclick: () => turn(engine !== undefined) }, engine !== undefined ? 'The attack engine drafts itself' : 'Another engine drafts'),
    ];
    return this.row(['supply'], 'supply', sentence, { about: 'the draft', tools });
  }

  tanker(list, row, place) {
    const at = (key) => [list, place, key];
    const about = namesOf({ ...row, count: undefined }, place)[0];
    const sentence = [
      row.count !== undefined ? [this.number(at('count'), `${about}: how many`), ' times '] : null,
      this.name(at('name'), 'Name', about),
      ', ',
      this.number(at('capacity'), `${about}: its tank`, this.unit('tanker', 'capacity')),
      row.requested_at !== undefined || list === 'aid'
        ? [list === 'aid' ? ', could be asked for at minute ' : ', asked for at minute ', this.number(at('requested_at'), `${about}: asked for, minutes after the alarm`, '', '0'), ', on scene ', this.time(at('response'), `${about}: on scene after`), ' later.']
        : [', on scene in ', this.time(at('response'), `${about}: on scene in`), '.'],
    ];
    return this.listed(list, place, 'tanker', about, sentence);
  }

  dropTank(row, place) {
    const at = (key) => ['drop_tanks', place, key];
    const about = `drop tank ${place + 1}`;
    const bySize = row.capacity !== null && typeof row.capacity === 'object';
    const pick = (name) => {
      if (name === '') this.plan.set(at('brought_by'), undefined);
      else this.plan.set(at('brought_by'), name);
    };
    const bringers = this.bringers();
    if (typeof row.brought_by === 'string' && !bringers.some(([name]) => name === row.brought_by)) bringers.push([row.brought_by, row.brought_by]);
    const sentence = [
      `Drop tank ${place + 1}, `,
      bySize ? el('b', {}, 'by its size') : this.number(at('capacity'), `${about}: what it holds`, this.unit('drop_tank', 'capacity')),
      ', comes with ',
      this.choice(at('brought_by'), `${about}: brought by`, bringers, pick),
      row.brought_by === undefined ? [' in ', this.time(at('response'), `${about}: on scene in`)] : null,
      ', set up in ',
      this.time(at('setup'), `${about}: set up in`, '0'),
      '.',
    ];
    return this.listed('drop_tanks', place, 'drop_tank', about, sentence);
  }

  fillSite(row, place) {
    const at = (key) => ['fill_sites', place, key];
    const about = typeof row.name === 'string' && row.name !== '' ? row.name : `fill site ${place + 1}`;
    const byTest = row.flow !== null && typeof row.flow === 'object';
    const sentence = [
      this.name(at('name'), 'Name of the fill site', `Fill site ${place + 1}`),
      ', ',
      this.road(place, about),
      ', ',
      byTest ? el('b', {}, 'by its test') : this.number(at('flow'), `${about}: its flow`, this.unit('fill_site', 'flow')),
      ', ready at minute ',
      this.timeHinted(at('ready'), `${about}: ready, minutes after the alarm`),
      '.',
    ];
    return this.listed('fill_sites', place, 'fill_site', about, sentence);
  }

  timeHinted(path, label) {
    const part = mainPart(this.plan.get(path));
    return part === null ? this.time(path, label) : this.number([...path, ...part], label, '', '0');
  }

  /** The road there and back: one number while both ways are alike. */
  road(place, about) {
    const legs = ['out', 'back'].map((way) => this.plan.get(['fill_sites', place, way]) ?? {});
    const key = ['miles', 'km', 'minutes'].find((one) => legs[0]?.[one] !== undefined) ?? (this.units === 'metric' ? 'km' : 'miles');
    const unit = { miles: 'mi', km: 'km', minutes: 'min' }[key];
    const isAlike = legs[0]?.[key] === legs[1]?.[key] && typeof legs[0]?.[key] !== 'object';
    if (!isAlike) {
      const one = (way) => {
        const own = ['miles', 'km', 'minutes'].find((name) => this.plan.get(['fill_sites', place, way, name]) !== undefined) ?? key;
        const path = ['fill_sites', place, way, own];
        const words = `${about}: the road ${way}`;
        return own === 'minutes' ? this.time(path, words) : this.number(path, words, { miles: 'mi', km: 'km' }[own]);
      };
      return [one('out'), ' out and ', one('back'), ' back'];
    }
    const slot = this.number(['fill_sites', place, 'out', key], `${about}: the road, one way`, unit);
    // Both ways move together, as one step.
    const input = slot.querySelector('input');
    input.addEventListener('input', () => {
      const value = this.plan.get(['fill_sites', place, 'out', key]);
      const back = { ...this.plan.get(['fill_sites', place, 'back']) };
      if (value === undefined) delete back[key];
      else back[key] = value;
      this.plan.doc.fill_sites[place].back = back;
      this.plan.changed();
    });
    return [slot, ' away'];
  }

  handling() {
    const one = (key, label) => this.time(['handling', key], label, '0');
    return this.row(
      ['handling'],
      'handling',
      [
        'At the fill site ', one('fill_connect', 'Connecting at the fill site'), ' to connect, ', one('fill_disconnect', 'Disconnecting at the fill site'),
        ' to let go. At the drop tank ', one('dump_position', 'Getting into place at the drop tank'), ' to get into place, ', one('dump_clear', 'Pulling clear of the drop tank'),
        ' to pull clear. At the engine ', one('nurse_connect', 'Connecting to the attack engine'), ' to connect, ', one('nurse_disconnect', 'Breaking that connection'), ' to let go.',
      ],
      { about: 'handling' },
    );
  }

  /** What no sentence tells: bad nights, one-lane roads, crew, hose, options, notes. */
  rest() {
    const sentence = ['Bare numbers are in ', this.choice(['units'], 'Units of the plan', [['us', 'gallons and miles'], ['metric', 'litres and kilometres']], (to) => this.turnUnits(to)), '. Bad nights, one-lane roads, notes, people, hose and options to compare:'];
    return this.row(['everything else'], 'rest', sentence, { about: 'the rest' });
  }

  turnUnits(to) {
    if (to === this.units) return;
    const doc = structuredClone(this.plan.doc);
    turned(doc, this.schema, this.schema, to);
    doc.units = to;
    this.plan.replace(doc, [...this.plan.struck]);
  }
}

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

/** Turns every bare number into the other units, to six figures; texts with a unit stay as they are. */
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

function converted(number, unit, to) {
  if (unit === null || unit.us === unit.metric) return number;
  return rounded(to === 'metric' ? number * unit.metric_per_us : number / unit.metric_per_us);
}

function rounded(number) {
  return Number(number.toPrecision(6));
}

function firstRow(list) {
  if (list === 'tankers') return {};
  if (list === 'fill_sites') return { out: {}, back: {} };
  return {};
}

function freeName(list, doc, word) {
  const taken = new Set(['tankers', 'aid', 'fill_sites'].flatMap((key) => (doc[key] ?? []).map((row) => row.name)));
  const base = list === 'fill_sites' ? 'Fill site' : list === 'aid' ? `Aid ${word}` : word[0].toUpperCase() + word.slice(1);
  for (let number = (doc[list] ?? []).length + 1; ; number += 1) if (!taken.has(`${base} ${number}`)) return `${base} ${number}`;
}
