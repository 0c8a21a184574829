// What a step back or forth has changed, in a few words.

import { at, namesOf, pathOf, placeOf } from '../plan/plan.js';
import { asText } from '../plan/slots.js';

const LIST_WORDS = { tankers: 'who comes', aid: 'who could be asked for', fill_sites: 'where they fill', drop_tanks: 'the drop tanks', options: 'what could be bought' };
const PART_WORDS = { title: 'the name', incident: 'the fire', attack_engine: 'the attack engine', supply: 'the draft', handling: 'handling', whole_fire: 'how whole fires differ', units: 'the units', notes: 'the notes' };

/** The first place at which two values differ; null where they are the same. Lists of different lengths differ as a whole. */
export function firstDifference(one, other, path = []) {
  if (JSON.stringify(one) === JSON.stringify(other)) return null;
  const areObjects = [one, other].every((value) => value !== null && typeof value === 'object');
  if (!areObjects || Array.isArray(one) !== Array.isArray(other) || (Array.isArray(one) && one.length !== other.length)) return path;
  for (const key of Array.isArray(one) ? one.keys() : new Set([...Object.keys(one), ...Object.keys(other)])) {
    const found = firstDifference(one[key], other[key], [...path, key]);
    if (found !== null) return found;
  }
  return null;
}

/** What a row of a list is called. */
function rowName(doc, list, place) {
  if (list === 'drop_tanks') return `drop tank ${place + 1}`;
  const row = doc[list]?.[place] ?? {};
  if (typeof row.name === 'string' && row.name !== '') return row.name;
  return list === 'fill_sites' ? `fill site ${place + 1}` : namesOf({ ...row, count: undefined }, place)[0];
}

/**
 * What is otherwise between two states of a plan with its struck rows.
 *
 * - Given: `boxAt`, of the box at a place what it says and the unit of a bare number in it; null where there is none.
 */
export function whatChanged(before, after, boxAt) {
  const struck = [...new Set([...before.struck, ...after.struck])].filter((place) => before.struck.includes(place) !== after.struck.includes(place));
  const path = firstDifference(before.doc, after.doc);
  if (path === null) {
    if (struck.length === 0) return 'the last change';
    const [list, place] = pathOf(struck[0]);
    return `${rowName(after.doc, list, place)} is ${after.struck.includes(struck[0]) ? 'struck out' : 'in the plan'}`;
  }
  const others = Object.keys({ ...before.doc, ...after.doc }).filter((key) => key !== path[0] && JSON.stringify(before.doc[key]) !== JSON.stringify(after.doc[key]));
  // A name is followed elsewhere; whatever else differs in several parts is the plan.
  if (path.length > 0 && path.at(-1) !== 'name' && others.length > 1) return 'the plan as a whole';
  if (path.length === 1) return LIST_WORDS[path[0]] ?? PART_WORDS[path[0]] ?? 'the rest';
  const [box, value] = [boxAt(placeOf(path)), at(after.doc, path)];
  const isShown = value === null || typeof value !== 'object';
  if (box !== null && isShown) return `${box.says}${box.unit === '' ? '' : `, ${box.unit},`} is ${value === undefined || value === null ? 'empty' : asText(value, box.unit)}`;
  return typeof path[1] === 'number' ? rowName(after.doc, path[0], path[1]) : (PART_WORDS[path[0]] ?? 'the rest');
}
