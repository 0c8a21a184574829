// The page as a whole: the plan changes, and everything that is told of it follows.

import { aidTold } from './told/aid.js';
import { fade, showAnswer, showMistakes } from './told/answer.js';
import { Clock } from './fire/clock.js';
import { byId, el } from './base/dom.js';
import { Engine, STOPPED, unpacked } from './base/engine.js';
import { Keep, fileName, handOut, textOf } from './plan/keep.js';
import { markAll } from './plan/marks.js';
import { shown, useLocale } from './told/numbers.js';
import { addOption, forSale } from './plan/options.js';
import { answersOnPaper, card, runCard } from './told/paper.js';
import { Plan, hasShape, pathOf, withStruck } from './plan/plan.js';
import { Questions } from './told/questions.js';
import { Sentences } from './plan/sentences.js';
import { giveUsualSpread } from './plan/usual.js';
import { askFor, sitesAlone } from './plan/variants.js';
import { advice, behind, capital, pictures, points } from './told/told.js';
import { turned } from './plan/units.js';
import { whatChanged } from './plan/undone.js';
import { asTold, namesIn, useNames } from './told/words.js';

/** Fires for the first figures, which have to come within a tenth of a second; then sharper, then all with help. */
const FIRST_FIRES = 128;
const SECOND_FIRES = 2_000;

