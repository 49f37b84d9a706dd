/*
The day page. What is typed is put on this device at every key, looked over by the desk as it is typed,
and stays here until the desk has said that it is in the book. See `sending.js` for how it gets there.
*/

import { Page } from "./cards.js";
import { $, $$, clearRemarks, grow, picker, showRemarks, unfold, wordsOf } from "./form.js";
import { Gone, ask, device, drop, load, newName, put, script, slots, whenWrittenElsewhere } from "./reach.js";
import { Pictures, Saving } from "./sending.js";

const QUIET = 900;
const WIDE = matchMedia("(min-width: 64rem)");

const { offers, opened } = JSON.parse($("#data").textContent);
const slot = opened ? `sheet:${offers.name}/${opened.name}` : "day";
const page = new Page(offers, device, changed);
let draft = null;
let blank = "";
let keeps = true;
let looked = 0;
let timer = 0;
let sent = "";
let inBook = "";
let saying = null;

function begin(kept) {
  draft = kept || { id: newName(), car: offers.name, base: opened, form: opened ? opened.form : { date: offers.today, snags: [] }, wanted: false, ...heardIn(opened) };
  draft.car = offers.name;
  page.base = draft.base?.form || null;
  page.shown = { ...opened?.pictures, ...draft.base?.pictures };
  page.hand = load("hand");
  page.pictures = new Pictures(draft.id, (picture) => {
    page.showPicture(picture);
    page.offerComponents();
    tell();
    saving.push();
    if (picture.state === "there") lookSoon();
  });
  const wanted = draft.form;
  page.fill(draft.base?.form || { date: offers.today });
  blank = JSON.stringify(page.read());
  page.fill(wanted);
  page.pictures.restore().then(() => {
    for (const photo of wanted.photos || []) if (photo.key) page.fill({ ...page.read(), photos: wanted.photos });
    tell();
    if (draft.wanted) saving.start();
  });
  saying?.show();
  tell();
  look();
}

const isTouched = () => JSON.stringify(page.read()) !== blank || page.pictures.all.length > 0 || Boolean(draft.said?.text);

// Every change: kept at once, looked over a little later.
function changed() {
  if (!draft) return;
  page.roomForSnag();
  draft.form = page.read();
  keep();
  tell();
  lookSoon();
}

/* What was said: see `saying.js`, which is asked for once the page can be written into */

const heardIn = (sheet) => (sheet?.heard ? { heard: { ...sheet.heard, total: sheet.heard.lines.length } } : {});

function unfoldSaying(open) {
  $("#saying").hidden = !open;
  $("#say").setAttribute("aria-expanded", String(open));
}

function lookSoon() {
  clearTimeout(timer);
  timer = setTimeout(look, QUIET);
}

function keep() {
  keeps = isTouched() ? put(slot, draft) : (drop(slot), true);
}

/* What the desk says of it */

const asked = () => ({
  draft: draft.id,
  form: draft.form,
  ...(draft.base && { sheet: draft.base.name, source: draft.base.source, read: draft.base.read }),
});

async function look() {
  looked += 1;
  const mine = looked;
  const show = $("#reads").open || $("#source").open;
  if (!draft || (!isTouched() && !draft.base)) return;
  try {
    const { status, data } = await ask(`/cars/${offers.name}/look`, { ...asked(), show });
    if (mine !== looked || status !== 200) return;
    if (show) (await script("showing.js")).showSheet(data, draft.base?.source || "");
    if (!saving.busy) showRemarks(data.remarks.filter(isSaid), placeOf);
  } catch (fault) {
    if (!(fault instanceof Gone)) throw fault;
  }
}

// While somebody types, what is not there yet is no mistake, and nobody is corrected in a field they are in.
function isSaid(remark) {
  const place = placeOf(remark.field);
  return place && !place.contains(document.activeElement) && remark.field.length > 0 && !(remark.text.endsWith("is missing"));
}

function placeOf([kind, name, field]) {
  if (kind === "hours") return $(`.hours-row[data-hand="${CSS.escape(name ?? "")}"] input`) || $("#hours");
  const section = $(`[data-path="${CSS.escape(kind ?? "")}"]`);
  if (!section || name === undefined) return section && ($("input, textarea, select", section.matches("label, #heading") ? section : null) || section);
  const card = kind === "photos" ? page.cards("photos")[name] : $$(`[data-name="${CSS.escape(String(name))}"]`, section)[0] || page.cards(kind).find((one) => $("[data-field=name]", one)?.value === name);
  return (card && field && $(`[data-field="${CSS.escape(String(field === "limit" ? "least" : field))}"]`, card)) || card || section;
}

