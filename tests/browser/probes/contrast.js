// The contrast of every text with the ground under it, by WCAG 2.2: relative luminance, contrast ratio,
// and 1.4.3 Contrast (Minimum): 4.5, or 3 for large text (24 px, or 18.66 px and bold).
// Returns the ground of the page, how many texts were measured, how many stand on what is no single
// colour or cannot be seen, and the failures.
function least(style) {
  const size = parseFloat(style.fontSize);
  return size >= 24 || (size >= 18.66 && Number(style.fontWeight) >= 700) ? 3 : 4.5;
}

const page = getComputedStyle(document.documentElement).backgroundColor;
const told = { ground: page, measured: 0, unsure: 0, unseen: 0, failures: [] };

const opacities = new Map();

// How much of an element is left by its own opacity and that of all around it.
function opacity(element) {
  if (!element) return 1;
  if (!opacities.has(element)) {
    opacities.set(element, getComputedStyle(element).opacity * opacity(element.parentElement));
  }
  return opacities.get(element);
}

function measure(element, style, box, words) {
  const under = ground(element, box.left + box.width / 2, box.top + box.height / 2);
  if (under === null) return void (told.unseen += 1);
  if (under === undefined) return void (told.unsure += 1);
  told.measured += 1;
  const ink = { ...channels(element instanceof SVGElement ? style.fill : style.color) };
  ink.a *= opacity(element);
  const ratio = contrast(over(ink, under), under);
  if (ratio < least(style)) {
    told.failures.push(`${ratio.toFixed(2)} for ${least(style)}: ${words.trim().slice(0, 60)}`);
  }
}

function shown(element) {
  return element.checkVisibility({ visibilityProperty: true, opacityProperty: true });
}

// Every text of the page with its box in the whole page, read once before anything scrolls.
function* texts() {
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const range = document.createRange();
  while (walk.nextNode()) {
    const words = walk.currentNode.data;
    const element = walk.currentNode.parentElement;
    if (!words.trim() || !shown(element) || element.closest("title, desc")) continue;
    range.selectNodeContents(walk.currentNode);
    const box = [...range.getClientRects()].find((b) => b.width > 1 && b.height > 1);
    if (box) yield { element, style: getComputedStyle(element), box, words };
  }
  for (const element of document.body.querySelectorAll("*")) {
    for (const side of ["::before", "::after"]) {
      const style = getComputedStyle(element, side);
      if (!/\p{L}/u.test(style.content.replace(/^(none|normal)$/, "")) || !shown(element)) continue;
      const box = element.getClientRects()[0];
      if (box && box.width > 1 && box.height > 1) yield { element, style, box, words: style.content };
    }
  }
}

for (const folded of document.querySelectorAll("details")) folded.open = true;
window.scrollTo({ top: 0, behavior: "instant" });
const room = document.documentElement.clientHeight;
const all = [...texts()].sort((one, other) => one.box.top - other.box.top);
for (const text of all) {
  const middle = text.box.top + text.box.height / 2;
  if (middle < window.scrollY || middle >= window.scrollY + room) {
    window.scrollTo({ top: middle - room / 4, behavior: "instant" });
  }
  const { left, width, height } = text.box;
  const box = { left, width, height, top: text.box.top - window.scrollY };
  measure(text.element, text.style, box, text.words);
}
window.scrollTo({ top: 0, behavior: "instant" });
return told;
