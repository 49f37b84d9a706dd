/*
What the desk says of a sheet: how it will read, and both texts where somebody else has changed it too.
*/

import { $, $$, button } from "./form.js";

// The page that a sheet would be, and its text; what is not in its `source` yet is marked.
export function showSheet({ text, html, at }, source) {
  const before = new Set(source.split(/\r?\n/));
  $("#text").replaceChildren(...text.split("\n").map((line) => {
    const row = document.createElement("span");
    row.textContent = `${line}\n`;
    if (source && line && !before.has(line)) row.className = "new";
    return row;
  }));
  if (html === null) return;
  const made = new DOMParser().parseFromString(html, "text/html").body;
  const from = new URL(at, location.href);
  // What waits stands above, where it is confirmed.
  $("#heard", made)?.closest("section").remove();
  $$("nav, script", made).forEach((node) => node.remove());
  for (const node of $$("*", made)) {
    for (const name of ["id", "href", "srcset", "aria-labelledby", "sizes", "tabindex"]) if (!node.closest("svg")) node.removeAttribute(name);
    if (node.matches("img")) node.src = new URL(node.getAttribute("src"), from);
    if (node.matches("source")) node.remove();
    if (node.matches("h1, h2")) {
      const title = document.createElement("h3");
      title.className = node.matches("h1") ? "as-title" : "";
      title.append(...node.childNodes);
      node.replaceWith(title);
    }
  }
  $("#preview").replaceChildren(...made.childNodes);
}

export function conflictPanel({ ours, theirs, can_carry: canCarry }, { carry, anew, dropMine }) {
  const panel = document.createElement("section");
  panel.className = "conflict";
  const title = document.createElement("h2");
  title.textContent = theirs === null ? "The sheet is gone from the book" : "Somebody else has changed this sheet meanwhile";
  const line = document.createElement("p");
  line.textContent = "Nothing was written over. Both texts stand here; what is different is marked.";
  const texts = document.createElement("div");
  texts.className = "both";
  texts.append(textOf("What you have here", ours, theirs), ...(theirs === null ? [] : [textOf("What is in the book", theirs, ours)]));
  const ways = document.createElement("p");
  ways.className = "ways";
  if (canCarry) ways.append(button("Put my changes into the text of the book", "save", carry));
  if (theirs === null) ways.append(button("Write it as a new sheet", "save", anew));
  ways.append(button("Drop what I changed here", "more", dropMine));
  panel.append(title, line, texts, ways);
  return panel;
}

function textOf(title, text, other) {
  const figure = document.createElement("figure");
  const caption = document.createElement("figcaption");
  caption.textContent = title;
  const pre = document.createElement("pre");
  pre.tabIndex = 0;
  pre.setAttribute("role", "group");
  pre.setAttribute("aria-label", title);
  const known = new Set((other || "").split(/\r?\n/));
  pre.append(...text.split(/\r?\n/).map((row) => {
    const made = document.createElement(known.has(row) || !row ? "span" : "mark");
    made.textContent = `${row}\n`;
    return made;
  }));
  figure.append(caption, pre);
  return figure;
}
