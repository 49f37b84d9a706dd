/* Words as the search knows them: without case, accents and plurals. The same rules as in
   searchwords.py, which makes what is searched; a test compares the two letter by letter. */
"use strict";

const findWords = (() => {
  /* Letters that Unicode does not take apart into a letter and a mark. */
  const LETTERS = {
    "ß": "ss", "æ": "ae", "œ": "oe", "ø": "o", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "ı": "i",
    "ς": "σ",
  };
  const SILENT = /[\p{Mn}\p{Cf}]/gu;
  const SPECIAL = new RegExp(`[${Object.keys(LETTERS).join("")}]`, "gu");
  const APOSTROPHE = /([\p{L}\p{N}])['\u2019](?=[\p{L}\p{N}])/gu;
  const WORD = /[\p{L}\p{N}]+/gu;
  /* Words that stand together without a space. */
  const RUN = /[\p{L}\p{N}]+(?:[-\u2010/.\u2044][\p{L}\p{N}]+)*/gu;
  const MOST_JOINED = 4;
  /* What a word counts that stands apart from the one it was typed together with. */
  const APART = 0.6;
  /* The same in a text as written, where accents and apostrophes are still inside a word. */
  const INK = "[\\p{L}\\p{N}\\p{Mn}\\p{Cf}]+(?:['\u2019][\\p{L}\\p{N}\\p{Mn}\\p{Cf}]+)*";
  const WRITTEN_WORD = new RegExp(INK, "gu");
  const WRITTEN_RUN = new RegExp(`${INK}(?:[-\u2010\u2011/.\u2044]${INK})*`, "gu");

  /* Endings, the endings before which they stay, and what stands in their place (Harman 1991). */
  const PLURALS = [
    ["ies", ["eies", "aies"], "y"],
    ["es", ["aes", "ees", "oes"], "e"],
    ["s", ["us", "ss"], ""],
  ];
  const SHORTEST = 3;
  const HISSING = ["xe", "che", "she", "sse", "zze"];

  const endsWith = (word, endings) => endings.some((ending) => word.endsWith(ending));

  const fold = (text) =>
    text
      .normalize("NFKD")
      .replace(SILENT, "")
      .toLowerCase()
      .replace(SPECIAL, (letter) => LETTERS[letter])
      .replace(APOSTROPHE, "$1");

  const stem = (word) => {
    if ([...word].length < SHORTEST) return word;
    const rule = PLURALS.find(([ending, kept]) => word.endsWith(ending) && !endsWith(word, kept));
    return rule ? word.slice(0, -rule[0].length) + rule[2] : word;
  };

  const termOf = (word) => {
    const plain = stem(word);
    return endsWith(plain, HISSING) ? plain.slice(0, -1) : plain;
  };

  /* The words of every run in a folded text. */
  const runs = (folded) => (folded.match(RUN) ?? []).map((run) => run.match(WORD));

  const joined = (words) => (words.length > 1 && words.length <= MOST_JOINED ? words.join("") : null);

  const terms = (text) =>
    runs(fold(text)).flatMap((words) => {
      const whole = joined(words);
      return [...words, ...(whole === null ? [] : [whole])].map(termOf);
    });

  /* The beginnings by which a word not yet finished is looked up. While `bodies` is being typed
     its stem is not yet `body`. */
  const beginnings = (word) => {
    const all = [word, termOf(word)];
    if (word.endsWith("i") || word.endsWith("ie")) all.push(word.replace(/ie?$/u, "y"));
    return [...new Set(all)];
  };

  /* What a query asks for: for every word the terms that answer it, each with its share, and for the
     last one, unless a space follows it, the beginnings that do. Where words were typed together,
     those that stand together answer in full and those that stand apart less. */
  const wants = (query) => {
    const found = new Map();
    for (const words of runs(fold(query))) {
      const whole = joined(words);
      for (const word of words) {
        const want = found.get(word) ?? { word, terms: new Map(), beginnings: [] };
        const add = (term, share) => want.terms.set(term, Math.max(share, want.terms.get(term) ?? 0));
        add(termOf(word), whole === null ? 1 : APART);
        if (whole !== null) add(termOf(whole), 1);
        found.set(word, want);
      }
    }
    const all = [...found.values()];
    const last = (fold(query).match(WORD) ?? []).at(-1);
    if (last !== undefined && [...last].length > 1 && !/\s$/u.test(query)) {
      found.get(last).beginnings = beginnings(last);
    }
    return all;
  };

  const answers = (want, term) =>
    want.terms.has(term) || want.beginnings.some((start) => term.startsWith(start));

  /* Which of the wants the words of a stretch of text answer, by their numbers. */
  const answered = (asked, found) =>
    asked.flatMap((want, n) => (found.some((term) => answers(want, term)) ? [n] : []));

  /* A text in pieces, each with the wants that it answers: words that answer none, and what stands
     between words, answer nothing. */
  const pieces = (text, asked) => {
    const cut = [];
    let here = 0;
    const take = (start, word, hits) => {
      if (start > here) cut.push({ text: text.slice(here, start), hits: [] });
      cut.push({ text: word, hits });
      here = start + word.length;
    };
    for (const run of text.matchAll(WRITTEN_RUN)) {
      const words = [...run[0].matchAll(WRITTEN_WORD)];
      const each = words.map((word) => answered(asked, terms(word[0])));
      const whole = words.length > 1 ? answered(asked, terms(run[0])) : [];
      if (whole.some((n) => !each.flat().includes(n))) {
        take(run.index, run[0], whole);
      } else {
        words.forEach((word, n) => take(run.index + word.index, word[0], each[n]));
      }
    }
    if (here < text.length) cut.push({ text: text.slice(here), hits: [] });
    return cut;
  };

  return Object.freeze({ fold, stem, terms, wants, answers, pieces });
})();
