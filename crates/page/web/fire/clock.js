// The clock: one fire along one line in minutes after the alarm, to drag, play and stop.

import { byId, el, svg } from '../base/dom.js';
import { STOPPED } from '../base/engine.js';
import { minutes, shown, shownTo } from '../told/numbers.js';
import { drawnLine } from './line.js';
import { backOutMark, newsOf, onLoop } from './placed.js';
import { Story } from './story.js';
import { pictures } from '../told/told.js';
import { asTold } from '../told/words.js';

const LEFT = 16;
/** Fire minutes in a second of play. */
const PACES = [[1, '1 minute a second'], [5, '5 minutes a second'], [20, '20 minutes a second']];

/** As narrow as the style takes for a phone; on the wall it is laid out for the wall. */
function onPhone() {
  return window.matchMedia('(max-width: 42rem)').matches && !document.body.classList.contains('wall');
}

export class Clock {
  constructor(root, engine, context) {
    Object.assign(this, { root, engine, context });
    this.minute = 0;
    this.pace = 1;
    this.which = 'typical';
    this.story = null;
    this.parts = null;
    this.width = 0;
    this.build();
    // The line is drawn as wide as there is room, so that its words keep their size.
    new ResizeObserver(() => {
      if (this.story !== null && !this.root.hidden && this.root.clientWidth !== this.width) this.laidOut();
    }).observe(root);
  }

  // Which fire.

  /** The plan or its answer has changed: the same kind of fire again. Its picture, for paper, where the plan rests. */
  async again(isAtRest = false) {
    const inForce = this.context.plan();
    if (inForce === null) {
      this.answerAgain();
      this.pause();
      this.root.hidden = true;
      return;
    }
    this.plannedOf ??= '';
    if (this.plannedOf !== inForce.text) [this.plannedOf, this.plannedStory] = [inForce.text, undefined];
    const worst = this.context.risk()?.worst_run ?? null;
    if (this.which === 'worst' && worst === null) this.which = 'typical';
    const run = { worst, next: this.run ?? 1 }[this.which] ?? null;
    const asked = (this.asked = (this.asked ?? 0) + 1);
    const ask = { run, typical: this.which === 'typical', seed: this.which === 'planned' ? 0 : 1, tender: this.context.tender(), units: this.context.units(), draws: isAtRest };
    const told = (one) => this.engine.call('fire', JSON.stringify({ name: inForce.name, text: inForce.text, ask: one })).catch(() => STOPPED);
    const reply = await told(ask);
    if (this.which !== 'planned' && this.plannedStory === undefined) {
      const planned = await told({ ...ask, run: null, typical: false, seed: 0, draws: false });
      if (planned !== STOPPED && planned.reply === 'answered' && this.plannedOf === inForce.text) this.plannedStory = new Story(planned.answer);
    }
    if (reply === STOPPED || asked !== this.asked || reply.reply !== 'answered') return;
    this.root.hidden = false;
    this.story = new Story(reply.answer);
    this.run = reply.answer.story.run ?? this.run ?? 0;
    this.minute = Math.min(this.minute, this.story.end);
    this.laidOut();
    this.parts.paper.replaceChildren(...pictures(reply.pictures, asTold(this.story.story.told.verdict)));
  }

  choose(which) {
    this.answerAgain();
    if (which === 'next') this.run = (this.which === 'next' ? this.run : 0) + 1;
    this.which = which;
    this.minute = 0;
    this.again(true);
  }

  // What is there once.

