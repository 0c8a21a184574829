// What could be bought or changed, in sentences: another tanker, another drop tank, one figure that would be another.

import { el } from '../base/dom.js';
import { namesOf } from './plan.js';
import { mainPart } from './slots.js';

/** The first free of "New tanker", "New tanker 2"... */
function newName(base, taken) {
  for (let number = 1; ; number += 1) {
    const name = number === 1 ? base : `${base} ${number}`;
    if (!taken.has(name)) return name;
  }
}

/** The last of a list, to make another one like it. */
function likeLast(doc, list) {
  const last = structuredClone((doc[list] ?? []).at(-1) ?? {});
  for (const key of ['count', 'name', 'fill_site', 'department']) delete last[key];
  return last;
}

/** What an option of the page's own kinds does: its kind, and where its figures stand; null of any other. */
export function kindOf(option) {
  const [change, ...others] = Array.isArray(option?.changes) ? option.changes : [];
  if (change === null || typeof change !== 'object' || others.length > 0 || !['add', 'replace'].includes(change.op)) return null;
  const path = String(change.path ?? '');
  if (/^\/?tankers\/-$/.test(path)) return 'tanker';
  if (/^\/?drop_tanks\/-$/.test(path)) return 'drop tank';
  return typeof change.value === 'object' && change.value !== null && mainPart(change.value) === null ? null : 'figure';
}

/** The figures of a plan that could be others: the path by name, the words, the object and the key. */
function figuresOf(doc, word) {
  const isPlain = (name) => !name.includes('/');
  const rows = (list, fallback) => (doc[list] ?? []).map((row, place) => [row, typeof row.name === 'string' && row.name !== '' ? row.name : `${fallback} ${place + 1}`]).filter(([row, name]) => isPlain(name) && row.count === undefined);
  return [
    ...rows('tankers', 'Tanker').flatMap(([, name]) => [[`tankers/${name}/capacity`, `${name}: its tank`, 'tanker', 'capacity'], [`tankers/${name}/response`, `${name}: on scene after`, 'tanker', 'response'], [`tankers/${name}/dump_rate`, `${name}: how fast it dumps`, 'tanker', 'dump_rate'], [`tankers/${name}/fill_limit`, `${name}: how fast it fills at most`, 'tanker', 'fill_limit']]),
    ...(doc.drop_tanks ?? []).flatMap((_, place) => [[`/drop_tanks/${place}/capacity`, `Drop tank ${place + 1}: what it holds`, 'drop_tank', 'capacity'], [`/drop_tanks/${place}/setup`, `Drop tank ${place + 1}: set up in`, 'drop_tank', 'setup'], [`/drop_tanks/${place}/dump_positions`, `Drop tank ${place + 1}: ${word}s that dump at once`, 'drop_tank', 'dump_positions']]),
    ...rows('fill_sites', 'Fill site').flatMap(([, name]) => [[`fill_sites/${name}/flow`, `${name}: its flow`, 'fill_site', 'flow'], [`fill_sites/${name}/positions`, `${name}: ${word}s that fill at once`, 'fill_site', 'positions'], [`fill_sites/${name}/ready`, `${name}: ready, minutes after the alarm`, 'fill_site', 'ready']]),
    ['/attack_engine/tank', "The attack engine's tank", 'attack_engine', 'tank'],
    ['/attack_engine/response', 'The attack engine is on scene in', 'attack_engine', 'response'],
    ['/supply/setup', 'Hooking up the draft', 'supply', 'setup'],
    ['/handling/fill_connect', 'Connecting at the fill site', 'handling', 'fill_connect'],
    ['/handling/dump_position', 'Getting into place at the drop tank', 'handling', 'dump_position'],
  ];
}

/** A fresh option of a kind: like what the plan already has, so that only the difference is typed. */
function fresh(doc, kind, word, bringers) {
  const taken = new Set([...['tankers', 'aid'].flatMap((list) => (doc[list] ?? []).flatMap((row, place) => namesOf(row, place))), ...(doc.options ?? []).map((one) => one?.changes?.[0]?.value?.name)]);
  if (kind === 'tanker') return { op: 'add', path: '/tankers/-', value: { ...likeLast(doc, 'tankers'), name: newName(`New ${word}`, taken) } };
  if (kind === 'drop tank') {
    const tank = likeLast(doc, 'drop_tanks');
    const brings = new Set((doc.drop_tanks ?? []).map((row) => row.brought_by));
    const free = bringers.find(([name]) => name !== '' && !brings.has(name)) ?? bringers.find(([name]) => name !== '');
    if (free !== undefined && tank.response === undefined) tank.brought_by = free[0];
    return { op: 'add', path: '/drop_tanks/-', value: tank };
  }
  const [[path]] = figuresOf(doc, word);
  return { op: 'add', path };
}

/**
 * A change that was tried, as an option of the plan: what it does; null of one that is not for sale or that no sentence
 * here says. A flow is moved in the plan's own unit by as large a part of it.
 */
