// Mistakes and warnings beside the sentence they belong to.

import { el } from '../base/dom.js';
import { at, pathOf, placeInPlan, placeOf } from './plan.js';
import { shown } from '../told/numbers.js';
import { capital } from '../told/told.js';
import { asTold } from '../told/words.js';

/** Lists of which a fire needs one at least, and what to say where all of it is struck out. */
const NONE_LEFT = { fill_sites: 'Every fill site is struck out. Bring one back, or add another.', tankers: 'Nobody who carries water is left. Bring one back, or add another.' };

/**
 * Marks everything that was found; what is not there yet is told quietly.
 *
 * Returns how many slips there are, how many things are missing, and the first box or sentence that is marked.
 */
export function markAll(root, plan, places, { mistakes, warnings }) {
  for (const old of root.querySelectorAll('.marks')) old.replaceChildren();
  for (const old of root.querySelectorAll('[aria-invalid]')) {
    old.removeAttribute('aria-invalid');
    old.removeAttribute('aria-describedby');
  }
  const found = { wrong: 0, needed: 0, first: null };
  const told = new Map();
  mistakes.forEach((mistake, number) => {
    const place = placeInPlan(mistake.place, places);
    const slot = slotOf(root, place);
    const isMissing = isAbsent(plan, place);
    // A road that is alike both ways has one box: it is one thing to fill in, and one slip.
    const [isTold, says] = [told.get(slot) ?? [], isMissing ? '' : mistake.problem];
    if (slot !== null && isTold.includes(says)) return;
    told.set(slot, [...isTold, says]);
    found[isMissing ? 'needed' : 'wrong'] += 1;
    const mark = el('div', { class: isMissing ? 'needed' : 'mistake', id: `mistake-${number}` }, wordsOf(mistake, place, slot, isMissing, places, at(plan.doc, pathOf(place))));
    if (slot !== null && !slot.hasAttribute('aria-invalid')) {
      slot.setAttribute('aria-invalid', 'true');
      slot.setAttribute('aria-describedby', mark.id);
    }
    marksFor(root, slot, place).append(mark);
  });
  for (const warning of warnings) {
    const place = placeInPlan(warning.place, places);
    const marks = marksFor(root, slotOf(root, place), place);
    const says = asTold(capital(warning.text));
    // The two ways of a road that is alike both ways are doubted once.
    if ([...marks.children].some((one) => one.textContent === says)) continue;
    marks.append(el('div', { class: warning.is_doubt ? 'warned' : 'warned quiet' }, says));
  }
  // In the order of the page, not of the file.
  found.first = root.querySelector('[aria-invalid], .mistake, .needed');
  return found;
}

/** What is not there yet has its box: its name is enough. A slip is told as the engine tells it. */
function wordsOf(mistake, place, slot, isMissing, places, value) {
  const [, long, short] = /^(\d+):(\d\d)$/.exec(value) ?? [];
  if (short < 60) {
    return [el('b', {}, `${value} can be read two ways.`), ` Type minutes: ${shown(60 * Number(long) + Number(short))} where it is hours and minutes, ${shown(Number(long) + Number(short) / 60, 2)} where it is minutes and seconds.`];
  }
  if (slot !== null && isMissing) return `Still to fill in: ${slot.getAttribute('aria-label')}.`;
  if (NONE_LEFT[place] !== undefined && places[place]?.length === 0) return el('b', {}, NONE_LEFT[place]);
  return [el('b', {}, `${asTold(capital(mistake.problem))}.`), mistake.limit === null ? '' : ` Allowed: ${sentence(asTold(mistake.limit))}`, ` ${sentence(asTold(capital(mistake.cure)))}`, slot?.dataset.takes === 'time' ? ` A time that varies is typed as ${shown(11)} ±${shown(15)}%, ${shown(10)} to ${shown(14)}, or ${shown(4)} (${shown(3)} to ${shown(8)}).` : ''];
}

function sentence(words) {
  return words.endsWith('.') ? words : `${words}.`;
}

/** Whether nothing stands there: a thing to fill in, not a slip. */
function isAbsent(plan, place) {
  const path = pathOf(place);
  const value = at(plan.doc, path);
  // A drop tank that nobody brings comes by itself, and then it takes a time.
  if (path.length === 2 && path[0] === 'drop_tanks') return value?.brought_by === undefined && value?.response === undefined;
  return value === undefined || value === '';
}

/** The box that holds a value: of a time its number, of a road the one that stands for both ways and for any unit. */
function slotOf(root, place) {
  const [, site, way] = /^(fill_sites\[\d+\])\.(out|back)\.(?:miles|km|minutes)$/.exec(place) ?? [];
  const roads = site === undefined ? [] : [way, 'out'].flatMap((one) => ['miles', 'km', 'minutes'].map((key) => `${site}.${one}.${key}`));
  const dropTank = /^drop_tanks\[\d+\]$/.test(place) ? [`${place}.response`] : [];
  // What is wrong with a part of a time is marked at its box.
  const whole = place.replace(/\.(?:low|high|cv|mean|likely|value)$/, '');
  const times = [place, whole].flatMap((one) => [one, `${one}.mean`, `${one}.likely`, `${one}.value`]);
  for (const one of [...times, ...roads, ...dropTank]) {
    const found = root.querySelector(`input[data-place="${CSS.escape(one)}"], select[data-place="${CSS.escape(one)}"]`);
    if (found !== null) return found;
  }
  return null;
}

/** The row that tells about a place: that of its box, or the one that holds it. */
function marksFor(root, slot, place) {
  let row = slot?.closest('.row') ?? null;
  const path = pathOf(place);
  while (row === null && path.length > 0) {
    row = root.querySelector(`[data-row="${CSS.escape(placeOf(path))}"]`);
    path.pop();
  }
  row ??= root.querySelector('[data-row="everything else"]');
  return row.querySelector('.marks');
}
