// Where the things of one fire stand on the clock, and what is said of its moments.

import { el } from '../base/dom.js';
import { minutes, shown } from '../told/numbers.js';

/** Where the flows of the steps are written: the last one whole, each other where there is room before the next. */
export function stepLabels(steps, x, right) {
  return steps.flatMap(({ minute, flow }, place) => {
    const isLast = place + 1 === steps.length;
    const room = (isLast ? right : x(steps[place + 1].minute)) - x(minute);
    if (!isLast && room < 24) return [];
    return [{ flow, x: isLast ? Math.min(x(minute) + 3, right - 60) : x(minute) + 3, isWhole: isLast || room > 70 }];
  });
}

export function newsOf(line) {
  return `${minutes(line.minute)}: ${line.who} ${line.says}${flowOf(line)}`;
}

/** The flow that a line of a story tells of, in brackets; nothing where it tells of none. */
export function flowOf(line) {
  const [flow, sign] = typeof line.flow_gpm === 'number' ? [line.flow_gpm, 'gpm'] : [line.flow_lpm, 'L/min'];
  return typeof flow === 'number' ? ` (${shown(Math.round(flow))} ${sign})` : '';
}

/** Where on its loop a tanker is drawn: the road back to the scene above, the road out below. */
export function onLoop({ part, along }) {
  const [left, right] = [60, 260];
  switch (part) {
    case 'out':
      return [right - along * (right - left), 42];
    case 'out-held':
      return [(left + right) / 2, 42];
    case 'back':
      return [left + along * (right - left), 14];
    case 'back-held':
      return [(left + right) / 2, 14];
    case 'fill':
      return [left - 14, 28];
    case 'coming':
      return [left + (0.5 + 0.5 * along) * (right - left), 14];
    default:
      return [right + 14, 28];
  }
}

/** The level at which the crew backs out, as a share of the tank. */
export function backOutMark(share) {
  const mark = el('b', { class: 'back-out' });
  mark.style.bottom = `${100 * share}%`;
  return mark;
}
