// What a row of a list begins with, and how it changes on its way to another list.

/** Somebody who could be asked for is asked, at the earliest; for a grading that stays mutual aid. */
export function asked(row) {
  // Who is on an alarm is called with that.
  return { ...row, ...(row.alarm === undefined ? { requested_at: row.requested_at ?? 0 } : {}), aid: row.aid ?? 'mutual' };
}

/** Somebody who comes is only asked when needed; asked for at the alarm is what silence means there too. */
export function onceAsked(row) {
  const { requested_at: at, aid, ...others } = row;
  // In that list silence means mutual aid.
  const whose = aid === undefined || aid === 'mutual' ? {} : { aid };
  return { ...others, ...(at === undefined || at === 0 ? {} : { requested_at: at }), ...whose };
}

/** What a list begins with. */
export function firstRow(list) {
  // How often one comes and how crews differ, as in the starter: judgement, and told in the sentence.
  if (list === 'tankers') return { turnout: 0.95, crew_cv: 0.1 };
  if (list === 'aid') return { turnout: 0.9, crew_cv: 0.2 };
  if (list === 'fill_sites') return { out: {}, back: {} };
  return {};
}
