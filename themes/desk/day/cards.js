/*
What stands on the day page, made of what the desk offers and of what a form says: rows of hours,
cards of components, parts, measurements and pictures, snags and parts to tick.
*/

import { $, $$, button, calm, choiceFor, dayWords, entryOf, fieldsOf, fillCard, grow, made, nameFor, setValue, stepped, unfold, valueOf } from "./form.js";
import { smallOf } from "./sending.js";

const STATES = { here: "on this DEVICE", going: "on its way to the desk", there: "at the desk" };

export class Page {
  constructor(offers, device, changed) {
    this.offers = offers;
    this.device = device;
    this.changed = changed;
    this.pictures = null;
    this.hand = null;
    this.base = null;
    this.shown = {};
    this.heard = {};
    this.filling = false;
    this.components = new Map(offers.components.map((component) => [component.key, component]));
  }

  get subsystem() {
    return $("#subsystem input:checked")?.value || "";
  }

  // What a talk is likely about: one subsystem, when one is chosen.
  get heardSubsystem() {
    return this.subsystem.includes(",") ? "" : this.subsystem;
  }

  cards(kind) {
    return $$(`#${kind} .cards > [data-kind=${kind}]`);
  }

  /* The form */

  read() {
    return {
      date: $("#date").value,
      title: $("#title").value,
      subsystem: this.subsystem.split(",").filter(Boolean),
      hours: Object.fromEntries($$(".hours-row").map((row) => [row.dataset.hand, $("input", row).value.trim()]).filter(([, hours]) => hours && hours !== "0")),
      body: $("#body").value,
      work: this.cards("work").map(entryOf),
      parts: joined([...this.cards("parts").map((card) => this.#named(card, "what", this.offers.names.parts)), ...this.#received()]),
      measured: this.cards("measured").map(entryOf),
      snags: joined([...this.cards("snags").map((card) => this.#named(card, "raise", this.offers.names.snags)), ...this.#cleared()].filter((entry) => entry.raise || entry.clear || entry.kept)),
      photos: this.cards("photos").map((card) => ({ ...entryOf(card), id: this.#idOf(card), file: card.dataset.file || "", key: card.dataset.key || "" })),
      ...this.heard,
    };
  }

  fill(form) {
    this.filling = true;
    this.heard = heardOf(form);
    for (const list of ["#open-snags", "#waiting"]) $(list).replaceChildren();
    for (const kind of ["work", "parts", "measured", "snags"]) this.cards(kind).forEach((card) => card.remove());
    $$("#photos .cards > [data-file]").forEach((card) => card.remove());
    if (form.date) $("#date").value = form.date;
    $("#title").value = form.title || "";
    $("#body").value = form.body || "";
    this.#chooseSubsystem(form.subsystem || []);
    this.#fillHours(form.hours || {}, form.otherwise || []);
    for (const entry of form.work || []) this.addWork(entry);
    for (const entry of form.measured || []) this.addCard("measured", entry);
    this.subsystemChanged();
    for (const entry of form.parts || []) this.#fillPart(entry);
    for (const entry of form.snags || []) this.#fillSnag(entry);
    for (const entry of form.photos || []) this.#fillPhoto(entry);
    this.roomForSnag();
    this.filling = false;
    this.offerComponents();
    for (const [id, filled] of [["parts", $("#parts .card, #parts li input:checked")], ["measured", $("#measured .card")], ["heading", form.title]]) $(`#${id}`).open = Boolean(filled);
    grow($("#body"));
  }

  // The form with some entries otherwise: only their cards are made anew, among many.
  update(form) {
    const now = this.read();
    const changed = ["work", "measured", "parts", "snags"].flatMap((kind) => differing(now[kind], form[kind]).map((name) => [kind, name]));
    if (changed.some(([kind, name]) => this.#tickedRow(kind, name))) {
      this.fill(form);
      return;
    }
    this.heard = heardOf(form);
    this.filling = true;
    if (!alike(now.hours, form.hours)) this.#fillHours(form.hours, this.base?.otherwise || []);
    if (!alike(now.subsystem, form.subsystem)) this.#chooseSubsystem(form.subsystem);
    for (const [kind, name] of changed) this.#renew(kind, name, form[kind].find((entry) => entry.name === name));
    this.subsystemChanged();
    this.roomForSnag();
    this.filling = false;
    if (changed.some(([kind]) => kind === "work")) this.offerComponents();
    for (const id of ["parts", "measured"]) if ($(".card", $(`#${id}`))) $(`#${id}`).open = true;
  }

  #tickedRow(kind, name) {
    const list = { snags: "#open-snags", parts: "#waiting" }[kind];
    return list && this.#ticked(list).some((row) => row.dataset.name === name);
  }

  #renew(kind, name, entry) {
    const before = this.cards(kind).find((card) => nameOf(card) === name);
    if (!entry) return before?.remove();
    const last = this.cards(kind).at(-1);
    const count = this.cards(kind).length;
    const fill = { work: () => this.addWork(entry), measured: () => this.addCard("measured", entry), parts: () => this.#fillPart(entry), snags: () => this.#fillSnag(entry) };
    fill[kind]();
    // A part that is awaited is ticked, and has no card.
    const made = this.cards(kind);
    const card = made.at(-1);
    if (made.length === count) return before?.remove();
    this.#offerIn(card);
    if (before) before.replaceWith(card);
    // The place for one snag more stays the last.
    else if (kind === "snags" && last && !valueOf($("[data-field=raise]", last)).trim()) last.before(card);
  }

  // What is new is named by its words, which may still change; what the book knows keeps its name, and
  // so does what was named when it was heard.
  #named(card, field, taken) {
    const entry = entryOf(card);
    if (card.dataset.known === undefined && card.dataset.given === undefined) {
      const before = $$(`[data-kind=${card.dataset.kind}]`).filter((other) => other.compareDocumentPosition(card) & Node.DOCUMENT_POSITION_FOLLOWING);
      const text = entry[field].trim();
      card.dataset.name = text && nameFor(text, new Set([...taken, ...before.map((other) => other.dataset.name)]));
    }
    return { ...entry, name: card.dataset.name, kept: card.dataset.known !== undefined };
  }

  /* Subsystem and hours */

  #chooseSubsystem(names) {
    const value = names.join(",");
    for (const input of $$("#subsystem input")) input.checked = input.value === value;
    if (value && !this.subsystem) choiceFor($("#subsystem"), value, names.map((name) => this.#branchOf(name)).join(", ")).checked = true;
  }

  #branchOf(name) {
    return this.offers.subsystems.find((one) => one.name === name)?.label || name;
  }

  subsystemChanged() {
    const name = this.subsystem;
    const snags = this.offers.snags.filter((snag) => snag.subsystem === name);
    this.#offerTicks("#open-snags", snags.map((snag) => [snag.name, () => this.#tick("tick", snag.name, snag.text, snag.hold ? "stops the handover" : `since ${dayWords(snag.raised)}`)]));
    const waiting = this.offers.waiting.filter((part) => !name || part.subsystems.includes(name));
    this.#offerTicks("#waiting", waiting.map((part) => [part.name, () => this.#tick("waiting", part.name, part.what, `ordered ${dayWords(part.ordered)}`)]));
    const known = new Set(this.cards("work").map((card) => card.dataset.name));
    const recent = (this.offers.recent[name] || []).filter((key) => !known.has(key));
    $("#recent").replaceChildren(...recent.map((key) => button(this.labelOf(key), "chip-button", () => this.work(key))));
    $("#recent").hidden = !recent.length;
  }

  #fillHours(hours, otherwise) {
    $("#rows").replaceChildren();
    const bare = "" in hours;
    const hands = bare ? [{ name: "", label: "Hours" }] : [...this.offers.hands].filter((hand) => !otherwise.includes(hand.name));
    for (const name of Object.keys(hours)) if (!hands.some((hand) => hand.name === name)) hands.push({ name, label: name });
    const likely = (hand) => 2 * (hand.name in hours) + (hand.name === this.hand);
    hands.sort((a, b) => likely(b) - likely(a));
    hands.forEach((hand, n) => (n === 0 || hand.name in hours ? this.#addRow(hand, hours[hand.name] || "") : this.#offerRow(hand)));
    $("#otherwise").hidden = !otherwise.length;
    if (otherwise.length) $("#otherwise").textContent = `${otherwise.filter(Boolean).join(", ") || "The hours"}: told with their kind or by subsystem, and kept as written.`;
  }

  #addRow(hand, hours) {
    const row = made("hours");
    row.dataset.hand = hand.name;
    $("span", row).textContent = hand.label;
    const input = $("input", row);
    input.value = hours;
    $(".steps", row).setAttribute("aria-label", hand.label);
    for (const step of $$("[data-step]", row)) {
      step.setAttribute("aria-label", `${step.textContent} hours, ${hand.label}`);
      step.addEventListener("click", () => {
        input.value = stepped(input.value, Number(step.dataset.step));
        this.changed();
      });
    }
    $("#rows").append(row);
    return row;
  }

  #offerRow(hand) {
    const offer = button(`${hand.label} too`, "chip-button", () => {
      const row = this.#addRow(hand, "");
      offer.replaceWith(row);
      $("input", row).focus();
    });
    $("#rows").append(offer);
  }

  /* Components */

  labelOf(key) {
    return this.components.get(key)?.label || key;
  }

  // A component that is chosen: its card, new or there already.
  work(key) {
    const known = this.cards("work").find((card) => card.dataset.name === key);
    const card = known || this.addWork({ name: key });
    this.subsystemChanged();
    this.offerComponents();
    this.#suggest();
    card.scrollIntoView({ block: "start", behavior: calm() });
    card.focus({ preventScroll: true });
    this.changed();
  }

  addWork(entry) {
    const card = this.#card("work", entry);
    const component = this.components.get(entry.name);
    $("h3", card).textContent = this.labelOf(entry.name);
    $(".aside", card).textContent = component ? `${component.subsystem}; now ${component.now}, ${component.position}` : "not in the register";
    this.#takeAway(card, this.labelOf(entry.name));
    const departs = () => {
      const now = valueOf($("[data-field=now]", card));
      $(".when-now", card).hidden = !now && !["why", "decided", "original"].some((name) => entry[name]);
    };
    card.addEventListener("change", departs);
    departs();
    $(".rest", card).open = Boolean(entry.found || entry.verdict || entry.retained);
    return card;
  }

  addCard(kind, entry = {}) {
    const card = this.#card(kind, entry);
    const title = $("h3", card);
    if (title) title.textContent = entry.name || (kind === "parts" ? "A part" : "A measurement");
    if (kind === "measured") {
      $("[data-field=name]", card).readOnly = Boolean(this.base?.measured.some((one) => one.name === entry.name));
      if (!entry.unit) $("[data-field=unit]", card).selectedIndex = 0;
    }
    if (kind === "parts" && entry.name === undefined) $("[data-field=ordered]", card).value = $("#date").value;
    this.#takeAway(card, title?.textContent || kind);
    this.offerComponents();
    return card;
  }

  #card(kind, entry) {
    const card = made(kind);
    if (entry.name !== undefined && kind !== "measured") card.dataset.name = entry.name;
    if (entry.given) card.dataset.given = entry.given;
    card.unseen = unseen(card, entry);
    card.tabIndex = -1;
    if (!this.filling) this.#offerIn(card);
    fillCard(card, entry);
    for (const more of $$("[data-more]", card)) unfold(more);
    $(`#${kind} .cards`).append(card);
    const known = this.base?.[kind].find((one) => (kind === "photos" ? one.file === entry.file : one.name === entry.name));
    if (known && same(known, entry)) this.#fold(card, known);
    else if (entry.given === "folded") this.#fold(card, entry);
    return card;
  }

  // What stands in the book already, or was heard and confirmed, is one line until it is to be changed.
  #fold(card, entry) {
    card.classList.add("folded");
    const said = document.createElement("p");
    said.className = "said";
    said.textContent = told(entry, (text) => this.components.get(text)?.label || text);
    const open = button("Change", "more unfold", () => {
      card.classList.remove("folded");
      this.#offerIn(card);
      if (card.dataset.given) card.dataset.given = "open";
      said.remove();
      open.remove();
      $("input, select", card)?.focus();
    });
    open.setAttribute("aria-label", `Change ${entry.name || entry.file}`);
    card.append(said, open);
  }

  #takeAway(card, label) {
    const away = $(".away", card);
    away.setAttribute("aria-label", `Take out ${label}`);
    away.addEventListener("click", () => {
      if (card.dataset.key) this.pictures.remove(card.dataset.key);
      card.remove();
      this.subsystemChanged();
      this.offerComponents();
      this.changed();
    });
  }

  // The components of this sheet, where one of them is to be chosen; once, when many cards are made.
  offerComponents() {
    if (this.filling) return;
    for (const fieldset of $$("[data-components]")) if (!fieldset.closest(".folded")) this.#offerIn(fieldset.parentElement);
  }

  #offerIn(card) {
    for (const fieldset of $$("[data-components]", card)) {
      const keys = this.cards("work").map((one) => one.dataset.name);
      const named = () => $$("input", fieldset).filter((input) => input.value);
      for (const input of named()) {
        if (!input.checked && !keys.includes(input.value)) input.closest("label").remove();
      }
      for (const key of keys) choiceFor(fieldset, key, this.labelOf(key));
      for (const input of named()) input.nextElementSibling.textContent = this.labelOf(input.value);
      fieldset.hidden = !named().length;
    }
  }

  // With one component on the sheet a picture most likely shows it; it is seen, and untapped if not.
  #suggest() {
    const keys = this.cards("work").map((card) => card.dataset.name);
    if (keys.length !== 1) return;
    for (const card of this.cards("photos")) {
      if (card.dataset.own === undefined && card.dataset.key) setValue($("[data-field=of]", card), keys);
    }
  }

  /* Snags and parts to tick */

  #tick(kind, name, text, note) {
    const row = made(kind);
    row.dataset.name = name;
    const box = $("label > input", row);
    $("label > span", row).textContent = text;
    $("label > small", row).textContent = note;
    box.addEventListener("change", () => ($(".when-ticked", row).hidden = !box.checked));
    return row;
  }

  // What is ticked stays, whatever else is offered.
  #offerTicks(list, offered) {
    const here = new Map($$(`${list} > li`).map((row) => [row.dataset.name, row]));
    const rows = offered.map(([name, make]) => here.get(name) || make());
    $(list).replaceChildren(...rows, ...this.#ticked(list).filter((row) => !rows.includes(row)));
  }

  #ticked(list) {
    return $$(`${list} > li`).filter((row) => $("label > input", row).checked);
  }

