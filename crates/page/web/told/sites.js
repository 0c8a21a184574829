// Which fill site: the fire of the plan with each of them alone, and with all.

import { howLongOf, ofHundred, shown } from './numbers.js';

/** What a site alone comes to, or all of them: the answer of `risk`, or null where the plan cannot run so. */
function siteRow(says, answer) {
  if (answer === null) return [says, 'cannot run so', '', ''];
  const { interruption_probability: share, interrupted_minutes_mean: mean } = answer;
  const [low, high] = [answer.ci_low, answer.ci_high].map(ofHundred);
  return [says, ofHundred(share), low === high ? low : `${low} to ${high}`, share === 0 ? '' : howLongOf(mean / share)];
}

/** The sites that are not surely worse than the best, best first. */
export function bestOf(alone) {
  const able = alone.filter((one) => one.answer !== null).sort((one, other) => one.answer.interruption_probability - other.answer.interruption_probability);
  return able.filter((one) => one.answer.ci_low <= able[0].answer.ci_high);
}

/** The sentence: which site alone does best, and what all of them do. */
export function verdictOf(alone, all) {
  const best = bestOf(alone);
  const together = all === null ? '' : `; with all of them in ${ofHundred(all.interruption_probability)}`;
  if (best.length === 0) return 'No fill site can serve this fire alone.';
  const shorts = best.map((one) => ofHundred(one.answer.interruption_probability));
  // Where every fire is short, how long it is tells them apart.
  if (best.every((one) => one.answer.interruption_probability === 1)) {
    const mean = (one) => one.answer.interrupted_minutes_mean;
    const [first, ...others] = best.sort((one, other) => mean(one) - mean(other));
    const beside = others.map((one) => `${howLongOf(mean(one))} with ${one.name}`).join(', ');
    return `The lines run short in every fire with any fill site alone; it is shortest with ${first.name}, for ${howLongOf(mean(first))} minutes on average${beside === '' ? '' : `, ${beside}`}.`;
  }
  if (best.length === 1) return `${best[0].name} is the best fill site alone: the lines run short in ${shorts[0]} fires of 100${together}.`;
  const names = best.map((one) => one.name);
  return `${names.slice(0, -1).join(', ')} and ${names.at(-1)} alone are too close to tell: the lines run short in ${shorts.slice(0, -1).join(', ')} and ${shorts.at(-1)} fires of 100${together}.`;
}

/** Everything that is told of it, in the shape of any other answer. */
export function sitesTold(alone, all, fires, word) {
  return {
    verdict: verdictOf(alone, all),
    points: [
      {
        columns: ['They fill at', 'Fires of 100 run short', '95% sure', 'Minutes short, where they are'],
        rows: [...alone.map((one) => siteRow(`${one.name} alone`, one.answer)), siteRow('all of them', all)],
        feet: [`${shown(fires)} simulated fires each, the same luck for all. Alone: every ${word} fills there, also one that the plan sends elsewhere.`],
      },
    ],
    advice: [],
    more: [],
    notes: [],
    small_print: [],
  };
}