/** From this chance on a plan fails as it is wanted, and another flow or minute is the question. */
const HOPELESS = 0.99;

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
  // Of either word and of either units: what describes the fields changes with both.
  const schemas = new Map();
  for (const one of ['tanker', 'tender']) {
    for (const units of ['us', 'metric']) schemas.set(`${one} ${units}`, await quick.call('schema', one === 'tender', units === 'metric'));
  }
  // What the page begins with where no plan was put into it.
  const isExample = embedded.text === (await quick.call('starter'));
  const example = isExample ? JSON.parse(embedded.text) : null;
  for (const [semiBold, weight] of [[false, '400'], [true, '600']]) {
    quick.call('font', semiBold).then((bytes) => document.fonts.add(new FontFace('Inter', bytes, { weight })));
  }

  useLocale(navigator.language);
  const keep = new Keep(embedded.text);
  const kept = keep.load();
  const isKept = kept !== null && typeof kept === 'object' && hasShape(kept.doc) && Array.isArray(kept.struck);
  const given = isKept ? kept : withStruck(JSON.parse(embedded.text));
  const past = isKept && Array.isArray(kept.past) ? kept.past.filter((one) => typeof one === 'string') : [];
  const plan = new Plan(JSON.stringify(given.doc), given.struck, past);
  const SETTINGS = ['word', 'units', 'fires'];
  for (const id of SETTINGS) {
    const now = kept?.settings?.[id];
    if ([...byId(id).options].some((one) => one.value === now)) byId(id).value = now;
  }
  const word = () => byId('word').value;
  const schemaNow = () => schemas.get(`${word()} ${plan.doc.units === 'metric' ? 'metric' : 'us'}`);
  const sentences = new Sentences(byId('sentences'), plan, schemaNow, word);

  const spoken = () => useNames(namesIn(plan.doc));
  spoken();

  let sound = null;
  /** Whether anybody could be asked for. */
  let canRequest = false;
  let risk = null;
  /** What was found in the plan as it stands; null while it is being read. */
  let found = null;
  const fires = () => Number(byId('fires').value);
  /** Ways to say what could be bought, each leading to its sentence. */
  const choices = () => [['tanker', `One more ${word()}`], ['drop tank', 'One more drop tank'], ['figure', 'One figure that would be another']].map(([kind, says]) => el('button', { type: 'button', onclick: () => addOption(sentences, kind) }, says));
  /** What has been tried and is for sale, each leading to the box for its cost. */
  const priced = () =>
    (risk?.would_help ?? []).flatMap(({ change }, place) => {
      const option = forSale(plan.doc, change, word(), sentences.bringers());
      const says = risk.told.advice[place]?.says;
      return option === null || says === undefined ? [] : [el('button', { type: 'button', 'data-tool': 'price', onclick: () => addOption(sentences, null, option, capital(says)) }, `What it would cost: ${asTold(says)}`)];
    });
  const context = { word, fires, tender: () => word() === 'tender', units: () => byId('units').value || null, plan: () => sound, risk: () => risk, choices, priced, sitesAlone: () => sitesAlone(plan), putIn };
  const clock = new Clock(byId('fire'), quick, context);
  const questions = new Questions(byId('asking'), asked, context);

  /** Whom the page would ask comes into the plan, as one step. */
  function putIn(request) {
    askFor(plan, request);
    sentences.open.clear();
    sentences.render();
    notice(`In the plan now, each asked for at its minute: ${request.map((one) => one.name).join(', ')}. "Undo" takes them out again.`);
  }

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
    const inForce = plan.inForce();
    const name = fileName(plan.doc.title);
    const read = await quick.call('read', name, inForce.text, context.tender());
    if (read.read === 'wrong') {
      sound = null;
      risk = null;
      found = { ...inForce, mistakes: read.mistakes, warnings: await warningsInUnits(name, inForce.text, read.warnings) };
      showMistakes(mark());
      byId('reasons').replaceChildren(el('p', {}, 'The answer follows once the plan is whole.'));
      byId('reasons').dataset.done = 'false';
      clock.again();
      questions.again();
      return;
    }
    found = { ...inForce, mistakes: [], warnings: await warningsInUnits(name, inForce.text, read.warnings) };
    mark();
    sound = { name, text: inForce.text };
    canRequest = read.can_request;
    const first = await ask(quick, FIRST_FIRES, false);
    if (first === null) return;
    risk = first;
    showAnswer(first, false);
    showReasons(first, [], false);
    clock.again();
    questions.again();
    sharpen(now);
  }

  /** The warnings in the units that the reader chose: those of the same plan in these units. */
  async function warningsInUnits(name, text, given) {
    const [to, doc] = [context.units(), JSON.parse(text)];
    if (to === null || to === sentences.units || given.length === 0) return given;
    turned(doc, schemaNow(), schemaNow(), to);
    const read = await quick.call('read', name, JSON.stringify({ ...doc, units: to }), context.tender());
    return read.warnings;
  }

  /** Marks what was found beside its sentence; again whenever the sentences are written anew. */
  function mark() {
    if (found === null) return { wrong: 0, needed: 0, first: null };
    const told = markAll(sentences.root, plan, found.places, found);
    const beside = (row, says) => sentences.root.querySelector(`[data-row="${row}"] .marks`)?.append(el('div', { class: 'warned' }, says));
    // A note on the plan as a whole is that nothing in it varies.
    if (found.warnings.some((one) => one.place === 'title')) beside('', usualSpread());
    for (const place of found.unbound) beside(`drop_tanks[${place}]`, 'Does not come: who brings it is struck out.');
    for (const place of found.unready) beside(`options[${place}]`, 'Not compared until its sentence is filled in.');
    askTwoWays();
    if (found.leftOut.length > 0) beside('everything else', `Left out while rows are struck out, as they count them: ${found.leftOut.join(', ')}.`);
    return told;
  }
  /** Gives what does not vary what is usual, as one step. */
  function usualSpread() {
    const give = () => {
      plan.alter(giveUsualSpread);
      sentences.render();
      notice('Responses vary by 15% now (aid 20%), roads by 15%, handling by 30%, and whole fires differ. That is judgement, no measurement: put your own times in. "Undo" takes it back.');
    };
    return el('button', { type: 'button', 'data-place': 'title', 'data-tool': 'spread', onclick: give }, 'Usual spread');
  }
  sentences.onRender = mark;
  byId('plan-units').append(sentences.unitsChoice);
  /** "2.400": asks beside its sentence whether 2,400 was meant. */
  const askTwoWays = () => {
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
  };
  sentences.onTwoWays = askTwoWays;
  /** A row that went to another list: where to, and a way there. */
  sentences.onMoved = (name, to, comes) => {
    const there = () => {
      const row = sentences.root.querySelector(`[data-row="${CSS.escape(to)}"]`);
      row.scrollIntoView({ block: 'center' });
      row.querySelector('input')?.focus({ preventScroll: true });
    };
    notice(el('span', {}, comes ? `${name} stands among those who come now. ` : `${name} stands under "Who could be asked for" now. `, el('button', { type: 'button', onclick: there }, 'Show it')));
  };
  sentences.onTurned = () => notice('Every figure is turned to the other units, to within one in two thousand. "Undo" brings the plan before it back.');

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
      if (isFinal) clock.again(true);
    }
    if (risk.interruption_probability >= HOPELESS) await tellHold(now);
    if (canRequest && now === turn) await tellWhom(now);
    // For paper: it is there when somebody prints.
    if (now === turn) await questions.card(deep).catch(ourFault);
  }

  async function tellWhom(now) {
    const reply = await questions.request(deep).catch(ourFault);
    if (now !== turn || reply === null || reply === undefined) return;
    byId('whom')?.replaceChildren(...aidTold(reply, putIn).flat(9).filter((part) => part !== null));
  }

  /** Where nearly every fire fails as it is wanted, what could be held, and from when. */
  async function tellHold(now) {
    const reply = await questions.hold(deep).catch(ourFault);
    if (now !== turn || reply === null || reply === undefined) return;
    byId('held')?.replaceChildren(el('h3', {}, 'What could be held'), el('p', {}, asTold(reply.told.verdict)), el('p', { class: 'asks' }, el('button', { type: 'button', onclick: () => questions.open('hold') }, 'How much, and from when')));
  }

  async function ask(engine, runs, help, draws = false) {
    const question = { question: 'risk', tries_help: help, runs, draws, tender: context.tender(), units: context.units() };
    try {
      const reply = await engine.call('answer', JSON.stringify({ ...sound, ask: question }));
      if (reply === STOPPED || reply.reply !== 'answered') return null;
      // As the page says it, in place of the words of the command.
      const answer = { ...reply.answer, told: reply.told, reserve: reply.reserve };
      return draws ? { answer, pictures: reply.pictures } : answer;
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
        answer.reserve === null ? null : el('p', { class: 'quiet' }, asTold(answer.reserve)),
        aidListed(),
        isFinal && canRequest ? [el('h3', {}, 'Whom to ask, and by when'), el('div', { id: 'whom' }, el('p', { class: 'quiet' }, 'Being worked out…'))] : null,
        isFinal && answer.interruption_probability >= HOPELESS ? el('div', { id: 'held' }) : null,
        advice(told.advice),
        isFinal ? null : el('p', { class: 'quiet' }, 'What would help is being tried.'),
        drawn.length === 0 ? null : el('details', {}, el('summary', {}, 'Pictures'), pictures(drawn)),
        behind(told, answer),
      ].flat(9).filter((part) => part !== null && part !== undefined),
    );
    byId('reasons').dataset.done = String(isFinal);
  }

  /** Who is listed and does not come: nothing above counts on them. */
  function aidListed() {
    const rows = (plan.doc.aid ?? []).filter((_, place) => !plan.isStruck('aid', place));
    if (rows.length === 0) return null;
    const says = `The answer above, and what would help, count on nobody under "Who could be asked for" (${rows.length === 1 ? 'one entry' : `${rows.length} entries`}).`;
    return el('p', {}, says, ' ', el('button', { type: 'button', onclick: () => questions.open('request') }, 'Find out who to ask'));
  }

  function notice(says) {
    const place = byId('notice');
    place.replaceChildren(says);
    place.hidden = says === '';
  }

  function changed() {
    found = null;
    spoken();
    byId('undo').disabled = plan.past.length === 0;
    byId('redo').disabled = plan.future.length === 0;
    notice('');
    keepAll();
    follow();
  }

  function keepAll() {
    if (!keep.store(plan, Object.fromEntries(SETTINGS.map((id) => [id, byId(id).value])))) notice('This browser keeps nothing: save the plan to a file before you close the page.');
    document.title = `${plan.doc.title || 'Water plan'}: water plan`;
    byId('called').textContent = plan.doc.title ?? '';
  }

  plan.onChange(changed);
  const stepTo = (take, says) => {
    const before = JSON.parse(plan.snapshot());
    take();
    sentences.render();
    follow();
    notice(`${says}: ${whatChanged(before, JSON.parse(plan.snapshot()), (place) => sentences.root.querySelector(`input[data-place="${CSS.escape(place)}"]`)?.getAttribute('aria-label') ?? null)}.`);
  };
  byId('undo').onclick = () => stepTo(() => plan.undo(), 'Taken back');
  byId('redo').onclick = () => stepTo(() => plan.redo(), 'Made again');
  byId('open').onclick = () => byId('file').click();
  byId('save').onclick = () => {
    const saved = plan.saved(example);
    handOut(fileName(plan.doc.title), saved);
    const says = [];
    if (withStruck(JSON.parse(saved)).struck.length > 0) says.push('What is struck out is kept in the notes of the file: it takes no part there either, and this page brings it back when it opens the file.');
    if (saved !== plan.saved()) says.push('The notes of the example that this plan was made over, and its rows that are struck out, are left out.');
    notice(says.length === 0 ? '' : ['Saved.', ...says].join(' '));
  };
  byId('empty').onclick = () => {
    const empty = { ...structuredClone(EMPTY), units: sentences.units };
    // Who has no name is called by the word of the format.
    if (word() !== 'tanker') empty.tankers[0].name = `${capital(word())} 1`;
    plan.replace(empty);
    sentences.open.clear();
    sentences.render();
    follow();
    byId('sentences').querySelector('input')?.focus();
    notice('An empty plan. "Undo" brings the one before back.');
  };
  byId('print').onclick = () => window.print();
  const turnWall = () => {
    const isOn = document.body.classList.toggle('wall');
    byId('wall').setAttribute('aria-pressed', String(isOn));
    byId('wall').textContent = isOn ? 'Back to the plan' : 'For the wall';
    window.scrollTo(0, 0);
  };
  byId('wall').onclick = turnWall;
  document.addEventListener('keydown', (event) => {
    if (event.key === 'Escape' && document.body.classList.contains('wall')) turnWall();
  });
  byId('word').onchange = byId('units').onchange = byId('fires').onchange = () => {
    spoken();
    keepAll();
    sentences.render();
    questions.render();
    follow();
  };
  byId('file').onchange = async (event) => {
    const [file] = event.target.files;
    event.target.value = '';
    if (file === undefined) return;
    const text = await textOf(file);
    const read = await quick.call('read', file.name, text, context.tender()).catch(ourFault);
    if (read === undefined) return;
    const wrong = read.read === 'wrong' ? read.mistakes : [];
    let doc = null;
    try {
      doc = JSON.parse(text.replace(/^\ufeff/, ''));
    } catch {
      // Then it is no JSON, and what was read says so with its cure.
    }
    if (doc === null || !hasShape(doc)) {
      const says = wrong.slice(0, 5).map((one) => `${one.line > 0 ? `Line ${one.line} of the file: ` : ''}${asTold(capital([one.about, one.problem].filter((part) => part !== '').join(': ')))}.`);
      const isPlanLike = doc !== null && typeof doc === 'object' && !Array.isArray(doc);
      const cure = isPlanLike && wrong.length > 0 ? asTold(capital(wrong[0].cure)) : 'Choose a plan that was saved with this page';
      notice(`${file.name} was not opened. ${says.length === 0 ? 'It has more rows than this page can show.' : says.join('\n')}\n${cure}.`);
      return;
    }
    const opened = withStruck(doc);
    plan.replace(opened.doc, opened.struck);
    sentences.open.clear();
    sentences.render();
    follow();
    notice(`${file.name} is open. "Undo" brings the plan before it back.`);
  };
  // A name that is being typed when the page is left is kept like any other value.
  window.addEventListener('pagehide', () => document.activeElement?.blur?.());
  let folded = [];
  let isOnWall = false;
  window.addEventListener('beforeprint', () => {
    // Paper takes the whole of it, whatever is on the wall.
    isOnWall = document.body.classList.contains('wall');
    document.body.classList.remove('wall');
    const known = risk === null ? [] : card({ request: questions.knownRequest(), story: clock.story, line: clock.lineOnPaper(), reserve: risk.reserve });
    const day = new Date().toLocaleDateString(navigator.language, { dateStyle: 'long' });
    const head = el('p', {}, el('b', { class: 'caution' }, document.querySelector('footer .caution').textContent), ` Printed on ${day}.`);
    byId('card').replaceChildren(...[head, known].flat(9).filter((part) => part !== null && part !== undefined));
    byId('run-card').replaceChildren(...runCard(risk === null ? null : questions.knownCard()).flat(9).filter((part) => part !== null && part !== undefined));
    byId('asked-before').replaceChildren(...answersOnPaper(risk === null ? [] : questions.others(), word()));
    byId('questions').classList.toggle('has-answers', questions.answered.size > 0);
    folded = [...document.querySelectorAll('main details:not([open])')];
    for (const one of folded) one.open = true;
  });
  window.addEventListener('afterprint', () => {
    for (const one of folded) one.open = false;
    document.body.classList.toggle('wall', isOnWall);
  });

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
