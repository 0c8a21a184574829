// The questions: each opens one picture with its answer as title, and the table behind it.

import { STOPPED } from '../base/engine.js';
import { el } from '../base/dom.js';
import { putInPlan } from './aid.js';
import { advice, behind, pictures, points } from './told.js';
import { sitesTold } from './sites.js';
import { asTold } from './words.js';

/** What may be asked: its name, the words on the button, what is told of it, whether it has a chance to stay below. */
const QUESTIONS = [
  { question: 'size', says: (word) => `How many ${word}s?`, target: true },
  { question: 'request', says: () => 'Whom do we ask, and when?', target: true },
  { question: 'lose', says: () => 'What if we lose one?', target: true },
  { question: 'sites', says: () => 'Which site?' },
  { question: 'hold', says: () => 'How much can we hold, and from when?', share: true },
  { question: 'levers', says: () => 'What is a minute worth?' },
  { question: 'reach', says: () => 'How far from water?', share: true },
  { question: 'grade', says: () => 'How would each fill site be graded?', share: true },
  { question: 'compare', says: () => 'What should we buy?' },
  { question: 'check', says: () => 'What comes out by hand?' },
  { question: 'card', says: () => 'What goes on the run card?' },
];

/** Fires of a hundred that may run short, and in which a flow has to hold. */
const TARGETS = [1, 2, 5, 10, 20];
const SHARES = [80, 90, 95, 98, 99];

/** Fires for a first answer; then as many as the command simulates. */
const FIRST_PORTION = 1_000;
/** Questions with so many searches that each takes fewer fires, as the command does. */
const MOST_FIRES = { reach: 2_500, hold: 2_500, sites: 5_000 };

const REFUSED = {
  nobody_to_ask: 'Nobody could be asked for: list them under "Who could be asked for", or let a listed one be asked for after the alarm.',
  nothing_to_compare: 'There is nothing to compare yet: say what could be bought or changed, and what it would be.',
  no_such_site: 'There is no such fill site.',
  one_site: 'There is only one fill site: list another under "Where they fill", and they are set side by side.',
  out_of_range: 'The chance has to lie between 0 and 100 of 100.',
};

const FIRST_PUT_RIGHT = 'First put the plan right: what is missing or wrong is marked in it.';

/** The day, for a chart that hangs on a wall. */
function today() {
  const now = new Date();
  return { year: now.getFullYear(), month: now.getMonth() + 1, day: now.getDate() };
}

/** An answer: its sentence as title, the picture, what there is to say, the tables behind it. */
export function answerParts(question, { told, reserve, pictures: drawn, answer }, word, isLast = true, putIn = null) {
  const [first, ...others] = pictures(drawn, asTold(told.verdict));
  return [
    el('h3', { class: 'title' }, asTold(told.verdict)),
    isLast ? null : el('p', { class: 'quiet' }, 'First figures; sharper ones are on their way.'),
    question === 'size' ? el('p', { class: 'quiet' }, `Counted are all the ${word}s at the fire, your own first.`) : null,
    question === 'grade' ? el('p', { class: 'quiet' }, 'For a grading, with the flow and the time that it asks for; not for the fire of this plan.') : null,
    first,
    points(told.points),
    reserve === null ? null : el('p', { class: 'quiet' }, asTold(reserve)),
    question === 'request' && isLast && answer.ask_for.length > 0 && putIn !== null ? putInPlan(answer, putIn) : null,
    advice(told.advice),
    others,
    behind(told, answer),
  ];
}

export class Questions {
  constructor(root, engine, context) {
    Object.assign(this, { root, engine, context });
    this.asked = null;
    /** The last answers of the plan as it stands, by what was asked: asked again they are there at once. */
    this.known = new Map();
    /** The questions that the plan as it stands has answered. */
    this.answered = new Map();
    this.target = 5;
    this.share = 95;
    this.panel = el('div', { role: 'region', 'aria-label': 'The answer to the question' });
    // Read out: the sentence alone, not the tables under it.
    this.said = el('p', { class: 'unseen', role: 'status' });
    this.render();
  }

  /** The limits as the reader left them, where they are ones that can be chosen. */
  takeLimits({ target, share } = {}) {
    if (TARGETS.includes(target)) this.target = target;
    if (SHARES.includes(share)) this.share = share;
  }

