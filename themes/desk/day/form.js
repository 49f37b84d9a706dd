/*
The form as plain data, and back: what stands in it is read from the page, and a form is put into it.
Each entry of work, parts, measurements, snags and pictures is a card made of a template.
*/

const $ = (selector, within = document) => within.querySelector(selector);
const $$ = (selector, within = document) => [...within.querySelectorAll(selector)];

let numbered = 0;

// A card of a kind with the names of its choices its own, so that one card does not choose for another.
export function made(kind) {
  const card = $(`#t-${kind}`).content.cloneNode(true).firstElementChild;
  numbered += 1;
  card.dataset.kind = kind;
  for (const input of $$("input[name]", card)) input.name += `-${numbered}`;
  return card;
}

export const fieldsOf = (card) => $$("[data-field]", card);

export function valueOf(field) {
  if (field.matches("fieldset")) {
    const chosen = $$("input:checked", field).map((input) => input.value);
    return "many" in field.dataset ? chosen : chosen[0] || "";
  }
  return field.type === "checkbox" ? field.checked : field.value;
}

export function setValue(field, value) {
  if (field.matches("fieldset")) {
    const wanted = Array.isArray(value) ? value : [value || ""];
    for (const one of wanted) if (one) choiceFor(field, one, one);
    for (const input of $$("input", field)) input.checked = wanted.includes(input.value);
  } else if (field.type === "checkbox") {
    field.checked = value === true;
  } else {
    if (value && field.matches("select") && ![...field.options].some((option) => option.value === value)) {
      field.add(new Option(value, value));
    }
    field.value = value || "";
  }
}

// A choice that a fieldset has, or gets: what a sheet says is shown, whatever else is offered.
export function choiceFor(fieldset, value, label) {
  const known = $$("input", fieldset).find((input) => input.value === value);
  if (known) return known;
  const kind = "many" in fieldset.dataset ? "checkbox" : "radio";
  const chip = document.createElement("label");
  chip.className = "chip";
  const input = document.createElement("input");
  Object.assign(input, { type: kind, value, name: nameOf(fieldset) });
  const words = document.createElement("span");
  words.textContent = label;
  chip.append(input, words);
  const more = $("[data-more]", fieldset);
  if (more) more.before(chip);
  else fieldset.append(chip);
  return input;
}

function nameOf(fieldset) {
  fieldset.dataset.choice ??= `choice-${(numbered += 1)}`;
  return fieldset.dataset.choice;
}

export function entryOf(card) {
  const entry = { ...card.unseen, ...(card.dataset.name !== undefined && { name: card.dataset.name }), ...(card.dataset.given && { given: card.dataset.given }) };
  for (const field of fieldsOf(card)) entry[field.dataset.field] = valueOf(field);
  return entry;
}

export function fillCard(card, entry) {
  for (const field of fieldsOf(card)) {
    if (field.dataset.field in entry) setValue(field, entry[field.dataset.field]);
  }
}

// Lower-case words joined by hyphens, as the files are written with; never one that is taken.
export function nameFor(text, taken, words = 4) {
  const plain = text.normalize("NFKD").replace(/[\u0300-\u036f]/g, "").toLowerCase().match(/[a-z0-9]+/g) || [];
  const base = plain.slice(0, words).join("-").slice(0, 60).replace(/-+$/, "") || "one";
  let name = base;
  for (let n = 2; taken.has(name); n += 1) name = `${base}-${n}`;
  return name;
}

// Hours are told in quarters by the steps, and as they are typed otherwise; never below nothing.
export function stepped(text, step) {
  const hours = Number(text.replace(",", ".") || "0");
  if (Number.isNaN(hours)) return text;
  return String(Math.max(0, Math.round((hours + step) * 100) / 100) || "");
}

/* What is wrong, beside the field that it is about. */

let remarked = [];

export function clearRemarks() {
  for (const { words, field } of remarked) {
    words.remove();
    field?.removeAttribute("aria-invalid");
    field?.removeAttribute("aria-describedby");
  }
  remarked = [];
}

