// The engines: each in a worker of its own, so that typing never waits for an answer.

/** Unpacks what travels in this file. */
export function unpacked(base64) {
  const packed = Uint8Array.from(atob(base64.trim()), (letter) => letter.charCodeAt(0));
  return new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip')));
}

/** What became of a call whose worker was stopped, because nobody waits for its answer any more. */
export const STOPPED = Symbol('stopped');

export class Engine {
  constructor(module, workerText) {
    this.module = module;
    this.address = URL.createObjectURL(new Blob([workerText], { type: 'text/javascript' }));
    this.waiting = new Map();
    this.number = 0;
    this.start();
  }

  start() {
    this.worker = new Worker(this.address);
    this.worker.onmessage = ({ data }) => {
      if (data.failed !== undefined) {
        this.fail(data.failed);
        return;
      }
      this.waiting.get(data.number)?.resolve(data.reply);
      this.waiting.delete(data.number);
    };
    this.worker.onerror = (event) => {
      event.preventDefault();
      this.fail(event.message);
    };
    this.worker.postMessage({ module: this.module });
  }

  /** Calls one of the engine's functions; the reply is parsed. */
  call(what, ...given) {
    const number = ++this.number;
    return new Promise((resolve, reject) => {
      this.waiting.set(number, { resolve, reject });
      this.worker.postMessage({ number, what, given });
    });
  }

  get isBusy() {
    return this.waiting.size > 0;
  }

  /** Gives up what it works on. */
  stop() {
    if (!this.isBusy) return;
    const given = [...this.waiting.values()];
    this.waiting.clear();
    this.restart();
    for (const call of given) call.resolve(STOPPED);
  }

  /** An engine that tripped is of no more use, nor is what waits for it. */
  fail(why) {
    const given = [...this.waiting.values()];
    this.waiting.clear();
    this.restart();
    for (const call of given) call.reject(new Error(why));
  }

  restart() {
    this.worker.terminate();
    this.start();
  }
}
