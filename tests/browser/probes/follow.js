// Begins to note where the focus goes: the numbers of the stops it comes to, in the order of the
// document, with the skip link as number 0. A place that is no stop is noted as -1.
window.followed = [];
const numbered = stops();
document.addEventListener("focusin", (event) => {
  window.followed.push(numbered.indexOf(event.target));
});
window.inMain = numbered.findIndex((element) => element.closest("main"));
return numbered.length;