  #cleared() {
    return this.#ticked("#open-snags").map((row) => ({ name: row.dataset.name, clear: valueOf($("[data-field=clear]", row)).trim() || "done" }));
  }

  #received() {
    return this.#ticked("#waiting").map((row) => ({ name: row.dataset.name, received: row.dataset.received || $("#date").value, ...entryOfRow(row) }));
  }

  #fillSnag(entry) {
    if (entry.clear && !entry.raise) {
      const row = this.#rowOf("#open-snags", "tick", entry.name, entry.name, "put right that day");
      setValue($("[data-field=clear]", row), entry.clear === "done" ? "" : entry.clear);
      return;
    }
    this.#know("snags", this.addCard("snags", entry), entry.name);
  }

  #fillPart(entry) {
    const awaited = this.offers.waiting.some((part) => part.name === entry.name);
    const more = ["what", "number", "qty", "price", "promised", "ordered", "from", "of"].some((name) => entry[name]?.length);
    if (!awaited || more) {
      this.#know("parts", this.addCard("parts", entry), entry.name);
      return;
    }
    const row = this.#rowOf("#waiting", "waiting", entry.name, entry.name, "");
    row.dataset.received = entry.received || "";
    for (const field of fieldsOf(row)) setValue(field, entry[field.dataset.field]);
  }

  // The card of an entry, unfolded, with its first field ready to be written into.
  open(kind, name) {
    const card = kind === "hours" ? $$(".hours-row").find((row) => row.dataset.hand === name) : this.cards(kind).find((one) => nameOf(one) === name);
    if (!card) return null;
    for (let fold = card.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
    $(".unfold", card)?.click();
    const first = $("input, select, textarea", card);
    first.focus({ preventScroll: true });
    card.scrollIntoView({ block: "center", behavior: calm() });
    return card;
  }

  #know(kind, card, name) {
    if (this.base?.[kind].some((entry) => entry.name === name)) card.dataset.known = "";
  }

  #rowOf(list, kind, name, text, note) {
    let row = $$(`${list} > li`).find((one) => one.dataset.name === name);
    if (!row) {
      row = this.#tick(kind, name, text, note);
      $(list).append(row);
    }
    $("label > input", row).checked = true;
    $(".when-ticked", row).hidden = false;
    return row;
  }

  // There is always room for one snag more.
  roomForSnag() {
    const cards = this.cards("snags");
    for (const card of cards) $(".after", card).hidden = !valueOf($("[data-field=raise]", card)).trim();
    if (!cards.length || valueOf($("[data-field=raise]", cards.at(-1))).trim()) this.addCard("snags");
  }

  /* Pictures */

  #idOf(card) {
    return this.pictures?.all.find((picture) => picture.key === card.dataset.key)?.id || "";
  }

  #fillPhoto(entry) {
    if (entry.file) {
      const card = this.addCard("photos", entry);
      card.dataset.file = entry.file;
      const src = this.shown[entry.file];
      if (src) $("img", card).src = src;
      $("img", card).hidden = !src;
      $(".where", card).textContent = `${entry.file}, in the book`;
      $(".rest", card).open = Boolean(entry.caption || entry.alt);
      return;
    }
    const card = entry.key && $(`[data-key="${entry.key}"]`);
    if (card) {
      fillCard(card, entry);
      card.dataset.own = "";
    }
  }

  // A picture as it is by now: a new card, or another word on the one that is there.
  showPicture(picture) {
    let card = $(`#photos [data-key="${picture.key}"]`);
    if (!this.pictures.all.includes(picture)) return;
    if (!card) {
      card = this.addCard("photos", {});
      card.dataset.key = picture.key;
      const image = $("img", card);
      image.addEventListener("error", () => {
        if (picture.id && !image.src.endsWith(picture.id)) image.src = smallOf(picture);
        else image.hidden = true;
      });
      image.src = picture.url;
      $("[data-field=of]", card).addEventListener("change", () => (card.dataset.own = ""));
      this.#suggest();
    }
    const bar = $("progress", card);
    bar.hidden = picture.state !== "going";
    bar.value = picture.share;
    bar.setAttribute("aria-label", `${picture.name} goes to the desk`);
    const image = $("img", card);
    if (image.hidden && picture.id) Object.assign(image, { src: smallOf(picture), hidden: false });
    $(".away", card).setAttribute("aria-label", `Take out ${picture.name}`);
    const where = $(".where", card);
    where.classList.toggle("wrong", picture.state === "refused");
    const unkept = picture.kept ? "" : ", as long as this page is open";
    where.textContent = picture.state === "refused" ? picture.words : `${picture.name}, ${STATES[picture.state].replace("DEVICE", this.device)}${unkept}${picture.words ? `: ${picture.words}` : ""}`;
  }
}

