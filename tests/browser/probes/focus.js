// Gives every stop of the keyboard the focus in turn and returns where that cannot be seen, by WCAG 2.2:
// 2.4.7 Focus Visible, 2.4.11 Focus Not Obscured, and 1.4.11 for the outline, 3 to 1 with its ground.
function solid(element) {
  const under = ancestry(element).find((at) => channels(getComputedStyle(at).backgroundColor).a === 1);
  return under ? channels(getComputedStyle(under).backgroundColor) : channels("#fff");
}

function fault(element) {
  element.focus({ focusVisible: true });
  if (document.activeElement !== element) return "takes no focus";
  const style = getComputedStyle(element);
  if (style.outlineStyle === "none" || parseFloat(style.outlineWidth) < 2) return "has no outline";
  const ratio = contrast(channels(style.outlineColor), solid(element.parentElement));
  if (ratio < 3) return `has an outline of ${ratio.toFixed(2)} to 1`;
  const box = [...element.getClientRects()].find((b) => b.width > 0 && b.height > 0);
  const x = Math.min(Math.max(box.left + box.width / 2, 0), innerWidth - 1);
  const y = Math.min(Math.max(box.top + box.height / 2, 0), innerHeight - 1);
  const top = document.elementFromPoint(x, y);
  if (!top || !(element.contains(top) || top.contains(element))) return "cannot be seen";
  return null;
}

for (const folded of document.querySelectorAll("details")) folded.open = true;
const failures = [];
const all = stops();
for (const element of all) {
  const told = fault(element);
  if (told) failures.push(`${element.outerHTML.slice(0, 120)} ${told}`);
}
document.activeElement.blur();
return { measured: all.length, failures };
