/*
What was heard, confirmed line by line: the words on one side, what they would put into the day on the
other. A line that is accepted stands in the form; one that is not waits in the sheet and counts for
nothing. Asked for once there is something to confirm.
*/

import { $, $$, button, calm } from "./form.js";
import { taken } from "./taking.js";

const WIDE = matchMedia("(min-width: 64rem)");
const WHOSE = "Whose hours are these?";
const READERS = [["workshop", "only the workshop"], ["owner", "the owner too"], ["public", "everyone"]];

function el(tag, told = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(told)) {
    if (name in made) made[name] = value;
    else made.setAttribute(name, value);
  }
  made.append(...children.filter((child) => child !== null && child !== ""));
  return made;
}

let styled = null;

function styles() {
  styled ??= new Promise((done) => {
    const sheet = el("link", { rel: "stylesheet", href: new URL("./confirming.css", import.meta.url).href, onload: done, onerror: done });
    document.head.append(sheet);
  });
  return styled;
}

export class Confirming {
  // `ways` holds the `page`, says what was `heard`, and is told what has `changed`: a form, or none.
  constructor(ways) {
    this.ways = ways;
    this.root = $("#said");
    this.undone = [];
    this.last = "";
    this.back = "";
    addEventListener("keydown", (event) => event.key === "Escape" && this.#goBack());
    WIDE.addEventListener("change", () => this.#fold());
  }

  async show() {
    await styles();
    const heard = this.ways.heard();
    this.undone = [];
    this.root.hidden = !heard;
    if (!heard) return this.root.replaceChildren();
    const top = [el("h2", { id: "said-title", textContent: "What was heard" }), ...this.#notes(heard), this.#told(heard)];
    this.root.replaceChildren(...top, this.#bar(), el("div", { className: "heard-two" }, this.#talk(heard), this.#side()));
    this.#fold();
    this.#list();
    this.#tell();
  }

  get lines() {
    return this.ways.heard()?.lines || [];
  }

  /* What stands there */

  #notes(heard) {
    return (heard.notes || []).map((note) => el("p", { className: "notice", textContent: `${note[0].toUpperCase()}${note.slice(1)}.` }));
  }

  #told(heard) {
    const nothing = heard.total ? "" : "Nothing was heard in it that could be proposed. What was said is kept as the text of the day.";
    const words = nothing || "Nothing of it counts before you accept it. Until all lines are confirmed, the sheet is for the workshop alone.";
    return el("p", { className: "aside", textContent: words });
  }

  #bar() {
    this.count = el("p", { className: "heard-count", role: "status" });
    this.undo = button("Undo", "more", () => this.takeBack());
    this.undo.setAttribute("aria-keyshortcuts", "u");
    return el("div", { className: "heard-bar" }, this.count, this.undo);
  }

  #side() {
    this.list = el("div", { className: "heard-lines" });
    this.list.addEventListener("keydown", (event) => this.#key(event));
    this.list.addEventListener("focusin", (event) => this.#current(event.target.closest(".heard-line")));
    this.sure = button("", "more", () => this.acceptSure());
    this.besides = el("ul", { className: "besides" });
    return el("div", { className: "lines-side" }, el("p", { className: "ways" }, this.sure), this.list, this.besides, this.#readers(), this.#dropAll());
  }

  #dropAll() {
    const words = "Take out all that was said, and its lines";
    const all = button(words, "more", () => {
      this.ways.heard().gone = true;
      this.#act("Taken out.", (form) => ({ ...form, talk: null }), this.lines, true);
    });
    return el("p", { className: "ways heard-away" }, all);
  }

  #talk(heard) {
    const text = el("div", { className: "talk-text", tabIndex: 0, role: "region", "aria-label": "All that was said" });
    this.spans = [];
    let place = 0;
    for (const part of heard.said.split(/(\n{2,})/)) {
      if (part.trim()) text.append(el("p", {}, ...this.#pieces(part, place)));
      place += part.length;
    }
    text.addEventListener("click", (event) => this.#toLine(event.target.closest(".piece")));
    this.fold = el("details", { className: "talk" }, el("summary", {}, el("span", { textContent: "All that was said" })), text);
    return el("div", { className: "talk-side" }, this.fold);
  }

  // A paragraph cut wherever the words of a line begin or end.
  #pieces(part, place) {
    const lines = this.lines.filter((line) => line.start !== null && line.start < place + part.length && line.end > place);
    const cuts = new Set([0, part.length]);
    for (const { start, end } of lines) for (const cut of [start, end]) cuts.add(Math.min(Math.max(cut - place, 0), part.length));
    const order = [...cuts].sort((a, b) => a - b);
    return order.slice(0, -1).map((from, n) => {
      const words = part.slice(from, order[n + 1]);
      const ids = lines.filter((line) => line.start <= place + from && line.end >= place + order[n + 1]).map((line) => line.id);
      if (!ids.length) return words;
      const span = el("span", { className: "piece", textContent: words });
      this.spans.push({ span, ids });
      return span;
    });
  }

  #readers() {
    const { talk } = this.ways.page.heard;
    if (!talk) return "";
    const chips = READERS.map(([value, words]) => {
      const input = el("input", { type: "radio", name: "said-for", value, checked: talk.for === value });
      input.addEventListener("change", () => {
        this.ways.page.heard.talk = { ...this.ways.page.heard.talk, for: value };
        this.ways.changed();
      });
      return el("label", { className: "chip" }, input, el("span", { textContent: words }));
    });
    return el("fieldset", { className: "chips readers" }, el("legend", { textContent: "Who may read what was said" }), ...chips);
  }

  // On a wide screen all that was said stands beside the lines; on a phone it is unfolded when it is wanted.
  #fold() {
    if (!this.fold) return;
    this.fold.open = WIDE.matches;
    this.fold.classList.toggle("stands", WIDE.matches);
  }

  #list() {
    const groups = [];
    for (const line of this.lines) {
      const n = this.#paragraph(line, groups.at(-1)?.n ?? 1);
      if (groups.at(-1)?.n !== n) groups.push({ n, lines: [] });
      groups.at(-1).lines.push(line);
    }
    this.list.replaceChildren(...groups.map(({ n, lines }) => this.#group(n, lines)));
    this.#current(this.#card(this.last) || $(".heard-line", this.list));
    this.#besides();
  }

  #paragraph(line, before) {
    return line.start === null ? before : this.ways.heard().said.slice(0, line.start).split(/\n{2,}/).length;
  }

  #group(n, lines) {
    const words = lines[0].at ? `Paragraph ${n}, from ${lines[0].at}` : `Paragraph ${n}`;
    return el("section", { className: "heard-group", "aria-label": words }, el("p", { className: "label", textContent: words }), ...lines.map((line) => this.#made(line)));
  }

  #made(line) {
    const bare = !line.puts.length;
    const id = `line-${line.id}`;
    const card = el("article", { id, className: `heard-line${line.ask ? " asking" : ""}`, tabIndex: -1, "aria-labelledby": `${id}-words ${id}-puts` });
    const words = el("p", { className: "words", id: `${id}-words` }, el("q", { textContent: line.words }), line.at ? this.#when(line) : "");
    const puts = el("div", { className: "puts", id: `${id}-puts` }, ...line.puts.map((put) => this.#put(put, line)));
    if (line.ask) puts.append(el("p", { className: "asks", textContent: line.ask }));
    const hands = this.#hands(line);
    if (hands.length && line.ask !== WHOSE) puts.append(el("p", { className: "asks", textContent: WHOSE }));
    const way = (text, key, act) => {
      const made = button(text, key === "a" ? "save" : "more", act);
      if (key) made.setAttribute("aria-keyshortcuts", key);
      made.setAttribute("aria-describedby", `${id}-puts`);
      return made;
    };
    const change = way("Change", "c", () => this.change(line));
    const drop = way("Drop", "d", () => this.drop(line));
    const accept = hands.length ? hands.map(({ name, label }) => way(label, "", () => this.accept([line], name))) : [way(bare ? "Answered" : "Accept", "a", () => this.accept([line]))];
    card.append(words, puts);
    if (hands.length) card.append(el("div", { className: "line-ways whose" }, ...accept), el("div", { className: "line-ways" }, drop));
    else card.append(el("div", { className: "line-ways" }, ...accept, change, drop));
    card.addEventListener("click", (event) => event.target.closest("button, a") || this.#inTalk(line, card));
    return card;
  }

  // Among several hands somebody says whose hours these are, where the talk did not.
  #hands(line) {
    const { hands } = this.ways.page.offers;
    return "" in (line.form.hours || {}) && hands.length > 1 ? hands : [];
  }

  #isSure(line) {
    return !line.ask && line.puts.length > 0 && !this.#hands(line).length;
  }

  #when(line) {
    const file = this.ways.recording();
    if (!file) return el("span", { className: "at", textContent: line.at });
    return el("a", { className: "at", href: `${file}#t=${line.seconds}`, target: "_blank", textContent: line.at, "aria-label": `${line.at}, in the recording` });
  }

  #put({ heading, about, says }, line) {
    const same = heading === "Snag" && says === line.words;
    const told = el("p", { className: "put" }, el("span", { className: "label", textContent: heading }), " ");
    if (about) told.append(el("b", { textContent: about }), says ? ": " : "");
    told.append(same ? "in these words" : says);
    return told;
  }

  #besides() {
    const { beside } = this.ways.page.heard;
    this.besides.hidden = !beside.length;
    this.besides.replaceChildren(...beside.map((line, n) => {
      const away = button("Take out", "more", () => this.#act("Taken out.", (form) => ({ ...form, beside: form.beside.filter((_, m) => m !== n) }), []));
      return el("li", {}, el("span", { textContent: `Taken over as well, in no card below: ${line.words}` }), away);
    }));
  }

  /* Where one is */

  #card(id) {
    return id && this.list.querySelector(`#${CSS.escape(`line-${id}`)}`);
  }

