/*
Pictures of a draft: shown at once, kept on the device, sent to the desk while the day is typed.

A picture is `here` (on this device), `going`, `there` (at the desk, which keeps it on its disk), or
`refused` (it is no picture that can be read). One that could not be sent is sent again by itself.
*/

import { API, Gone, ask, dropPicture, get, newName, picturesOf, putPicture, send, waitOf } from "./reach.js";

const AT_ONCE = 2;

export class Pictures {
  constructor(draft, changed) {
    this.draft = draft;
    this.changed = changed;
    this.all = [];
    this.going = 0;
    this.tries = 0;
    this.later = 0;
  }

  // What was kept of an earlier time, and what of it the desk has.
  async restore() {
    for (const kept of await picturesOf(this.draft)) {
      this.all.push(this.#known(kept, kept.id ? "there" : "here"));
      this.changed(this.all.at(-1));
    }
    if (this.all.some((picture) => picture.id)) await this.#confirm();
    this.push();
  }

  add(files) {
    return Promise.all([...files].map(async (blob) => {
      const kept = { key: newName(), draft: this.draft, name: blob.name, order: Date.now() + this.all.length / 1000, blob, id: "" };
      const picture = this.#known(kept, "here");
      this.all.push(picture);
      this.changed(picture);
      picture.kept = await putPicture(kept);
      this.changed(picture);
      this.push();
    }));
  }

  async remove(key) {
    const picture = this.all.find((one) => one.key === key);
    this.all = this.all.filter((one) => one !== picture);
    URL.revokeObjectURL(picture.url);
    await dropPicture(key);
    if (picture.id) await ask(`/pictures/${picture.id}`).catch(() => {});
  }

  // The desk says that it has not got these.
  lost(ids) {
    for (const picture of this.all) {
      if (ids.includes(picture.id)) Object.assign(picture, { id: "", state: "here" });
    }
    this.push();
  }

  async forget() {
    clearTimeout(this.later);
    const all = this.all;
    this.all = [];
    for (const picture of all) {
      URL.revokeObjectURL(picture.url);
      await dropPicture(picture.key);
    }
  }

  get waiting() {
    return this.all.filter((picture) => picture.state === "here" || picture.state === "going");
  }

  get refused() {
    return this.all.filter((picture) => picture.state === "refused");
  }

  // Send what waits, a few at once.
  push() {
    clearTimeout(this.later);
    this.later = 0;
    while (this.going < AT_ONCE) {
      const next = this.all.find((picture) => picture.state === "here");
      if (!next) return;
      this.#send(next);
    }
  }

  #known(kept, state) {
    return { ...kept, state, share: 0, words: "", kept: true, url: URL.createObjectURL(kept.blob) };
  }

  async #send(picture) {
    this.going += 1;
    Object.assign(picture, { state: "going", share: 0, words: "" });
    this.changed(picture);
    try {
      const answer = await send(`/drafts/${this.draft}/pictures`, picture.blob, picture.name, (share) => {
        picture.share = share;
        this.changed(picture);
      });
      await this.#answered(picture, answer);
    } catch (fault) {
      if (!(fault instanceof Gone)) throw fault;
      this.#again(picture, "");
    } finally {
      this.going -= 1;
      this.changed(picture);
    }
    if (!this.later) this.push();
  }

  async #answered(picture, { status, data, text }) {
    if (status === 200) {
      Object.assign(picture, { state: "there", id: data.id });
      this.tries = 0;
      if (picture.kept) await putPicture({ key: picture.key, draft: this.draft, name: picture.name, order: picture.order, blob: picture.blob, id: data.id });
    } else if (status === 413 || status === 415 || status === 400) {
      Object.assign(picture, { state: "refused", words: data.said || text || "The desk does not take this picture." });
    } else {
      this.#again(picture, data.said || "");
    }
  }

  #again(picture, words) {
    Object.assign(picture, { state: "here", words });
    clearTimeout(this.later);
    this.later = setTimeout(() => {
      this.later = 0;
      this.push();
    }, waitOf(this.tries));
    this.tries += 1;
  }

  async #confirm() {
    try {
      const { data } = await get(`/drafts/${this.draft}/pictures`);
      const there = new Set((data.pictures || []).map((picture) => picture.id));
      for (const picture of this.all) {
        if (picture.id && !there.has(picture.id)) Object.assign(picture, { id: "", state: "here" });
        this.changed(picture);
      }
    } catch (fault) {
      // Saving says which of them the desk lacks.
      if (!(fault instanceof Gone)) throw fault;
    }
  }
}

export const smallOf = (picture) => `${API}/pictures/${picture.id}`;

/*
From this device into the book. Saving goes on by itself until the desk has answered: a connection that
breaks off, a desk that is started again and a page that is opened again change nothing but the time.
*/

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