  build() {
    const button = (name, says, onclick) => el('button', { type: 'button', 'data-clock': name, onclick }, says);
    const parts = (this.parts = {
      which: el('p', {}),
      line: el('div', { class: 'line' }),
      legend: el('div', { class: 'legend' }),
      paper: el('div', { class: 'on-paper' }),
      hand: el('input', { type: 'range', min: 0, max: 1, step: 0.1, value: 0, 'aria-label': 'Minute after the alarm', oninput: (event) => { this.pause(); this.to(Number(event.target.value)); } }),
      minute: el('span', { class: 'minute' }),
      // Said again on a phone, where many tankers are scrolled to.
      minuteToo: el('span', { class: 'minute-too' }),
      play: button('play', 'Play', () => this.playOrPause()),
      gauge: el('div', { class: 'gauge' }),
      columns: el('div', { class: 'columns' }),
      laps: el('div', { class: 'laps' }),
      news: el('ul', { class: 'news' }),
      card: el('div', {}),
      typical: button('typical', 'A typical fire', () => this.choose('typical')),
      planned: button('planned', 'If all goes to plan', () => this.choose('planned')),
      worst: button('worst', 'The worst', () => this.choose('worst')),
      next: button('next', 'Another one', () => this.choose('next')),
      seldom: el(
        'div',
        { class: 'seldom' },
        button('short', 'To the first shortfall', () => this.toShort()),
        el('label', {}, 'Pace ', el('select', { onchange: (event) => { this.pace = Number(event.target.value); } }, PACES.map(([pace, says]) => el('option', { value: pace }, says)))),
        button('stop', 'Stop here and ask the class', () => this.askTheClass()),
      ),
    });
    parts.moving = el(
      'div',
      { class: 'play' },
      parts.minute,
      parts.play,
      button('back', '1 min back', () => { this.pause(); this.to(this.minute - 1); }),
      button('on', '1 min on', () => { this.pause(); this.to(this.minute + 1); }),
      parts.seldom,
    );
    const side = el('span', { class: 'sides' }, ' (fill left, dump right)');
    parts.scene = el(
      'div',
      { class: 'scene' },
      el('div', {}, el('h3', {}, 'The attack lines'), parts.gauge),
      el('div', {}, el('h3', {}, 'Water on hand'), parts.columns),
      el('div', { class: 'laps' }, el('h3', {}, 'Who is where', parts.minuteToo, side), parts.laps),
      el('div', { class: 'lately' }, el('h3', {}, 'What has just happened'), parts.news),
    );
    this.root.replaceChildren(
      el('div', { class: 'asks which' }, parts.typical, parts.planned, parts.worst, parts.next),
      parts.which,
      parts.line,
      parts.legend,
      parts.paper,
      parts.hand,
      parts.moving,
      parts.card,
      parts.scene,
    );
    this.root.hidden = true;
    document.addEventListener('keydown', (event) => {
      const isFree = !event.target.closest?.('input:not([type="range"]), select, textarea, button, summary');
      if (event.key === ' ' && isFree && !this.root.hidden) {
        event.preventDefault();
        this.playOrPause();
      }
    });
  }

  /**
   * On a phone the line, the handle, the water and the tankers are in sight together: what explains the line and what is
   * seldom pressed follow them there, in what is read as in what is seen.
   */
  setInOrder() {
    const { parts } = this;
    const isPhone = onPhone();
    if (this.isPhone === isPhone) return;
    this.isPhone = isPhone;
    if (isPhone) parts.scene.after(parts.seldom, parts.legend);
    else {
      parts.line.after(parts.legend);
      parts.moving.append(parts.seldom);
    }
  }

  /** A new fire, or another place to show it: the line and the lanes are laid out. */
  laidOut() {
    if (this.story === null) return;
    const { parts, story } = this;
    for (const which of ['typical', 'planned', 'worst', 'next']) parts[which].setAttribute('aria-pressed', String(this.which === which));
    parts.worst.disabled = (this.context.risk()?.worst_run ?? null) === null;
    const isPlanned = this.which === 'planned';
    if (isPlanned) this.plannedStory = story;
    const isSame = !isPlanned && this.plannedStory !== undefined && story.isLike(this.plannedStory);
    parts.which.textContent = `${asTold(story.story.told.verdict)}${isSame ? ' It goes exactly as planned: nothing in this plan varies. Under "More about", a time can be given as a mean and how much it varies.' : ''}`;
    parts.hand.max = story.end;
    const shortButton = this.root.querySelector('[data-clock="short"]');
    shortButton.disabled = story.shorts.length === 0;
    this.width = this.root.clientWidth;
    this.setInOrder();
    const isWall = document.body.classList.contains('wall');
    this.right = Math.max(300, this.width / (isWall ? Math.max(1, Math.min(2, this.width / 1000, window.innerHeight / 768)) : 1)) - 20;
    this.drawLine();
    this.tankParts = this.layTanks();
    this.lapParts = this.layLaps();
    parts.laps.replaceChildren(...this.lapParts.map((one) => one.root));
    this.to(this.minute);
  }

  x(minute) {
    return LEFT + (minute / this.story.end) * (this.right - LEFT);
  }

  /** The line anew: what is covered on it moves with the minute. */
  drawLine() {
    const { drawing, legend, hair, cover } = drawnLine({ story: this.story, shares: this.shares(), left: LEFT, right: this.right, isCovered: this.isAsking, isLow: this.isPhone });
    Object.assign(this, { hair, cover });
    this.parts.line.replaceChildren(drawing);
    this.parts.legend.replaceChildren(legend);
  }