  #current(card) {
    if (!card || card.classList.contains("now")) return;
    for (const one of $$(".heard-line", this.list)) {
      one.classList.toggle("now", one === card);
      one.tabIndex = one === card ? 0 : -1;
      for (const way of $$("button, a", one)) way.tabIndex = one === card ? 0 : -1;
    }
    this.last = card.id.slice("line-".length);
    this.#mark();
  }

  // The words of the line at hand are marked in the talk; those that wait are underlined.
  #mark() {
    const waiting = new Map(this.lines.map((line) => [line.id, line]));
    let first = null;
    for (const { span, ids } of this.spans) {
      const left = ids.filter((id) => waiting.has(id));
      const now = left.includes(this.last);
      first ??= now ? span : null;
      span.className = ["piece", left.length && "waits", left.length && left.every((id) => waiting.get(id).ask) && "asks", now && "now"].filter(Boolean).join(" ");
    }
    if (first && WIDE.matches) {
      const box = first.closest(".talk-text");
      box.scrollTo({ top: first.offsetTop - box.clientHeight / 3, behavior: calm() });
    }
  }

  #toLine(piece) {
    const told = this.spans.find(({ span }) => span === piece);
    const id = told?.ids.find((one) => this.lines.some((line) => line.id === one));
    if (id) this.#focus(this.#card(id), "center");
  }

  // On a phone the words of a line are shown within what was said around them.
  #inTalk(line, card) {
    card.focus({ preventScroll: true });
    const around = $(".around", card);
    if (around) return around.remove();
    if (WIDE.matches || line.start === null) return;
    const { said } = this.ways.heard();
    const from = Math.max(said.lastIndexOf("\n\n", line.start), -2) + 2;
    const to = said.indexOf("\n\n", line.end);
    const text = el("p", { className: "around" }, said.slice(Math.max(from, 0), line.start), el("mark", { textContent: said.slice(line.start, line.end) }), said.slice(line.end, to < 0 ? said.length : to));
    $(".words", card).after(text);
  }

  #focus(card, block = "nearest") {
    if (!card) return;
    card.focus({ preventScroll: true });
    card.scrollIntoView({ block, behavior: calm() });
  }

  // The first line is at hand, and all of it comes into sight.
  begin() {
    const first = this.#card(this.last) || this.root;
    first.focus({ preventScroll: true });
    this.root.scrollIntoView({ block: "start", behavior: calm() });
  }

  // The line that is next to be confirmed.
  next() {
    this.#focus(this.#card(this.last) || $(".heard-line", this.list), "center");
  }

  #goBack() {
    if (!this.back || !document.activeElement?.closest(this.back)) return;
    this.back = "";
    this.next();
  }

  #key(event) {
    const card = event.target.closest(".heard-line");
    if (!card || event.ctrlKey || event.metaKey || event.altKey) return;
    const line = this.lines.find((one) => `line-${one.id}` === card.id);
    const cards = $$(".heard-line", this.list);
    const to = (n) => this.#focus(cards[Math.min(Math.max(n, 0), cards.length - 1)], "center");
    const keys = {
      a: () => this.accept([line]), c: () => this.change(line), d: () => this.drop(line), u: () => this.takeBack(),
      ArrowDown: () => to(cards.indexOf(card) + 1), ArrowUp: () => to(cards.indexOf(card) - 1), Home: () => to(0), End: () => to(cards.length - 1),
    };
    const act = keys[event.key.length === 1 ? event.key.toLowerCase() : event.key];
    if (!act) return;
    event.preventDefault();
    act();
  }

  /* What is done */

  accept(lines, hand = "") {
    const bare = lines.length === 1 && !lines[0].puts.length;
    if (lines.length === 1 && !hand && this.#hands(lines[0]).length) {
      $(".whose button", this.#card(lines[0].id)).focus();
      return;
    }
    const { form, done, why, at } = this.#take(lines, hand);
    if (why) this.count.textContent = why;
    if (done.length) this.#act(bare ? "Answered." : done.length === 1 ? "Accepted." : `${done.length} lines accepted.`, () => form, done);
    else if (at) this.ways.page.open(...at);
  }

  #take(lines, hand) {
    let form = this.ways.page.read();
    const done = [];
    let told = {};
    for (const line of lines) {
      const one = taken(form, line, this.#among(hand));
      if (one.why) told = one;
      else {
        form = one.form;
        done.push(line);
      }
    }
    return { ...told, form, done };
  }

  #among(hand = "") {
    const { hands } = this.ways.page.offers;
    return { otherwise: this.ways.otherwise(), hand: hand || (hands.length === 1 ? hands[0].name : "") };
  }

  acceptSure() {
    this.accept(this.lines.filter((line) => this.#isSure(line)));
  }

  // What the line puts stands in the form, and the card that it fills is open.
  change(line) {
    if (this.#hands(line).length) return this.accept([line]);
    if (!line.puts.length) return this.#open(line.of.length ? ["work", line.of[0]] : null);
    const one = taken(this.ways.page.read(), line, this.#among());
    if (one.why) {
      this.count.textContent = one.why;
      this.ways.page.open(...one.at);
      return;
    }
    this.#act("It stands in the form, to be changed.", () => one.form, [line], true);
    this.#open(one.places[0] || null);
  }

  #open(place) {
    const { page } = this.ways;
    if (!place) return $("#pick").focus();
    if (place[0] === "work" && !page.cards("work").some((card) => card.dataset.name === place[1])) page.work(place[1]);
    const card = page.open(...place);
    this.back = card ? `#${card.closest("section, details, fieldset").id}` : "";
  }

  drop(line) {
    this.#act("Dropped.", (form) => form, [line]);
  }

  // Lines that are settled go, and the next one is at hand; what was done can be taken back.
  #act(words, change, settled, stay = false) {
    const { page } = this.ways;
    const before = page.read();
    const lines = this.lines;
    const gone = new Set(settled.map((line) => line.id));
    const cards = $$(".heard-line", this.list);
    const at = cards.findIndex((card) => gone.has(card.id.slice("line-".length)));
    const left = cards.filter((card) => !gone.has(card.id.slice("line-".length)));
    const next = left[left.findIndex((card) => cards.indexOf(card) > at)] || left.at(-1);
    const form = change(before);
    this.ways.heard().lines = lines.filter((line) => !gone.has(line.id));
    this.ways.changed(form === before ? null : form);
    this.undone.push({ before, lines, after: JSON.stringify(page.read()) });
    for (const card of cards) if (gone.has(card.id.slice("line-".length))) card.remove();
    for (const group of $$(".heard-group", this.list)) if (!$(".heard-line", group)) group.remove();
    this.#besides();
    this.#tell(words);
    if (next) this.#current(next);
    else this.#mark();
    if (!stay && gone.size) this.#focus(next || this.root);
  }

  takeBack() {
    const done = this.undone.pop();
    if (!done) return;
    const { page } = this.ways;
    // What was typed since stays; then the lines alone wait again.
    const typed = JSON.stringify(page.read()) !== done.after;
    Object.assign(this.ways.heard(), { lines: done.lines, gone: false });
    this.ways.changed(typed ? { ...page.read(), talk: page.heard.talk || done.before.talk } : done.before);
    const back = done.lines.find((line) => !this.#card(line.id));
    this.last = back?.id || this.last;
    this.#list();
    this.#mark();
    this.#tell(typed ? "Taken back; what stands in the form stays there, since more was typed." : "Taken back.");
    this.#focus(this.#card(this.last), "center");
  }

  #tell(words = "") {
    const left = this.lines.length;
    const { total, gone } = this.ways.heard();
    const sure = this.lines.filter((line) => this.#isSure(line)).length;
    const count = left ? `${left} of ${total} left.` : total && !gone ? "All are confirmed: save it." : "";
    this.count.textContent = [words, count].filter(Boolean).join(" ");
    this.undo.hidden = !this.undone.length;
    this.sure.hidden = sure < 2;
    this.sure.textContent = sure === left ? `Accept all ${sure}` : `Accept the ${sure} that are sure`;
    this.root.classList.toggle("done", !left && total > 0);
  }
}
