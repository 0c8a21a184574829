// Numbers as they are typed and written, on a page without a browser.

import assert from 'node:assert/strict';
import { test } from 'node:test';

import { localNumbers, minutes, ofHundred, otherThousands, shown, typed, typedMinutes, typedShare, typedVarying, useLocale } from '../../crates/page/web/told/numbers.js';
import { asText, asValue } from '../../crates/page/web/plan/slots.js';
import { asTold, useNames } from '../../crates/page/web/told/words.js';

test('numbers are taken with comma or point, with thousands apart or not', () => {
  for (const [words, number] of [
    ['3000', 3000], ['3,000', 3000], ['3 000', 3000], ['3\u202f000', 3000], ['1,234,567.5', 1234567.5], ['2.4', 2.4], ['2,4', 2.4], ['0,25', 0.25],
    ['1.234.567', 1234567], ['1.250,5', 1250.5], [' 12 ', 12], ['-3', -3], ['.5', 0.5], ['2.400', 2.4], ['12,50', 12.5], ['1e3', 1000], ['1E9', 1e9], ['2,5e3', 2500],
  ]) assert.equal(typed(words), number, words);
  for (const words of ['', 'ten', '11000 L', '1,2,3', '3.0.0', 'e3', '1e', '--2', '5%']) assert.ok(Number.isNaN(typed(words)), words);
});

test('a time is taken in hours and minutes, and a unit with comma or point', () => {
  for (const [words, value] of [['1h30', 90], ['1 h 30 min', 90], ['1H05m', 65], ['2 hours and 15 minutes', 135], ['45m', 45], ['90', 90], ['1,5 h', '1.5 h'], ['1.5 h', '1.5 h'], ['2h', '2 h']]) assert.equal(asValue(words, 'min'), value, words);
  // Of how long water is wanted "1:30" is an hour and a half; of a handling time nobody can tell.
  assert.equal(asValue('1:30', 'min', 'incident.duration'), 90);
  assert.equal(asValue('1:30', 'min', 'tankers[0].response'), '1:30');
  for (const words of ['1h75', '1:75', 'h30', '1 h 30 gal']) assert.ok(Number.isNaN(typedMinutes(words, true)), words);
  assert.equal(asValue('1h30', 'gpm'), '1h30', 'no flow');
  for (const [words, value] of [['8 in 10', 0.8], ['9 out of 10', 0.9], ['4 times in 5', 0.8]]) assert.equal(asValue(words), value, words);
  assert.equal(asValue('8 in 10', 'gal'), '8 in 10', 'no water');
  for (const [words, value] of [['$180,000', 180000], ['€ 90 000', 90000]]) assert.equal(asValue(words), value, words);
  assert.deepEqual([asValue('2,4 km', 'mi'), asValue('3,000 gal', 'gal'), asValue('5%'), asValue('12,5 %')], ['2.4 km', '3000 gal', '5%', '12.5%']);
  assert.deepEqual([asText('3000 gal'), asText('5%'), asText('lay 5 in')], ['3,000 gal', '5%', 'lay 5 in']);
  try {
    useLocale('de-DE');
    assert.deepEqual([asText('2.4 km'), asValue('2,4 km'), asValue('3.000 L')], ['2,4 km', '2.4 km', '3000 L']);
  } finally {
    useLocale('en-US');
  }
});

test('what the page shows of a number is read back as that number', () => {
  for (const number of [0, 0.05, 2.4, 999, 1000, 1250, 12345.678, 1e6, 0.125]) assert.equal(typed(shown(number, 12)), number);
});

