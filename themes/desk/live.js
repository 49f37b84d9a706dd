"use strict";

/*
A page of the desk that is open hears of each change, fetches itself anew and takes over what is
different. Everything else stays as it is: where the reader has scrolled to, what is unfolded, what
has the focus, what was typed, and what other scripts have added.

Three trees are compared: the page as it was sent, the page as it is sent now, and the page as it
stands. Only what differs between the first two is changed in the third.
*/

(() => {
  const QUIET = 30000;
  const status = document.getElementById("desk-link");
  const wrong = document.getElementById("desk-problems");
  const frame = document.querySelector(".frame");
  const car = decodeURIComponent(location.pathname).split("/")[1];

  let [start, number] = document.querySelector("meta[name=journal-state]").content.split(" ");
  // The page as it was sent, and for each node of it the one that stands in its place.
  let sent = frame.cloneNode(true);
  const standing = new WeakMap();

  function pair(one, other) {
    standing.set(one, other);
    const others = [...other.childNodes];
    [...one.childNodes].forEach((child, n) => pair(child, others[n]));
  }

  // The same nodes under new names: `now` equals `before`, and what stands for one stands for both.
  function rename(before, now) {
    const stands = standing.get(before);
    if (stands) standing.set(now, stands);
    const names = [...now.childNodes];
    [...before.childNodes].forEach((child, n) => rename(child, names[n]));
  }

  function fresh(now) {
    const made = document.importNode(now, true);
    pair(now, made);
    return made;
  }

  const alike = (one, other) =>
    one.nodeName === other.nodeName && (one.id || "") === (other.id || "") && one.nodeType === other.nodeType;

  function patchAttributes(before, now, stands) {
    for (const { name } of [...before.attributes]) {
      if (!now.hasAttribute(name)) stands.removeAttribute(name);
    }
    for (const { name, value } of [...now.attributes]) {
      if (before.getAttribute(name) !== value) stands.setAttribute(name, value);
    }
  }

  function patch(before, now) {
    if (before.isEqualNode(now)) return rename(before, now);
    const stands = standing.get(before);
    if (!stands) return;
    standing.set(now, stands);
    if (now.nodeType !== Node.ELEMENT_NODE) {
      stands.nodeValue = now.nodeValue;
      return;
    }
    patchAttributes(before, now, stands);
    patchChildren([...before.childNodes], [...now.childNodes], stands);
  }

  // Which of the old children go on as which of the new ones: equal ones first, then those between
  // them that are of the same kind, in their order.
  function matched(before, now) {
    const found = new Map();
    let first = 0;
    let last = 0;
    const room = Math.min(before.length, now.length);
    while (first < room && before[first].isEqualNode(now[first])) {
      found.set(now[first], before[first]);
      first += 1;
    }
    while (last < room - first && before.at(-1 - last).isEqualNode(now.at(-1 - last))) {
      found.set(now.at(-1 - last), before.at(-1 - last));
      last += 1;
    }
    const old = before.slice(first, before.length - last);
    const fresh = now.slice(first, now.length - last);
    let from = 0;
    for (const [n, node] of fresh.entries()) {
      let at = old.findIndex((other, m) => m >= from && other.isEqualNode(node));
      // A node that comes again later is not taken for its changed neighbour.
      const comes = (other) => fresh.slice(n + 1).some((later) => later.isEqualNode(other));
      if (at < 0) at = old.findIndex((other, m) => m >= from && alike(other, node) && !comes(other));
      if (at < 0) continue;
      found.set(node, old[at]);
      from = at + 1;
    }
    return found;
  }

  function patchChildren(before, now, parent) {
    const found = matched(before, now);
    const kept = new Set(found.values());
    for (const gone of before) {
      if (!kept.has(gone)) standing.get(gone)?.remove();
    }
    let after = null;
    for (const node of now) {
      const old = found.get(node);
      if (old) patch(old, node);
      else {
        const made = fresh(node);
        if (after) after.after(made);
        else parent.prepend(made);
      }
      const stands = standing.get(node);
      if (stands?.parentNode === parent) after = stands;
    }
  }

  // The first thing in sight stays where it is on the screen, whatever came or went above it.
  function inSight() {
    const sight = [...frame.querySelectorAll("main *")].find((node) => {
      const box = node.getBoundingClientRect();
      return box.height > 0 && box.height < window.innerHeight && box.bottom > 0 && box.top >= 0;
    });
    return sight && { sight, top: sight.getBoundingClientRect().top };
  }

  function take(page) {
    const now = page.querySelector(".frame");
    const kept = window.scrollY > 0 && inSight();
    patch(sent, now);
    sent = now;
    document.title = page.title;
    if (kept && kept.sight.isConnected) {
      window.scrollBy({ top: kept.sight.getBoundingClientRect().top - kept.top, behavior: "instant" });
    }
    addScripts(page);
    document.dispatchEvent(new CustomEvent("journal-changed"));
  }

  // A page may come to need a script that it did not need before.
  function addScripts(page) {
    const known = new Set([...document.scripts].map((script) => script.src));
    for (const script of page.querySelectorAll("script[src]")) {
      const src = new URL(script.getAttribute("src"), location.href).href;
      if (known.has(src)) continue;
      const made = document.createElement("script");
      made.src = src;
      made.async = false;
      document.head.append(made);
    }
  }

  let asked = Promise.resolve();
  let wanted = 0;

  // One after the other, and only the last of several.
  function renew() {
    wanted += 1;
    const mine = wanted;
    asked = asked.then(async () => {
      if (mine !== wanted) return;
      const answer = await fetch(location.pathname + location.search, { cache: "no-store" });
      if (!answer.ok) {
        tell(answer.status === 404 ? "This page is no longer there; what it said last stands here." : "", true);
        return;
      }
      const page = new DOMParser().parseFromString(await answer.text(), "text/html");
      [start, number] = page.querySelector("meta[name=journal-state]").content.split(" ");
      take(page);
    }).catch(() => tell("The desk does not answer. What you see is what it said last.", true));
  }

  function tell(words, gone = false) {
    status.textContent = words || "The desk";
    status.classList.toggle("gone", gone);
  }

  function element(name, text, className) {
    const made = document.createElement(name);
    made.textContent = text;
    if (className) made.className = className;
    return made;
  }

  // What is wrong, in the words of the terminal. What was there when the page was opened and is no
  // error stands on the front page, and not before the reader's eyes.
  let seen = null;

  function tellProblems(problems) {
    seen ??= new Set(problems.map((problem) => problem.text));
    const shown = problems.filter((problem) => problem.error || !seen.has(problem.text));
    const before = wrong.querySelector("details");
    wrong.hidden = shown.length === 0;
    wrong.classList.toggle("light", !shown.some((problem) => problem.error));
    if (!shown.length) {
      wrong.replaceChildren();
      document.body.style.paddingBottom = "";
      return;
    }
    const details = document.createElement("details");
    details.open = before ? before.open : true;
    const many = shown.length === 1 ? "One thing is" : `${shown.length} things are`;
    details.append(
      element("summary", `${many} wrong in the files. What cannot be read stays as it was.`),
      ...shown.map((problem) => element("pre", problem.text)),
    );
    if (wrong.textContent !== details.textContent) wrong.replaceChildren(details);
    document.body.style.paddingBottom = `${wrong.offsetHeight}px`;
  }

  function hear(state) {
    tell("");
    tellProblems(state.problems);
    const mine = car in state.cars ? state.cars[car] : state.number;
    if (state.start !== start || String(mine) !== number) renew();
  }

  // A page that nobody sees hears nothing: a browser has few connections to one place.
  let source = null;
  let silence = 0;

  function listen() {
    if (source || document.hidden) return;
    source = new EventSource("/_/live");
    source.addEventListener("state", (event) => hear(JSON.parse(event.data)));
    source.addEventListener("error", () => {
      tell("The desk does not answer. What you see is what it said last.", true);
      if (source?.readyState !== EventSource.CLOSED) return;
      source = null;
      clearTimeout(silence);
      silence = setTimeout(listen, Math.min(QUIET, 2000));
    });
  }

  function stop() {
    source?.close();
    source = null;
  }

  pair(sent, frame);
  document.addEventListener("visibilitychange", () => (document.hidden ? stop() : listen()));
  window.addEventListener("pagehide", stop);
  window.addEventListener("pageshow", listen);
  listen();
})();
