// Begins to note where the focus goes: the numbers of the stops it comes to, in the order of the
// document, with the skip link as number 0. A place that is no stop is noted as -1.
window.followed = [];
const numbered = stops();
document.addEventListener("focusin", (event) => {
  window.followed.push(numbered.indexOf(event.target));
});
// Where the focus goes from the top of what the page is about: a page of words alone has no stop there.
const main = document.querySelector("main");
window.inMain = numbered.findIndex((element) =>
  main.contains(element) || main.compareDocumentPosition(element) & Node.DOCUMENT_POSITION_FOLLOWING);
return numbered.length;
