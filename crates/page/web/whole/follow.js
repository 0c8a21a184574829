// What is told of the plan, worked out anew whenever it changes: first figures at once, then sharper ones.

import { byId, el, notice } from '../base/dom.js';
import { STOPPED } from '../base/engine.js';
import { fileName } from './keep.js';
import { turned } from '../plan/units.js';
import { aidTold } from '../told/aid.js';
import { fade, showAnswer, showMistakes } from '../told/answer.js';
import { advice, behind, pictures, points } from '../told/told.js';
import { asTold } from '../told/words.js';

/** Fires for the first figures, which have to come within a tenth of a second; then sharper, then all with help. */
const FIRST_FIRES = 128;
const SECOND_FIRES = 2_000;

/** From this chance on a plan fails as it is wanted, and another flow or minute is the question. */
const HOPELESS = 0.99;

/** A fault of the page or its engine, never of the plan. */
export function ourFault(error) {
  notice(`This is our own fault: ${error.message}. Save the plan and report it.`);
}

export class Follow {
  /** Of the workers, `quick` is always free for first figures and `deep` is for sharper ones. */
  constructor({ plan, sentences, remarks, quick, deep, schemaNow, settings }) {
    Object.assign(this, { plan, sentences, remarks, quick, deep, schemaNow, settings });
    /** The plan in force, once it is known to be sound. */
    this.sound = null;
    /** The sharpest answer so far. */
    this.risk = null;
    /** Whether anybody could be asked for. */
    this.canRequest = false;
    this.turn = 0;
    this.isReading = false;
    this.isAgain = false;
  }

  /** What follows the plan beside the answer, and what puts whom one would ask into it. */
  leads(clock, questions, putIn) {
    Object.assign(this, { clock, questions, putIn });
  }

  /** Works everything out anew; while the first figures are on their way only the latest plan counts. */
  async again() {
    if (this.isReading) {
      this.isAgain = true;
      return;
    }
    this.isReading = true;
    do {
      this.isAgain = false;
      this.turn += 1;
      this.deep.stop();
      await this.workOut(this.turn).catch(ourFault);
    } while (this.isAgain);
    this.isReading = false;
  }

  async workOut(now) {
    fade();
    const inForce = this.plan.inForce();
    const name = fileName(this.plan.doc.title);
    const read = await this.quick.call('read', name, inForce.text, this.settings.tender());
    const isWrong = read.read === 'wrong';
    const warnings = await this.warningsInUnits(name, inForce.text, read.warnings);
    this.remarks.found = { ...inForce, mistakes: isWrong ? read.mistakes : [], warnings };
    const marked = this.remarks.mark();
    if (isWrong) {
      [this.sound, this.risk] = [null, null];
      showMistakes(marked);
      byId('reasons').replaceChildren(el('p', {}, 'The answer follows once the plan is whole.'));
      byId('reasons').dataset.done = 'false';
      this.clock.again();
      this.questions.again();
      return;
    }
    this.sound = { name, text: inForce.text };
    this.canRequest = read.can_request;
    const first = await this.ask(this.quick, FIRST_FIRES, false);
    if (first === null) return;
    this.risk = first;
    showAnswer(first, false);
    this.showReasons([], false);
    this.clock.again();
    this.questions.again();
    this.sharpen(now);
  }

  /** The warnings in the units that the reader chose: those of the same plan in these units. */
  async warningsInUnits(name, text, given) {
    const [to, doc] = [this.settings.units(), JSON.parse(text)];
    if (to === null || to === this.sentences.units || given.length === 0) return given;
    turned(doc, this.schemaNow(), this.schemaNow(), to);
    const read = await this.quick.call('read', name, JSON.stringify({ ...doc, units: to }), this.settings.tender());
    return read.warnings;
  }

  /** Sharper figures, as long as the plan stays as it is. */
  async sharpen(now) {
    const fires = this.settings.fires();
    const portions = fires > SECOND_FIRES ? [SECOND_FIRES, fires] : [fires];
    for (const runs of portions) {
      const isFinal = runs === fires;
      const reply = await this.ask(this.deep, runs, isFinal, isFinal);
      if (reply === null || now !== this.turn) return;
      this.risk = isFinal ? reply.answer : reply;
      showAnswer(this.risk, isFinal);
      this.showReasons(isFinal ? reply.pictures : [], isFinal);
      if (isFinal) this.clock.again(true);
    }
    if (this.risk.interruption_probability >= HOPELESS) await this.tellHold(now);
    if (this.canRequest && now === this.turn) await this.tellWhom(now);
    // For paper: it is there when somebody prints.
    if (now === this.turn) await this.questions.card(this.deep).catch(ourFault);
  }

  async ask(engine, runs, help, draws = false) {
    const question = { question: 'risk', tries_help: help, runs, draws, tender: this.settings.tender(), units: this.settings.units() };
    try {
      const reply = await engine.call('answer', JSON.stringify({ ...this.sound, ask: question }));
      if (reply === STOPPED || reply.reply !== 'answered') return null;
      // As the page says it, in place of the words of the command.
      const answer = { ...reply.answer, told: reply.told, reserve: reply.reserve };
      return draws ? { answer, pictures: reply.pictures } : answer;
    } catch (error) {
      ourFault(error);
      return null;
    }
  }

  async tellWhom(now) {
    const reply = await this.questions.request(this.deep).catch(ourFault);
    if (now !== this.turn || reply === null || reply === undefined) return;
    byId('whom')?.replaceChildren(...aidTold(reply, this.putIn).flat(9).filter((part) => part !== null));
  }

  /** Where nearly every fire fails as it is wanted, what could be held, and from when. */
  async tellHold(now) {
    const reply = await this.questions.hold(this.deep).catch(ourFault);
    if (now !== this.turn || reply === null || reply === undefined) return;
    byId('held')?.replaceChildren(el('h3', {}, 'What could be held'), el('p', {}, asTold(reply.told.verdict)), el('p', { class: 'asks' }, el('button', { type: 'button', onclick: () => this.questions.open('hold') }, 'How much, and from when')));
  }

  showReasons(drawn, isFinal) {
    const { told, reserve, interruption_probability: chance } = this.risk;
    byId('reasons').replaceChildren(
      ...[
        points(told.points),
        reserve === null ? null : el('p', { class: 'quiet' }, asTold(reserve)),
        this.aidListed(),
        isFinal && this.canRequest ? [el('h3', {}, 'Whom to ask, and by when'), el('div', { id: 'whom' }, el('p', { class: 'quiet' }, 'Being worked out…'))] : null,
        isFinal && chance >= HOPELESS ? el('div', { id: 'held' }) : null,
        advice(told.advice),
        isFinal ? null : el('p', { class: 'quiet' }, 'What would help is being tried.'),
        drawn.length === 0 ? null : el('details', {}, el('summary', {}, 'Pictures'), pictures(drawn)),
        behind(told, this.risk),
      ].flat(9).filter((part) => part !== null && part !== undefined),
    );
    byId('reasons').dataset.done = String(isFinal);
  }

  /** Who is listed and does not come: nothing above counts on them. */
  aidListed() {
    const rows = (this.plan.doc.aid ?? []).filter((_, place) => !this.plan.isStruck('aid', place));
    if (rows.length === 0) return null;
    const says = `The answer above, and what would help, count on nobody under "Who could be asked for" (${rows.length === 1 ? 'one entry' : `${rows.length} entries`}).`;
    return el('p', {}, says, ' ', el('button', { type: 'button', onclick: () => this.questions.open('request') }, 'Find out who to ask'));
  }
}
