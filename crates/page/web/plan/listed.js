// Rows of sentences: what can be opened, struck out, brought back, added and taken away.

import { el } from '../base/dom.js';
import { fieldsOf } from './fields.js';
import { freeName, namesOf, placeOf } from './plan.js';
import { asked, firstRow } from './rows.js';
import { Slots, together } from './slots.js';

export class Listed extends Slots {
  constructor(root, plan, schemaNow, word) {
    super(root, plan, schemaNow, word);
    /** The rows that show all their fields, by place. */
    this.open = new Set();
  }

  /** A sentence with its tools, its mistakes, and all its fields when they are asked for. */
  row(path, object, sentence, { about, isStruck = false, tools = [], plain = false }) {
    const place = placeOf(path);
    const isOpen = this.open.has(place);
    const fields = () => fieldsOf(this, path, object);
    return el(
      'div',
      { class: `row${isStruck ? ' struck' : ''}`, 'data-row': place, role: 'group', 'aria-label': about },
      el('p', { class: 'sentence' }, together(sentence)),
      this.copied.has(place) ? el('p', { class: 'small copied-note' }, 'What is dashed is copied from the one above: put in its own.') : null,
      el('div', { class: 'marks' }),
      el(
        'div',
        { class: 'row-tools' },
        plain
          ? null
          : el(
              'button',
              {
                type: 'button',
                'aria-expanded': String(isOpen),
                'data-place': place,
                'data-tool': 'more',
                onclick: () => {
                  if (!this.open.delete(place)) this.open.add(place);
                  this.render();
                },
              },
              isOpen ? 'Less' : `More about ${about}`,
            ),
        tools,
      ),
      isOpen ? el('div', { class: 'fields' }, fields(), el('button', { type: 'button', 'data-place': place, 'data-tool': 'less', onclick: () => { this.open.delete(place); this.render(); this.root.querySelector(`[data-place="${CSS.escape(place)}"][data-tool="more"]`)?.focus(); } }, `Less about ${about}`)) : null,
    );
  }

  list(key, heading, rowOf, another, tools = []) {
    const rows = this.plan.doc[key] ?? [];
    return [
      el('h3', {}, heading),
      ...rows.map(rowOf),
      // What is wrong with the list as a whole is told here.
      el('div', { 'data-row': key }, el('div', { class: 'marks' })),
      el('p', { class: 'add asks' }, el('button', { type: 'button', 'data-place': key, 'data-tool': 'add', onclick: () => this.add(key) }, another), tools),
    ];
  }

  /** All who could be asked for come, as if they had been asked at the earliest. */
  aidTools() {
    const rows = this.plan.doc.aid ?? [];
    const coming = rows.map((_, place) => place).filter((place) => !this.plan.isStruck('aid', place));
    if (coming.length < 2) return null;
    const come = () => {
      this.plan.moveAll('aid', coming, 'tankers', asked);
      this.open.clear();
      this.render();
    };
    return el('button', { type: 'button', 'data-place': 'aid', 'data-tool': 'all come', onclick: come }, 'All of them are asked and come');
  }

  /** A row of a list: it can be struck out, brought back, and taken away. */
  listed(list, place, object, about, sentence, others = []) {
    const isStruck = this.plan.isStruck(list, place);
    const at = placeOf([list, place]);
    const tools = [
      others,
      el(
        'button',
        {
          type: 'button',
          'aria-pressed': String(isStruck),
          'data-place': at,
          'data-tool': 'strike',
          onclick: () => {
            this.plan.strike(list, place);
            this.render();
          },
        },
        isStruck ? 'Bring back' : 'Strike out',
      ),
      isStruck
        ? el(
            'button',
            {
              type: 'button',
              'data-place': at,
              'data-tool': 'remove',
              onclick: () => {
                this.plan.remove(list, place);
                this.open.clear();
                this.copied.clear();
                this.render();
              },
            },
            'Take away for good',
          )
        : null,
    ];
    return this.row([list, place], object, sentence, { about, isStruck, tools });
  }

  add(list) {
    const rows = this.plan.doc[list] ?? [];
    const copied = rows.length > 0 ? structuredClone(rows[rows.length - 1]) : firstRow(list);
    delete copied.count;
    // What was found of one source says nothing of the next.
    if (list === 'fill_sites') for (const key of ['failure', 'survey', 'source_pump', 'volume', 'recharge']) delete copied[key];
    if (list !== 'drop_tanks') copied.name = freeName(list, this.plan.doc, this.word());
    if (list === 'drop_tanks' && copied.brought_by !== undefined && rows.length > 0) {
      const taken = new Set(rows.map((row) => row.brought_by));
      const free = this.bringers().find(([name]) => name !== '' && !taken.has(name));
      if (free) copied.brought_by = free[0];
    } else if (list === 'drop_tanks' && copied.response === undefined) {
      // Most come on a truck that comes anyway; who brings it can be chosen at once.
      const first = this.bringers().find(([name]) => name !== '');
      if (first) copied.brought_by = first[0];
    }
    this.plan.add(list, copied);
    if (rows.length > 0) this.markCopied(list, rows.length);
    this.render();
    this.root.querySelector(`[data-row="${list}[${rows.length}]"] input`)?.focus();
  }

  /** Who can bring a drop tank: whoever comes, once each; who is struck out only where it is chosen already. */
  bringers(chosen) {
    const of = (list) => (this.plan.doc[list] ?? []).flatMap((row, place) => (this.plan.isStruck(list, place) ? [] : namesOf(row, place).slice(0, 30)));
    const engines = [this.plan.doc.attack_engine, this.plan.doc.supply?.engine].flatMap((engine) => (engine?.name ? [engine.name] : []));
    // Whoever comes anyway before those who could be asked for.
    const units = [...of('tankers'), ...engines, ...of('aid')];
    if (typeof chosen === 'string' && !units.includes(chosen)) return [['', 'its own vehicle'], ...[...new Set(units)].map((name) => [name, name]), [chosen, `${chosen} (does not come)`]];
    return [['', 'its own vehicle'], ...[...new Set(units)].map((name) => [name, name])];
  }
}
