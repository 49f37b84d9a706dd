"use strict";

/*
A picture that stands large: arrow keys and a swipe lead to its neighbours, Escape back to all
pictures. What the neighbours show is fetched beforehand.
*/

(() => {
  const link = (name) => document.querySelector(`.neighbours.pictures a.${name}`);
  const picture = document.getElementById("picture");
  const places = { ArrowLeft: link("before"), ArrowRight: link("after"), Escape: link("all") };
  // How far a finger goes, in pixels, and for how long at most, in milliseconds, to turn the page.
  const FAR = 50;
  const LONG = 900;

  function go(place) {
    if (place) location.assign(place.href);
  }

  function takesKeys(element) {
    return element.closest("input, textarea, select, summary, [contenteditable], [role=slider]");
  }

  // Where the page is wider than the screen, the arrows move about in it.
  function scrollsSideways() {
    const page = document.documentElement;
    return page.scrollWidth > page.clientWidth || window.visualViewport?.scale > 1.01;
  }

  document.addEventListener("keydown", (event) => {
    if (event.defaultPrevented || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    if (!(event.key in places) || takesKeys(event.target)) return;
    if (event.key !== "Escape" && scrollsSideways()) return;
    event.preventDefault();
    go(places[event.key]);
  });

  // Said only where there are keys to press and the page has room for it.
  if (window.matchMedia("(hover: hover) and (min-width: 48rem)").matches) {
    const hint = document.createElement("p");
    hint.className = "aside keys";
    hint.textContent = "The arrow keys turn to the next picture; Escape goes back to all.";
    document.querySelector(".neighbours.pictures").after(hint);
  }

  // Pointers on the picture; two of them are a pinch, and no page is turned until all are gone.
  const down = new Set();
  let start = null;

  function lift(event) {
    down.delete(event.pointerId);
    start = null;
  }

  function swiped(event) {
    const across = event.clientX - start.clientX;
    const along = event.clientY - start.clientY;
    const quick = event.timeStamp - start.timeStamp < LONG;
    return quick && Math.abs(across) > FAR && Math.abs(across) > 2 * Math.abs(along) ? across : 0;
  }

  picture.addEventListener("pointerdown", (event) => {
    if (event.pointerType !== "touch") return;
    down.add(event.pointerId);
    start = down.size === 1 && !scrollsSideways() ? event : null;
  });
  picture.addEventListener("pointerup", (event) => {
    const across = start && event.pointerId === start.pointerId ? swiped(event) : 0;
    lift(event);
    if (across) go(across < 0 ? places.ArrowRight : places.ArrowLeft);
  });
  picture.addEventListener("pointercancel", lift);

  // A picture that was magnified is moved about with one finger, as any other page is.
  function leaveToBrowser() {
    picture.classList.toggle("magnified", scrollsSideways());
  }
  window.visualViewport?.addEventListener("resize", leaveToBrowser);

  function fetchBeforehand() {
    if (navigator.connection?.saveData) return;
    for (const place of [places.ArrowRight, places.ArrowLeft]) {
      if (!place) continue;
      const ahead = new Image();
      ahead.sizes = place.dataset.sizes;
      ahead.srcset = place.dataset.srcset;
    }
  }
  window.addEventListener("load", () => setTimeout(fetchBeforehand, 200));
})();
