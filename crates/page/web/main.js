// The page as a whole: the plan changes, and everything that is told of it follows.

import { fade, showAnswer, showMistakes } from './answer.js';
import { Clock } from './clock.js';
import { byId, el } from './dom.js';
import { Engine, STOPPED, unpacked } from './engine.js';
import { Keep, fileName, handOut, textOf } from './keep.js';
import { markAll } from './marks.js';
import { Plan, hasShape } from './plan.js';
import { Questions } from './questions.js';
import { Sentences } from './sentences.js';
import { advice, behind, capital, pictures, points } from './told.js';

/** Fires for the first figures, which have to come within a tenth of a second; then sharper, then all with help. */
const FIRST_FIRES = 128;
const SECOND_FIRES = 2_000;

const EMPTY = {
  title: '',
  units: 'us',
  incident: { duration: 120 },
  attack_engine: {},
  supply: { nurse: true },
  drop_tanks: [],
  tankers: [{}],
  fill_sites: [{ out: {}, back: {} }],
};

async function begin() {
  const embedded = JSON.parse(byId('scenario-data').textContent);
  const module = await WebAssembly.compile(await unpacked(byId('engine-data').textContent).arrayBuffer());
  byId('engine-data').remove();
  const workerText = byId('worker-text').textContent;
  // One that is always free for first figures, one for sharper ones, one for questions.
  const [quick, deep, asked] = [0, 1, 2].map(() => new Engine(module, workerText));
  const schema = await quick.call('schema');
  for (const [semiBold, weight] of [[false, '400'], [true, '600']]) {
    quick.call('font', semiBold).then((bytes) => document.fonts.add(new FontFace('Inter', bytes, { weight })));
  }

  const keep = new Keep(embedded.text);
  const kept = keep.load();
  const isKept = kept !== null && typeof kept === 'object' && hasShape(kept.doc) && Array.isArray(kept.struck);
  const plan = new Plan(isKept ? JSON.stringify(kept.doc) : embedded.text, isKept ? kept.struck : []);
  const word = () => byId('word').value;
  const sentences = new Sentences(byId('sentences'), plan, schema, word);

  let sound = null;
  let risk = null;
  const fires = () => Number(byId('fires').value);
  const context = { word, fires, tender: () => word() === 'tender', units: () => byId('units').value || null, plan: () => sound, risk: () => risk };
  const clock = new Clock(byId('fire'), quick, context);
  const questions = new Questions(byId('asking'), asked, context);

  let turn = 0;
  let isReading = false;
  let isAgain = false;

  /** Works everything out anew; while the first figures are on their way only the latest plan counts. */
  async function follow() {
    if (isReading) {
      isAgain = true;
      return;
    }
    isReading = true;
    do {
      isAgain = false;
      turn += 1;
      deep.stop();
      await workOut(turn).catch(ourFault);
    } while (isAgain);
    isReading = false;
  }

  async function workOut(now) {
    fade();
    const { text, places, unbound, leftOut } = plan.inForce();
    const name = fileName(plan.doc.title);
    const read = await quick.call('read', name, text);
    if (read.read === 'wrong') {
      sound = null;
      risk = null;
      const needed = markAll(sentences.root, plan, places, { mistakes: read.mistakes, warnings: [] });
      showMistakes(read.mistakes.length, needed);
      byId('reasons').replaceChildren(el('p', {}, 'The answer follows once the plan is whole.'));
      byId('reasons').dataset.done = 'false';
      clock.again();
      questions.again();
      return;
    }
    markAll(sentences.root, plan, places, { mistakes: [], warnings: read.warnings });
    for (const place of unbound) sentences.root.querySelector(`[data-row="drop_tanks[${place}]"] .marks`)?.replaceChildren(el('div', { class: 'warned' }, 'Does not come: who brings it is struck out.'));
    if (leftOut.length > 0) {
      const says = `Left out while rows are struck out, as they count them: ${leftOut.join(', ')}.`;
      sentences.root.querySelector('[data-row="everything else"] .marks')?.append(el('div', { class: 'warned' }, says));
    }
    sound = { name, text };
    const first = await ask(quick, FIRST_FIRES, false);
    if (first === null) return;
    risk = first;
    showAnswer(first, false);
    showReasons(first, [], false);
    clock.again();
    questions.again();
    sharpen(now);
  }

  /** Sharper figures, as long as the plan stays as it is. */
  async function sharpen(now) {
    const portions = fires() > SECOND_FIRES ? [SECOND_FIRES, fires()] : [fires()];
    for (const runs of portions) {
      const isFinal = runs === fires();
      const reply = await ask(deep, runs, isFinal, isFinal);
      if (reply === null || now !== turn) return;
      risk = isFinal ? reply.answer : reply;
      showAnswer(risk, isFinal);
      showReasons(risk, isFinal ? reply.pictures : [], isFinal);
      if (isFinal) clock.again();
    }
  }

  async function ask(engine, runs, help, draws = false) {
    const question = { question: 'risk', tries_help: help, runs, draws, tender: context.tender(), units: context.units() };
    try {
      const reply = await engine.call('answer', JSON.stringify({ ...sound, ask: question }));
      if (reply === STOPPED || reply.reply !== 'answered') return null;
      return draws ? reply : reply.answer;
    } catch (error) {
      ourFault(error);
      return null;
    }
  }

  function ourFault(error) {
    notice(`This is our own fault: ${error.message}. Save the plan and report it.`);
  }

  function showReasons(answer, drawn, isFinal) {
    const { told } = answer;
    byId('reasons').replaceChildren(
      ...[
        points(told.points),
        advice(told.advice),
        isFinal ? null : el('p', { class: 'quiet' }, 'What would help is being tried.'),
        behind(told, answer),
        drawn.length === 0 ? null : el('details', {}, el('summary', {}, 'Pictures'), pictures(drawn)),
      ].flat(9).filter((part) => part !== null && part !== undefined),
    );
    byId('reasons').dataset.done = String(isFinal);
  }

  function notice(text) {
    const place = byId('notice');
    place.textContent = text;
    place.hidden = text === '';
  }

  function changed() {
    byId('undo').disabled = plan.past.length === 0;
    byId('redo').disabled = plan.future.length === 0;
    notice('');
    if (!keep.store(plan)) notice('This browser keeps nothing: save the plan to a file before you close the page.');
    document.title = `${plan.doc.title || 'Water plan'}: water plan`;
    follow();
  }

  plan.onChange(changed);
  byId('undo').onclick = () => { plan.undo(); sentences.render(); follow(); };
  byId('redo').onclick = () => { plan.redo(); sentences.render(); follow(); };
  byId('open').onclick = () => byId('file').click();
  byId('save').onclick = () => {
    handOut(fileName(plan.doc.title), `${plan.inForce().text}\n`);
    if (plan.struck.size > 0) notice('Saved as it is answered: what is struck out is not in the file.');
  };
  byId('empty').onclick = () => {
    plan.replace(structuredClone(EMPTY));
    sentences.open.clear();
    sentences.render();
    follow();
    byId('sentences').querySelector('input')?.focus();
    notice('An empty plan. "Undo" brings the one before back.');
  };
  byId('print').onclick = () => window.print();
  byId('wall').onclick = (event) => {
    const isOn = document.body.classList.toggle('wall');
    event.target.setAttribute('aria-pressed', String(isOn));
    event.target.textContent = isOn ? 'Back to the plan' : 'For the wall';
  };
  byId('word').onchange = byId('units').onchange = byId('fires').onchange = () => { sentences.render(); questions.render(); follow(); };
  byId('file').onchange = async (event) => {
    const [file] = event.target.files;
    event.target.value = '';
    if (file === undefined) return;
    const text = await textOf(file);
    const read = await quick.call('read', file.name, text).catch(ourFault);
    if (read === undefined) return;
    const wrong = read.read === 'wrong' ? read.mistakes : [];
    let doc = null;
    try {
      doc = JSON.parse(text.replace(/^\ufeff/, ''));
    } catch {
      // Then it is no JSON, and what was read says so with its cure.
    }
    if (doc === null || !hasShape(doc)) {
      const told = wrong.slice(0, 5).map((one) => `${one.line > 0 ? `Line ${one.line}: ` : ''}${capital([one.place, one.problem].filter((part) => part !== '').join(': '))}. ${capital(one.cure)}.`);
      notice(`${file.name} was not opened. ${told.length === 0 ? 'It has more rows than this page can show.' : told.join('\n')}`);
      return;
    }
    plan.replace(doc);
    sentences.open.clear();
    sentences.render();
    follow();
    notice(`${file.name} is open. "Undo" brings the plan before it back.`);
  };
  let folded = [];
  window.addEventListener('beforeprint', () => {
    folded = [...document.querySelectorAll('main details:not([open])')];
    for (const one of folded) one.open = true;
  });
  window.addEventListener('afterprint', () => { for (const one of folded) one.open = false; });

  byId('licenses').ontoggle = async ({ target }) => {
    const place = target.querySelector('pre');
    if (place.textContent === '') place.textContent = await unpacked(byId('notices-data').textContent).text();
  };
  sentences.render();
  byId('version').textContent = `bucketline ${embedded.version}.`;
  changed();
}

begin().catch((error) => {
  byId('verdict').textContent = 'This browser cannot run the page.';
  byId('sure').textContent = `It needs a browser of 2023 or later. (${error.message})`;
});
