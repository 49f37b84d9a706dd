/*
From this device into the book. Saving goes on by itself until the desk has answered: a connection that
breaks off, a desk that is started again and a page that is opened again change nothing but the time.
*/

import { Gone, waitOf } from "./ask.js";

export class Saving {
  // `ways` says what is asked, and what is done with each answer.
  constructor(ways) {
    this.ways = ways;
    this.busy = false;
    this.wanted = false;
    this.tries = 0;
    this.later = 0;
  }

  start() {
    this.wanted = true;
    this.tries = 0;
    this.ways.wanted(true);
    this.push();
  }

  told(words) {
    this.#stop();
    this.ways.said(words || "The desk did not take it.");
  }

  async push() {
    if (!this.wanted || this.busy) return;
    const pictures = this.ways.pictures();
    if (pictures.refused.length) {
      this.told("A picture cannot be read; take it out, or choose another.");
      return;
    }
    if (pictures.waiting.length) {
      this.ways.tell(`Waiting for ${pictures.waiting.length === 1 ? "a picture" : `${pictures.waiting.length} pictures`} to reach the desk.`);
      pictures.push();
      return;
    }
    clearTimeout(this.later);
    this.busy = true;
    this.ways.tell("On its way into the book.");
    try {
      this.#answered(await this.ways.asked());
    } catch (fault) {
      if (!(fault instanceof Gone)) throw fault;
      this.#again();
    } finally {
      this.busy = false;
    }
  }

  #answered({ status, data }) {
    if (data.saved) {
      this.#stop();
      this.ways.saved(data);
    } else if (data.missing) {
      this.ways.pictures().lost(data.missing);
      this.later = setTimeout(() => this.push(), 200);
    } else if (data.conflict) {
      this.#stop();
      this.ways.conflict(data.conflict);
    } else if (status === 422) {
      this.#stop();
      this.ways.refused(data.remarks);
    } else if (status === 507) {
      this.told(data.said);
    } else if (status >= 500) {
      this.told(`The desk has stumbled; what went wrong stands in its window. Nothing of yours is lost`);
    } else {
      this.told(data.said);
    }
  }

  #again() {
    this.ways.tell("The desk does not answer. Nothing is lost: it goes into the book by itself when the desk is back.");
    this.later = setTimeout(() => this.push(), waitOf(this.tries));
    this.tries += 1;
  }

  #stop() {
    clearTimeout(this.later);
    this.wanted = false;
    this.ways.wanted(false);
  }
}
