// Numbers as they are shown and as they are typed: with a comma or a point.

/** A number as the page writes it: thousands apart, no more digits than it has. */
export function shown(value, digits = 6) {
  return value.toLocaleString('en-US', { maximumFractionDigits: digits });
}

/**
 * A number as somebody typed it; NaN where it is none.
 *
 * "3,000" and "3 000" are three thousand, "2,4" and "2.4" two and four tenths: a comma before exactly three digits
 * separates thousands, as the page itself writes them.
 */
export function typed(text) {
  const tight = text.trim().replace(/[\s\u00a0\u202f'’]/g, '');
  if (/^[-+]?\d{1,3}(,\d{3})+(\.\d*)?$/.test(tight)) return Number(tight.replaceAll(',', ''));
  if (/^[-+]?\d{1,3}(\.\d{3}){2,}(,\d*)?$/.test(tight)) return Number(tight.replaceAll('.', '').replace(',', '.'));
  if (/^[-+]?\d{1,3}(\.\d{3})+,\d+$/.test(tight)) return Number(tight.replaceAll('.', '').replace(',', '.'));
  if (/^[-+]?(\d+([.,]\d*)?|[.,]\d+)$/.test(tight)) return Number(tight.replace(',', '.'));
  return NaN;
}

/** Fires of a hundred in words: "17", "6.3", "under 0.1". */
export function ofHundred(share) {
  const hundred = 100 * share;
  if (hundred === 0) return '0';
  if (hundred < 0.1) return 'under 0.1';
  if (hundred < 10 || hundred > 90) {
    if (hundred > 99.9 && hundred < 100) return 'over 99.9';
    return hundred.toFixed(1).replace(/\.0$/, '');
  }
  return String(Math.round(hundred));
}

/** Minutes to a tenth. */
export function minutes(value) {
  return value.toFixed(1).replace(/\.0$/, '');
}