  render() {
    const word = this.context.word();
    this.root.replaceChildren(
      el(
        'div',
        { class: 'asks' },
        QUESTIONS.map((one) =>
          el('button', { type: 'button', 'aria-pressed': String(this.asked?.question === one.question), 'data-question': one.question, onclick: () => this.ask(one) }, one.says(word)),
        ),
      ),
      this.panel,
      this.said,
    );
  }

  ask(one) {
    this.asked = this.asked?.question === one.question ? null : one;
    this.root.parentElement.classList.toggle('is-asked', this.asked !== null);
    this.root.parentElement.classList.toggle('is-card', this.asked?.question === 'card');
    this.render();
    this.root.querySelector(`[data-question="${one.question}"]`)?.focus();
    this.isNew = this.asked !== null;
    this.again();
  }

  /** Asks a question from elsewhere on the page. */
  open(question) {
    if (this.asked?.question !== question) this.ask(QUESTIONS.find((one) => one.question === question));
    this.root.scrollIntoView({ block: 'start' });
  }

  /** The plan has changed: what is worked out is of no use, what is shown is old. */
  again() {
    this.engine.stop();
    this.answeredOf ??= '';
    const inForce = this.context.plan();
    const now = inForce === null ? '' : this.call({});
    if (now !== this.answeredOf) this.answered.clear();
    this.answeredOf = now;
    this.run = (this.run ?? 0) + 1;
    this.panel.dataset.done = 'false';
    // What was read out is of an older plan or of another question.
    this.said.textContent = '';
    if (this.asked === null) this.panel.replaceChildren();
    else this.answer(this.run, this.asked);
  }

  async answer(run, { question, target, share }) {
    const inForce = this.context.plan();
    if (inForce === null) {
      this.refuse(FIRST_PUT_RIGHT);
      return;
    }
    const limit = target ? { target: this.target / 100 } : share ? { share: this.share / 100 } : {};
    if (question === 'reach') limit.today = today();
    const all = Math.min(this.context.fires(), MOST_FIRES[question] ?? Infinity);
    const portions = question === 'check' ? [1] : all > FIRST_PORTION ? [FIRST_PORTION, all] : [all];
    for (const runs of portions) {
      const isLast = runs === portions[portions.length - 1];
      if (runs === portions[0]) this.panel.replaceChildren(...this.tools({ target, share }), el('p', { class: 'working' }, 'Working it out…'));
      const call = this.call({ question, runs, ...limit });
      // What is known already needs no first figures.
      const whole = this.known.get(this.call({ question, runs: all, ...limit }));
      if (whole !== undefined && runs !== all) continue;
      let reply;
      try {
        reply = whole ?? (await (question === 'sites' ? this.askSites(runs) : this.engine.call('answer', call)));
        if (reply !== STOPPED) this.keep(call, reply);
      } catch (error) {
        if (run === this.run) this.panel.replaceChildren(...this.tools({ target, share }), el('p', { class: 'mistake' }, `This is our own fault: ${error.message}. Save the plan and report it.`));
        return;
      }
      if (reply === STOPPED || run !== this.run) return;
      this.show(question, reply, isLast, { target, share });
      if (reply.reply !== 'answered') return;
    }
  }

  /** The fire of the plan with each fill site alone and with all, by the same luck. */
  async askSites(runs) {
    const alone = this.context.sitesAlone();
    if (alone.length < 2) return { reply: 'refused', why: 'one_site' };
    const { name, text } = this.context.plan();
    const found = [];
    for (const one of [...alone, { text }]) {
      const ask = { question: 'risk', tries_help: false, runs, tender: this.context.tender(), units: this.context.units() };
      const reply = await this.engine.call('answer', JSON.stringify({ name, text: one.text, ask }));
      if (reply === STOPPED) return STOPPED;
      found.push({ name: one.name, answer: reply.reply === 'answered' ? reply.answer : null });
    }
    const all = found.pop().answer;
    return { reply: 'answered', told: sitesTold(found, all, runs, this.context.word()), reserve: null, pictures: [], answer: { replications: 0, sites: found, all } };
  }

  /** A question about the plan in force, as the engine is asked it. */
  call(ask) {
    const { name, text } = this.context.plan();
    return JSON.stringify({ name, text, ask: { draws: true, tender: this.context.tender(), units: this.context.units(), ...ask } });
  }

