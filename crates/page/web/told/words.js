// Words of the engine as this page says them: in the reader's numbers. What the user has named stays as it is, letter by
// letter.

import { localNumbers } from './numbers.js';

const spoken = { names: [] };

/** What the user has named: no number within these is touched. */
export function useNames(names) {
  spoken.names = [...new Set(names.filter((name) => typeof name === 'string' && name.length > 0))].sort((one, other) => other.length - one.length);
}

/** Every name in a plan. */
export function namesIn(doc) {
  const rows = ['tankers', 'aid', 'fill_sites', 'drop_tanks', 'options'].flatMap((list) => (Array.isArray(doc[list]) ? doc[list] : []));
  return [doc.title, doc.attack_engine?.name, doc.supply?.engine?.name, ...rows.flatMap((row) => [row?.name, row?.department, row?.brought_by])];
}

/** Turns what stands between the names. */
function outsideNames(text, turn) {
  if (spoken.names.length === 0) return turn(text);
  const any = new RegExp(`(${spoken.names.map((name) => name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('|')})`, 'u');
  return text.split(any).map((part, place) => (place % 2 === 1 ? part : turn(part))).join('');
}

/** A text of the engine, which has already put it in the reader's word and units. */
export function asTold(text) {
  return outsideNames(text, localNumbers);
}
