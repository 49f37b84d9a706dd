/* How one thing that was found is shown: what it is, and the words in their sentence. */
"use strict";

const findTold = (() => {
  const LONGEST = 260;

  const make = (tag, props = {}, ...children) => {
    const made = Object.assign(document.createElement(tag), props);
    made.append(...children);
    return made;
  };

  /* A text with the words that were found marked. */
  const marked = (text, wants) =>
    findWords
      .pieces(text, wants)
      .map((piece) => (piece.hits.length ? make("mark", {}, piece.text) : piece.text));

  /* Which of the words a sentence holds, by their numbers. */
  const held = (sentence, wants) =>
    new Set(findWords.pieces(sentence, wants).flatMap(({ hits }) => hits));

  /* The sentence that holds most of the words, and one more if it holds others. */
  const telling = (sentences, wants) => {
    const rated = sentences.map((sentence, n) => ({ sentence, n, has: held(sentence, wants) }));
    const most = (count) => [...rated].sort((a, b) => count(b) - count(a) || a.n - b.n)[0];
    if (!rated.length) return [];
    const first = most(({ has }) => has.size);
    const others = ({ has }) => [...has].filter((n) => !first.has.has(n)).length;
    const second = most(others);
    const both = others(second) ? [first, second] : [first];
    return both.sort((a, b) => a.n - b.n).map(({ sentence }) => sentence);
  };

  /* A long sentence, cut so that its first marked word stays in sight. */
  const cut = (sentence, wants) => {
    if (sentence.length <= LONGEST) return sentence;
    const pieces = findWords.pieces(sentence, wants);
    const first = pieces.findIndex(({ hits }) => hits.length);
    const before = pieces.slice(0, Math.max(first, 0)).reduce((sum, { text }) => sum + text.length, 0);
    const from = Math.max(0, Math.min(before - LONGEST / 3, sentence.length - LONGEST));
    const start = from ? sentence.indexOf(" ", from) + 1 : 0;
    const end = start + LONGEST < sentence.length ? sentence.lastIndexOf(" ", start + LONGEST) : 0;
    const part = end > start ? sentence.slice(start, end) : sentence.slice(start);
    return `${start ? "… " : ""}${part}${end > start ? " …" : ""}`;
  };

  /* What stands between two sentences that do not follow each other. */
  const between = (one, other) => (one.endsWith("…") || other.startsWith("…") ? " " : " … ");

  /* The words of a thing: what it is and where it belongs, its name, its sentences. */
  const words = ([title, href, note, sentences], [one], wants) => {
    const label = marked(note ? `${one} · ${note}` : one, wants);
    const excerpt = telling(sentences, wants)
      .map((sentence) => cut(sentence, wants))
      .flatMap((part, n, all) => [...(n ? [between(all[n - 1], part)] : []), ...marked(part, wants)]);
    return make(
      "div",
      {},
      make("p", { className: "label" }, ...label),
      make("p", { className: "entry" }, make("a", { href }, ...marked(title, wants))),
      ...(excerpt.length ? [make("p", { className: "excerpt" }, ...excerpt)] : []),
    );
  };

  /* A line of the list, with its picture when it is one. */
  const item = (text, kind, wants) => {
    const row = make("li", {}, words(text, kind, wants));
    const [src, width, height] = text[4] ?? [];
    if (src) {
      row.className = "pictured";
      row.append(make("img", { className: "thumb", src, width, height, alt: "", loading: "lazy" }));
    }
    return row;
  };

  const numbers = new Intl.NumberFormat("en-GB");
  const number = (n) => numbers.format(n);
  const SMALL = ["no", "one", "two", "three", "four", "five", "six"];
  const places = (n) => `${number(n)} ${n === 1 ? "place" : "places"}`;

  /* Whether a thing answers all that was asked. */
  const whole = ({ wants }, hit) => hit.answered === wants.length;

  /* How much was found for some words, in a sentence. */
  const tally = (answer, typed) => {
    const { wants, hits } = answer;
    const all = hits.filter((hit) => whole(answer, hit)).length;
    const rest = hits.length - all;
    if (!hits.length) return `Nothing here holds “${typed}”.`;
    if (wants.length === 1) return `“${typed}${wants[0].met ? "" : "…"}” stands in ${places(all)}.`;
    const both = wants.length === 2;
    if (!all) {
      const verb = rest === 1 ? "holds" : "hold";
      return `No place holds ${both ? "both" : "all of the"} words; ${places(rest)} ${verb} some of them.`;
    }
    const every = both ? "Both" : `All ${SMALL[wants.length] ?? number(wants.length)}`;
    const more = rest ? `, some of them in ${number(rest)} more` : "";
    return `${every} words stand in ${places(all)}${more}.`;
  };

  return Object.freeze({ make, item, number, whole, tally });
})();
