// Words of the engine as this page says them: in the reader's numbers and word, without keys of the file. What the
// user has named stays as it is, letter by letter.

import { localNumbers } from './numbers.js';

const spoken = { names: [], word: 'tanker' };

/** What the user has named: no word and no number within these is touched. */
export function useNames(names) {
  spoken.names = [...new Set(names.filter((name) => typeof name === 'string' && name.length > 0))].sort((one, other) => other.length - one.length);
}

/** The reader's word for the truck that carries water: "tanker" or "tender". */
export function useWord(word) {
  spoken.word = word;
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

/** A text of an answer, which the engine has already put in the reader's word and units. */
export function asTold(text) {
  return outsideNames(text, localNumbers);
}

/** A text that the engine gives in the words of the file: of a mistake, a warning, a field. */
export function inPlain(text) {
  return outsideNames(text, (part) => localNumbers(inWord(part).replace(/leave the key out/g, 'leave it empty').replace(/`([a-z][a-z_]*)`/g, (_, key) => key.replaceAll('_', ' ')).replace(/`([^`]*)`/g, '$1')));
}

/** What a field is, for somebody who has its box and its unit before him. */
export function fieldHelp(text) {
  const about = text.replace(/^JSON Patch \(RFC 6902\), with paths by name as well: what/, 'What').replace(/; or as a JSON Pointer \(RFC 6901\): [^.]*counted from 0/, '').replace(/ or as a JSON Pointer/, '').replace(/; a bare number is [^.;]*/g, '').replace(/(Silent|Silence): /g, 'Left empty: ').replace(/(Left empty: )(true|false)\b/g, (_, empty, means) => `${empty}${means === 'true' ? 'yes' : 'no'}`).replace(/Silence is taken with a warning: /g, 'Left empty it counts as nothing; ').replace(/Silent or null: /g, 'Left empty: ').replace(/ key by key/g, ' one by one').replace(/, for `grade`/g, ', for a grading').replace(/; `grade --rule` takes it/g, '').replace(/`bucketline request`/g, 'whom to ask').replace(/`bucketline ([a-z]+)`/g, '$1').replace(/"([a-z]+)_([a-z]+)"/g, '"$1 $2"');
  return localNumbers(inWord(about).replace(/`([^`]*)`/g, (_, key) => key.replaceAll(/[_.]/g, ' ')));
}

function inWord(text) {
  return spoken.word === 'tender' ? text.replace(/\btanker(s?)\b/g, 'tender$1').replace(/\bTanker(s?)\b(?! \d)/g, 'Tender$1') : text;
}
