// Numbers, names and choices within sentences, to type over.

import { el } from '../base/dom.js';
import { otherThousands, shown, shownWithUnit, typed, typedMinutes, typedShare, typedVarying, typedWithUnit } from '../told/numbers.js';
import { namesOf, placeOf } from './plan.js';
import { isCalled } from './references.js';
import { asSaid, unitIn } from './units.js';

/**
 * What a slot shows of a value: a number as the page writes numbers, a text as it is.
 *
 * Given: the unit of a bare number there. Minutes and shares are alike in all units and never turned.
 */
export function asText(value, unit = '') {
  if (typeof value === 'number') return shown(asSaid(value, unit), 12);
  if (typeof value === 'string') return shownWithUnit(value);
  return typeof value === 'boolean' ? String(value) : '';
}

/**
 * What was typed, as a scenario holds it: a number where it is one, else the text; nothing where it is empty.
 *
 * - Given: the unit of a bare number there, and the place: how long water is wanted may be typed as hours:minutes.
 */
export function asValue(text, unit = '', place = '') {
  if (text.trim() === '') return undefined;
  if (['true', 'false'].includes(text.trim())) return text.trim() === 'true';
  const number = typed(text);
  if (!Number.isNaN(number)) return number;
  // Of what has no unit: how often.
  const share = unit === '' ? typedShare(text) : null;
  if (share !== null) return share;
  const inMinutes = unit === 'min' ? typedMinutes(text, place === 'incident.duration') : NaN;
  return Number.isNaN(inMinutes) ? (typedWithUnit(text) ?? text.trim()) : inMinutes;
}

/** Where the number of a duration stands that one sentence has room for; none where it takes more than one. */
export function mainPart(value) {
  if (value === null || typeof value !== 'object') return [];
  for (const key of ['mean', 'likely', 'value']) if (key in value) return [key];
  return null;
}

/** The key of a time under which its middle stands, also where that was emptied; null where there is none. */
function partOf(value) {
  if (value === null || typeof value !== 'object') return null;
  return mainPart(value)?.[0] ?? ('cv' in value ? 'mean' : null);
}

/** What the box of a time says: its middle, or from what to what it may be. */
function middle(value) {
  const part = partOf(value);
  if (part !== null) return asText(value[part]);
  const isRange = value !== null && typeof value === 'object' && value.low !== undefined && value.high !== undefined;
  return isRange ? `${asText(value.low)} to ${asText(value.high)}` : asText(value);
}

/** Whether a text says its unit, or none of its numbers could have one. */
function isWords(text) {
  return /[a-z%³]/i.test(text.replace(/ to /, ' '));
}

/** A sentence whose commas and points stay beside the box they follow: no line begins with one. */
export function together(sentence) {
  const parts = sentence.flat(9).filter((part) => part !== null && part !== undefined && part !== '');
  return parts.map((part, place) => {
    const before = parts[place - 1];
    if (typeof part !== 'string' || !/^[,.]/.test(part) || typeof before !== 'object' || before.className !== 'slot') return part;
    before.append(part[0]);
    return part.slice(1);
  });
}

/** What may be typed over, in the units of the plan. `render` writes all sentences anew. */
export class Slots {
  /** `schemaNow` gives the schema that describes the plan as it is read now. */
  constructor(root, plan, schemaNow, word) {
    Object.assign(this, { root, plan, schemaNow, word });
    /** Places that were copied with their row and not touched since, by the place of the row. */
    this.copied = new Map();
    /** Numbers that may be read two ways, by place: as they were typed, and what else they may mean. */
    this.twoWays = new Map();
  }

  get schema() {
    return this.schemaNow();
  }

  get units() {
    return this.plan.doc.units === 'metric' ? 'metric' : 'us';
  }

  /** The unit of a bare number in a field, by the name of its object. */
  unit(object, key) {
    const found = unitIn(this.schema.$defs[object]?.properties[key]);
    return found === null ? '' : found[this.units];
  }

  /** A number, or a text with a unit, to type over. */
  number(path, label, unit = '', hint = '') {
    // A number that is known roughly is an object with its value.
    const value = this.plan.get(path);
    const whole = value !== null && typeof value === 'object' && 'value' in value ? [...path, 'value'] : path;
    return this.slot(whole, label, unit, { hint, inputmode: 'decimal' });
  }

