// The plan as sentences with numbers to tap.

import { el } from '../base/dom.js';
import { shown, typed, typedShare } from '../told/numbers.js';
import { Listed } from './listed.js';
import { optionRows } from './options.js';
import { freeUnit, namesOf, placeOf } from './plan.js';
import { asked, onceAsked } from './rows.js';
import { asText, asValue } from './slots.js';
import { turned } from './units.js';
import { giveUsualSpread } from './usual.js';

export class Sentences extends Listed {
  constructor(root, plan, schemaNow, word) {
    super(root, plan, schemaNow, word);
    root.addEventListener('keydown', (event) => this.toNext(event));
    this.unitsChoice = this.choice(['units'], 'Units of the plan', () => [['us', 'gallons and miles'], ['metric', 'litres and kilometres']], (to) => this.turnUnits(to));
  }

  /** Writes all sentences anew; what has the focus keeps it. */
  render() {
    const held = document.activeElement?.dataset?.place;
    const tool = document.activeElement?.dataset?.tool;
    this.root.replaceChildren(
      this.fire(),
      this.engine(),
      this.supply(),
      ...this.list('tankers', `The ${this.word()}s`, (row, place) => this.tanker('tankers', row, place), `Another ${this.word()}`),
      ...this.list('drop_tanks', 'Drop tanks', (row, place) => this.dropTank(row, place), 'Another drop tank'),
      ...this.list('fill_sites', 'Where they fill', (row, place) => this.fillSite(row, place), 'Another fill site'),
      ...this.list('aid', 'Who could be asked for', (row, place) => this.tanker('aid', row, place), `A ${this.word()} that could be asked for`, this.aidTools()),
      el('h3', {}, 'Handling'),
      this.handling(),
      ...optionRows(this),
      el('h3', {}, 'Everything else'),
      this.rest(),
    );
    const again = held && this.root.querySelector(tool ? `[data-place="${CSS.escape(held)}"][data-tool="${tool}"]` : `[data-place="${CSS.escape(held)}"]`);
    if (again && document.activeElement === document.body) again.focus();
    this.unitsChoice.again();
    this.onRender?.();
  }

  // Sentences.

  fire() {
    const flow = this.plan.get(['incident', 'attack_flow']);
    const gpm = this.unit('incident', 'attack_flow');
    const path = ['incident', 'attack_flow'];
    let wants;
    let tools = [];
    if (Array.isArray(flow)) {
      wants = flow.flatMap((step, place) => [
        place === 0 ? '' : place + 1 === flow.length ? ' and ' : ', ',
        step !== null && typeof step === 'object' && typeof step.flow === 'object' && step.flow !== null
          ? el('b', {}, 'what the building asks for')
          : this.number([...path, place, 'flow'], `Flow wanted, step ${place + 1}`, gpm),
        place === 0 ? ' from first water' : [' from ', this.number([...path, place, 'from'], `Step ${place + 1} begins, after first water`, 'min'), ' after it'],
      ]);
      tools = [
        el('button', { type: 'button', 'data-place': 'incident', 'data-tool': 'step', onclick: () => this.addStep() }, 'Another step'),
        flow.length > 1
          ? el(
              'button',
              { type: 'button', 'data-place': 'incident', 'data-tool': 'unstep', onclick: () => { this.plan.set([...path, flow.length - 1], undefined); this.render(); } },
              'Without the last step',
            )
          : null,
      ];
    } else if (flow !== null && typeof flow === 'object') {
      wants = el('b', {}, 'what the building asks for');
    } else {
      wants = this.number(path, 'Flow wanted', gpm);
      tools = [
        el('button', { type: 'button', 'data-place': 'incident', 'data-tool': 'step', onclick: () => this.addStep() }, 'Another step'),
      ];
    }
    return el(
      'div',
      {},
      this.row([], 'scenario', [this.name(['title'], 'What the plan is called', 'Name of the fire or place')], { about: 'the name', plain: true }),
      this.row(
        ['incident'],
        'incident',
        ['We want ', wants, ' for ', this.number(['incident', 'duration'], 'For how long', 'min'), '. At ', this.number(['incident', 'reserve'], 'Left in the engine when the crew backs out', this.unit('incident', 'reserve'), '0'), ' left in the engine the crew backs out.'],
        { about: 'the fire', tools },
      ),
    );
  }