test('numbers are written as a locale writes them, and what it writes is read back', () => {
  const after = { 'de-DE': ['3.000', '2,4', '1.234.567,5'], 'fr-FR': ['3\u202f000', '2,4', '1\u202f234\u202f567,5'], 'en-IN': ['3,000', '2.4', '12,34,567.5'], 'de-CH': ['3’000', '2.4', '1’234’567.5'] };
  try {
    for (const [tag, written] of Object.entries(after)) {
      useLocale(tag);
      [3000, 2.4, 1234567.5].forEach((number, place) => {
        // Which apostrophe a locale writes changes with the tables of the runtime.
        assert.equal(shown(number, 12).replaceAll('’', "'"), written[place].replaceAll('’', "'"), tag);
        assert.equal(typed(written[place]), number, `${tag}: ${written[place]}`);
      });
      for (const number of [0.05, 999, 1000, 12345.678, 100000, 1e6]) assert.equal(typed(shown(number, 12)), number, `${tag}: ${number}`);
      for (const [words, number] of [['3000', 3000], ['2,4', 2.4], ['2.4', 2.4], ['0,25', 0.25], ['0.25', 0.25]]) assert.equal(typed(words), number, `${tag}: ${words}`);
    }
    useLocale('de-DE');
    assert.equal(typed('2,400'), 2.4, 'a German comma is a decimal mark');
    assert.equal(ofHundred(0.0002), 'under 0,1');
    assert.equal(minutes(12.34), '12,3');
    assert.equal(localNumbers('1,250.5 gal in 2,000 fires, 0.4 min, 285 gpm, 40, 50 and T9.5 (NFPA 1142)'), '1.250,5 gal in 2.000 fires, 0,4 min, 285 gpm, 40, 50 and T9.5 (NFPA 1142)');
    useNames(['Route 2.5', 'Tanker 1,000']);
    assert.equal(asTold('Tanker 1,000 takes Route 2.5 in 2.5 min'), 'Tanker 1,000 takes Route 2.5 in 2,5 min');
    useLocale('no such locale');
    assert.equal(shown(3000), '3.000', 'an unknown one changes nothing');
  } finally {
    useLocale('en-US');
    useNames([]);
  }
});

test('numbers are turned in what the engine tells, and no name is', () => {
  try {
    useLocale('de-DE');
    useNames(['Tanker 3,000', 'old tanker']);
    assert.equal(asTold('Tanker 3,000: 3,000.5 L is small for the tank of a tender; dump rate of old tanker'), 'Tanker 3,000: 3.000,5 L is small for the tank of a tender; dump rate of old tanker');
  } finally {
    useLocale('en-US');
    useNames([]);
  }
});

test('a rare fire is never rounded to none, nor a near-certain one to all', () => {
  assert.deepEqual([0, 0.0002, 0.001, 0.063, 0.17, 0.95, 0.9996, 1].map(ofHundred), ['0', 'under 0.1', '0.1', '6.3', '17', '95', 'over 99.9', '100']);
});

test('a time that varies is read as it is shown', () => {
  for (const [words, value] of [
    ['11 ±15%', { mean: 11, cv: 0.15 }], ['9 min (±15%)', { mean: 9, cv: 0.15 }], ['11 +-15 %', { mean: 11, cv: 0.15 }], ['2,5 ± 12,5%', { mean: 2.5, cv: 0.125 }],
    ['10 to 14', { low: 10, high: 14 }], ['10-14', { low: 10, high: 14 }], ['10 – 14 min', { low: 10, high: 14 }], ['4 (3 to 8)', { low: 3, likely: 4, high: 8 }], ['4 min (3 to 8)', { low: 3, likely: 4, high: 8 }],
    ['~11', { value: 11, guess: true }], ['about 11', { value: 11, guess: true }],
    ['14 to 10', null], ['9 (3 to 8)', null], ['11', null], ['-11', null], ['11 ±', null], ['', null], ['ten to eleven', null], ['1e-3', null], ['Tanker 3-4', null],
  ]) assert.deepEqual(typedVarying(words), value, words);
});

test('a number whose mark may be the other one is asked about', () => {
  for (const [words, number] of [['2.400', 2400], [' 12.000 ', 12000], ['2,400', null], ['2.4', null], ['0.400', null], ['2.4000', null], ['2400', null], ['2.400 L', null]]) assert.equal(otherThousands(words), number, words);
  try {
    useLocale('de-DE');
    assert.deepEqual([otherThousands('2,400'), otherThousands('2.400')], [2400, null]);
  } finally {
    useLocale('en-US');
  }
});

test('how often is taken as it is said', () => {
  for (const [said, share] of [['8 in 10', 0.8], ['3 of 4', 0.75], ['3/4', 0.75], ['9 times out of 10', 0.9], ['4 times in 5', 0.8], ['0 of 0', null], ['three', null]]) assert.equal(typedShare(said), share, said);
});
