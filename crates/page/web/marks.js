// Mistakes and warnings beside the sentence they belong to, in the words of the command.

import { el } from './dom.js';
import { at, pathOf, placeInPlan, placeOf } from './plan.js';
import { capital } from './told.js';

/** Marks everything that was found; what is not there yet is told quietly. */
export function markAll(root, plan, places, { mistakes, warnings }) {
  for (const old of root.querySelectorAll('.marks')) old.replaceChildren();
  for (const old of root.querySelectorAll('[aria-invalid]')) {
    old.removeAttribute('aria-invalid');
    old.removeAttribute('aria-describedby');
  }
  let needed = 0;
  mistakes.forEach((mistake, number) => {
    const place = placeInPlan(mistake.place, places);
    const isMissing = isAbsent(plan, place);
    if (isMissing) needed += 1;
    const slot = slotOf(root, place);
    // What is not there yet has its box: its name is enough. A slip is told in the words of the command.
    const words =
      isMissing && slot !== null
        ? `Still to fill in: ${slot.getAttribute('aria-label')}.`
        : [el('b', {}, `${capital(mistake.problem)}.`), mistake.limit === null ? '' : ` Allowed: ${sentence(mistake.limit)}`, ` ${sentence(capital(mistake.cure))}`];
    const says = el('div', { class: isMissing ? 'needed' : 'mistake', id: `mistake-${number}` }, words);
    if (slot !== null && !slot.hasAttribute('aria-invalid')) {
      slot.setAttribute('aria-invalid', 'true');
      slot.setAttribute('aria-describedby', says.id);
    }
    marksFor(root, slot, place).append(says);
  });
  for (const warning of warnings) {
    if (!warning.is_doubt) continue;
    const place = placeInPlan(warning.place, places);
    marksFor(root, slotOf(root, place), place).append(el('div', { class: 'warned' }, capital(warning.text)));
  }
  return needed;
}

function sentence(words) {
  return words.endsWith('.') ? words : `${words}.`;
}

/** Whether nothing stands there: a thing to fill in, not a slip. */
function isAbsent(plan, place) {
  const value = at(plan.doc, pathOf(place));
  return value === undefined || value === '';
}

/** The box that holds a value: of a time its number. */
function slotOf(root, place) {
  for (const one of [place, `${place}.mean`, `${place}.likely`, `${place}.value`]) {
    const found = root.querySelector(`input[data-place="${CSS.escape(one)}"], select[data-place="${CSS.escape(one)}"]`);
    if (found !== null) return found;
  }
  return null;
}

/** The row that tells about a place: that of its box, or the one that holds it. */
function marksFor(root, slot, place) {
  let row = slot?.closest('.row') ?? null;
  const path = pathOf(place);
  while (row === null && path.length > 0) {
    row = root.querySelector(`[data-row="${CSS.escape(placeOf(path))}"]`);
    path.pop();
  }
  row ??= root.querySelector('[data-row="everything else"]');
  return row.querySelector('.marks');
}
