// Targets too small to touch, by WCAG 2.2, 2.5.8 Target Size (Minimum): 24 by 24 CSS pixels, or so
// spaced that a circle of 24 pixels across, centred on the target, meets no other target and no such
// circle of another undersized one; a target in a sentence is exempt.
const LEAST = 24;
const TARGETS =
  "a[href], button, input:not([type=hidden]), select, textarea, summary, [role=button], [role=slider]";
const CONTROLS = "nav a, summary, button, select, input:not([type=checkbox], [type=radio])";

for (const folded of document.querySelectorAll("details")) folded.open = true;

function round(boxes) {
  const left = Math.min(...boxes.map((b) => b.left));
  const top = Math.min(...boxes.map((b) => b.top));
  const right = Math.max(...boxes.map((b) => b.right));
  const bottom = Math.max(...boxes.map((b) => b.bottom));
  return { left, top, right, bottom, x: (left + right) / 2, y: (top + bottom) / 2 };
}

// All boxes that a target reacts in: its lines, what is inside it, and the label that belongs to it.
function boxes(element) {
  const parts = [element, ...element.querySelectorAll("*"), ...(element.labels ?? [])];
  return parts.flatMap((p) => [...p.getClientRects()]).filter((b) => b.width > 0 && b.height > 0);
}

function target(element) {
  const own = boxes(element);
  const whole = own.some((b) => b.width >= LEAST - 0.01 && b.height >= LEAST - 0.01);
  return { element, own, whole, frame: own.length ? round(own) : null };
}

// In a sentence: laid out in line, and text that is no target stands in the same block, be it the
// commas of a list; the height of its lines then constrains the target.
function inSentence(element) {
  if (getComputedStyle(element).display !== "inline") return false;
  let block = element.parentElement;
  while (getComputedStyle(block).display.startsWith("inline")) block = block.parentElement;
  const walk = document.createTreeWalker(block, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const parent = walk.currentNode.parentElement;
    if (walk.currentNode.data.trim() && !parent.closest(TARGETS)) return true;
  }
  return false;
}

function gap(point, box) {
  const dx = Math.max(box.left - point.x, 0, point.x - box.right);
  const dy = Math.max(box.top - point.y, 0, point.y - box.bottom);
  return Math.hypot(dx, dy);
}

function crowded(one, others) {
  return others.find((other) => {
    if (other === one || other.element.contains(one.element)) return false;
    if (other.own.some((b) => gap(one.frame, b) < LEAST / 2)) return true;
    const apart = Math.hypot(other.frame.x - one.frame.x, other.frame.y - one.frame.y);
    return !other.whole && apart < LEAST;
  });
}

const name = (t) => (t.element.textContent || t.element.ariaLabel || t.element.outerHTML).trim();
const size = ({ right, left, bottom, top }) =>
  `${(right - left).toFixed(1)} by ${(bottom - top).toFixed(1)}`;
const all = [...document.querySelectorAll(TARGETS)]
  .filter((e) => e.checkVisibility({ visibilityProperty: true }))
  .map(target)
  .filter((t) => t.frame && t.frame.right > 0 && t.frame.bottom + window.scrollY > 0);
const failures = [];
for (const one of all.filter((t) => !t.whole)) {
  if (one.element.matches(CONTROLS)) {
    failures.push(`${name(one).slice(0, 60)}: a control of ${size(one.frame)}`);
  } else if (!inSentence(one.element)) {
    const near = crowded(one, all);
    if (near) {
      const told = `${name(one).slice(0, 60)}: ${size(one.frame)}`;
      failures.push(`${told}, too near to ${name(near).slice(0, 60)}`);
    }
  }
}
return { measured: all.length, failures };
