"use strict";

// The filter of the ledger: some lines only, by the answers to three questions. The answers stand in
// the page's address after the #, so that a filtered ledger can be linked and Back undoes a choice.
// A # without = is a place in the page and changes nothing here.
(() => {
  const form = document.querySelector("form.filter");
  if (!form) return;
  const choices = [...form.querySelectorAll("select")];
  let rows = [];
  let branches = [];
  const jumps = document.querySelector(".jump-list");
  const found = form.querySelector("[role=status]");
  const all = form.querySelector("button");

  const answered = () => choices.filter((choice) => choice.value);

  const inWords = (choice) => `${choice.dataset.said} ${choice.selectedOptions[0].textContent}`;

  const show = () => {
    const asked = answered();
    for (const row of rows) {
      row.hidden = asked.some((choice) => row.dataset[choice.name] !== choice.value);
    }
    for (const branch of branches) {
      branch.hidden = !branch.querySelector("tr[data-origin]:not([hidden])");
      const heading = branch.querySelector("h3").id;
      jumps.querySelector(`a[href="#${heading}"]`).parentElement.hidden = branch.hidden;
    }
    jumps.hidden = branches.filter((branch) => !branch.hidden).length < 2;
    const shown = rows.filter((row) => !row.hidden).length;
    const of = `${rows.length} ${rows.length === 1 ? "component" : "components"}`;
    form.classList.toggle("narrowed", asked.length > 0);
    all.hidden = !asked.length;
    found.textContent = asked.length
      ? `${shown || "None"} of ${of}: ${asked.map(inWords).join(", ")}`
      : `All ${of}`;
  };

  const gather = () => {
    rows = [...document.querySelectorAll("tr[data-origin]")];
    branches = [...document.querySelectorAll("section.lines-of")];
  };

  const readAddress = () => {
    const told = new URLSearchParams(location.hash.slice(1));
    for (const choice of choices) {
      choice.value = told.get(choice.name) ?? "";
      if (choice.selectedIndex < 0) choice.value = "";
    }
    show();
  };

  const writeAddress = () => {
    const asked = answered().map((choice) => [choice.name, choice.value]);
    const here = location.pathname + location.search;
    history.pushState(null, "", asked.length ? `#${new URLSearchParams(asked)}` : here);
    show();
  };

  form.addEventListener("change", writeAddress);
  form.addEventListener("submit", (event) => event.preventDefault());
  all.addEventListener("click", () => {
    for (const choice of choices) choice.value = "";
    writeAddress();
    choices[0].focus();
  });
  for (const moved of ["popstate", "hashchange"]) {
    window.addEventListener(moved, () => {
      if (!location.hash || location.hash.includes("=")) readAddress();
    });
  }

  // The desk changes pages that are open.
  document.addEventListener("journal-changed", () => {
    gather();
    readAddress();
  });

  gather();
  readAddress();
  form.hidden = false;
  if (answered().length) form.closest("section").scrollIntoView();
})();
