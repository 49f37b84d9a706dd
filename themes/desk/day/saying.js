/*
What was said goes to the desk, and is asked again until the desk has heard it. It is kept on this device
from the first key on, and nothing of it is written anywhere else before it stands in a sheet.
*/

import { $ } from "./form.js";
import { Gone, device, newName, script, send, waitOf } from "./reach.js";

// A talk of three hours with a time for every line is a quarter of this.
const MOST = 4 * 1024 * 1024;
const TOO_MUCH = "This is more than the desk hears at once: a talk of three hours has about a megabyte. Take the words alone, or cut it in two.";
const NO_WORDS = "This is no text, and words are not read out of a recording. Give the words: .vtt, .srt or .txt, as a telephone or a program for captions writes them.";
const AWAY = "The desk does not answer. What you said is kept here, and is heard by itself when the desk is back.";

export class Saying {
  // `ways` holds the `page` and its `offers`, gives the `draft`, and keeps, tells and unfolds.
  constructor(ways) {
    this.ways = ways;
    this.confirming = null;
    this.busy = false;
    this.tries = 0;
    this.later = 0;
    for (const field of [$("#said-text"), $("#said-hand"), $("#said-recording")]) field?.addEventListener("input", () => this.#typed());
    $("#said-file").addEventListener("change", () => {
      this.#read($("#said-file").files[0]);
      $("#said-file").value = "";
    });
    $("#hear").addEventListener("click", () => this.#wanted());
    // What was typed before this script came.
    if ($("#said-text").value && !this.draft.said) this.#typed();
  }

  get draft() {
    return this.ways.draft();
  }

  // What is kept of it, as the page opens or is begun anew.
  show() {
    const { text = "", hand = this.ways.page.hand || "", recording = "" } = this.draft.said || {};
    $("#said-text").value = text;
    $("#said-hand").value = hand;
    if ($("#said-recording")) $("#said-recording").value = recording;
    this.ways.unfold(Boolean(text));
    const { heard, form } = this.draft;
    if (heard?.gone || (heard && !heard.lines.length && !form.talk)) this.draft.heard = null;
    this.shown = this.draft.heard || this.confirming ? this.#confirm() : null;
    this.push();
  }

  next() {
    this.confirming?.next();
  }

  refuse(words) {
    if (this.draft.said) this.draft.said.wanted = false;
    this.ways.keep();
    this.#tell(words, "wrong");
  }

  /* Typed, dictated, or read from a file */

  #typed(name = this.draft.said?.name || "") {
    const text = $("#said-text").value;
    const { draft } = this;
    draft.said = text.trim() ? { name, text, hand: $("#said-hand").value, recording: $("#said-recording")?.value || "", wanted: false } : null;
    const keeps = this.ways.keep();
    this.ways.tell();
    this.#tell(draft.said && !keeps ? `This ${device} keeps nothing: have it heard before you close the page.` : "");
  }

  async #read(file) {
    if (!file) return;
    const isText = /\.(txt|vtt|srt)$/i.test(file.name);
    if (file.size > MOST) {
      this.refuse(isText ? TOO_MUCH : NO_WORDS);
      return;
    }
    const bytes = await file.arrayBuffer();
    try {
      $("#said-text").value = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    } catch {
      // What is wrong with it the desk tells better.
      this.push({ ...this.#about(), name: file.name, blob: file });
      return;
    }
    const film = this.ways.offers.recordings.find((name) => stem(name) === stem(file.name));
    if (film) $("#said-recording").value = film;
    this.#typed(file.name);
  }

  #wanted() {
    const { said } = this.draft;
    if (!said) {
      this.refuse("Nothing was said yet: speak or paste into the field above, or choose the file.");
      return;
    }
    said.wanted = true;
    this.ways.keep();
    this.push();
  }

  /* Heard at the desk */

  #about() {
    return { day: $("#date").value, hand: $("#said-hand").value, subsystem: this.ways.page.heardSubsystem };
  }

  // What waits to be heard, or what is given, as a file of which no text can be kept.
  async push(given = null) {
    const { said } = this.draft;
    const asked = given || (said?.wanted && { ...this.#about(), name: said.name, blob: new Blob([said.text]) });
    if (!asked || this.busy) return;
    clearTimeout(this.later);
    this.busy = true;
    this.#tell("The desk is listening …");
    try {
      const { blob, ...about } = asked;
      this.#answered(await send(`/heard/${this.ways.offers.name}?${new URLSearchParams(about)}`, blob, "", () => {}));
      this.tries = 0;
    } catch (fault) {
      if (!(fault instanceof Gone)) throw fault;
      this.#tell(AWAY);
      this.later = setTimeout(() => this.push(given), waitOf(this.tries));
      this.tries += 1;
    } finally {
      this.busy = false;
    }
  }

  #answered({ status, data, text }) {
    if (status === 200) this.#take(data);
    else this.refuse(data.said || (status === 413 ? TOO_MUCH : text || "The desk did not take it."));
  }

  #tell(words, kind = "notice") {
    Object.assign($("#said-told"), { textContent: words, className: kind });
  }

  // The lines wait in the form; what was said before them stays.
  async #take(data) {
    const { draft } = this;
    const { page, changed } = this.ways;
    const form = page.read();
    const before = draft.heard && !draft.heard.gone ? draft.heard : { said: "", lines: [], total: 0 };
    const shift = before.said ? before.said.length + 2 : 0;
    const stamp = newName().slice(0, 8);
    const moved = ({ id, start, end, ...line }) => ({ ...line, id: `${stamp}-${id}`, start: start === null ? null : start + shift, end: end === null ? null : end + shift });
    const lines = [...before.lines, ...data.lines.map(moved)];
    draft.heard = { said: before.said ? `${before.said}\n\n${data.said}` : data.said, lines, total: before.total + data.lines.length, notes: data.notes };
    const recording = draft.said?.recording;
    draft.said = null;
    page.fill({
      ...form,
      title: form.title || data.title,
      subsystem: form.subsystem.length ? form.subsystem : data.subsystem,
      talk: form.talk ? { ...form.talk, text: `${form.talk.text}\n\n${data.talk.text}` } : data.talk,
      recording: recording && !form.recording.includes(recording) ? [recording, ...form.recording] : form.recording,
      draft: lines.map((line) => line.line),
    });
    changed();
    this.#tell("");
    this.show();
    await this.shown;
    this.confirming.begin();
  }

  // The scripts for it are asked for once there is something to confirm.
  async #confirm() {
    const { page, offers, changed } = this.ways;
    const { Confirming } = await script("confirming.js");
    this.confirming ??= new Confirming({
      page,
      heard: () => this.draft.heard,
      otherwise: () => this.draft.base?.form.otherwise || [],
      recording: () => recordingOf(offers, page.heard.recording),
      changed: (form) => {
        const lines = this.draft.heard.lines.map((line) => line.line);
        if (form) page.update({ ...form, draft: lines });
        page.heard.draft = lines;
        changed();
      },
    });
    await this.confirming.show();
  }
}

const stem = (name) => name.replace(/\.[^.]*$/, "");

function recordingOf(offers, [first]) {
  const file = first && (first.file ?? first);
  return offers.recordings.includes(file) ? `/${offers.name}/recordings/${encodeURIComponent(file)}` : "";
}
