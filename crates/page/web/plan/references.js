// Who is called by name elsewhere in a plan: what brings a drop tank or a pump, the fill site a tanker is bound to, the
// rows that an option changes. A row that has got another name is followed there.

import { namesOf } from './plan.js';

const ROWS = ['tankers', 'aid', 'fill_sites'];

/** The full names that stand behind a place such as ['tankers', 1, 'name']; none where it is no name of a unit or source. */
export function namesAt(doc, path) {
  const way = path.join('/');
  if (way === 'attack_engine/name') return [doc.attack_engine?.name].filter((name) => typeof name === 'string');
  if (way === 'supply/engine/name') return [doc.supply?.engine?.name].filter((name) => typeof name === 'string');
  const [list, place, key] = path;
  const row = doc[list]?.[place];
  if (path.length !== 3 || key !== 'name' || !ROWS.includes(list) || row === undefined) return [];
  if (list !== 'fill_sites') return namesOf(row, place);
  return [typeof row.name === 'string' && row.name !== '' ? row.name : `Fill site ${place + 1}`];
}

/** Whether anything but what stands behind a place is called by one of these names: another unit, or another fill site. */
export function areAnothers(doc, path, names) {
  const rows = (list) => (doc[list] ?? []).map((_, place) => [list, place, 'name']);
  const all = path[0] === 'fill_sites' ? rows('fill_sites') : [['attack_engine', 'name'], ['supply', 'engine', 'name'], ...rows('tankers'), ...rows('aid')];
  const here = path.join('/');
  return all.filter((one) => one.join('/') !== here).some((one) => namesAt(doc, one).some((name) => names.includes(name)));
}

/** Whether a place holds the name of a unit or a fill site, which others may call. */
export function isCalled(path) {
  const way = path.join('/');
  return way === 'attack_engine/name' || way === 'supply/engine/name' || (path.length === 3 && path[2] === 'name' && ROWS.includes(path[0]));
}

/**
 * Where these names are called: each with which of them, and a way to call it otherwise.
 *
 * - Given: `isSource`, whether they are a fill site's and not a unit's.
 */
export function callsOf(doc, names, isSource) {
  const calls = [];
  const look = (holder, key) => {
    const which = names.indexOf(holder?.[key]);
    if (which >= 0) calls.push({ which, put: (name) => { holder[key] = name; } });
  };
  const units = [...(doc.drop_tanks ?? []), ...(doc.fill_sites ?? []).map((row) => row.source_pump)];
  if (isSource) for (const row of [...(doc.tankers ?? []), ...(doc.aid ?? [])]) look(row, 'fill_site');
  else for (const row of units) look(row, 'brought_by');
  for (const change of (doc.options ?? []).flatMap((option) => (Array.isArray(option?.changes) ? option.changes : []))) {
    look(change?.value ?? undefined, isSource ? 'fill_site' : 'brought_by');
    for (const key of ['path', 'from']) {
      const steps = typeof change?.[key] === 'string' ? change[key].split('/') : [];
      const which = names.indexOf(steps[1]);
      const isOne = which >= 0 && (steps[0] === 'fill_sites') === isSource && ROWS.includes(steps[0]);
      if (isOne) calls.push({ which, put: (name) => { change[key] = [steps[0], name, ...steps.slice(2)].join('/'); } });
    }
  }
  return calls;
}
