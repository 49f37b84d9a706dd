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
  const entry = card.dataset.name === undefined ? {} : { name: card.dataset.name };
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

export { $, $$ };
