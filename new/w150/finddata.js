/* What is searched: loads the files of `find/` that a query needs, and ranks what they hold. */
"use strict";

const findData = (() => {
  const SIGNS = "0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";
  const VALUES = new Map([...SIGNS].map((sign, value) => [sign, value]));
  const DIGITS = 31;
  const LEVELS = 61;
  /* What a word counts that only begins with what was typed. */
  const BEGUN = 0.6;
  /* The shortest word for which a near one is looked for, and how many are told. */
  const SHORTEST = 4;
  const MOST_NEAR = 3;

  const loading = new Map();
  const arrived = new Map();
  let folder = "find/";

  /* Every file calls this with its kind, its name and its data. */
  const receive = (kind, name, data) => arrived.set(`${kind} ${name}`, data);

  const fileName = (kind, name) => {
    const plain = name.replace(/[^a-z0-9]/giu, (c) => `-${c.codePointAt(0).toString(16)}-`);
    return name ? `${folder}${kind}-${plain}.js` : `${folder}${kind}.js`;
  };

  /* The data of one file, read once. */
  const load = (kind, name = "") => {
    const key = `${kind} ${name}`;
    if (!loading.has(key)) {
      loading.set(key, new Promise((resolve, reject) => {
        const script = document.createElement("script");
        script.src = fileName(kind, name);
        script.onload = () => {
          script.remove();
          if (arrived.has(key)) resolve(arrived.get(key));
          else reject(new Error(script.src));
        };
        script.onerror = () => {
          loading.delete(key);
          script.remove();
          reject(new Error(script.src));
        };
        document.head.append(script);
      }));
    }
    return loading.get(key);
  };

  /* Documents and levels, as the packing of searchdata.py tells them. */
  const unpacked = (signs) => {
    const places = [];
    let number = 0;
    let at = 0;
    const next = () => VALUES.get(signs[at++]);
    while (at < signs.length) {
      let place = 1;
      let digit = next();
      for (; digit >= DIGITS; digit = next()) {
        number += (digit - DIGITS) * place;
        place *= DIGITS;
      }
      number += digit * place;
      places.push([number, next()]);
    }
    return places;
  };

  /* The words of one file, each with its places still packed: a word ends at the first capital. */
  const wordsOf = async (name) =>
    (await load("terms", name)).map((line) => {
      const end = line.search(/[A-Z]/);
      return { term: line.slice(0, end), signs: line.slice(end + 1) };
    });

  /* The words of every file that may hold what a want asks for. */
  const wordsFor = async (want, names) =>
    (await Promise.all(filesFor(want, names).map(wordsOf))).flat();

  /* The files that may hold a term, or terms that begin with something. */
  const filesFor = (want, names) => {
    const files = new Set();
    for (const term of [...want.terms.keys(), ...want.beginnings]) {
      const over = names.filter((name) => term.startsWith(name));
      if (over.length) files.add(over.reduce((a, b) => (a.length < b.length ? b : a)));
    }
    for (const start of want.beginnings) {
      names.filter((name) => name.startsWith(start)).forEach((name) => files.add(name));
    }
    return [...files];
  };

  /* The best level at which each document answers a want, from 0 to 1; the want is `met` when a whole
     word answers it. */
  const levelsOf = (want, words) => {
    const best = new Map();
    for (const { term, signs } of words) {
      if (!findWords.answers(want, term)) continue;
      want.met ||= want.terms.has(term);
      const share = want.terms.get(term) ?? BEGUN;
      for (const [number, level] of unpacked(signs)) {
        const value = (share * level) / LEVELS;
        if (value > (best.get(number) ?? 0)) best.set(number, value);
      }
    }
    return best;
  };

  /* How rare it is to be answered: the usual weight of BM25, kept above nothing. */
  const rarity = (some, all) => Math.log(1 + (all - some + 0.5) / (some + 0.5));

  const start = () => load("start");

  /* What answers a query: those that answer all of it first, then most of it, the best first. */
  const search = async (query) => {
    const { kinds, terms } = await start();
    const all = kinds.reduce((sum, [, , many]) => sum + many, 0);
    const wants = findWords.wants(query);
    const words = await Promise.all(wants.map((want) => wordsFor(want, terms)));
    const found = new Map();
    wants.forEach((want, n) => {
      const levels = levelsOf(want, words[n]);
      const rare = rarity(levels.size, all);
      for (const [number, level] of levels) {
        const hit = found.get(number) ?? { number, answered: 0, score: 0 };
        hit.answered += 1;
        hit.score += rare * level;
        found.set(number, hit);
      }
    });
    const hits = [...found.values()].sort(
      (a, b) => b.answered - a.answered || b.score - a.score || a.number - b.number,
    );
    return { wants, hits };
  };

  /* Which kind a document is of, by its number: what one is called, and what many are. */
  const kindOf = (kinds, number) => {
    let past = 0;
    return kinds.find(([, , many]) => number < (past += many));
  };

  /* The text of a document: title, page, note, sentences, picture. */
  const text = async (number) => {
    const { texts } = await start();
    const file = texts.findLastIndex((first) => first <= number);
    return (await load("texts", String(file)))[number - texts[file]];
  };

  /* The words that come nearest to one that stands nowhere, as they are written where they stand,
     from the files of its first letters. */
  const nearest = async (want) => {
    if (want.word.length < SHORTEST) return [];
    const { terms } = await start();
    const most = want.word.length < 2 * SHORTEST ? 1 : 2;
    const close = (await wordsFor(want, terms))
      .map((word) => ({ ...word, apart: distance(want.word, word.term) }))
      .filter(({ apart }) => apart <= most);
    close.sort((a, b) => a.apart - b.apart || b.signs.length - a.signs.length);
    const told = await Promise.all(close.slice(0, MOST_NEAR).map(written));
    return [...new Set(told)];
  };

  /* A term as the first document that holds it writes it. */
  const written = async ({ term, signs }) => {
    const [[number]] = unpacked(signs);
    const [title, , note, sentences] = await text(number);
    const want = { terms: new Map([[term, 1]]), beginnings: [] };
    for (const told of [title, ...sentences, note]) {
      const piece = findWords.pieces(told, [want]).find(({ hits }) => hits.length);
      if (piece) return piece.text.toLowerCase();
    }
    return term;
  };

  /* How many letters have to be changed, put in, left out, or swapped with the next. */
  const distance = (one, other) => {
    if (Math.abs(one.length - other.length) > 2) return Infinity;
    let [before, last, row] = [[], [], Array.from({ length: other.length + 1 }, (_, n) => n)];
    for (let i = 1; i <= one.length; i += 1) {
      [before, last, row] = [last, row, [i]];
      for (let j = 1; j <= other.length; j += 1) {
        const same = one[i - 1] === other[j - 1] ? 0 : 1;
        row[j] = Math.min(last[j] + 1, row[j - 1] + 1, last[j - 1] + same);
        if (i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1]) {
          row[j] = Math.min(row[j], before[j - 2] + 1);
        }
      }
    }
    return row[other.length];
  };

  const from = (where) => {
    folder = where;
  };

  return Object.freeze({ from, receive, start, search, text, kindOf, nearest });
})();

const journalFind = findData.receive;