  keep(call, reply) {
    // A handful: each holds its pictures.
    if (this.known.size >= 12) this.known.clear();
    this.known.set(call, reply);
  }

  /** What was asked and is not open, for paper, where the run card has a sheet of its own. */
  others() {
    return [...this.answered.values()].filter((one) => one.question !== this.asked?.question && one.question !== 'card');
  }

  /** Whom to ask, if it is known already; null where it is not. */
  knownRequest() {
    return this.knownAnswer(() => this.callRequest());
  }

  /** What goes on the run card, if it is known already; null where it is not. */
  knownCard() {
    return this.knownAnswer(() => this.callCard());
  }

  knownAnswer(call) {
    if (this.context.plan() === null) return null;
    const reply = this.known.get(call());
    return reply?.reply === 'answered' ? reply : null;
  }

  callRequest() {
    return this.call({ question: 'request', runs: this.context.fires(), target: this.target / 100 });
  }

  callCard() {
    return this.call({ question: 'card', runs: this.context.fires() });
  }

  /** What could be held, by an engine that is free; null where its answer is of no more use. */
  hold(engine) {
    return this.by(engine, this.call({ question: 'hold', runs: Math.min(this.context.fires(), MOST_FIRES.hold), share: this.share / 100 }));
  }

  /** Whom to ask with what is wanted now, by an engine that is free; null where its answer is of no more use. */
  request(engine) {
    return this.by(engine, this.callRequest());
  }

  /** What goes on the run card, by an engine that is free: it is there when the page is printed. */
  card(engine) {
    return this.by(engine, this.callCard());
  }

  async by(engine, call) {
    const reply = this.known.get(call) ?? (await engine.call('answer', call));
    if (reply === STOPPED || reply.reply !== 'answered') return null;
    this.keep(call, reply);
    return reply;
  }

  tools({ target, share }) {
    if (!target && !share) return [];
    const label = target ? 'The lines may run short in' : 'The flow has to hold in';
    const now = target ? this.target : this.share;
    const choices = target ? TARGETS : SHARES;
    const pick = (event) => {
      if (target) this.target = Number(event.target.value);
      else this.share = Number(event.target.value);
      this.onLimit?.();
      this.again();
    };
    return [
      el(
        'p',
        { class: 'ask-tools' },
        el('label', {}, `${label} `, el('select', { onchange: pick }, choices.map((one) => el('option', { value: one, selected: one === now }, `${one} ${one === 1 ? 'fire' : 'fires'} of 100`)))),
        target ? ' at most.' : ' at least.',
      ),
    ];
  }

  /** No answer, and why; it is read out like one. */
  refuse(why) {
    this.panel.replaceChildren(el('p', {}, why));
    this.said.textContent = why;
  }

  show(question, reply, isLast, limits) {
    if (reply.reply === 'refused') {
      this.refuse(REFUSED[reply.why]);
      if (reply.why === 'nothing_to_compare') {
        const tried = this.context.risk()?.told.advice ?? [];
        if (tried.length > 0) this.panel.append(el('p', {}, 'The page has tried these changes; what one would cost, only you know:'), ...[advice(tried)].flat(9));
        this.panel.append(el('p', { class: 'asks' }, this.context.priced(), this.context.choices()));
      }
      return;
    }
    if (reply.reply === 'wrong') {
      this.refuse(FIRST_PUT_RIGHT);
      return;
    }
    const { told } = reply;
    if (isLast) this.answered.set(question, { question, says: QUESTIONS.find((one) => one.question === question).says(this.context.word()), reply });
    const held = this.panel.contains(document.activeElement) && document.activeElement.tagName === 'SELECT';
    this.panel.replaceChildren(
      el('p', { class: 'asked-words' }, QUESTIONS.find((one) => one.question === question).says(this.context.word())),
      ...this.tools(limits),
      ...answerParts(question, reply, this.context.word(), isLast, this.context.putIn).flat(9).filter((part) => part !== null && part !== undefined),
    );
    if (held) this.panel.querySelector('select')?.focus();
    // On a phone the answer lies below the buttons: the first one that was asked for comes into sight.
    if (this.isNew) this.panel.scrollIntoView({ block: 'start' });
    this.isNew = false;
    this.panel.dataset.done = String(isLast);
    this.said.textContent = asTold(told.verdict);
  }
}
