// The answer at the top: the sentence, a hundred dots, how sure.

import { byId, el, svg } from '../base/dom.js';
import { howLongOf, ofHundred, shown } from './numbers.js';
import { asTold } from './words.js';

const COLUMNS = 25;
const PITCH = 10;

/** Shows an answer of `risk`, as far as it has been worked out. */
export function showAnswer(answer, isFinal) {
  const head = byId('answer');
  head.classList.remove('is-old');
  head.classList.add('is-answered');
  const verdict = byId('verdict');
  const says = asTold(answer.told.verdict);
  if (verdict.textContent !== says) verdict.textContent = says;
  tellHowLong(howLong(answer));
  byId('sure').textContent = howSure(answer, isFinal);
  byId('dots').replaceChildren(dots(answer));
}

/** "Where they run short, it is for 1.1 minutes on average." Nothing where they never do, nor where all do: that sentence says it. */
export function howLong({ interruption_probability: share, interrupted_minutes_mean: mean, interrupted_minutes_worst_5_percent: worst }) {
  if (share === 0 || share === 1) return '';
  const minutes = howLongOf(mean / share);
  // The worst twentieth of all fires: where few are short it says little of those.
  const long = share >= 0.2 && howLongOf(worst) !== minutes ? `, in the worst 5 of 100 fires for ${howLongOf(worst)} or more` : '';
  return `Where they run short, it is for ${minutes} ${minutes === '1' ? 'minute' : 'minutes'} on average${long}.`;
}

function tellHowLong(says) {
  byId('how-long').textContent = says;
  byId('how-long').hidden = says === '';
}

/** "Between 16 and 18 of 100, as far as 20,000 simulated fires can tell..." */
function howSure(answer, isFinal) {
  const [low, high] = [answer.ci_low, answer.ci_high].map(ofHundred);
  const range = low === high ? `${low} of 100` : `${low} to ${high} of 100`;
  const going = isFinal ? '' : ' Sharper figures are on their way.';
  return `${range[0].toUpperCase()}${range.slice(1)} (95%), from ${shown(answer.replications)} simulated fires; how far the figures of the plan are guesses is not in it.${going}`;
}

/** A hundred fires: filled where the lines run short, dashed where that is not sure yet, empty where they do not. */
export function dots(answer) {
  const surely = Math.round(100 * answer.interruption_probability);
  const atMost = Math.max(surely, Math.round(100 * answer.ci_high));
  const circles = Array.from({ length: 100 }, (_, number) => {
    const kind = number < surely ? 'dot-dry' : number < atMost ? 'dot-may' : 'dot-wet';
    return svg('circle', { class: kind, cx: (number % COLUMNS) * PITCH + 5, cy: Math.floor(number / COLUMNS) * PITCH + 5, r: 3.8, 'stroke-width': 1.1 });
  });
  const name = `Of 100 fires the lines run short in ${ofHundred(answer.interruption_probability)}: a filled dot each.`;
  return svg('svg', { viewBox: `0 0 ${COLUMNS * PITCH} ${(100 / COLUMNS) * PITCH}`, role: 'img', 'aria-label': name }, circles);
}

/** What the page says while the plan cannot run; a button leads to the first of it. */
export function showMistakes({ wrong, needed, first }) {
  byId('answer').classList.remove('is-old', 'is-answered');
  const parts = [];
  if (wrong > 0) parts.push(wrong === 1 ? 'one mistake to put right' : `${wrong} mistakes to put right`);
  if (needed > 0) parts.push(needed === 1 ? 'one thing still to fill in' : `${needed} things still to fill in`);
  byId('verdict').textContent = `No answer yet: ${parts.join(', ')}.`;
  tellHowLong('');
  byId('sure').replaceChildren('Each is marked in its sentence. ', first === null ? '' : el('button', { type: 'button', id: 'to-first', onclick: () => leadTo(first) }, 'Show the first'));
  byId('dots').replaceChildren();
}

/** Brings a marked box or sentence into sight, and the keyboard to it. */
function leadTo(marked) {
  marked.scrollIntoView({ block: 'center' });
  if (!marked.matches('input, select, textarea, button')) marked.tabIndex = -1;
  marked.focus({ preventScroll: true });
}

/** What stands there is of an older plan. */
export function fade() {
  byId('answer').classList.add('is-old');
}