  /** Another step after what is wanted now, as it stands at this moment and not when the sentence was written. */
  addStep() {
    const flow = this.plan.get(['incident', 'attack_flow']);
    const steps = Array.isArray(flow) ? flow : [{ from: 0, ...(flow === undefined ? {} : { flow }) }];
    const last = steps[steps.length - 1] ?? {};
    const from = typeof last.from === 'number' ? last.from + 5 : 5;
    this.plan.set(['incident', 'attack_flow'], [...steps, { from, ...(last.flow === undefined ? {} : { flow: structuredClone(last.flow) }) }]);
    this.plan.endStep();
    this.render();
  }

  engine() {
    const at = (key) => ['attack_engine', key];
    return this.row(
      ['attack_engine'],
      'attack_engine',
      [this.name(at('name'), 'Name of the attack engine', 'Attack engine'), ', ', this.number(at('tank'), "The attack engine's tank", this.unit('attack_engine', 'tank')), ' in its tank, on scene in ', this.time(at('response'), 'The attack engine is on scene in'), ', first water ', this.time(at('water_on'), 'First water after', '0'), ' later.'],
      { about: 'the attack engine' },
    );
  }

  supply() {
    const engine = this.plan.get(['supply', 'engine']);
    // The time for hooking up goes to whoever drafts; what nobody has said yet stays to be filled in.
    const turn = () =>
      this.plan.alter((doc) => {
        const { engine: there, setup, ...others } = doc.supply ?? {};
        const hookUp = there === undefined ? setup : (there?.setup ?? setup);
        const stated = hookUp === undefined ? {} : { setup: hookUp };
        doc.supply = there === undefined ? { ...others, engine: { name: freeUnit('Supply engine', doc), ...stated } } : { ...others, ...stated };
      });
    const at = (key) => ['supply', 'engine', key];
    const isThere = (this.plan.doc.drop_tanks ?? []).some((_, place) => !this.plan.isStruck('drop_tanks', place));
    const sentence = !isThere
      ? [engine === undefined ? 'There is no drop tank to draft from.' : [this.name(at('name'), 'Name of the engine that drafts', 'Supply engine'), ': on scene in ', this.time(at('response'), 'The engine that drafts is on scene in'), '. There is no drop tank for it to draft from.']]
      :
      engine !== undefined && engine !== null && typeof engine === 'object'
        ? [this.name(at('name'), 'Name of the engine that drafts', 'Supply engine'), ' drafts from the drop tank: on scene in ', this.time(at('response'), 'The engine that drafts is on scene in'), ', hooked up in ', this.time(at('setup'), 'Hooking up the draft', '0'), '.']
        : ['The attack engine drafts from the drop tank itself, hooked up in ', this.time(['supply', 'setup'], 'Hooking up the draft', '0'), '.'];
    const tools = [
      el('button', { type: 'button', 'data-place': 'supply', 'data-tool': 'turn', onclick: () => { turn(); this.render(); } }, engine !== undefined ? 'The attack engine drafts itself' : 'Another engine drafts'),
    ];
    return this.row(['supply'], 'supply', sentence, { about: 'the draft', tools });
  }