export function forSale(doc, change, word, bringers) {
  if (change.kind === 'one_more_tanker') {
    const like = [...(doc.tankers ?? []), ...(doc.aid ?? [])].find((row, place) => namesOf(row, place).includes(change.like));
    const option = fresh(doc, 'tanker', word, bringers);
    if (like === undefined) return null;
    const { name } = option.value;
    return { ...option, value: { ...likeLast({ tankers: [like] }, 'tankers'), name } };
  }
  if (change.kind === 'one_more_drop_tank') return fresh(doc, 'drop tank', word, bringers);
  if (change.kind !== 'moved' || change.input.kind !== 'site_flow') return null;
  const site = (doc.fill_sites ?? []).find((row) => row.name === change.input.fill_site);
  const now = typeof site?.flow === 'number' ? site.flow : NaN;
  const [was] = Object.values(change.now ?? {});
  const [by] = Object.values(change.moved_by ?? {});
  const flow = Math.round(now * (1 + (change.way === 'less' ? -by : by) / was));
  return Number.isFinite(flow) && !site.name.includes('/') ? { op: 'add', path: `fill_sites/${site.name}/flow`, value: flow } : null;
}

/** Puts another option under the others: a fresh one, or one that does what is given, of which only the cost is wanted. */
export function addOption(sentences, kind, given = null, called = null) {
  const { plan } = sentences;
  const word = sentences.word();
  const names = new Set((plan.doc.options ?? []).map((row) => row?.name));
  const name = newName(called ?? { tanker: `Another ${word}`, 'drop tank': 'Another drop tank', figure: 'A change' }[kind], names);
  plan.add('options', { name, changes: [given ?? fresh(plan.doc, kind, word, sentences.bringers())] });
  sentences.render();
  const row = `options[${plan.doc.options.length - 1}]`;
  sentences.root.querySelector(given === null ? `[data-row="${row}"] input` : `[data-place="${row}.cost"]`)?.focus();
}

/** All options, each with its sentence, and buttons for more. */
export function optionRows(sentences) {
  const word = sentences.word();
  const options = Array.isArray(sentences.plan.doc.options) ? sentences.plan.doc.options : [];
  const button = (kind, says) => el('button', { type: 'button', 'data-place': 'options', 'data-tool': `add ${kind}`, onclick: () => addOption(sentences, kind) }, says);
  return [
    el('h3', {}, 'What could be bought or changed'),
    ...options.map((option, place) => optionRow(sentences, option ?? {}, place)),
    el('p', { class: 'add asks' }, button('tanker', `One more ${word}`), button('drop tank', 'One more drop tank'), button('figure', 'Change one figure')),
  ];
}

function optionRow(sentences, option, place) {
  const path = ['options', place];
  const about = typeof option.name === 'string' && option.name !== '' ? option.name : `choice ${place + 1}`;
  const remove = () => {
    const { plan } = sentences;
    if (plan.doc.options.length === 1) plan.set(['options'], undefined);
    else plan.set(path, undefined);
    sentences.open.clear();
    sentences.render();
  };
  return sentences.row(
    path,
    'option',
    [sentences.name([...path, 'name'], 'What the choice is called', 'What it is called'), ', costs ', sentences.number([...path, 'cost'], `${about}: what it costs, in any money`, '', 'not known'), ': ', ...whatItDoes(sentences, option, [...path, 'changes', 0])],
    { about, tools: [el('button', { type: 'button', 'data-place': `options[${place}]`, 'data-tool': 'remove', onclick: remove }, 'Take away')] },
  );
}

function whatItDoes(sentences, option, path) {
  const { plan } = sentences;
  const value = (key) => [...path, 'value', key];
  const [change] = option.changes ?? [];
  switch (kindOf(option)) {
    case 'tanker':
      return ['another ', sentences.word(), ', ', sentences.name(value('name'), `Name of the new ${sentences.word()}`, 'Its name'), ', ', sentences.number(value('capacity'), 'Its tank', sentences.unit('tanker', 'capacity')), ', on scene in ', sentences.time(value('response'), 'On scene in'), '.'];
    case 'drop tank': {
      const brings = change.value?.brought_by;
      return ['another drop tank, ', sentences.number(value('capacity'), 'What it holds', sentences.unit('drop_tank', 'capacity')), ', comes with ', sentences.choice(value('brought_by'), 'Brought by', () => sentences.bringers(plan.get(value('brought_by')))), brings === undefined ? [' in ', sentences.time(value('response'), 'On scene in')] : '', ', set up in ', sentences.time(value('setup'), 'Set up in', '0'), '.'];
    }
    case 'figure': {
      const figures = () => figuresOf(plan.doc, sentences.word());
      const isThat = (way, other) => way.replace(/^\//, '') === String(other).replace(/^\//, '');
      const now = figures().find(([way]) => isThat(way, change.path));
      const choices = () => {
        const path1 = plan.get([...path, 'path']);
        const all = figures().map(([way, says]) => [isThat(way, path1) ? path1 : way, says]);
        return all.some(([way]) => way === path1) ? all : [[path1, String(path1)], ...all];
      };
      const unit = now === undefined ? '' : sentences.unit(now[2], now[3]);
      const part = mainPart(change.value) ?? [];
      return [sentences.choice([...path, 'path'], 'Which figure', choices), ' would be ', sentences.number([...path, 'value', ...part], 'The other figure', unit), '.'];
    }
    default:
      return [el('b', {}, `${(option.changes ?? []).length} steps of its own`), '.'];
  }
}
