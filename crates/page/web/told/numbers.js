// Numbers as the reader's locale writes them, and as they are typed: with a comma or a point.

const here = { locale: 'en-US', group: ',', decimal: '.' };

/** Numbers are written from now on as a locale writes them, in the digits 0 to 9; an unknown one changes nothing. */
export function useLocale(tag) {
  try {
    const latin = new Intl.Locale(tag, { numberingSystem: 'latn' }).toString();
    const parts = new Intl.NumberFormat(latin).formatToParts(-1234567.5);
    const of = (type) => parts.find((part) => part.type === type)?.value ?? '';
    Object.assign(here, { locale: latin, group: of('group'), decimal: of('decimal') });
  } catch {
    // A browser may name a locale that its own tables do not know.
  }
}

/** A number as the page writes it: thousands apart, no more digits than it has. */
export function shown(value, digits = 6) {
  return value.toLocaleString(here.locale, { maximumFractionDigits: digits, useGrouping: true });
}

/** A number with exactly so many digits after the decimal mark. */
export function shownTo(value, digits) {
  return value.toLocaleString(here.locale, { minimumFractionDigits: digits, maximumFractionDigits: digits, useGrouping: true });
}

/** Numbers within a text of the engine, which writes 1,250.5: as the reader's locale writes them. */
export function localNumbers(text) {
  if (here.group === ',' && here.decimal === '.') return text;
  return text.replace(/(?<![\d.,\p{L}])\d+(?:,\d{3})*(?:\.\d+)?(?![\d\p{L}]|[.,]\d)/gu, (found) => {
    const [whole, part] = found.split('.');
    const apart = whole.includes(',') ? whole.split(',').join(here.group) : whole;
    return part === undefined ? apart : `${apart}${here.decimal}${part}`;
  });
}

/**
 * A number as somebody typed it; NaN where it is none.
 *
 * Where the page itself writes "3,000", that is three thousand and "2.400" two and four tenths; where it writes
 * "3.000", that is three thousand and "2,400" two and four tenths. Any other comma or point is a decimal mark.
 */
