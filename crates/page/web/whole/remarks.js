// What was found in the plan, beside the sentences it concerns, each with a way to mend it.

import { byId, el, notice } from '../base/dom.js';
import { markAll } from '../plan/marks.js';
import { pathOf } from '../plan/plan.js';
import { giveUsualSpread } from '../plan/usual.js';
import { shown } from '../told/numbers.js';

export class Remarks {
  constructor(plan, sentences) {
    Object.assign(this, { plan, sentences });
    /** What was found in the plan as it stands; null while it is being read. */
    this.found = null;
    sentences.onRender = () => this.mark();
    sentences.onSpread = () => this.giveSpread();
    sentences.onTwoWays = () => this.askTwoWays();
    sentences.onMoved = (name, to, comes) => this.showMoved(name, to, comes);
    sentences.onTurned = () => notice('Every figure is turned to the other units and shown as one would say it. The plan keeps the exact one: the answer stays, and turned back the old figures stand there.');
    byId('plan-units').append(sentences.unitsChoice);
  }

  /** Marks what was found beside its sentence; again whenever the sentences are written anew. */
  mark() {
    const { found, plan, sentences } = this;
    if (found === null) return { wrong: 0, needed: 0, first: null };
    const told = markAll(sentences.root, plan, found.places, found);
    const beside = (row, says) => sentences.root.querySelector(`[data-row="${row}"] .marks`)?.append(el('div', { class: 'warned' }, says));
    // A note on the plan as a whole is that nothing in it varies.
    if (found.warnings.some((one) => one.place === 'title')) beside('', el('button', { type: 'button', 'data-place': 'title', 'data-tool': 'spread', onclick: () => this.giveSpread() }, 'Usual spread'));
    for (const place of found.unbound) beside(`drop_tanks[${place}]`, 'Does not come: who brings it is struck out.');
    for (const place of found.unfilled) beside(`aid[${place}]`, 'Nobody to ask yet: its tank, or when it is on scene, is still to be filled in.');
    for (const place of found.unready) beside(`options[${place}]`, 'Not compared until its sentence is filled in.');
    this.askTwoWays();
    if (found.leftOut.length > 0) beside('everything else', `Left out while rows are struck out, as they count them: ${found.leftOut.join(', ')}.`);
    return told;
  }

  /** Gives what does not vary what is usual, as one step. */
  giveSpread() {
    this.plan.alter(giveUsualSpread);
    this.sentences.render();
    notice('Responses vary by 15% now (aid 20%), roads by 15%, handling and setting up by 30%, and whole fires differ. That is judgement, no measurement: put your own times in. "Undo" takes it back.');
  }

  /** "2.400": asks beside its sentence whether 2,400 was meant. */
  askTwoWays() {
    const { plan, sentences } = this;
    for (const old of document.querySelectorAll('.two-ways')) old.remove();
    for (const [place, { typed, read, other }] of sentences.twoWays) {
      const input = sentences.root.querySelector(`input[data-place="${CSS.escape(place)}"]`);
      if (input === null || plan.get(pathOf(place)) !== read) continue;
      const take = () => {
        plan.set(pathOf(place), other);
        plan.endStep();
        sentences.twoWays.delete(place);
        sentences.render();
      };
      input.closest('.row').querySelector('.marks').append(el('div', { class: 'warned two-ways' }, `"${typed}" is read as ${shown(read)}. Was ${shown(other)} meant? `, el('button', { type: 'button', onclick: take }, `It is ${shown(other)}`)));
    }
  }

  /** A row that went to another list: where to, and a way there. */
  showMoved(name, to, comes) {
    const there = () => {
      const row = this.sentences.root.querySelector(`[data-row="${CSS.escape(to)}"]`);
      row.scrollIntoView({ block: 'center' });
      row.querySelector('input')?.focus({ preventScroll: true });
    };
    notice(el('span', {}, comes ? `${name} stands among those who come now. ` : `${name} stands under "Who could be asked for" now. `, el('button', { type: 'button', onclick: there }, 'Show it')));
  }
}