// What stands there as long as nothing was typed.
const resting = () => (inBook ? `In the book: ${inBook}.` : draft.base ? "In the book as you see it." : "Nothing is written yet.");

/* Where it is: on this device, on its way, in the book */

function tell(words = "") {
  const { all, waiting, refused } = page.pictures;
  const kept = $("#kept");
  const touched = isTouched();
  const there = all.length - waiting.length - refused.length;
  const count = all.length === 1 ? "Its picture is" : there === all.length ? `Its ${there} pictures are` : `${there} of its ${all.length} pictures are`;
  const pictures = all.length ? ` ${count} ${all.length === 1 && !there ? `on this ${device}` : "at the desk"}.` : "";
  const where = keeps ? `On this ${device}, not in the book yet.` : `This ${device} keeps nothing: save before you close the page.`;
  const left = draft.heard?.lines.length || 0;
  $("#left").hidden = !left;
  $("#left").textContent = `${left} left`;
  $("#left").setAttribute("aria-label", `${left} left to confirm of what was heard`);
  if (!words && saving.wanted) return;
  kept.textContent = words || (touched ? where + pictures : resting());
  kept.dataset.where = touched ? (keeps ? "here" : "nowhere") : "book";
}

const saving = new Saving({
  asked() {
    // A picture that has come to the desk since has its name there only now.
    draft.form = page.read();
    sent = JSON.stringify(draft.form);
    return ask(`/cars/${offers.name}/save`, asked());
  },
  pictures: () => page.pictures,
  wanted(yes) {
    draft.wanted = yes;
    keep();
  },
  tell,
  refused(remarks) {
    const left = showRemarks(remarks, placeOf);
    const wrong = remarks.filter((remark) => remark.error).length;
    tell(`Not in the book: ${wrong === 1 ? "one thing is" : `${wrong} things are`} to be put right first. It is kept on this ${device}.`);
    $("#told").replaceChildren(...left.filter((remark) => remark.error).map(wordsOf));
    const first = $(".wrong", $("#day")) || $(".wrong", $("#told"));
    first?.scrollIntoView({ block: "center" });
  },
  said(words) {
    tell(words);
    $("#told").replaceChildren(wordsOf({ text: words.replace(/\.$/, ""), error: true }));
  },
  async saved({ saved, remarks }) {
    const first = Object.keys(draft.form.hours)[0];
    if (first) put("hand", first);
    clearRemarks();
    if (JSON.stringify(page.read()) !== sent) {
      // More was typed while it went into the book: that is what is left to be saved.
      const before = new Set(JSON.parse(sent).beside.map((line) => JSON.stringify(line)));
      page.heard.beside = page.heard.beside.filter((line) => !before.has(JSON.stringify(line)));
      Object.assign(draft, { base: saved.opened, form: page.read() });
      page.base = saved.opened.form;
      changed();
      return;
    }
    await page.pictures.forget();
    drop(slot);
    $$("#photos .card").forEach((card) => card.remove());
    begin(opened ? { id: newName(), base: saved.opened, form: saved.opened.form, wanted: false, ...heardIn(saved.opened) } : null);
    tellSaved(saved, remarks.filter((remark) => !remark.error));
  },
  conflict: showConflict,
});

function tellSaved(saved, remarks) {
  const panel = document.createElement("section");
  panel.className = "in-book";
  panel.tabIndex = -1;
  const title = document.createElement("h2");
  title.textContent = "In the book";
  const line = document.createElement("p");
  line.append(link(saved.href, saved.name));
  panel.append(title, line);
  const left = saved.opened?.form.draft.length;
  if (left && !opened) {
    const more = document.createElement("p");
    more.append(link(dayOf(saved.car, saved.name), `Go on with the ${left === 1 ? "line that is" : `${left} lines that are`} not confirmed`));
    panel.append(more);
  }
  if (remarks.length) {
    const when = document.createElement("p");
    when.textContent = "When there is time:";
    const list = document.createElement("ul");
    list.append(...remarks.slice(0, 4).map((remark) => {
      const item = document.createElement("li");
      item.textContent = remark.text;
      return item;
    }));
    panel.append(when, list, link(dayOf(saved.car, saved.name), "Open it again"));
  }
  $("#told").replaceChildren(panel);
  scrollTo({ top: 0, behavior: "instant" });
  panel.focus({ preventScroll: true });
  inBook = saved.name;
  tell();
}

const dayOf = (car, sheet) => `/day?car=${encodeURIComponent(car)}&sheet=${encodeURIComponent(sheet)}`;

function link(href, text) {
  const made = document.createElement("a");
  Object.assign(made, { href, textContent: text });
  return made;
}

