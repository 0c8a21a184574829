// What is put on paper when somebody prints, and taken off the page again.

import { byId, el, svg } from '../base/dom.js';
import { answersOnPaper, card, runCard } from '../told/paper.js';
import { showTitles } from '../told/told.js';

/** Before a print the card is made of what is known and every fold is opened; after it all is as it was. */
export function usePaper({ clock, questions, follow, settings }) {
  let folded = [];
  let isOnWall = false;
  const put = (id, parts) => byId(id).replaceChildren(...parts.flat(9).filter((part) => part !== null && part !== undefined));
  window.addEventListener('beforeprint', () => {
    // Paper takes the whole of it, whatever is on the wall.
    isOnWall = document.body.classList.contains('wall');
    document.body.classList.remove('wall');
    const { risk } = follow;
    const known = risk === null ? [] : card({ request: questions.knownRequest(), ...clock.onPaper(), reserve: risk.reserve });
    const day = new Date().toLocaleDateString(navigator.language, { dateStyle: 'long' });
    const head = el('p', {}, el('b', { class: 'caution' }, document.querySelector('footer .caution').textContent), ` Printed on ${day}.`);
    put('card', [head, known]);
    put('run-card', runCard(risk === null ? null : questions.knownCard()));
    put('asked-before', answersOnPaper(risk === null ? [] : questions.others(), settings.word()));
    byId('questions').classList.toggle('has-answers', questions.answered.size > 0);
    folded = [...document.querySelectorAll('main details:not([open])')];
    for (const one of folded) one.open = true;
    foot(document.querySelector('#called').textContent);
    for (const drawing of document.querySelectorAll('.picture svg')) hatchTogether(drawing);
    for (const drawing of document.querySelectorAll('.picture svg')) showTitles(drawing, true);
  });
  window.addEventListener('afterprint', () => {
    for (const one of folded) one.open = false;
    for (const drawing of document.querySelectorAll('.picture svg')) showTitles(drawing, false);
    document.body.classList.toggle('wall', isOnWall);
    for (const one of document.querySelectorAll('.together')) one.remove();
  });
}

/** Says on every sheet whose it is, and which of how many. A sheet's margins take their words from a rule alone. */
function foot(title) {
  const [sheet] = document.styleSheets;
  const words = JSON.stringify(title);
  const last = sheet.cssRules.length - 1;
  if (sheet.cssRules[last].cssText.includes('counter(pages)')) sheet.deleteRule(last);
  sheet.insertRule(`@page { @bottom-left { content: ${words}; font: 8pt sans-serif; } @bottom-right { content: counter(page) " of " counter(pages); font: 8pt sans-serif; } }`, sheet.cssRules.length);
}

/**
 * Bars of one hatching as one shape: a browser puts the hatching of each shape into a PDF anew, which made tens of megabytes
 * of it. On paper the bars themselves give way to it.
 */
function hatchTogether(drawing) {
  const alike = new Map();
  for (const bar of drawing.querySelectorAll('rect[fill^="url("]')) {
    const kind = [bar.getAttribute('fill'), bar.getAttribute('stroke'), bar.getAttribute('stroke-width'), bar.getAttribute('fill-opacity')].join(' ');
    const bars = alike.get(kind);
    if (bars?.[0].parentNode === bar.parentNode) bars.push(bar);
    else if (bars === undefined) alike.set(kind, [bar]);
  }
  for (const bars of alike.values()) {
    const d = bars.map((bar) => ['x', 'y', 'width', 'height'].map((name) => Number(bar.getAttribute(name) ?? 0))).map(([x, y, width, height]) => `M${x} ${y}h${width}v${height}h${-width}z`).join('');
    const of = (name) => bars[0].getAttribute(name);
    bars[0].before(svg('path', { class: 'together', d, fill: of('fill'), stroke: of('stroke'), 'stroke-width': of('stroke-width'), 'fill-opacity': of('fill-opacity') }));
    for (const bar of bars) bar.classList.add('is-together');
  }
}
