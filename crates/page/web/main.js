// The page as a whole: the plan changes, and everything that is told of it follows.

import { byId, el, notice } from './base/dom.js';
import { Engine, unpacked } from './base/engine.js';
import { Clock } from './fire/clock.js';
import { addOption, forSale } from './plan/options.js';
import { Plan, hasShape, withStruck } from './plan/plan.js';
import { Sentences } from './plan/sentences.js';
import { askFor, sitesAlone } from './plan/variants.js';
import { useLocale } from './told/numbers.js';
import { Questions } from './told/questions.js';
import { capital } from './told/told.js';
import { asTold, namesIn, useNames } from './told/words.js';
import { Follow } from './whole/follow.js';
import { Keep } from './whole/keep.js';
import { usePaper } from './whole/printed.js';
import { Remarks } from './whole/remarks.js';
import { useTools } from './whole/tools.js';

/** What the reader chooses, kept with the plan. */
const SETTINGS = ['word', 'units', 'fires'];

async function begin() {
  const embedded = JSON.parse(byId('scenario-data').textContent);
  const module = await WebAssembly.compile(await unpacked(byId('engine-data').textContent).arrayBuffer());
  byId('engine-data').remove();
  const workerText = byId('worker-text').textContent;
  // One that is always free for first figures, one for sharper ones, one for questions.
  const [quick, deep, asked] = [0, 1, 2].map(() => new Engine(module, workerText));
  const schemas = await schemasOf(quick);
  // What the page begins with where no plan was put into it, and what is usual.
  const starter = await quick.call('starter');
  for (const [semiBold, weight] of [[false, '400'], [true, '600']]) {
    quick.call('font', semiBold).then((bytes) => document.fonts.add(new FontFace('Inter', bytes, { weight })));
  }

  useLocale(navigator.language);
  const keep = new Keep(embedded.text);
  const kept = keep.load();
  const plan = planKept(kept, embedded.text);
  const word = () => byId('word').value;
  const settings = { word, fires: () => Number(byId('fires').value), tender: () => word() === 'tender', units: () => byId('units').value || null };
  const schemaNow = () => schemas.get(`${word()} ${plan.doc.units === 'metric' ? 'metric' : 'us'}`);
  const sentences = new Sentences(byId('sentences'), plan, schemaNow, word);
  const remarks = new Remarks(plan, sentences);
  const follow = new Follow({ plan, sentences, remarks, quick, deep, schemaNow, settings });
  const putIn = (request) => {
    askFor(plan, request);
    sentences.open.clear();
    sentences.render();
    notice(`In the plan now, each asked for at its minute: ${request.map((one) => one.name).join(', ')}. "Undo" takes them out again.`);
  };
  const context = { ...settings, ...purchases(plan, sentences, follow, word), plan: () => follow.sound, risk: () => follow.risk, sitesAlone: () => sitesAlone(plan), putIn };
  const clock = new Clock(byId('fire'), quick, context);
  const questions = new Questions(byId('asking'), asked, context);
  questions.takeLimits(kept?.settings);
  follow.leads(clock, questions, putIn);
  useTools({ plan, sentences, follow, clock, quick, settings, example: embedded.text === starter ? JSON.parse(starter) : null, usual: JSON.parse(starter) });
  usePaper({ clock, questions, follow, settings });

  const spoken = () => useNames(namesIn(plan.doc));
  const keepAll = () => {
    if (!keep.store(plan, { ...Object.fromEntries(SETTINGS.map((id) => [id, byId(id).value])), target: questions.target, share: questions.share })) notice('This browser keeps nothing: save the plan to a file before you close the page.');
    document.title = `${plan.doc.title || 'Water plan'}: water plan`;
    byId('called').textContent = plan.doc.title ?? '';
  };
  const changed = () => {
    remarks.found = null;
    spoken();
    byId('undo').disabled = plan.past.length === 0;
    byId('redo').disabled = plan.future.length === 0;
    notice('');
    keepAll();
    follow.again();
  };
  questions.onLimit = keepAll;
  plan.onChange(changed);
  for (const id of SETTINGS) {
    byId(id).onchange = () => {
      spoken();
      keepAll();
      sentences.render();
      questions.render();
      follow.again();
    };
  }
  // A name that is being typed when the page is left is kept like any other value.
  window.addEventListener('pagehide', () => document.activeElement?.blur?.());
  byId('licenses').ontoggle = async ({ target }) => {
    const place = target.querySelector('pre');
    if (place.textContent === '') place.textContent = await unpacked(byId('notices-data').textContent).text();
  };
  spoken();
  sentences.render();
  byId('version').textContent = `bucketline ${embedded.version}.`;
  changed();
}

/** Of either word and of either units: what describes the fields changes with both. */
async function schemasOf(engine) {
  const schemas = new Map();
  for (const word of ['tanker', 'tender']) {
    for (const units of ['us', 'metric']) schemas.set(`${word} ${units}`, await engine.call('schema', word === 'tender', units === 'metric'));
  }
  return schemas;
}

/** The plan as it was left, or the one that the page came with; and the reader's choices with it. */
function planKept(kept, text) {
  const isKept = kept !== null && typeof kept === 'object' && hasShape(kept.doc) && Array.isArray(kept.struck);
  const given = isKept ? kept : withStruck(JSON.parse(text));
  const past = isKept && Array.isArray(kept.past) ? kept.past.filter((one) => typeof one === 'string') : [];
  for (const id of SETTINGS) {
    const now = kept?.settings?.[id];
    if ([...byId(id).options].some((one) => one.value === now)) byId(id).value = now;
  }
  return new Plan(JSON.stringify(given.doc), given.struck, past);
}

/** Ways to say what could be bought, each leading to its sentence; and what was tried and is for sale, to the box for its cost. */
function purchases(plan, sentences, follow, word) {
  const choices = () => [['tanker', `One more ${word()}`], ['drop tank', 'One more drop tank'], ['figure', 'Change one figure']].map(([kind, says]) => el('button', { type: 'button', onclick: () => addOption(sentences, kind) }, says));
  const priced = () =>
    (follow.risk?.would_help ?? []).flatMap(({ change }, place) => {
      const option = forSale(plan.doc, change, word(), sentences.bringers());
      const says = follow.risk.told.advice[place]?.says;
      return option === null || says === undefined ? [] : [el('button', { type: 'button', 'data-tool': 'price', onclick: () => addOption(sentences, null, option, capital(says)) }, `What it would cost: ${asTold(says)}`)];
    });
  return { choices, priced };
}

begin().catch((error) => {
  byId('verdict').textContent = 'This browser cannot run the page.';
  byId('sure').textContent = `It needs a browser of 2023 or later. (${error.message})`;
});
