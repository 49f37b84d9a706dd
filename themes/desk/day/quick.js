/*
Goods in, and a snag: each thing said is put on this device at once and goes into the book by itself.
What has not got there yet stands on the page, however often it is closed and opened.
*/

import { $, $$ } from "./form.js";
import { Gone, ask, device, drop, load, newName, put, waitOf } from "./reach.js";
import { Pictures, smallOf } from "./sending.js";

const { page } = JSON.parse($("#data").textContent);
const OUTBOX = `${page}:outbox`;
const HERE = { here: `on this ${device}`, going: "on its way to the desk", there: "at the desk" };

/* What is on its way into the book */

let outbox = load(OUTBOX) || [];
const pictures = new Map();
// What came in since the page was opened.
const received = new Set();
const keyOf = ({ car, part }) => `${car}/${part}`;
let tries = 0;
let later = 0;
let busy = false;

function picturesOf(draft, shown) {
  if (!pictures.has(draft)) pictures.set(draft, new Pictures(draft, (picture) => showPicture(shown?.(), pictures.get(draft), picture)));
  return pictures.get(draft);
}

function keep() {
  if (!outbox.length) drop(OUTBOX);
  else if (!put(OUTBOX, outbox)) say(`This ${device} keeps nothing; stay on this page until it is in the book.`, true);
  for (const row of $$("[data-part]")) row.hidden = received.has(keyOf(row.dataset)) || outbox.some((entry) => keyOf({ car: entry.car, part: entry.told.part }) === keyOf(row.dataset));
  const list = $("#outbox");
  list.hidden = !outbox.length;
  list.replaceChildren(...outbox.map((entry) => {
    const item = document.createElement("li");
    const words = document.createElement("span");
    words.textContent = `${entry.what}: ${entry.wrong || (entry.waits ? `the desk does not answer; on this ${device}` : "on its way into the book")}`;
    item.className = entry.wrong ? "wrong" : "";
    item.append(words);
    if (entry.wrong) item.append(again(entry, "Try again", () => (entry.wrong = "")), again(entry, "Drop it", () => remove(entry)));
    return item;
  }));
}

function again(entry, text, act) {
  const button = document.createElement("button");
  Object.assign(button, { type: "button", className: "more", textContent: text });
  button.setAttribute("aria-label", `${text}: ${entry.what}`);
  button.addEventListener("click", () => {
    act();
    keep();
    push();
  });
  return button;
}

function remove(entry) {
  outbox = outbox.filter((other) => other !== entry);
  picturesOf(entry.draft).forget();
}

function into(entry) {
  outbox.push(entry);
  keep();
  push();
}

async function push() {
  if (busy) return;
  clearTimeout(later);
  const entry = outbox.find((one) => !one.wrong);
  if (!entry) return;
  busy = true;
  try {
    await one(entry);
    tries = 0;
  } catch (fault) {
    if (!(fault instanceof Gone)) throw fault;
    entry.waits = true;
    later = setTimeout(push, waitOf(tries));
    tries += 1;
    keep();
    return;
  } finally {
    busy = false;
  }
  keep();
  push();
}

async function one(entry) {
  const mine = picturesOf(entry.draft);
  await arrived(mine);
  if (mine.refused.length) {
    entry.wrong = mine.refused[0].words;
    return;
  }
  const photos = mine.all.map((picture) => picture.id);
  const { status, data } = await ask(`/cars/${entry.car}/${page}`, { draft: entry.draft, ...entry.told, photos });
  entry.waits = false;
  if (data.saved) {
    remove(entry);
    received.add(keyOf({ car: entry.car, part: entry.told.part }));
    say(`In the book: ${entry.what}.`, false, data.saved);
  } else if (data.missing) {
    mine.lost(data.missing);
  } else {
    entry.wrong = data.said || (data.remarks || []).filter((remark) => remark.error).map((remark) => [remark.text, remark.help].filter(Boolean).join("; ")).join(". ") || (status >= 500 ? "the desk has stumbled" : "it was not taken");
  }
}

// Until every picture is at the desk, or one of them is refused.
async function arrived(mine) {
  mine.push();
  while (mine.waiting.length && !mine.refused.length) await new Promise((done) => setTimeout(done, 150));
}