async function showConflict(conflict) {
  const { conflictPanel } = await script("showing.js");
  const panel = conflictPanel(conflict, { carry, anew, dropMine });
  $("#told").replaceChildren(panel);
  panel.scrollIntoView({ block: "start" });
  tell(`Not in the book. It is kept on this ${device}.`);
}

async function carry() {
  const { status, data } = await ask(`/cars/${offers.name}/carry`, asked());
  if (status !== 200) return saving.told(data.said);
  draft.base = data.opened;
  draft.form = data.form;
  draft.heard = data.heard && { ...data.heard, total: data.heard.lines.length };
  page.base = data.opened.form;
  page.fill(data.opened.form);
  blank = JSON.stringify(page.read());
  page.fill(data.form);
  saying?.show();
  $("#told").replaceChildren(wordsOf({ text: "Your changes stand in the text of the book. Look it over, then save", error: false }));
  changed();
}

function anew() {
  draft.base = null;
  page.base = null;
  blank = "";
  changed();
  saving.start();
}

function dropMine() {
  page.pictures.forget().then(() => {
    drop(slot);
    location.reload();
  });
}

/* What is done on the page */

$("#day").addEventListener("input", changed);
$("#day").addEventListener("change", (event) => {
  if (event.target.name === "subsystem") page.subsystemChanged();
  changed();
});
$("#day").addEventListener("submit", (event) => {
  event.preventDefault();
  if (draft.said) {
    unfoldSaying(true);
    saying?.refuse("What you said is not heard yet. Have it heard first, or take it out of the field.");
    $("#said-text").focus();
    return;
  }
  draft.form = page.read();
  keep();
  saving.start();
});
$("#day").addEventListener("focusout", () => setTimeout(look, 50));
$("#body").addEventListener("input", () => grow($("#body")));
for (const add of $$("[data-add]")) {
  add.addEventListener("click", () => {
    $("input", page.addCard(add.dataset.add)).focus();
    changed();
  });
}
for (const more of $$("#subsystem [data-more]")) unfold(more);
for (const input of [$("#camera"), $("#chosen")]) {
  input.addEventListener("change", () => {
    page.pictures.add(input.files).then(changed);
    input.value = "";
    $("#photos").scrollIntoView({ block: "start" });
  });
}
$("#car").addEventListener("change", () => {
  draft.car = $("#car").value;
  if (isTouched()) put(slot, draft);
  location.assign(`/day?car=${encodeURIComponent($("#car").value)}`);
});
$("#say").addEventListener("click", () => {
  unfoldSaying($("#saying").hidden);
  if (!$("#saying").hidden) $("#said-text").focus();
});
$("#left").addEventListener("click", () => saying?.next());
for (const fold of [$("#reads"), $("#source")]) fold.addEventListener("toggle", () => fold.open && look());
if (WIDE.matches) $("#reads").open = true;
if (WIDE.matches && opened) $("#source").open = true;
picker(offers.components, () => page.subsystem, (key) => page.work(key));
addEventListener("online", () => saving.push());
addEventListener("pageshow", () => draft && saving.push());
whenWrittenElsewhere(slot, (other) => {
  if (!other || document.hasFocus() || other.id !== draft.id) return;
  page.fill((draft = other).form);
  saying?.show();
});

// Changes to other sheets that are still on this device.
const others = slots().filter((name) => name.startsWith("sheet:") && name !== slot);
if (others.length && !opened) {
  const line = document.createElement("p");
  line.className = "notice";
  line.append(`Also on this ${device}, not in the book: `);
  others.forEach((name, n) => {
    const [car, sheet] = name.slice("sheet:".length).split("/");
    line.append(n ? ", " : "", link(dayOf(car, sheet), sheet));
  });
  $("#day").before(line);
}

// Sheets of the car in which lines wait that were heard.
if (offers.waiting_lines.length && !opened) {
  const line = document.createElement("p");
  line.className = "notice";
  line.append("Heard, and not confirmed yet: ");
  offers.waiting_lines.forEach(({ name, title, lines }, n) => line.append(n ? ", " : "", link(dayOf(offers.name, name), title), ` (${lines === 1 ? "1 line" : `${lines} lines`})`));
  $("#day").before(line);
}

const kept = load(slot);
if (kept && !opened && kept.car !== offers.name && offers.cars.some((car) => car.name === kept.car)) {
  location.replace(`/day?car=${encodeURIComponent(kept.car)}`);
} else {
  begin(kept);
  performance.mark("ready");
  document.documentElement.dataset.ready = "";
  const { Saying } = await script("saying.js");
  saying = new Saying({ page, offers, draft: () => draft, keep: () => (keep(), keeps), tell, changed, unfold: unfoldSaying });
  saying.show();
  document.documentElement.dataset.saying = "";
}