// What an entry says, in the order of its fields.
const told = (entry, labelOf) =>
  Object.entries(entry)
    .filter(([name, value]) => !["name", "file", "alt", "given"].includes(name) && value && value.length !== 0)
    .map(([name, value]) => (value === true ? (name === "hold" ? "stops the handover" : name) : [value].flat().map(labelOf).join(", ")))
    .join("; ");

const nameOf = (card) => card.dataset.name ?? $("[data-field=name]", card)?.value;

// What was said stands in no card: the words, the lines of it that wait, and what they bring besides.
const heardOf = (form) => ({ talk: form.talk || null, recording: form.recording || [], draft: form.draft || [], beside: form.beside || [] });

const alike = (one, other) => JSON.stringify(one) === JSON.stringify(other);

// The names of entries that are there in one list alone, or otherwise in the other.
function differing(now, then) {
  const before = new Map(now.map((entry) => [entry.name, entry]));
  const after = new Map(then.map((entry) => [entry.name, entry]));
  return [...new Set([...before.keys(), ...after.keys()])].filter((name) => !alike(before.get(name), after.get(name)));
}

// What an entry says and no field of its card shows.
function unseen(card, entry) {
  const seen = new Set(["name", "file", "id", "key", "given", ...fieldsOf(card).map((field) => field.dataset.field)]);
  return Object.fromEntries(Object.entries(entry).filter(([name]) => !seen.has(name)));
}

const same = (one, other) => Object.keys(one).every((name) => JSON.stringify(one[name]) === JSON.stringify(other[name] ?? one[name]));

const entryOfRow = (row) => Object.fromEntries(fieldsOf(row).map((field) => [field.dataset.field, valueOf(field)]));

// Two lines on one thing are one.
function joined(entries) {
  const found = new Map();
  for (const { kept: _, ...entry } of entries) {
    if (entry.name || Object.values(entry).some((value) => value && value !== true && value.length)) found.set(entry.name, { ...found.get(entry.name), ...entry });
  }
  return [...found.values()];
}
