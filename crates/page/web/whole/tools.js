// What is done to the plan as a whole: taken back, opened, saved, emptied, shown on a wall.

import { byId, notice } from '../base/dom.js';
import { fileName, handOut, textOf } from './keep.js';
import { hasShape, withStruck } from '../plan/plan.js';
import { firstRow } from '../plan/rows.js';
import { whatChanged } from './undone.js';
import { capital } from '../told/told.js';
import { asTold } from '../told/words.js';
import { ourFault } from './follow.js';

const EMPTY = {
  title: '',
  units: 'us',
  incident: { duration: 120 },
  attack_engine: {},
  supply: { nurse: true },
  drop_tanks: [],
  tankers: [firstRow('tankers')],
  fill_sites: [firstRow('fill_sites')],
};

/**
 * The buttons over the plan; `example` is what the page began with, where nobody put a plan into it, `usual` a plan whose
 * times for handling an empty one begins with.
 */
export function useTools({ plan, sentences, follow, clock, quick, settings, example, usual }) {
  /** Another plan in place of this one. */
  const replaceBy = (doc, struck) => {
    plan.replace(doc, struck);
    sentences.open.clear();
    sentences.render();
    follow.again();
  };
  const stepTo = (take, says) => {
    const before = JSON.parse(plan.snapshot());
    take();
    sentences.render();
    follow.again();
    const boxAt = (place) => sentences.root.querySelector(`input[data-place="${CSS.escape(place)}"]`)?.dataset ?? null;
    notice(`${says}: ${whatChanged(before, JSON.parse(plan.snapshot()), boxAt)}.`);
  };
  byId('undo').onclick = () => stepTo(() => plan.undo(), 'Taken back');
  byId('redo').onclick = () => stepTo(() => plan.redo(), 'Made again');
  byId('open').onclick = () => byId('file').click();
  byId('file').onchange = async (event) => {
    const [file] = event.target.files;
    event.target.value = '';
    if (file === undefined) return;
    const text = await textOf(file);
    const read = await quick.call('read', file.name, text, settings.tender()).catch(ourFault);
    if (read === undefined) return;
    const doc = documentOf(text);
    if (doc === null || !hasShape(doc)) {
      notice(notOpened(file.name, doc, read.read === 'wrong' ? read.mistakes : []));
      return;
    }
    const opened = withStruck(doc);
    replaceBy(opened.doc, opened.struck);
    notice(`${file.name} is open. "Undo" brings the plan before it back.`);
  };
  byId('save').onclick = () => {
    const saved = plan.saved(example);
    handOut(fileName(plan.doc.title), saved);
    const says = [`${fileName(plan.doc.title)} is saved: look among your downloads.`];
    if (withStruck(JSON.parse(saved)).struck.length > 0) says.push('What is struck out is kept in the notes of the file: it takes no part there either, and this page brings it back when it opens the file.');
    if (saved !== plan.saved()) says.push('The notes of the example that this plan was made over, and its rows that are struck out, are left out.');
    notice(says.join(' '));
  };
  byId('empty').onclick = () => {
    const { setup } = usual.supply.engine;
    const empty = { ...structuredClone(EMPTY), units: sentences.units, handling: usual.handling, whole_fire: usual.whole_fire, supply: { nurse: true, setup } };
    // Who has no name is called by the word of the format.
    if (settings.word() !== 'tanker') empty.tankers[0].name = `${capital(settings.word())} 1`;
    replaceBy(empty);
    byId('sentences').querySelector('input')?.focus();
    notice('An empty plan, with usual times for connecting, dumping and hooking up the draft: judgement, until you have timed your own. "Undo" brings the plan before back.');
  };
  byId('seen').onclick = () => notice('');
  byId('print').onclick = () => window.print();
  const turnWall = () => {
    const isOn = document.body.classList.toggle('wall');
    // Who leaves the wall leaves the class.
    if (!isOn) clock.answerAgain();
    clock.laidOut();
    byId('wall').setAttribute('aria-pressed', String(isOn));
    byId('wall').textContent = isOn ? 'Back to the plan' : 'For the wall';
    window.scrollTo(0, 0);
  };
  byId('wall').onclick = turnWall;
  document.addEventListener('keydown', (event) => {
    if (event.key === 'Escape' && document.body.classList.contains('wall')) turnWall();
    // Within a box it is the box that steps back.
    const isFree = !event.target.closest?.('input[type="text"], textarea');
    if (isFree && (event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'z') {
      event.preventDefault();
      byId(event.shiftKey ? 'redo' : 'undo').click();
    }
  });
}

/** The file as it was written; null where it is no JSON, and what was read of it says so with its cure. */
function documentOf(text) {
  try {
    return JSON.parse(text.replace(/^\ufeff/, ''));
  } catch {
    return null;
  }
}

/** Why a file is no plan, and what would help. */
function notOpened(name, doc, wrong) {
  const says = wrong.slice(0, 5).map((one) => `${one.line > 0 ? `Line ${one.line} of the file: ` : ''}${asTold(capital([one.about, one.problem].filter((part) => part !== '').join(': ')))}.`);
  const isPlanLike = doc !== null && typeof doc === 'object' && !Array.isArray(doc);
  const cure = isPlanLike && wrong.length > 0 ? asTold(capital(wrong[0].cure)) : 'Choose a plan that was saved with this page';
  return `${name} was not opened. ${says.length === 0 ? 'It has more rows than this page can show.' : says.join('\n')}\n${cure}.`;
}