export function typed(text) {
  const tight = text.trim().replace(/[\s\u00a0\u202f'’]/g, '').replace('\u2212', '-').replace(/^[$€£]/, '');
  const [group, decimal] = here.group === '.' ? ['.', ','] : [',', '.'];
  const inGroups = (mark, least) => new RegExp(`^[-+]?\\d{1,3}(\\${mark}\\d{2,3})*(\\${mark}\\d{3}){${least},}(\\${mark === ',' ? '.' : ','}\\d*)?$`);
  const plain = (mark) => Number(tight.replaceAll(mark, '').replace(',', '.'));
  // Of a locale that sets thousands apart by a space, neither mark does it alone.
  const least = here.group === ',' || here.group === '.' ? 1 : 2;
  if (inGroups(group, least).test(tight)) return plain(group);
  if (inGroups(decimal, 2).test(tight)) return plain(decimal);
  if (new RegExp(`^[-+]?\\d{1,3}(\\.\\d{3})+,\\d+$`).test(tight)) return plain('.');
  if (new RegExp(`^[-+]?\\d{1,3}(,\\d{3})+\\.\\d+$`).test(tight)) return plain(',');
  // "1e9" is a number too: what is wrong with it is how large it is.
  if (/^[-+]?(\d+([.,]\d*)?|[.,]\d+)(e[-+]?\d+)?$/i.test(tight)) return Number(tight.replace(',', '.'));
  return NaN;
}

/** What "2.400" means where the page writes 2,400 for it: the mark that is no thousands mark here may have been meant as one. Null of any other text. */
export function otherThousands(text) {
  const decimal = here.group === '.' ? ',' : '.';
  return new RegExp(`^\\s*[1-9]\\d{0,2}\\${decimal}\\d{3}\\s*$`).test(text) ? Number(text.trim().replace(decimal, '')) : null;
}

/**
 * Minutes of a time that was typed in hours and minutes, as "1h30", "1 h 30 min" or "45m"; NaN of any other text.
 *
 * - Given: `ofClock`, whether hours are surely meant, so that "1:30" is an hour and a half. Of a handling time it may
 *   as well be a minute and a half.
 */
export function typedMinutes(text, ofClock) {
  const [, hours, rest = '0'] = /^\s*(\d+)\s*(?:h|hrs?|hours?)\s*(?:and\s+)?(\d{1,2})\s*(?:m|mins?|minutes?)?\s*$/i.exec(text) ?? (ofClock ? /^\s*(\d+):(\d\d)\s*$/.exec(text) : null) ?? [];
  if (hours !== undefined) return Number(rest) < 60 ? 60 * Number(hours) + Number(rest) : NaN;
  const [, only] = /^\s*(\d+)\s*m\s*$/i.exec(text) ?? [];
  return only === undefined ? NaN : Number(only);
}

/** How often, as "8 in 10", "3 of 4" or "3/4"; null of any other text. */
export function typedShare(text) {
  const [, some, all] = /^\s*(\d+)\s*(?:(?:times\s+)?(?:in|of|out of)|\/)\s*(\d+)\s*$/i.exec(text) ?? [];
  return Number(all) > 0 ? Number(some) / Number(all) : null;
}

/** Ways to say how a time varies, as the page itself shows them, with the value each is in a scenario. */
const VARYING = [
  // "11 ±15%": a mean and its share; "4 (3 to 8)": likely, least, most; "10 to 14": anything between; "~11": known roughly.
  [/^(.+?)\s*\(?\s*(?:±|\+\/?-)\s*(.+?)\s*%\s*\)?$/, (mean, percent) => ({ mean, cv: Number((percent / 100).toPrecision(6)) })],
  [/^(.+?)\s*\((.+?)\s*(?:to|-|–)\s*(.+?)\)$/, (likely, low, high) => ({ low, likely, high })],
  [/^(.+?)\s*(?:to|-|–)\s*(.+?)$/, (low, high) => ({ low, high })],
  [/^(?:~|about\s)\s*(.+?)$/, (value) => ({ value, guess: true })],
];

/** A time that varies, as it was typed; null of any other text, also where the least is more than the most. */
export function typedVarying(text) {
  const plain = text.trim().replace(/\s*(?:min|minutes)\.?(?=\s|\)|$)/gi, '');
  for (const [form, made] of VARYING) {
    const numbers = form.exec(plain)?.slice(1).map(typed) ?? [];
    if (numbers.length === 0 || numbers.some((one) => !(one >= 0))) continue;
    const value = made(...numbers);
    return value.low !== undefined && (value.low > (value.likely ?? value.high) || (value.likely ?? value.low) > value.high) ? null : value;
  }
  return null;
}

/** A number with a unit, as "2,4 km" or "1,5 h", in the way the format writes it; null of any other text. */
export function typedWithUnit(text) {
  const [, number, unit] = /^\s*([-+]?[\d.,'’\s]*\d)\s*(\p{L}[^\d]*|%)\s*$/u.exec(text) ?? [];
  const value = number === undefined ? NaN : typed(number);
  return Number.isFinite(value) ? `${value} ${unit.trim()}`.replace(' %', '%') : null;
}

/** A number with a unit as the format writes it, as the page writes numbers; any other text as it is. */
export function shownWithUnit(text) {
  const [, number, unit] = /^(-?\d+(?:\.\d+)?)( \p{L}[^\d]*|%)$/u.exec(text) ?? [];
  return number === undefined ? text : `${shown(Number(number), 12)}${unit}`;
}

/** Fires of a hundred: "17", "6.3", "under 0.1". */
export function ofHundred(share) {
  const hundred = 100 * share;
  if (hundred === 0) return '0';
  if (hundred < 0.1) return `under ${shown(0.1)}`;
  if (hundred < 10 || hundred > 90) {
    if (hundred > 99.9 && hundred < 100) return `over ${shown(99.9)}`;
    return shown(hundred, 1);
  }
  return String(Math.round(hundred));
}

/** Minutes to a tenth. */
export function minutes(value) {
  return shown(value, 1);
}

/** How long the lines are short, min: "under 0.1", "1.1", "12". */
export function howLongOf(value) {
  return value < 0.1 ? `under ${shown(0.1)}` : value < 10 ? shown(value, 1) : shown(Math.round(value));
}