  tanker(list, row, place) {
    const at = (key) => [list, place, key];
    const about = namesOf({ ...row, count: undefined }, place)[0];
    const sentence = [
      row.count !== undefined ? [this.number(at('count'), `${about}: how many`), ' times '] : null,
      this.name(at('name'), 'Name', about),
      list === 'aid' ? [' of ', this.name(at('department'), `${about}: its department`, 'a department')] : null,
      ', ',
      this.number(at('capacity'), `${about}: its tank`, this.unit('tanker', 'capacity')),
      row.requested_at !== undefined || list === 'aid'
        ? [list === 'aid' ? ', could be asked for at minute ' : ', asked for at minute ', this.number(at('requested_at'), `${about}: asked for, minutes after the alarm`, '', '0'), ', on scene ', this.time(at('response'), `${about}: on scene after`), ' later.']
        : [', on scene in ', this.time(at('response'), `${about}: on scene in`), '.'],
      list === 'aid' || (typeof row.turnout === 'number' && row.turnout < 1) ? [' It comes to ', this.often(at('turnout'), `${about}: to how many of 100 calls it comes`), ' of 100 calls.'] : null,
    ];
    const other = list === 'aid' ? 'tankers' : 'aid';
    const move = () => {
      this.plan.move(list, place, other, list === 'aid' ? asked : onceAsked);
      this.open.clear();
      this.copied.clear();
      this.render();
      this.onMoved?.(about, `${other}[${this.plan.doc[other].length - 1}]`, list === 'aid');
    };
    const tools = [el('button', { type: 'button', 'data-place': placeOf([list, place]), 'data-tool': 'move', onclick: move }, list === 'aid' ? 'It is asked and comes' : 'Only if asked for')];
    return this.listed(list, place, 'tanker', about, sentence, tools);
  }

  /** To how many of a hundred calls, of which a plan keeps the share; "3 of 4" is read too. */
  often(path, label) {
    const share = (text) => {
      const number = typed(text);
      return typedShare(text) ?? (Number.isNaN(number) ? asValue(text, '', placeOf(path)) : number > 1 ? Number((number / 100).toPrecision(12)) : number);
    };
    return this.slot(path, label, '', {
      inputmode: 'decimal',
      hint: '100',
      text: () => (typeof this.plan.get(path) === 'number' ? shown(Number((100 * this.plan.get(path)).toPrecision(12))) : asText(this.plan.get(path))),
      put: (text) => this.plan.set(path, text.trim() === '' ? undefined : share(text)),
    });
  }

  dropTank(row, place) {
    const at = (key) => ['drop_tanks', place, key];
    const about = `drop tank ${place + 1}`;
    const bySize = row.capacity !== null && typeof row.capacity === 'object';
    const pick = (name) => {
      if (name === '') this.plan.set(at('brought_by'), undefined);
      else this.plan.set(at('brought_by'), name);
    };
    const bringers = () => this.bringers(this.plan.get(at('brought_by')));
    const sentence = [
      `Drop tank ${place + 1}, `,
      bySize ? el('b', {}, 'by its size') : this.number(at('capacity'), `${about}: what it holds`, this.unit('drop_tank', 'capacity')),
      ', comes with ',
      this.choice(at('brought_by'), `${about}: brought by`, bringers, pick),
      row.brought_by === undefined ? [' in ', this.time(at('response'), `${about}: on scene in`)] : null,
      ', set up in ',
      this.time(at('setup'), `${about}: set up in`, '0'),
      '.',
    ];
    return this.listed('drop_tanks', place, 'drop_tank', about, sentence);
  }

  fillSite(row, place) {
    const at = (key) => ['fill_sites', place, key];
    const about = typeof row.name === 'string' && row.name !== '' ? row.name : `fill site ${place + 1}`;
    const byTest = row.flow !== null && typeof row.flow === 'object';
    const sentence = [
      this.name(at('name'), 'Name of the fill site', `Fill site ${place + 1}`),
      ', ',
      this.road(place, about),
      ', ',
      byTest ? el('b', {}, 'by its test') : this.number(at('flow'), `${about}: its flow`, this.unit('fill_site', 'flow')),
      ', ready at minute ',
      this.time(at('ready'), `${about}: ready, minutes after the alarm`, '0', ''),
      ', with ',
      row.volume !== null && typeof row.volume === 'object' ? el('b', {}, 'what its size gives') : this.slot(at('volume'), `${about}: the water it holds`, this.unit('fill_site', 'volume'), { inputmode: 'decimal', hint: 'water without end', isUnit: () => this.plan.get(at('volume')) !== undefined }),
      '.',
    ];
    return this.listed('fill_sites', place, 'fill_site', about, sentence);
  }