  /** For paper, whatever fire is shown: the one that goes to plan, and its line as wide as it is printed. */
  onPaper() {
    const story = this.plannedStory ?? this.story;
    if (story === null) return { story, line: null };
    const { drawing, legend } = drawnLine({ story, shares: this.shares(), left: LEFT, right: 620, isCovered: false, isLow: false });
    return { story, line: el('div', { class: 'line' }, drawing, legend) };
  }

  /** Of each minute after the alarm the share of fires that first run short in it. */
  shares() {
    return this.context.risk()?.first_interruption_by_alarm_minute ?? [];
  }

  layTanks() {
    const { fire } = this.story;
    const { incident, attack_engine: engine } = JSON.parse(this.context.plan()?.text ?? '{}');
    // Both in the units of the plan; where either says its own unit the mark is told in words alone.
    const mark = typeof incident?.reserve === 'number' && typeof engine?.tank === 'number' ? incident.reserve / engine.tank : 0;
    const one = (name, holds, mark = 0) => {
      const kept = mark <= 1 ? mark * holds : 0;
      const level = el('i', {});
      const says = el('span', {});
      const root = el('div', { class: 'tank' }, el('b', {}, name), el('div', { class: 'column', 'aria-hidden': 'true' }, level, mark > 0 && mark <= 1 ? backOutMark(mark) : null), says, mark > 0 && mark <= 1 ? el('div', { class: 'small' }, 'dashed: the crew backs out') : null);
      return { root, level, says, holds, kept };
    };
    const tanks = [one('Attack engine', fire.engine_holds, mark), ...fire.drop_tanks_hold.map((holds, place) => one(fire.drop_tanks_hold.length === 1 ? 'Drop tank' : `Drop tank ${place + 1}`, holds))];
    this.parts.columns.replaceChildren(...tanks.map((tank) => tank.root));
    return tanks;
  }

  layLaps() {
    return this.story.names.map((name) => {
      const truck = svg('circle', { class: 'truck', r: 8, cx: 0, cy: 0 });
      const says = el('span', {});
      const picture = svg(
        'svg',
        // On a phone the words are left out, so that the loop is not too small beside what is told of it.
        { viewBox: this.isPhone ? '34 0 252 56' : '0 0 320 56', 'aria-hidden': 'true' },
        svg('path', { class: 'loop', d: 'M60 14H260A14 14 0 0 1 260 42H60A14 14 0 0 1 60 14Z' }),
        svg('text', { class: 'words quiet', x: 0, y: 32 }, 'fill'),
        svg('text', { class: 'words quiet', x: 286, y: 32 }, 'dump'),
        truck,
      );
      return { root: el('div', { class: 'lap' }, picture, el('div', {}, el('b', {}, name), ': ', says)), truck, says };
    });
  }

  // A minute.

  to(minute) {
    if (this.story === null) return;
    const { story, parts } = this;
    this.minute = Math.max(0, Math.min(story.end, minute));
    const now = this.minute;
    parts.minute.textContent = `Minute ${shownTo(now, 1)}`;
    parts.minuteToo.textContent = `, minute ${shownTo(now, 1)}`;
    parts.hand.value = now;
    parts.hand.setAttribute('aria-valuetext', `Minute ${shownTo(now, 1)}${story.isShort(now) ? ', the lines are short' : ''}`);
    this.hair.setAttribute('x1', this.x(now));
    this.hair.setAttribute('x2', this.x(now));
    const covered = this.isAsking ? this.x(now) + 1 : this.right + 20;
    this.cover.setAttribute('x', covered);
    this.cover.setAttribute('width', Math.max(0, this.right + 20 - covered));
    const levels = story.levelsAt(now);
    this.showGauge(levels, now);
    this.showTanks(levels, now);
    story.names.forEach((_, place) => this.showLap(place, now));
    parts.news.replaceChildren(...story.before(now, 5).map((line) => el('li', {}, newsOf(line))));
    const last = now >= story.end;
    if (last) this.pause();
  }

  showGauge(levels, now) {
    const { fire } = this.story;
    const most = Math.max(1, ...fire.course.map((one) => one.wanted));
    const bar = (flow) => {
      const fill = el('i', {});
      fill.style.width = `${(100 * flow) / most}%`;
      return el('div', { class: 'bar', 'aria-hidden': 'true' }, fill);
    };
    const flow = (value) => `${shown(Math.round(value))} ${fire.signs[1]}`;
    this.parts.gauge.replaceChildren(
      el('span', {}, 'wanted'), bar(levels.wanted), el('b', {}, flow(levels.wanted)),
      el('span', {}, 'given'), bar(levels.given), el('b', {}, flow(levels.given)),
      el('span', {}), el('b', {}, this.story.isShort(now) ? 'The lines run short.' : levels.wanted === 0 ? 'No water on the fire yet.' : 'The lines have their flow.'), el('span', {}),
    );
  }

