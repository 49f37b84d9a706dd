"use strict";

/*
A bench sum that is filled in: what is written is sent to the desk after a short rest, and the answer, or
what is wrong beside each field, comes back. The address of the page holds what was worked out last, so
that it is there again when the page is loaded anew.
*/

(() => {
  const API = "/_/api";
  // How long nothing is typed until the sum is worked out, and until a field that is still being
  // written is told to be wrong.
  const REST = 250;
  const PATIENCE = 1200;
  // A longer address is not taken everywhere.
  const LONGEST = 4000;

  const form = document.getElementById("sum");
  const answer = document.getElementById("answer");
  const body = document.getElementById("comes-to");
  const told = document.getElementById("said");
  const keep = document.getElementById("keep");
  let token = null;
  let asked = 0;
  let resting = 0;
  let patient = 0;
  let worked = Boolean(answer.querySelector(".sum-lines"));
  let seen = true;

  // What is written, by input.

  const READ = {
    text: (field) => field.querySelector("input").value,
    select: (field) => field.querySelector("select").value,
    radio: (field) => field.querySelector("input:checked")?.value ?? "",
    ticks: (field) => [...field.querySelectorAll("input:checked")].map((box) => box.value).join(", "),
    rows: (field) =>
      [...field.querySelectorAll(".sum-row")].map((row) =>
        Object.fromEntries([...row.querySelectorAll("[data-column]")].map((c) => [c.dataset.column, c.value])),
      ),
  };

  function given() {
    const fields = [...form.querySelectorAll(".sum-field")];
    return Object.fromEntries(fields.map((field) => [field.dataset.name, READ[field.dataset.control](field)]));
  }

  // Asking the desk.

  async function send(path, body, fresh) {
    if (token === null || fresh) token = (await (await fetch(`${API}/token`)).json()).token;
    const headers = { "X-Journal-Token": token, "Content-Type": "application/json" };
    const reply = await fetch(path, { method: "POST", headers, body: JSON.stringify(body) });
    // A token holds for one run of the desk.
    return reply.status === 409 && !fresh && reply.headers.get("Content-Type").startsWith("text/plain") ? send(path, body, true) : reply;
  }

  async function workOut() {
    const number = ++asked;
    let now;
    try {
      const reply = await send(form.dataset.ask, { given: given() }, false);
      now = await reply.json().catch(() => ({}));
      if (!reply.ok) now = { fault: now.said || "The desk has stumbled over this; what went wrong stands in its window." };
    } catch {
      now = { fault: "The desk does not answer. What is written here stays; it is worked out once the desk is there again." };
    }
    // An answer to what stood here before is none.
    if (number === asked) show(now);
  }

  function show(now) {
    if (now.fault) {
      body.replaceChildren(Object.assign(document.createElement("p"), { className: "wrong", textContent: now.fault }));
      told.textContent = now.fault;
    } else {
      const unfolded = answer.querySelector("details")?.open;
      body.innerHTML = now.html;
      const fold = answer.querySelector("details");
      if (fold && unfolded) fold.open = true;
      told.textContent = now.said;
      point(now.wrong);
      if (now.asked && now.asked.length < LONGEST) history.replaceState(null, "", form.dataset.forms + now.asked);
    }
    answer.removeAttribute("aria-busy");
    if (keep) keep.hidden = !now.asked;
    worked = Boolean(now.asked);
    follow();
  }

  // What it comes to stands at the foot of the page while the answer itself is out of sight.
  function follow() {
    told.classList.toggle("at-foot", worked && !seen);
  }

  new IntersectionObserver(([{ isIntersecting }]) => {
    seen = isIntersecting;
    follow();
  }).observe(answer.querySelector("h2"));

  // Mistakes beside their fields; the one that is still being written is given time.

  function point(wrong) {
    clearTimeout(patient);
    const here = document.activeElement?.closest(".sum-field");
    for (const field of form.querySelectorAll(".sum-field")) {
      const words = wrong[field.dataset.name] ?? "";
      if (field === here && words && !shown(field)) patient = setTimeout(() => say(field, words), PATIENCE);
      else say(field, words);
    }
  }

  const beside = (field) => field.querySelector(":scope > .wrong");
  const shown = (field) => !beside(field).hidden;

  function say(field, words) {
    const place = beside(field);
    place.textContent = words;
    place.hidden = !words;
    for (const one of field.querySelectorAll(":scope > input, :scope > select")) {
      if (words) one.setAttribute("aria-invalid", "true");
      else one.removeAttribute("aria-invalid");
    }
    const fold = field.closest("details");
    if (words && fold) fold.open = true;
  }

  function changed() {
    answer.setAttribute("aria-busy", "true");
    clearTimeout(resting);
    resting = setTimeout(workOut, REST);
  }

  // Rows that come and go.

  function count(field) {
    [...field.querySelectorAll(".sum-row")].forEach((row, n) => {
      row.setAttribute("aria-label", `Row ${n + 1}`);
      row.querySelector("[data-away]").setAttribute("aria-label", `Take row ${n + 1} away`);
    });
  }

  function another(field) {
    const row = field.querySelector("template").content.firstElementChild.cloneNode(true);
    field.querySelector(".sum-rows").append(row);
    count(field);
    row.querySelector("[data-column]").focus();
  }

  function away(row) {
    const field = row.closest(".sum-field");
    const next = row.nextElementSibling ?? row.previousElementSibling;
    if (next) row.remove();
    else for (const cell of row.querySelectorAll("[data-column]")) cell.value = "";
    count(field);
    (next ?? row).querySelector("[data-column]").focus();
    changed();
  }

  // A browser keeps the clipboard from pages that come over the local network without encryption.
  async function copy(button) {
    const text = document.getElementById(button.dataset.copy);
    const words = button.textContent;
    try {
      await navigator.clipboard.writeText(text.textContent);
      button.textContent = "Copied";
    } catch {
      getSelection().selectAllChildren(text);
      button.textContent = "Selected, to be copied";
    }
    setTimeout(() => (button.textContent = words), 2500);
  }

  // Keeping it with the day.

  function places() {
    const where = document.getElementById("keep-where");
    const { car } = where.selectedOptions[0].dataset;
    document.getElementById("keep-new").hidden = where.value !== "";
    document.getElementById("keep-of").setAttribute("list", `of-${car}`);
    return { car, sheet: where.value };
  }

  const value = (id) => document.getElementById(id).value.trim();

  async function keepIt() {
    const { car, sheet } = places();
    const kept = document.getElementById("kept");
    const button = keep.querySelector("button");
    button.disabled = true;
    try {
      const wanted = {
        given: given(), sheet, called: value("keep-called"), of: value("keep-of"), subsystem: value("keep-subsystem"),
      };
      const reply = await send(`${API}/cars/${encodeURIComponent(car)}/sums/${keep.dataset.sum}`, wanted, false);
      const now = await reply.json().catch(() => ({}));
      kept.className = reply.ok ? "" : "wrong";
      kept.textContent = now.said || "The desk has stumbled over this; nothing is kept.";
      if (reply.ok) {
        kept.append(" ", Object.assign(document.createElement("a"), { href: now.href, textContent: "Its sheet" }));
        if (!sheet) newSheet(car, now.sheet);
      }
    } catch {
      kept.className = "wrong";
      kept.textContent = "The desk does not answer, and nothing is kept.";
    } finally {
      button.disabled = false;
    }
  }

  // What comes next that day goes into the sheet that was made.
  function newSheet(car, name) {
    const where = document.getElementById("keep-where");
    const made = new Option("The new sheet of today", name, true, true);
    made.dataset.car = car;
    where.selectedOptions[0].before(made);
    where.value = name;
    places();
  }

  if (keep) {
    places();
    document.getElementById("keep-where").addEventListener("change", places);
    keep.addEventListener("submit", (event) => {
      event.preventDefault();
      keepIt();
    });
  }

  form.addEventListener("input", changed);
  form.addEventListener("focusout", (event) => {
    // Whoever leaves a field has written it; what is wrong with it need not wait.
    if (event.target.closest(".sum-field") !== event.relatedTarget?.closest(".sum-field")) changed();
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    changed();
  });
  document.addEventListener("click", (event) => {
    const button = event.target.closest("button");
    if (!button) return;
    if ("add" in button.dataset) another(button.closest(".sum-field"));
    if ("away" in button.dataset) away(button.closest(".sum-row"));
    if (button.dataset.copy) copy(button);
  });
})();
