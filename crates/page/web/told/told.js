// What an answer tells, as the command tells it: points, advice, tables, notes, pictures.

import { el, drawing } from '../base/dom.js';
import { ofHundred, shown } from './numbers.js';
import { asTold } from './words.js';

/** Paragraphs under their labels. */
export function points(blocks) {
  const parts = [];
  let list = null;
  for (const block of blocks) {
    if (block.columns !== undefined) {
      list = null;
      parts.push(table(block));
    } else if (block.label !== null) {
      if (list === null) parts.push((list = el('dl', { class: 'points' })));
      list.append(el('dt', {}, capital(block.label)), el('dd', {}, asTold(capital(block.says))));
    } else {
      list = null;
      parts.push(el('p', {}, asTold(block.says)));
    }
  }
  return parts;
}

export function table({ columns, rows, feet }) {
  return [
    el(
      'div',
      { class: 'table', tabindex: 0, role: 'group', 'aria-label': columns.filter((head) => head !== '').join(', ') },
      el(
        'table',
        {},
        el('thead', {}, el('tr', {}, columns.map((head) => (head === '' ? el('td', {}) : el('th', { scope: 'col' }, asTold(head)))))),
        el('tbody', {}, rows.map((cells) => el('tr', {}, cells.map((cell, place) => (place === 0 && cell !== '' ? el('th', { scope: 'row' }, asTold(cell)) : el('td', {}, asTold(cell))))))),
      ),
    ),
    ...feet.map((foot) => el('p', { class: 'small' }, asTold(foot))),
  ];
}

/** What to change, best first, each with the runs behind it. */
export function advice(all) {
  if (all.length === 0) return null;
  return table({
    columns: ['What would help', 'Fires of 100 now', 'then', ...(all.some((one) => one.cost !== null) ? ['Cost'] : [])],
    rows: all.map((one) => [
      one.says,
      ofHundred(one.interruption_probability_before),
      ofHundred(one.interruption_probability),
      ...(all.some((other) => other.cost !== null) ? [one.cost === null ? '' : shown(one.cost)] : []),
    ]),
    feet: [],
  });
}

/**
 * The pictures, the same as on paper; where what one says stands over it already, without that.
 *
 * Given: the sentence that stands there, as it is told on the page; empty where none does.
 */
export function pictures(all, over = '') {
  return all.map(({ svg }) => {
    const picture = drawing(svg);
    if (picture === null) return null;
    for (const text of picture.querySelectorAll('text, tspan, title, desc')) {
      for (const node of text.childNodes) if (node.nodeType === Node.TEXT_NODE) node.data = asTold(node.data);
    }
    const name = picture.querySelector('title')?.textContent ?? 'Picture';
    // Shown large it stands alone, and says it itself.
    const whole = picture.cloneNode(true);
    if (name === over) takeOffTitle(picture, name);
    return el(
      'div',
      { class: 'picture', role: 'group', 'aria-label': name },
      el('div', { class: 'drawn', onclick: () => { if (isSmall(picture)) showLarge(whole, name); } }, picture),
      el('button', { type: 'button', class: 'larger', onclick: () => showLarge(whole, name) }, 'Show it larger'),
    );
  });
}

/**
 * Takes the lines of its title off a picture on the screen and closes the gap; one that begins otherwise stays as it is. On
 * paper, where it may stand on the next sheet, it has them: `data-whole` is how much of it is seen then, `data-short` else.
 */
function takeOffTitle(picture, title) {
  const lines = [...picture.children].filter((one) => one.localName === 'text');
  const last = lines.findIndex((_, place) => lines.slice(0, place + 1).map((one) => one.textContent.trim()).join(' ') === title);
  const next = lines[last + 1];
  if (last < 0 || next === undefined) return;
  const top = (line) => Number(line.getAttribute('y')) - Number(line.getAttribute('font-size'));
  const off = top(next) - top(lines[0]);
  const { x, y, width, height } = picture.viewBox.baseVal;
  for (const line of lines.slice(0, last + 1)) line.classList.add('said-above');
  Object.assign(picture.dataset, { whole: `${x} ${y} ${width} ${height}`, short: `${x} ${y + off} ${width} ${height - off}` });
  showTitles(picture, false);
}

/** A picture with the lines of its title, or without: where they were never taken off, as it is. */
export function showTitles(picture, isWhole) {
  const seen = isWhole ? picture.dataset.whole : picture.dataset.short;
  if (seen === undefined) return;
  picture.setAttribute('viewBox', seen);
  // Width over height is that of what is seen.
  picture.setAttribute('height', seen.split(' ')[3]);
}

/** The width at which a picture's words have the size they are made for, px. */
function ownWidth(picture) {
  return picture.viewBox.baseVal.width || 760;
}

function isSmall(picture) {
  return picture.getBoundingClientRect().width < 0.95 * ownWidth(picture);
}

/** How much smaller than they are made the words of a large picture may be: 12 px then are 11. */
const LEAST = 0.92;

/** A picture over the whole page, in words to be read, to slide about; Escape or the button closes it. */
function showLarge(picture, name) {
  const copy = picture.cloneNode(true);
  copy.style.minWidth = `${LEAST * ownWidth(picture)}px`;
  const dialog = el(
    'dialog',
    { class: 'large', 'aria-label': name, onclose: () => dialog.remove() },
    el('p', { class: 'asks' }, el('button', { type: 'button', onclick: () => dialog.close() }, 'Close'), el('span', { class: 'small' }, 'Slide it, or turn the phone on its side.')),
    el('div', { class: 'drawn', tabindex: 0, role: 'group', 'aria-label': 'The picture, to slide about' }, copy),
  );
  document.body.append(dialog);
  dialog.showModal();
}

/** Everything behind the answer, folded away. */
export function behind(told, basis) {
  const made = basis.replications > 0 ? `${shown(basis.replications)} simulated fires; the same plan meets the same fires again.` : '';
  return [
    ...told.notes.map((note) => el('p', { class: 'warned' }, asTold(capital(note.says)))),
    told.more.length + told.small_print.length === 0
      ? null
      : el('details', {}, el('summary', {}, 'The tables and figures behind it'), points(told.more), told.small_print.map((print) => el('p', { class: 'small' }, asTold(print.says))), el('p', { class: 'small' }, made)),
  ];
}

export function capital(text) {
  return text === '' ? '' : text[0].toUpperCase() + text.slice(1);
}