  /**
   * A time to type over: of one with a spread its middle, beside which stands how it varies. Both may be typed together,
   * as they are shown. The hint is what silence means.
   */
  time(path, label, hint = '', unit = 'min') {
    const { plan } = this;
    if (plan.get(path)?.samples !== undefined) return el('b', { 'data-place': placeOf(path) }, `one of ${plan.get(path).samples.length} measured times`);
    // What stood there when the typing began: a new middle keeps how it varied.
    let stood = plan.get(path);
    const put = (text) => {
      const [varying, part] = [typedVarying(text), partOf(stood)];
      const plain = asValue(text, 'min', placeOf(path));
      if (varying !== null) plan.set(path, varying);
      else if (part === null) plan.set(path, plain);
      else if (plain === undefined) plan.set(path, Object.fromEntries(Object.entries(stood).filter(([key]) => key !== part)));
      else plan.set(path, { ...stood, [part]: plain });
    };
    const place = () => placeOf([...path, ...[partOf(plan.get(path))].filter((part) => part !== null)]);
    const varies = el('span', { class: 'small' });
    const slot = this.slot(path, label, unit, {
      inputmode: 'text',
      hint,
      text: () => middle(plan.get(path)),
      isUnit: () => !isWords(middle(plan.get(path))),
      put,
      done: (input) => {
        stood = plan.get(path);
        input.dataset.place = place();
        varies.textContent = this.spread(stood);
      },
    });
    const input = slot.querySelector('input');
    input.dataset.place = place();
    input.dataset.takes = 'time';
    varies.textContent = this.spread(stood);
    slot.append(varies);
    return slot;
  }

  /** How much a time varies, beside its number: nothing where it does not, or where the box says it. */
  spread(value) {
    if (value === null || typeof value !== 'object') return '';
    if (typeof value.cv === 'number' && value.cv > 0) return ` (±${shown(100 * value.cv)}%)`;
    if (value.likely !== undefined && value.low !== undefined && value.high !== undefined) return ` (${asText(value.low)} to ${asText(value.high)})`;
    return '';
  }

  name(path, label, hint = '') {
    return this.slot(path, label, '', { hint, isName: true });
  }

