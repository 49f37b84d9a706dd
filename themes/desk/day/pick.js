/*
Picking a component by typing a few letters of it: its words in any order, by the start of each word
first. Arrow keys and Enter pick as a finger does.
*/

import { $, $$ } from "./form.js";

const SHOWN = 8;

const wordsOf = (text) => text.toLowerCase().split(/[^a-z0-9]+/).filter(Boolean);

// Every word that was typed begins a word of the component, or else is somewhere in it.
function rank(component, typed, subsystem) {
  const words = wordsOf(`${component.key} ${component.label}`);
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
  const typed = wordsOf(text);
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
