// Keeping the plan: in this browser so that a closed tab loses nothing, and in files.

/** The largest file the engine reads; of a larger one it is given enough to say so. */
const MOST_BYTES = 8 * 1024 * 1024;

/** Steps back that a closed tab keeps. */
const MOST_KEPT = 40;

export class Keep {
  /** Given: the scenario that came with the page, so that pages of different fires do not mix. */
  constructor(embedded) {
    this.key = `bucketline-plan-${fingerprint(embedded)}`;
    this.works = true;
  }

  load() {
    try {
      return JSON.parse(localStorage.getItem(this.key));
    } catch {
      return null;
    }
  }

  /** Keeps the plan, how it is shown, and the last steps back; without those where there is no room for them. */
  store(plan, settings) {
    const now = { ...JSON.parse(plan.snapshot()), settings };
    this.works = [plan.past.slice(-MOST_KEPT), []].some((past) => {
      try {
        localStorage.setItem(this.key, JSON.stringify({ ...now, past }));
        return true;
      } catch {
        return false;
      }
    });
    return this.works;
  }
}

/** FNV-1a over the text, 32 bits: only to tell one page from another. */
function fingerprint(text) {
  let hash = 0x811c9dc5;
  for (const letter of text) hash = Math.imul(hash ^ letter.codePointAt(0), 0x01000193) >>> 0;
  return hash.toString(16);
}

/** The text of a chosen file, cut where it is too large anyway. */
export function textOf(file) {
  return file.slice(0, MOST_BYTES + 1).text();
}

/** Hands a text to the browser as a file to keep. */
export function handOut(name, text) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

/** A file name from a title: plain letters. */
export function fileName(title) {
  const plain = String(title ?? '').toLowerCase().replace(/[^\p{L}\p{N}]+/gu, '_').replace(/^_+|_+$/g, '').slice(0, 60);
  return `${plain === '' ? 'plan' : plain}.json`;
}