function say(words, wrong = false, saved = null) {
  const line = document.createElement("p");
  line.className = wrong ? "wrong" : "in-book";
  if (saved) {
    const link = document.createElement("a");
    Object.assign(link, { href: saved.href, textContent: "The sheet" });
    line.append(`${words} `, link);
  } else line.textContent = words;
  $("#told").replaceChildren(line);
}

/* Pictures */

function showPicture(list, mine, picture) {
  if (!list || !mine.all.includes(picture)) return;
  let row = $(`[data-key="${picture.key}"]`, list);
  if (!row) {
    row = $("#t-shot").content.cloneNode(true).firstElementChild;
    row.dataset.key = picture.key;
    const image = $("img", row);
    image.addEventListener("error", () => {
      if (picture.id && !image.src.endsWith(picture.id)) image.src = smallOf(picture);
      else image.hidden = true;
    });
    image.src = picture.url;
    $(".away", row).setAttribute("aria-label", `Take out ${picture.name}`);
    $(".away", row).addEventListener("click", () => {
      mine.remove(picture.key);
      row.remove();
    });
    list.append(row);
  }
  $("progress", row).hidden = picture.state !== "going";
  $("progress", row).value = picture.share;
  $("progress", row).setAttribute("aria-label", `${picture.name} goes to the desk`);
  $(".where", row).classList.toggle("wrong", picture.state === "refused");
  $(".where", row).textContent = picture.state === "refused" ? picture.words : `${picture.name}, ${HERE[picture.state]}`;
}

function camera(within, draft) {
  const input = $("input[type=file]", within);
  input.addEventListener("change", () => {
    picturesOf(draft(), () => $(".shots", within)).add(input.files);
    input.value = "";
  });
}

/* Goods in */

function awaited(row) {
  const slot = `goods-in:${row.dataset.car}/${row.dataset.part}`;
  const draft = load(slot) || { draft: newName(), why: "" };
  const why = $("[data-why]", row);
  why.value = draft.why;
  why.addEventListener("input", () => put(slot, Object.assign(draft, { why: why.value })));
  camera(row, () => {
    put(slot, draft);
    return draft.draft;
  });
  picturesOf(draft.draft, () => $(".shots", row)).restore();
  for (const button of $$("[data-outcome]", row)) {
    button.addEventListener("click", () => {
      drop(slot);
      into({ draft: draft.draft, car: row.dataset.car, what: `${row.dataset.what}, ${button.dataset.outcome}`, told: { part: row.dataset.part, outcome: button.dataset.outcome, why: why.value } });
    });
  }
}

/* A snag */

function snag(form) {
  let draft = load("snag") || { draft: newName(), text: "" };
  const text = $("#text");
  const car = $("#car");
  const branch = () => $(`[data-of="${CSS.escape(car.value)}"] select`);
  const shots = () => $(".shots", form);

  function show() {
    text.value = draft.text;
    $("#hold").checked = draft.hold === true;
    if (draft.car && [...car.options].some((option) => option.value === draft.car)) car.value = draft.car;
    choose();
    if (draft.subsystem) branch().value = draft.subsystem;
  }

  function choose() {
    for (const one of $$("[data-of]")) one.hidden = one.dataset.of !== car.value;
  }

  function kept() {
    Object.assign(draft, { text: text.value, hold: $("#hold").checked, car: car.value, subsystem: branch().value });
    put("snag", draft);
  }

  form.addEventListener("input", kept);
  car.addEventListener("change", () => {
    choose();
    kept();
  });
  camera(form, () => {
    kept();
    return draft.draft;
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    kept();
    if (!draft.text.trim()) {
      say("Say what is open.", true);
      text.focus();
      return;
    }
    into({ draft: draft.draft, car: draft.car, what: draft.text.trim(), told: { text: draft.text.trim(), subsystem: draft.subsystem, hold: draft.hold } });
    draft = { draft: newName(), text: "", car: draft.car, subsystem: draft.subsystem };
    put("snag", draft);
    shots().replaceChildren();
    show();
  });
  show();
  picturesOf(draft.draft, shots).restore();
}

for (const row of $$("[data-part]")) awaited(row);
if ($("#snag")) snag($("#snag"));
for (const entry of outbox) if (!pictures.has(entry.draft)) picturesOf(entry.draft).restore();
keep();
push();
addEventListener("online", push);
addEventListener("pageshow", push);
performance.mark("ready");
document.documentElement.dataset.ready = "";
