// What is put on paper when somebody prints, and taken off the page again.

import { byId, el } from '../base/dom.js';
import { answersOnPaper, card, runCard } from '../told/paper.js';

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
    const known = risk === null ? [] : card({ request: questions.knownRequest(), story: clock.story, line: clock.lineOnPaper(), reserve: risk.reserve });
    const day = new Date().toLocaleDateString(navigator.language, { dateStyle: 'long' });
    const head = el('p', {}, el('b', { class: 'caution' }, document.querySelector('footer .caution').textContent), ` Printed on ${day}.`);
    put('card', [head, known]);
    put('run-card', runCard(risk === null ? null : questions.knownCard()));
    put('asked-before', answersOnPaper(risk === null ? [] : questions.others(), settings.word()));
    byId('questions').classList.toggle('has-answers', questions.answered.size > 0);
    folded = [...document.querySelectorAll('main details:not([open])')];
    for (const one of folded) one.open = true;
  });
  window.addEventListener('afterprint', () => {
    for (const one of folded) one.open = false;
    document.body.classList.toggle('wall', isOnWall);
  });
}