  /** The road there and back: one number while both ways are alike. */
  road(place, about) {
    const legs = ['out', 'back'].map((way) => this.plan.get(['fill_sites', place, way]) ?? {});
    const key = ['miles', 'km', 'minutes'].find((one) => legs[0]?.[one] !== undefined) ?? (this.units === 'metric' ? 'km' : 'miles');
    const unit = { miles: 'mi', km: 'km', minutes: 'min' }[key];
    const isAlike = legs[0]?.[key] === legs[1]?.[key] && typeof legs[0]?.[key] !== 'object';
    if (!isAlike) {
      const one = (way) => {
        const own = ['miles', 'km', 'minutes'].find((name) => this.plan.get(['fill_sites', place, way, name]) !== undefined) ?? key;
        const path = ['fill_sites', place, way, own];
        const words = `${about}: the road ${way}`;
        return own === 'minutes' ? this.time(path, words) : this.number(path, words, { miles: 'mi', km: 'km' }[own]);
      };
      return [one('out'), ' out and ', one('back'), ' back'];
    }
    const slot = this.number(['fill_sites', place, 'out', key], `${about}: the road, one way`, unit);
    // Both ways move together, as one step.
    const input = slot.querySelector('input');
    input.addEventListener('input', () => {
      const value = this.plan.get(['fill_sites', place, 'out', key]);
      const back = { ...this.plan.get(['fill_sites', place, 'back']) };
      if (value === undefined) delete back[key];
      else back[key] = value;
      this.plan.doc.fill_sites[place].back = back;
      this.plan.changed();
    });
    return [slot, ' away'];
  }

  handling() {
    const one = (key, label) => this.time(['handling', key], label, '0');
    return this.row(
      ['handling'],
      'handling',
      [
        'At the fill site ', one('fill_connect', 'Connecting at the fill site'), ' to connect, ', one('fill_disconnect', 'Disconnecting at the fill site'),
        ' to let go. At the drop tank ', one('dump_position', 'Getting into place at the drop tank'), ' to get into place, ', one('dump_clear', 'Pulling clear of the drop tank'),
        ' to pull clear. At the engine ', one('nurse_connect', 'Connecting to the attack engine'), ' to connect, ', one('nurse_disconnect', 'Breaking that connection'), ' to let go.',
      ],
      { about: 'handling', tools: [this.spreadTool()] },
    );
  }

  /** A way to give what does not vary its usual spread, as long as there is such a time. */
  spreadTool() {
    const varied = structuredClone(this.plan.doc);
    giveUsualSpread(varied);
    if (JSON.stringify(varied) === JSON.stringify(this.plan.doc)) return null;
    return el('button', { type: 'button', 'data-place': 'handling', 'data-tool': 'spread', onclick: () => this.onSpread?.() }, 'Give fixed times their usual spread');
  }

  /** What no sentence tells: bad nights, one-lane roads, crew, hose, options, notes. */
  rest() {
    const sentence = ['Bad nights, one-lane roads, notes, people and hose:'];
    return this.row(['everything else'], 'rest', sentence, { about: 'the rest' });
  }

  turnUnits(to) {
    if (to === this.units) return;
    const doc = structuredClone(this.plan.doc);
    turned(doc, this.schema, this.schema, to);
    doc.units = to;
    this.plan.replace(doc, [...this.plan.struck]);
    this.onTurned?.();
  }
}
