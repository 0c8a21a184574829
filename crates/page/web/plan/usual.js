// The spreads that are usual where nobody has timed his own: those of a plan that is made by asking.

/** Judgement, no measurement, as in the first plan that the questions make (plain-plan, `scenario_text`). */
const USUAL = { own: 0.15, aid: 0.2, road: 0.15, handling: 0.3, ready: 0.2, whole_fire: { driving_cv: 0.1, handling_cv: 0.15, response_cv: 0.15 } };

/** A plain time with a spread around it; any other, and none at all, stays as it is. */
function around(value, cv) {
  const isPlain = (typeof value === 'number' && value > 0) || (typeof value === 'string' && value !== '');
  return isPlain ? { mean: value, cv } : value;
}

/** Gives every plain response, road and handling of a plan its usual spread; what varies already stays as it is. */
export function giveUsualSpread(doc) {
  const put = (holder, key, cv) => {
    if (holder?.[key] !== undefined) holder[key] = around(holder[key], cv);
  };
  put(doc.attack_engine, 'response', USUAL.own);
  put(doc.attack_engine, 'water_on', USUAL.handling);
  put(doc.supply?.engine, 'response', USUAL.own);
  for (const holder of [doc.supply, doc.supply?.engine, ...(doc.drop_tanks ?? [])]) put(holder, 'setup', USUAL.handling);
  for (const row of [...(doc.tankers ?? []), ...(doc.drop_tanks ?? [])]) put(row, 'response', ['mutual', 'automatic'].includes(row.aid) ? USUAL.aid : USUAL.own);
  for (const row of doc.fill_sites ?? []) put(row, 'ready', USUAL.ready);
  for (const row of doc.aid ?? []) put(row, 'response', USUAL.aid);
  for (const leg of (doc.fill_sites ?? []).flatMap((row) => [row.out, row.back])) {
    if (leg?.minutes !== undefined) put(leg, 'minutes', USUAL.road);
    else if (leg !== undefined && leg !== null && Object.keys(leg).length > 0) leg.cv ??= USUAL.road;
  }
  for (const key of Object.keys(doc.handling ?? {})) put(doc.handling, key, USUAL.handling);
  doc.whole_fire ??= { ...USUAL.whole_fire };
}
