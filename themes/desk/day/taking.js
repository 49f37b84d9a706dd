/*
A line that was heard, taken over into the form of a day. It says of forms as plain data what is said of
sheets in `outputs/sheets/merging.py`: lists are put together, findings stand side by side, hours are
added up, and of the rest the later counts.
*/

// What tells that an entry begins a thing, which is another one than any of its name that differs.
const BEGINS = { work: [], parts: ["what", "ordered"], measured: ["read"], snags: ["raise"] };
const SIDE_BY_SIDE = new Set(["found", "note"]);

const isSaid = (value) => Boolean(value) && value.length !== 0;

// The form with a line in it, and where what it put stands; or why it cannot be put. Hours of which
// nobody said whose they are go to the `hand` that is named; `otherwise` are those that no row shows.
export function taken(form, line, { otherwise = [], hand: whose = "" } = {}) {
  const made = structuredClone(form);
  const besides = structuredClone(line.beside);
  const places = [];
  for (const [said, hours] of Object.entries(line.form.hours || {})) {
    const hand = said || whose;
    const whole = otherwise.includes(hand) ? null : added(made.hours[hand], hours);
    if (otherwise.includes(hand)) besides.hours = { ...besides.hours, [hand]: hours };
    else if (whole === null) return { why: `The hours stand there as “${made.hours[hand]}”, which is no number: put that right first.`, at: ["hours", hand] };
    else if (hasBoth(made.hours, hand)) return { why: "The hours of this sheet are told by hand: write beside a name whose these are.", at: ["hours", Object.keys(made.hours)[0]] };
    else made.hours[hand] = whole;
    places.push(["hours", hand]);
  }
  for (const kind of Object.keys(BEGINS)) {
    for (const entry of line.form[kind] || []) {
      const name = put((made[kind] ??= []), kind, entry);
      places.push([kind, name]);
      if (name !== entry.name && besides[kind]?.[entry.name]) {
        besides[kind] = Object.fromEntries(Object.entries(besides[kind]).map(([key, value]) => [key === entry.name ? name : key, value]));
      }
    }
  }
  const branches = [...(line.form.subsystem || []), ...(line.form.work || []).map((entry) => entry.name.split("/")[0])];
  made.subsystem = union(made.subsystem, branches);
  if (Object.keys(besides).length) made.beside = [...made.beside, { words: line.words, ...besides }];
  if (places.length || Object.keys(besides).length) made.recording = withMoment(made.recording, line);
  return { form: made, places };
}

// Hours as they are written, added up to the last figure; null when there is no number.
export function added(before, more) {
  const figures = [before || "0", more].map((text) => /^(\d*)(?:\.(\d*))?$/.exec(text.trim()));
  if (figures.some((found) => !found || (!found[1] && !found[2]))) return null;
  const places = Math.max(...figures.map(([, , part]) => (part || "").length));
  const sum = figures.map(([, whole, part]) => BigInt(whole + (part || "").padEnd(places, "0"))).reduce((a, b) => a + b);
  const text = String(sum).padStart(places + 1, "0");
  return places ? `${text.slice(0, -places)}.${text.slice(-places)}`.replace(/\.?0+$/, "") : text;
}

const hasBoth = (hours, hand) => Object.keys(hours).some((other) => !other !== !hand);

function put(entries, kind, entry) {
  const there = (name) => entries.find((one) => one.name === name);
  const before = there(entry.name);
  const begins = BEGINS[kind].some((field) => isSaid(entry[field]));
  const name = before && begins && clash(before, entry) ? free(entry.name, there) : entry.name;
  const one = there(name) || {};
  if (!there(name)) entries.push(one);
  Object.assign(one, together(one, entry), { name, given: "folded" });
  return name;
}

function free(name, there) {
  let n = 2;
  while (there(`${name}-${n}`)) n += 1;
  return `${name}-${n}`;
}

const clash = (before, entry) =>
  Object.entries(entry).some(([field, value]) => !["name", "given"].includes(field) && !Array.isArray(value) && !SIDE_BY_SIDE.has(field) && isSaid(value) && isSaid(before[field]) && before[field] !== value);

function together(before, entry) {
  const made = { ...before };
  for (const [field, value] of Object.entries(entry)) {
    if (!isSaid(value)) continue;
    if (Array.isArray(value)) made[field] = union(before[field], value);
    else if (SIDE_BY_SIDE.has(field) && isSaid(before[field])) made[field] = union(before[field].split("; "), value.split("; ")).join("; ");
    else made[field] = value;
  }
  return made;
}

const union = (before, after) => [...new Set([...(before || []), ...after])];

/* The moment of a line, in the recording that is named as a whole or else first, in order of time. */

const fileOf = (moment) => (typeof moment === "string" ? moment : moment.file);
const secondsOf = (moment) => (typeof moment !== "string" && moment.at ? moment.at.split(":").reduce((sum, part) => sum * 60 + Number(part), 0) : -1);

function withMoment(moments, line) {
  const told = line.line.at;
  const whole = moments.find((moment) => typeof moment === "string") ?? moments[0];
  if (!told || !whole) return moments;
  const moment = { file: fileOf(whole), at: told, ...(line.of.length && { of: line.of }), ...(line.words && { words: line.line.words }) };
  if (moments.some((one) => JSON.stringify(one) === JSON.stringify(moment))) return moments;
  const later = moments.findIndex((one) => fileOf(one) === moment.file && secondsOf(one) > secondsOf(moment));
  const place = later < 0 ? moments.length : later;
  return [...moments.slice(0, place), moment, ...moments.slice(place)];
}