// Puts each remark beside its field; those that have none are returned.
export function showRemarks(remarks, placeOf) {
  clearRemarks();
  const left = [];
  for (const remark of remarks) {
    const place = placeOf(remark.field);
    if (!place) {
      left.push(remark);
      continue;
    }
    const words = wordsOf(remark);
    const field = place.matches("input, select, textarea, fieldset") ? place : null;
    const holder = field?.matches("input, select, textarea") ? field.closest("label, .hours-row") || field : place;
    if (holder.matches("label, .hours-row")) holder.after(words);
    else if (holder.matches("fieldset")) $("legend", holder).after(words);
    else (holder.querySelector("header, summary, h2") || holder.firstElementChild).after(words);
    for (let fold = words.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
    words.id = `remark-${(numbered += 1)}`;
    field?.setAttribute("aria-describedby", words.id);
    if (remark.error && field?.matches("input, select, textarea")) field.setAttribute("aria-invalid", "true");
    remarked.push({ words, field });
  }
  return left;
}

export function wordsOf(remark) {
  const words = document.createElement("p");
  words.className = remark.error ? "wrong" : "notice";
  const text = remark.text[0].toUpperCase() + remark.text.slice(1);
  words.textContent = [text, remark.help && `; ${remark.help}`, "."].filter(Boolean).join("");
  return words;
}

/*
Picking a component by typing a few letters of it: its words in any order, by the start of each word
first. Arrow keys and Enter pick as a finger does.
*/

const SHOWN = 8;

const partsOf = (text) => text.toLowerCase().split(/[^a-z0-9]+/).filter(Boolean);

// Every word that was typed begins a word of the component, or else is somewhere in it.
function rank(component, typed, subsystem) {
  const words = partsOf(`${component.key} ${component.label}`);
  const whole = words.join(" ");
  let score = component.subsystem === subsystem ? 0 : 1;
  for (const word of typed) {
    if (words.some((known) => known.startsWith(word))) continue;
    if (!whole.includes(word)) return null;
    score += 2;
  }
  return score;
}

export function matches(components, text, subsystem) {
  const typed = partsOf(text);
  if (!typed.length) return [];
  return components
    .map((component) => ({ component, score: rank(component, typed, subsystem) }))
    .filter(({ score }) => score !== null)
    .sort((a, b) => a.score - b.score)
    .slice(0, SHOWN)
    .map(({ component }) => component);
}

export function picker(components, subsystem, chosen) {
  const input = $("#pick");
  const list = $("#found");
  let active = -1;

  function show() {
    const found = input.value.trim().length < 2 ? [] : matches(components, input.value, subsystem());
    active = -1;
    list.replaceChildren(...found.map((component, n) => option(component, n)));
    if (!found.length && input.value.trim().length >= 3) list.append(nothing());
    list.hidden = !list.children.length;
    input.setAttribute("aria-expanded", String(!list.hidden));
    input.removeAttribute("aria-activedescendant");
  }

  function option(component, n) {
    const item = document.createElement("li");
    Object.assign(item, { id: `found-${n}`, role: "option" });
    item.setAttribute("aria-selected", "false");
    item.dataset.key = component.key;
    const now = document.createElement("small");
    now.textContent = `${component.subsystem}, ${component.now}`;
    item.append(`${component.label} `, now);
    return item;
  }

  function nothing() {
    const item = document.createElement("li");
    item.className = "none";
    item.setAttribute("role", "option");
    item.setAttribute("aria-disabled", "true");
    item.textContent = "No component of the register is called so.";
    return item;
  }

  function mark(n) {
    const options = $$("[data-key]", list);
    if (!options.length) return;
    active = (n + options.length) % options.length;
    options.forEach((item, m) => item.setAttribute("aria-selected", String(m === active)));
    options[active].scrollIntoView({ block: "nearest" });
    input.setAttribute("aria-activedescendant", options[active].id);
  }

  function pick(key) {
    input.value = "";
    show();
    chosen(key);
  }

  input.addEventListener("input", show);
  input.addEventListener("keydown", (event) => {
    if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      event.preventDefault();
      mark(active + (event.key === "ArrowDown" ? 1 : -1));
    } else if (event.key === "Enter") {
      event.preventDefault();
      const item = $$("[data-key]", list)[Math.max(active, 0)];
      if (item) pick(item.dataset.key);
    } else if (event.key === "Escape") {
      input.value = "";
      show();
    }
  });
  list.addEventListener("pointerdown", (event) => event.preventDefault());
  list.addEventListener("click", (event) => {
    const item = event.target.closest("[data-key]");
    if (item) pick(item.dataset.key);
  });
}

/* Small things that every page of this kind needs. */

export function button(text, className, act) {
  const pressed = document.createElement("button");
  Object.assign(pressed, { type: "button", className, textContent: text });
  pressed.addEventListener("click", act);
  return pressed;
}

export function unfold(more) {
  const set = more.closest("fieldset");
  more.addEventListener("click", () => {
    const open = set.classList.toggle("all");
    more.setAttribute("aria-expanded", String(open));
    more.textContent = open ? "Fewer" : "More";
  });
}

export const dayWords = (day) => new Date(`${day}T12:00`).toLocaleDateString("en-GB", { day: "numeric", month: "long", year: "numeric" });

export const calm = () => (matchMedia("(prefers-reduced-motion: reduce)").matches ? "instant" : "smooth");

export function grow(area) {
  area.style.height = "auto";
  area.style.height = `${area.scrollHeight + 4}px`;
}

export { $, $$ };
