// What stands on paper alone: the card with whom to ask, the levels that warn, the minutes of a typical fire and what is
// kept for backing out; and every question that was asked of the plan as it stands.

import { el } from '../base/dom.js';
import { aidTold } from './aid.js';
import { minutes, ofHundred } from './numbers.js';
import { answerParts } from './questions.js';
import { capital, points } from './told.js';
import { asTold } from './words.js';

/** The card: what somebody takes along. Each part is left out where nothing is known of it; the line is the clock's. */
export function card({ request, story, line, reserve }) {
  const kept = reserve === null ? null : el('p', { class: 'kept' }, asTold(reserve));
  return [
    request === null ? null : [el('h3', {}, 'Whom to ask, and by when'), aidTold(request)],
    kept,
    story === null ? null : [el('h3', {}, 'Minute by minute'), el('p', {}, asTold(story.story.told.verdict)), line, keyMinutes(story)],
  ];
}

/**
 * The run card at the head of a sheet: the clock, the levels that warn, what holds when one is lost; nothing where it is not
 * known yet. Of a plan that fails no orders, as on the card that the command prints: what is printed is followed.
 */
export function runCard(known) {
  if (known === null) return [];
  const { told, answer } = known;
  if (answer.interruption_probability > answer.target) {
    const says = `Do not use this plan: the lines run short in ${ofHundred(answer.interruption_probability)} fires of 100, and more than ${ofHundred(answer.target)} are too many. So no orders are printed. Ask whom else to call, or what flow these units can hold.`;
    return [el('h2', {}, 'The run card'), el('p', {}, el('b', {}, says))];
  }
  return [el('h2', {}, 'The run card'), el('p', {}, el('b', {}, asTold(told.verdict))), points(told.points), told.notes.map((note) => el('p', { class: 'warned' }, asTold(capital(note.says))))];
}

/** A fire in its minutes: who comes, what is set up, what the lines want, when they run short. */
function keyMinutes(story) {
  return el('ol', { class: 'key-minutes' }, story.keyMinutes().map(({ minute, says }) => el('li', {}, el('b', {}, minutes(minute)), ' ', says)));
}

/** The answers to questions, one below the other. */
export function answersOnPaper(replies, word) {
  return replies.map(({ question, says, reply }) => el('div', { class: 'asked-one' }, el('p', { class: 'quiet' }, says), answerParts(question, reply, word).flat(9).filter((part) => part !== null && part !== undefined)));
}