  slot(path, label, unit, { inputmode = 'text', hint = '', isName = false, text: says, isUnit, put, done }) {
    const written = says ?? (() => (isName ? String(this.plan.get(path) ?? '') : asText(this.plan.get(path), unit)));
    const text = written();
    const sign = el('span', {});
    // "At minute 90": the word stands before the box.
    const isMinute = path.includes('requested_at') || path.includes('ready');
    // A unit that was typed along takes the place of the one beside the box.
    const showSign = () => {
      const now = this.plan.get(path);
      const isBeside = isUnit?.() ?? !(typeof now === 'string' && !isName && isWords(now));
      sign.textContent = isBeside && unit !== '' ? ` ${unit}` : '';
    };
    showSign();
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
      'data-says': label,
      'data-unit': unit,
      oninput: (event) => {
        event.target.size = Math.min(Math.max(isName ? 7 : 2, event.target.value.length), 34);
        if (event.target.classList.contains('is-copied')) this.touched(path, event.target);
        // On the way to "Tanker 71" stands "Tanker 7", another's name: what others call it by counts once it is whole.
        if (isCalled(path)) return;
        if (put !== undefined) put(event.target.value);
        else this.plan.set(path, isName ? event.target.value || undefined : asValue(event.target.value, isMinute ? 'min' : unit, placeOf(path)));
        showSign();
        if (isName) this.renamed(path);
      },
      onchange: (event) => {
        if (isCalled(path)) {
          this.plan.rename(path, event.target.value || undefined);
          this.renamed(path);
        }
        const other = isName ? null : otherThousands(event.target.value);
        if (other !== null && ['gal', 'L', 'gpm', 'L/min'].includes(unit)) this.twoWays.set(placeOf(path), { typed: event.target.value.trim(), read: this.plan.get(path), other });
        else this.twoWays.delete(placeOf(path));
        this.onTwoWays?.();
        this.plan.endStep();
        done?.(event.target);
        event.target.value = written();
        showSign();
      },
      onfocus: (event) => event.target.select(),
    });
    const of = placeOf(path.slice(0, 2));
    const isCopied = () => [...(this.copied.get(of) ?? [])].some((one) => placeOf(path) === one || placeOf(path).startsWith(`${one}.`));
    if (isCopied()) {
      input.classList.add('is-copied');
      input.setAttribute('aria-description', 'copied from the one above');
    }
    return el('span', { class: 'slot' }, input, sign);
  }

  /** What a row was begun with is another's until it is touched. */
  markCopied(list, place) {
    const isCopy = ([key, value]) => !['name', 'brought_by', 'turnout', 'crew_cv'].includes(key) && JSON.stringify(value) !== '{}';
    const keys = Object.entries(this.plan.doc[list][place]).filter(isCopy).map(([key]) => placeOf([list, place, key]));
    // Of a row in which nothing stands nothing was copied.
    if (keys.length > 0) this.copied.set(placeOf([list, place]), new Set(keys));
  }

  /** Enter goes on to the next box, as a keyboard on glass has no tabulator. */
  toNext(event) {
    if (event.key !== 'Enter' || event.isComposing || !event.target.matches('input[type="text"]')) return;
    event.preventDefault();
    const boxes = [...this.root.querySelectorAll('input[type="text"], select')];
    const next = boxes[boxes.indexOf(event.target) + 1];
    if (next === undefined) event.target.blur();
    else next.focus();
  }

  /** A copied value that is typed over is the row's own, and with its last one so is the row. */
  touched(path, input) {
    input.classList.remove('is-copied');
    input.removeAttribute('aria-description');
    const of = placeOf(path.slice(0, 2));
    const left = this.copied.get(of) ?? new Set();
    for (const one of left) if (placeOf(path) === one || placeOf(path).startsWith(`${one}.`)) left.delete(one);
    const row = input.closest('.row');
    if (row.querySelector('.is-copied') !== null) return;
    this.copied.delete(of);
    row.querySelector('.copied-note')?.remove();
  }

  /** Something has another name: so do its row, tools and choices, without taking away the box one goes on to. */
  renamed(path) {
    for (const select of this.root.querySelectorAll('select')) select.again?.();
    const row = this.root.querySelector(`[data-row="${CSS.escape(placeOf(path.slice(0, -1)))}"]`);
    if (row === null || typeof path[1] !== 'number') return;
    const old = row.getAttribute('aria-label');
    const now = this.aboutOf(path[0], path[1]);
    row.setAttribute('aria-label', now);
    const box = row.querySelector('input.name');
    if (path[0] !== 'options' && box?.value === '') box.placeholder = now[0].toUpperCase() + now.slice(1);
    const more = row.querySelector('[data-tool="more"]');
    if (more.getAttribute('aria-expanded') === 'false') more.textContent = `More about ${now}`;
    for (const one of row.querySelectorAll('[aria-label]')) {
      const label = one.getAttribute('aria-label');
      if (label.startsWith(`${old}: `)) one.setAttribute('aria-label', `${now}: ${label.slice(old.length + 2)}`);
    }
  }

  /** What a row of a list is called. */
  aboutOf(list, place) {
    const row = this.plan.doc[list][place];
    if (list === 'drop_tanks') return `drop tank ${place + 1}`;
    if (list === 'fill_sites') return typeof row.name === 'string' && row.name !== '' ? row.name : `fill site ${place + 1}`;
    if (list === 'options') return typeof row.name === 'string' && row.name !== '' ? row.name : `choice ${place + 1}`;
    return namesOf({ ...row, count: undefined }, place)[0];
  }

  /** A choice; `choices` gives them anew, as names change. */
  choice(path, label, choices, pick) {
    const options = () => {
      const now = this.plan.get(path) ?? '';
      return choices().map(([value, text]) => el('option', { value, selected: value === now }, text));
    };
    const select = el(
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
      options(),
    );
    select.again = () => select.replaceChildren(...options());
    return select;
  }
}
