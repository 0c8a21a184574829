// A plan changed as an answer has it: whom it asks for comes, each of its fill sites alone.

import { Plan, namesOf, pathOf, placeOf } from './plan.js';
import { asked } from './rows.js';

/**
 * Whoever could be asked for and is in the request comes, asked for at its minute, as one step. Of a group of which some
 * are asked each stands alone.
 */
export function askFor(plan, request) {
  const minute = new Map(request.map((one) => [one.name, one.requested_at_min]));
  const doc = structuredClone(plan.doc);
  const [kept, struck] = [[], [...plan.struck].filter((place) => pathOf(place)[0] !== 'aid')];
  doc.tankers ??= [];
  (doc.aid ?? []).forEach((row, place) => {
    const isStruck = plan.isStruck('aid', place);
    const names = namesOf(row, place);
    const isWhole = new Set(names.map((name) => minute.get(name))).size === 1;
    const { count, ...one } = row;
    const rows = isWhole ? [[names[0], row]] : names.map((name) => [name, { ...one, name }]);
    for (const [name, each] of rows) {
      if (!isStruck && minute.has(name)) doc.tankers.push({ ...asked(each), ...(each.alarm === undefined ? { requested_at: minute.get(name) } : {}) });
      else if (kept.push(each) > 0 && isStruck) struck.push(placeOf(['aid', kept.length - 1]));
    }
  });
  doc.aid = kept;
  if (kept.length === 0) delete doc.aid;
  plan.replace(doc, struck);
}

/** The plan as it is answered with each of its fill sites alone: `{name, text}`. */
export function sitesAlone(plan) {
  const places = (plan.doc.fill_sites ?? []).map((_, place) => place).filter((place) => !plan.isStruck('fill_sites', place));
  return places.map((place) => {
    const others = places.filter((one) => one !== place).map((one) => placeOf(['fill_sites', one]));
    const name = plan.doc.fill_sites[place].name;
    return { name: typeof name === 'string' && name !== '' ? name : `Fill site ${place + 1}`, text: new Plan(JSON.stringify(plan.doc), [...plan.struck, ...others]).inForce().text };
  });
}
