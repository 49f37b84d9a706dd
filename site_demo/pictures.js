"use strict";

/*
Before and after. Two figures of a `.pair` are laid one over the other in a single frame; a slider
draws the line between them. The frame has the proportions of the first picture; the other one is
shown whole within it. Two that are very unlike in shape begin side by side. On paper, and without
this script, they stay two plain pictures.
*/

(() => {
  // In hundredths of the frame's width: how far a finger moves before it is taken to draw the line.
  const MEANT = 1.5;
  // How many times as wide for its height one picture may be as the other to be laid over it at once.
  const ALIKE = 1.35;

  function make(name, attributes, ...children) {
    const made = document.createElement(name);
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
    made.append(...children);
    return made;
  }

  function words(share, first) {
    if (share <= 0) return `nothing ${first}`;
    if (share >= 100) return `all ${first}`;
    return `${Math.round(share)} % ${first}`;
  }

  function alike(one, other) {
    const shape = (image) => image.getAttribute("width") / image.getAttribute("height");
    const times = shape(one) / shape(other);
    return Math.max(times, 1 / times) <= ALIKE;
  }

  // The picture lies under the slider, so the way to the large one goes through its caption.
  function leadFromCaption(figure) {
    const open = figure.querySelector("a.open");
    const stage = figure.querySelector("figcaption .stage");
    if (!open || !stage) return;
    open.tabIndex = -1;
    stage.replaceChildren(make("a", { href: open.getAttribute("href") }, stage.textContent));
  }

  // What is added to a pair: the slider and its knob within a frame, the words and a button below.
  function partsFor(pair, number) {
    const { label, of } = pair.dataset;
    const id = `line-${number}`;
    const slider = make("input", { type: "range", id, min: 0, max: 100, step: 2, value: 50 });
    const knob = make("span", { class: "knob", "aria-hidden": "true" });
    const frame = make("div", { class: "overlay" }, slider, knob);
    const about = make("span", { class: "hidden" }, `: ${of}`);
    const button = make("button", { type: "button", class: "beside" });
    const foot = make("p", { class: "drawn" }, make("label", { for: id }, label, about), button);
    return { slider, frame, button, foot };
  }

  function layOver(pair, number) {
    const figures = pair.querySelectorAll("figure");
    const [picture, other] = pair.querySelectorAll("figure img");
    const { slider, frame, button, foot } = partsFor(pair, number);

    function draw(share) {
      const kept = Math.min(100, Math.max(0, share));
      pair.style.setProperty("--at", `${kept}%`);
      slider.setAttribute("aria-valuetext", words(kept, pair.dataset.first));
      return kept;
    }

    function drawTo(event) {
      const box = frame.getBoundingClientRect();
      slider.value = draw(((event.clientX - box.left) / box.width) * 100);
    }

    function lay(over) {
      pair.classList.toggle("laid", over);
      button.textContent = over ? "Show them side by side" : "Lay one over the other";
      fit();
    }

    // Both are drawn wider than side by side, and wider still when the window grows.
    function fit() {
      if (!pair.classList.contains("laid")) return;
      for (const drawn of pair.querySelectorAll("source, img")) drawn.sizes = `${frame.clientWidth}px`;
    }

    pair.style.setProperty("--w", picture.getAttribute("width"));
    pair.style.setProperty("--h", picture.getAttribute("height"));
    slider.addEventListener("input", () => draw(Number(slider.value)));
    button.addEventListener("click", () => lay(!pair.classList.contains("laid")));
    followPointer(frame, slider, drawTo);
    figures.forEach(leadFromCaption);
    pair.append(frame, foot);
    lay(alike(picture, other));
    draw(50);
    new ResizeObserver(fit).observe(frame);
  }

  // A mouse draws at once; a finger first shows that it does not mean to scroll the page.
  function followPointer(frame, slider, drawTo) {
    let start = null;
    let drawing = false;

    function stop() {
      start = null;
      drawing = false;
    }

    frame.addEventListener("pointerdown", (event) => {
      if (!event.isPrimary) return stop();
      if (event.button !== 0) return;
      start = event;
      drawing = event.pointerType === "mouse";
      if (drawing) {
        event.preventDefault();
        slider.focus({ preventScroll: true, focusVisible: false });
        drawTo(event);
      }
      frame.setPointerCapture(event.pointerId);
    });
    frame.addEventListener("pointermove", (event) => {
      if (!start || event.pointerId !== start.pointerId) return;
      const moved = (Math.abs(event.clientX - start.clientX) / frame.clientWidth) * 100;
      drawing ||= moved > MEANT;
      if (drawing) drawTo(event);
    });
    frame.addEventListener("pointerup", (event) => {
      if (start && event.pointerId === start.pointerId) drawTo(event);
      stop();
    });
    frame.addEventListener("pointercancel", stop);
  }

  let laid = 0;

  function layAll() {
    for (const pair of document.querySelectorAll(".pair:not(:has(.overlay))")) {
      if (pair.querySelectorAll("figure img").length === 2) layOver(pair, laid++);
    }
  }

  layAll();
  // The desk changes pages that are open.
  document.addEventListener("journal-changed", layAll);
})();
