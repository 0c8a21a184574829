// One fire along one line in minutes after the alarm, as a drawing.

import { el, svg } from '../base/dom.js';
import { minutes, ofHundred, shown } from '../told/numbers.js';
import { stepLabels } from './placed.js';

/** Heights in the drawing: the greatest flow, the line itself, the end of the marks below it; and where there is little room. */
const TALL = { top: 30, base: 120, low: 178 };
const SHORT = { top: 16, base: 78, low: 112 };

/**
 * The line: above it the flow wanted, on it who comes and what is set up, below it when fires run short.
 *
 * Given: the fire; of each minute the share of fires that first run short in it; from where to where the line goes; whether
 * what comes after the minute is covered, and so not told either; whether it is drawn low, for a phone. With the drawing come
 * what explains it, and what moves with the minute: hair and cover.
 */
export function drawnLine({ story, shares, left, right, isCovered, isLow }) {
  const heights = isLow ? SHORT : TALL;
  const { base, low } = heights;
  const x = (minute) => left + (minute / story.end) * (right - left);
  const hair = svg('line', { class: 'hand', y1: 8, y2: low });
  // While a class is asked, what comes after the minute is covered.
  const cover = svg('rect', { class: 'cover', y: 0, height: low - 1 });
  const highest = Math.max(0, ...shares);
  const about = `Minutes after the alarm, to minute ${minutes(story.end)}. ${story.shorts.length === 0 ? 'In this fire the lines keep their flow.' : `In this fire the lines are short ${story.shorts.length === 1 ? 'once' : `${story.shorts.length} times`}.`}`;
  const drawing = svg(
    'svg',
    { viewBox: `0 0 ${right + 20} ${low + 22}`, role: 'img', 'aria-label': isCovered ? 'Minutes after the alarm; what is to come is covered.' : about },
    ticks(story.end, right - left, x, heights),
    flowWanted(story, x, right, heights),
    shares.map((share, minute) => (share === 0 ? null : svg('rect', { class: 'shorts', x: x(minute), y: base + 18, width: Math.max(1, x(minute + 1) - x(minute) - 0.5), height: Math.max(1, (share / highest) * (low - base - 22)) }))),
    svg('line', { class: 'axis', x1: left, x2: right, y1: base, y2: base, 'stroke-width': 2 }),
    story.shorts.map(({ from, to }) => svg('rect', { class: 'this-short', x: x(from), width: Math.max(2, x(to) - x(from)), y: base, height: 14 }, svg('title', {}, `Short from minute ${minutes(from)} to ${minutes(to)}`))),
    marks(story, x, base),
    cover,
    hair,
  );
  const legend = el(
    'p',
    { class: 'small' },
    'Minutes after the alarm. Above the line the flow wanted; on it ▼ who comes and ○ what is set up; the thick bar under it is where this fire is short.',
    highest > 0 && !isCovered ? ` Below, when fires first run short: the longest bar is ${ofHundred(highest)} of 100 fires.` : '',
  );
  return { drawing, legend, hair, cover };
}

function ticks(end, width, x, { base, low }) {
  const step = [5, 10, 15, 20, 30, 60, 120, 240, 480].find((one) => end / one <= width / 42) ?? 1440;
  const minutesOfTicks = Array.from({ length: Math.floor(end / step) + 1 }, (_, place) => place * step);
  return minutesOfTicks.map((minute) => [svg('line', { class: 'tick', x1: x(minute), x2: x(minute), y1: base, y2: low }), svg('text', { class: 'words', x: x(minute), y: low + 15, 'text-anchor': 'middle' }, shown(minute))]);
}

/** The flow wanted as steps, each with its figure where there is room. */
function flowWanted(story, x, right, { top, base }) {
  const most = Math.max(1, ...story.fire.course.map((one) => one.wanted));
  const height = (flow) => base - 34 - (flow / most) * (base - 34 - top);
  let way = '';
  let last = null;
  const steps = [];
  for (const one of story.fire.course) {
    // Before first water nothing is wanted, and there is no line.
    if (one.wanted === last || (last === null && one.wanted === 0)) continue;
    way += last === null ? `M${x(one.minute)} ${base}V${height(one.wanted)}` : `H${x(one.minute)}V${height(one.wanted)}`;
    if (one.wanted > 0) steps.push({ minute: one.minute, flow: one.wanted });
    last = one.wanted;
  }
  if (last !== null) way += `H${x(story.end)}`;
  const labels = stepLabels(steps, x, right).map((one) => svg('text', { class: 'words', x: one.x, y: height(one.flow) - 5 }, one.isWhole ? `${shown(Math.round(one.flow))} ${story.fire.signs[1]}` : shown(Math.round(one.flow))));
  return [svg('path', { class: 'wants', d: way || 'M0 0' }), labels];
}

/** Who comes and what is set up; what comes at about the same minute stands one above the other. */
function marks(story, x, base) {
  const rows = [];
  return story.marks().map((mark) => {
    const across = x(mark.minute);
    const row = mark.kind === 'flow' ? 0 : Math.max(0, [0, 1, 2].find((one) => !(rows[one] > across - 11)) ?? 0);
    if (mark.kind !== 'flow') rows[row] = across;
    const y = base - 11 * row;
    const shape = { arrival: `M${across} ${y - 1}l-5 -9h10z`, 'set up': `M${across - 4} ${y - 6}a4 4 0 1 0 8 0a4 4 0 1 0 -8 0z`, flow: `M${across} ${y - 12}v12` }[mark.kind];
    return svg('path', { class: mark.kind === 'set up' ? 'mark is-set-up' : 'mark', d: shape, stroke: 'currentColor', 'stroke-width': mark.kind === 'set up' ? 2 : 1 }, svg('title', {}, `Minute ${minutes(mark.minute)}: ${mark.says}`));
  });
}
