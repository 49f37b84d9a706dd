/* The page on which things are found: what is typed, what is shown for it, and the keys. */
"use strict";

(() => {
  const form = document.getElementById("find");
  if (!form) return;
  const field = document.getElementById("find-words");
  const tally = document.getElementById("find-tally");
  const only = document.getElementById("find-only");
  const keys = document.getElementById("find-keys");
  const found = document.getElementById("found");
  const byName = document.getElementById("by-name");

  const AT_ONCE = 12;
  const PAUSE = 120;
  const MARK = "#find=";
  const KEPT = "journal.find.keys";

  /* What is shown: the answer to the last query, the kind it is narrowed to, how much of it. */
  let answer = { wants: [], hits: [] };
  let kind = null;
  let shown = 0;
  let asked = 0;
  let waiting = 0;
  /* Settles when what was typed last is shown. */
  let drawing = Promise.resolve();

  const { make, item, number, whole } = findTold;

  const kinds = async () => (await findData.start()).kinds;

  /* What is left of the answer in the kind chosen. */
  const chosen = async () => {
    const all = await kinds();
    return answer.hits.filter((hit) => !kind || findData.kindOf(all, hit.number)[0] === kind);
  };

  /* The next of what was found, under a heading where the rest holds only some of the words. */
  const drawMore = async (query) => {
    const all = await kinds();
    const hits = await chosen();
    const some = hits.slice(shown, shown + AT_ONCE);
    const texts = await Promise.all(some.map((hit) => findData.text(hit.number)));
    if (query !== asked) return;
    if (!shown) found.replaceChildren();
    found.querySelector("button.further")?.remove();
    some.forEach((hit, n) => {
      list(hit).append(item(texts[n], findData.kindOf(all, hit.number), answer.wants));
    });
    shown += some.length;
    if (shown < hits.length) found.append(further(hits.length - shown));
  };

  /* The list that a hit belongs in. */
  const list = (hit) => {
    const name = whole(answer, hit) ? "all" : "some";
    const there = found.querySelector(`ol[data-of="${name}"]`);
    if (there) return there;
    if (!whole(answer, hit)) found.append(make("h2", { className: "rest-of" }, "With some of the words"));
    const made = make("ol", { className: "finds" });
    made.dataset.of = name;
    found.append(made);
    return made;
  };

  const further = (left) => {
    const button = make("button", { type: "button", className: "further" });
    button.textContent = left > AT_ONCE ? `${AT_ONCE} more of ${number(left)}` : `${left} more`;
    button.addEventListener("click", async () => {
      const before = links().length - 1;
      button.disabled = true;
      await drawMore(asked).catch(lost);
      links()[before]?.focus();
    });
    return button;
  };

  /* One button for every kind that was found, and one for all. */
  const drawKinds = async () => {
    const all = await kinds();
    const hits = answer.hits.filter((hit) => whole(answer, hit));
    const counts = new Map();
    for (const hit of hits.length ? hits : answer.hits) {
      const of = findData.kindOf(all, hit.number);
      counts.set(of, (counts.get(of) ?? 0) + 1);
    }
    const ordered = all.filter((of) => counts.has(of));
    only.hidden = ordered.length < 2;
    if (kind && !ordered.some(([one]) => one === kind)) kind = null;
    const choice = (name, label, count) => {
      const words = count ? [`${label} `, make("span", { className: "amount" }, number(count))] : [label];
      const button = make("button", { type: "button" }, ...words);
      button.setAttribute("aria-pressed", String(kind === name));
      button.addEventListener("click", () => narrow(name, button));
      return button;
    };
    only.replaceChildren(
      choice(null, "All", 0),
      ...ordered.map((of) => choice(of[0], of[1], counts.get(of))),
    );
  };

  const narrow = async (name, pressed) => {
    kind = name;
    shown = 0;
    asked += 1;
    busy(true);
    for (const button of only.children) {
      button.setAttribute("aria-pressed", String(button === pressed));
    }
    const query = asked;
    await drawMore(query).catch(lost);
    if (query === asked) busy(false);
  };

  /* How much was found, in words. */
  const tallied = async () => [
    findTold.tally(answer, field.value.trim()),
    ...(answer.hits.length ? [] : await suggestion()),
  ];

  /* The nearest words to the one word that stands nowhere. */
  const suggestion = async () => {
    if (answer.wants.length !== 1) return [];
    const near = await findData.nearest(answer.wants[0]);
    if (!near.length) return [];
    const buttons = near.map((word) => {
      const button = make("button", { type: "button", className: "near" }, word);
      button.addEventListener("click", () => {
        field.value = word;
        field.focus();
        look();
      });
      return button;
    });
    return [" The nearest here: ", ...buttons.flatMap((b, n) => (n ? [", ", b] : [b])), "."];
  };

  /* Show what answers the words in the field, or the index when there are none. */
  const look = () => {
    asked += 1;
    const query = asked;
    busy(true);
    remember();
    drawing = show(query)
      .catch(() => {
        if (query === asked) lost();
      })
      .finally(() => {
        if (query === asked && !waiting) busy(false);
      });
  };

  const show = async (query) => {
    if (!findWords.wants(field.value).length) {
      answer = { wants: [], hits: [] };
      say([]);
      showIndex();
      return;
    }
    const come = await findData.search(field.value);
    if (query !== asked) return;
    answer = come;
    shown = 0;
    await drawKinds();
    const words = await tallied();
    if (query !== asked) return;
    say(words);
    byName.hidden = true;
    found.hidden = false;
    if (!answer.hits.length) found.replaceChildren();
    else await drawMore(query);
  };

  const showIndex = () => {
    byName.hidden = false;
    found.hidden = true;
    only.hidden = true;
    found.replaceChildren();
  };

  const lost = () => {
    say(["Part of what is searched is missing from this archive. The index below is whole."]);
    showIndex();
  };

  /* Whether what is typed is still to be shown. */
  const busy = (is) => found.setAttribute("aria-busy", String(is));

  const say = (words) => tally.replaceChildren(...words);

  /* The words go into the address, so that the way back from a page leads to them. */
  const remember = () => {
    const words = field.value.trim();
    const address = words ? MARK + encodeURIComponent(words) : location.pathname;
    try {
      history.replaceState(null, "", address);
    } catch {
      /* A browser that keeps addresses of files as they are still finds. */
    }
  };

  const recalled = () => {
    if (!location.hash.startsWith(MARK)) return "";
    try {
      return decodeURIComponent(location.hash.slice(MARK.length));
    } catch {
      return "";
    }
  };

  const links = () => [...found.querySelectorAll("a, button.further")];

  const clear = () => {
    clearTimeout(waiting);
    waiting = 0;
    field.value = "";
    kind = null;
    field.focus();
    look();
  };

  const step = (event, by) => {
    const all = links();
    const next = all.indexOf(document.activeElement) + by;
    event.preventDefault();
    if (next < 0) field.focus();
    else all[Math.min(next, all.length - 1)]?.focus();
  };

  const settle = () => {
    if (waiting) {
      clearTimeout(waiting);
      waiting = 0;
      look();
    }
    return drawing;
  };

  field.addEventListener("input", () => {
    busy(true);
    clearTimeout(waiting);
    waiting = setTimeout(() => {
      waiting = 0;
      look();
    }, PAUSE);
  });

  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    await settle();
    links()[0]?.focus();
  });

  field.addEventListener("keydown", async (event) => {
    if (event.key === "Escape") {
      event.preventDefault();
      clear();
    } else if (event.key === "ArrowDown") {
      event.preventDefault();
      await settle();
      links()[0]?.focus();
    }
  });

  found.addEventListener("keydown", (event) => {
    if (event.key === "ArrowDown") step(event, 1);
    else if (event.key === "ArrowUp") step(event, -1);
    else if (event.key === "Escape") clear();
  });

  /* The key / comes to the field from everywhere, and so does what is typed before anything has the
     focus: whoever has just come to this page came to type. */
  document.addEventListener("keydown", (event) => {
    const { target, key } = event;
    const writing = target.closest?.("input:not([type=checkbox]), textarea, select, [contenteditable]");
    if (!keys.checked || writing || event.ctrlKey || event.metaKey || event.altKey) return;
    if (key === "/") {
      event.preventDefault();
      field.focus();
      field.select();
    } else if (target === document.body && /^[\p{L}\p{N}]$/u.test(key)) {
      field.focus();
    }
  });

  /* Whether keys come to the field is kept where the browser allows it. */
  try {
    keys.checked = localStorage.getItem(KEPT) !== "off";
    keys.addEventListener("change", () => localStorage.setItem(KEPT, keys.checked ? "on" : "off"));
  } catch {
    keys.checked = true;
  }

  addEventListener("hashchange", () => {
    if (!location.hash.startsWith(MARK)) return;
    field.value = recalled();
    look();
  });

  findData.from(form.dataset.folder);
  form.hidden = false;
  if (recalled()) {
    field.value = recalled();
    look();
  }
})();
