// Colours as they are drawn, and their relative luminance and contrast ratio by WCAG 2.2. Other probes
// stand on this one.
const pen = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
const known = new Map();

// Any CSS colour as red, green, blue from 0 to 255 and opacity from 0 to 1.
function channels(colour) {
  if (!known.has(colour)) {
    pen.clearRect(0, 0, 1, 1);
    pen.fillStyle = colour;
    pen.fillRect(0, 0, 1, 1);
    const [r, g, b, a] = pen.getImageData(0, 0, 1, 1).data;
    known.set(colour, { r, g, b, a: a / 255 });
  }
  return known.get(colour);
}

function over(top, under) {
  const mix = (one, other) => one * top.a + other * (1 - top.a);
  return { r: mix(top.r, under.r), g: mix(top.g, under.g), b: mix(top.b, under.b), a: 1 };
}

function luminance({ r, g, b }) {
  const linear = [r, g, b].map((c) => {
    const share = c / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2];
}

function contrast(one, other) {
  const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

const paints = new Map();

// What an element itself paints: a colour, null for nothing, undefined for what is no single colour.
// Nothing changes its colours while a probe runs.
function paint(element) {
  if (!paints.has(element)) paints.set(element, painted(element));
  return paints.get(element);
}

function painted(element) {
  const style = getComputedStyle(element);
  if (element instanceof SVGGeometryElement) {
    if (style.fill === "none") return null;
    if (style.fill.startsWith("url")) return undefined;
    const fill = channels(style.fill);
    return { ...fill, a: fill.a * style.fillOpacity };
  }
  if (style.backgroundImage !== "none") return undefined;
  if (element.matches("img, canvas, video, picture, image")) return undefined;
  const ground = channels(style.backgroundColor);
  return ground.a > 0 ? ground : null;
}

function ancestry(element) {
  const line = [];
  for (let at = element; at; at = at.parentElement) line.push(at);
  return line;
}

// The solid colour under a point of an element's text; null where the element is not to be seen
// there, undefined where what is under it is no single colour.
function ground(element, x, y) {
  const stack = document.elementsFromPoint(x, y);
  let from = stack.indexOf(element);
  if (from < 0 && getComputedStyle(element).pointerEvents === "none") {
    stack.splice(0, stack.length, ...ancestry(element));
    from = 0;
  }
  if (from < 0) return null;
  const layers = [];
  for (const under of stack.slice(from)) {
    const layer = paint(under);
    if (layer === undefined) return undefined;
    if (layer) layers.unshift(layer);
    if (layer && layer.a === 1) break;
  }
  return layers.reduce((under, top) => over(top, under), { r: 255, g: 255, b: 255, a: 1 });
}