  showTanks(levels, now) {
    const all = [levels.engine, ...levels.drop_tanks];
    const [volume] = this.story.fire.signs;
    this.tankParts.forEach((tank, place) => {
      const level = Math.max(0, all[place]);
      const isHere = place === 0 || this.story.isReady(place - 1, now);
      tank.level.style.height = `${Math.min(100, (100 * level) / tank.holds)}%`;
      // What is kept for backing out is nobody's to count on.
      const free = Math.max(0, level - tank.kept);
      const until = tank.kept > 0 ? 'until the crew backs out it lasts' : 'alone it lasts';
      const told = tank.kept > 0 && free === 0 ? 'the water for backing out is in use' : `${until} ${minutes(free / levels.wanted)} min`;
      const lasts = levels.wanted > 0 && isHere ? `; ${told}` : '';
      tank.says.textContent = isHere ? `${shown(Math.round(level))} ${volume}${lasts}` : 'not set up yet';
    });
  }

  showLap(place, now) {
    const lap = this.story.lapAt(place, now);
    const { truck, says } = this.lapParts[place];
    const isThere = lap !== null && lap.part !== 'away';
    truck.setAttribute('visibility', isThere ? 'visible' : 'hidden');
    says.textContent = lap === null ? 'not asked for yet' : lap.says;
    if (!isThere) return;
    const [x, y] = onLoop(lap);
    truck.setAttribute('cx', x);
    truck.setAttribute('cy', y);
    truck.setAttribute('class', lap.loaded ? 'truck loaded' : 'truck');
  }

  // Moving.

  toShort() {
    this.pause();
    if (this.story.shorts.length > 0) this.to(this.story.shorts[0].from + 0.05);
  }

  playOrPause() {
    if (this.playing) this.pause();
    else this.play();
  }

  play() {
    if (this.story === null) return;
    if (this.minute >= this.story.end) this.minute = 0;
    this.parts.play.textContent = 'Stop';
    let last = performance.now();
    this.playing = true;
    const on = (time) => {
      if (!this.playing) return;
      const passed = Math.max(0, Math.min(0.25, (time - last) / 1000));
      last = time;
      this.to(this.minute + passed * this.pace);
      if (this.playing) requestAnimationFrame(on);
    };
    requestAnimationFrame(on);
  }

  pause() {
    this.playing = false;
    this.parts.play.textContent = 'Play';
  }

  /** The class has been asked: the answer and what is to come are in sight again. */
  answerAgain() {
    if (!this.isAsking) return;
    this.isAsking = false;
    document.body.classList.remove('asking');
    this.parts.card.replaceChildren();
    if (this.story !== null) {
      this.drawLine();
      this.to(this.minute);
    }
  }

  /** For a class: what is so now, and what came next once it has been talked over. The answer is out of sight. */
  askTheClass() {
    this.pause();
    this.isAsking = true;
    document.body.classList.add('asking');
    this.drawLine();
    this.to(this.minute);
    const { story, minute } = this;
    const levels = story.levelsAt(minute);
    const flow = (value) => `${shown(Math.round(value))} ${story.fire.signs[1]}`;
    const next = el('div', {});
    const reveal = el('button', { type: 'button', onclick: () => {
      next.replaceChildren(el('ul', {}, story.after(minute, 6).map((line) => el('li', {}, newsOf(line)))));
      reveal.remove();
    } }, 'What happened next');
    this.parts.card.replaceChildren(
      el(
        'div',
        { class: 'stop-card', role: 'group', 'aria-label': 'A question to the class', tabindex: -1 },
        el('h3', {}, 'What would you do now?'),
        el('p', { class: 'asks' }, reveal, el('button', { type: 'button', onclick: () => { this.answerAgain(); this.root.querySelector('[data-clock="stop"]').focus(); } }, 'Done: show everything again')),
        el('p', {}, `Minute ${shownTo(minute, 1)}. The lines want ${flow(levels.wanted)} and get ${flow(levels.given)}; the attack engine has ${shown(Math.round(levels.engine))} ${story.fire.signs[0]}.`),
        el('ul', {}, story.names.map((name, place) => el('li', {}, `${name}: ${story.lapAt(place, minute)?.says ?? 'not asked for yet'}`))),
        next,
      ),
    );
    this.parts.card.firstChild.focus();
  }
}
