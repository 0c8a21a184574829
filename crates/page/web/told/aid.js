// Whom to ask and by when, beside the answer: what `request` finds, worked out once the answer is sharp.

import { el } from '../base/dom.js';
import { minutes, ofHundred, shown } from './numbers.js';
import { table } from './told.js';
import { asTold } from './words.js';

/** The longest of the delays that were tried with which the request still does what is wanted; null where none does. */
export function latest({ late, target }) {
  const kept = late.filter(({ change }) => change.interruption_probability < target).map((one) => one.later_by_min);
  return kept.length === 0 ? null : Math.max(...kept);
}

/** Whom to ask: rows of when, by when at the latest, whom. Those of one minute stand together. */
export function calls(answer) {
  const slack = latest(answer) ?? 0;
  const rows = new Map();
  for (const { requested_at_min: minute, name } of answer.request) rows.set(minute, [...(rows.get(minute) ?? []), name]);
  return [...rows].sort(([one], [other]) => one - other).map(([minute, names]) => ({ minute, latest: minute + slack, names }));
}

/** The answer of `request` as a part of another: its sentence, whom and when, what a delay does. */
export function aidTold({ answer, told }) {
  const at = (minute) => (minute === 0 ? 'at the alarm' : `at minute ${minutes(minute)}`);
  const slack = latest(answer);
  const later = told.points.find((point) => point.label === 'if later');
  const kept = answer.late.find((one) => one.later_by_min === slack);
  const tried = answer.late.length > 0;
  return [
    el('p', {}, asTold(told.verdict)),
    answer.request.length === 0 || !answer.meets_target
      ? null
      : table({
          columns: ['Ask', ...(tried ? ['At the latest'] : []), 'Whom'],
          rows: calls(answer).map((one) => [at(one.minute), ...(tried ? [slack === null ? 'no later' : `minute ${minutes(one.latest)}`] : []), one.names.join(', ')]),
          feet: tried && slack !== null ? [`At the latest: with all of them ${shown(slack)} minutes later the lines run short in about ${ofHundred(kept.change.interruption_probability)} fires of 100, still under ${ofHundred(answer.target)}.`] : [],
        }),
    later === undefined ? null : el('p', {}, asTold(`If later: ${later.says}`)),
  ];
}
