// Whom to ask and by when, beside the answer: what `request` finds, worked out once the answer is sharp.

import { el } from '../base/dom.js';
import { minutes, ofHundred, shown } from './numbers.js';
import { table } from './told.js';
import { asTold } from './words.js';

/** As much as the chance can be at most with a delay: that of the request, and what the delay adds to it. */
function atMost(answer, { outcome }) {
  return answer.ci_high + Math.max(0, outcome.higher_by.ci_high);
}

/** The longest of the delays that were tried of which it is shown, as of every shorter one, that the request still does what is wanted; null where none is. */
export function latest(answer) {
  const sorted = [...answer.late].sort((one, other) => one.later_by_min - other.later_by_min);
  const fails = sorted.findIndex((one) => !(atMost(answer, one) < answer.target));
  const kept = fails < 0 ? sorted : sorted.slice(0, fails);
  return kept.at(-1)?.later_by_min ?? null;
}

/** Whom to ask: rows of when, by when at the latest, whom and when they are there. Those of one minute stand together. */
export function calls(answer) {
  const slack = latest(answer) ?? 0;
  const rows = new Map();
  for (const one of answer.ask_for) rows.set(one.requested_at_min, [...(rows.get(one.requested_at_min) ?? []), one]);
  const all = [...rows].sort(([one], [other]) => one - other);
  return all.map(([minute, asked]) => ({ minute, latest: minute + slack, names: asked.map((one) => one.name), there: asked.map((one) => minute + one.response_min) }));
}

/** The button that asks them all in the plan. */
export function putInPlan(answer, putIn) {
  return el('p', { class: 'asks' }, el('button', { type: 'button', 'data-tool': 'put in', onclick: () => putIn(answer.ask_for) }, 'Put them in the plan'));
}

/** The answer of `request` as a part of another: its sentence, whom and when, what a delay does. */
export function aidTold({ answer, told }, putIn = null) {
  const at = (minute) => (minute === 0 ? 'at the alarm' : `at minute ${minutes(minute)}`);
  const slack = latest(answer);
  const later = told.points.find((point) => point.label === 'if later');
  const kept = answer.late.find((one) => one.later_by_min === slack);
  const tried = answer.late.length > 0;
  return [
    el('p', {}, asTold(told.verdict)),
    answer.ask_for.length === 0 || !answer.meets_target
      ? null
      : table({
          columns: ['Ask', ...(tried ? ['At the latest'] : []), 'Whom', 'There at minute'],
          rows: calls(answer).map((one) => [at(one.minute), ...(tried ? [slack === null ? 'do not wait' : `minute ${minutes(one.latest)}`] : []), one.names.join(', '), one.there.map((there) => shown(Math.round(there))).join(', ')]),
          feet: tried && slack !== null ? [`At the latest: with all of them ${shown(slack)} minutes later the lines run short in at most ${ofHundred(atMost(answer, kept))} fires of 100, as far as the simulated fires can tell: under ${ofHundred(answer.target)}.`] : [],
        }),
    putIn === null || answer.ask_for.length === 0 || !answer.meets_target ? null : putInPlan(answer, putIn),
    later === undefined ? null : el('p', {}, asTold(`If later: ${later.says}`)),
  ];
}
