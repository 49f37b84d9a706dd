"""How well talks are understood: what is heard in each, against what was marked in it by hand.

`python -m tests.hearing.score` prints the table of DEVELOPERS.md; `--of NAME` tells one talk word by word.
"""

import sys
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from functools import cache
from itertools import cycle, islice
from pathlib import Path
from time import process_time
from typing import Any

import yaml

from journal.hearing.hear import hear
from journal.hearing.heard import Heard, Kind, Line
from journal.hearing.known import Known, known_words
from journal.reading.car import read_yaml_file
from journal.reading.content import read_content
from journal.reading.talk import read_talk
from journal.records.carfile import CarFile
from journal.records.register import Component, Register, RegisterFile
from journal.records.talk import Talk
from journal.words.vocabulary import Drive

ROOT = Path(__file__).parents[2]
TALKS = Path(__file__).parent / "talks"


@dataclass
class Count:
    """Right ones, claimed ones and true ones."""

    right: int = 0
    claimed: int = 0
    true: int = 0

    def add(self, got: set[Any], want: set[Any]) -> None:
        self.right += len(got & want)
        self.claimed += len(got)
        self.true += len(want)

    @property
    def recall(self) -> float:
        return self.right / self.true if self.true else 1.0

    @property
    def precision(self) -> float:
        return self.right / self.claimed if self.claimed else 1.0

    @property
    def f1(self) -> float:
        both = self.claimed + self.true
        return 2 * self.right / both if both else 1.0


def talks(part: str) -> list[Path]:
    """The marked truths of a part, `tuned` or `apart`."""
    return sorted((TALKS / part).glob("*.yaml"))


def truth_of(path: Path) -> dict[str, Any]:
    return dict(yaml.safe_load(path.read_text(encoding="utf-8")))


@cache
def _cars() -> dict[str, CarFile]:
    return {car.name: car for car in read_content(ROOT / "content").cars}


def car_of(truth: dict[str, Any]) -> CarFile:
    """The car that a talk is about; a car of the starter register borrows all else."""
    cars = _cars()
    if truth["car"] != "starter":
        return cars[truth["car"]]
    from msgspec.structs import replace

    file, source, _ = read_yaml_file(ROOT / "journal" / "starter", "register.yaml", RegisterFile)
    assert file is not None
    entries = [
        Component(f"{sub}/{name}", sub, line) for sub, of in file.components for name, line in of
    ]
    car = cars["aldermoor-tern"]
    drive = Drive(truth.get("drive", "right"))
    return replace(
        car, register=Register(source, tuple(entries)), sheets=(),
        car=car.car.model_copy(update={"drive": drive}),
    )  # fmt: skip


def known() -> Known:
    """The words that everyone has, and none of a workshop's own."""
    found, problems = known_words(ROOT / "nowhere")
    assert not problems
    return found


def talk_of(path: Path) -> Talk:
    """The talk that a truth is about."""
    source = next(p for p in path.parent.glob(path.stem + ".*") if p.suffix != ".yaml")
    talk, problems = read_talk(source)
    assert talk is not None
    assert not problems, problems
    return talk


def heard_of(path: Path) -> tuple[Talk, Heard, dict[str, Any]]:
    truth = truth_of(path)
    talk = talk_of(path)
    day = truth["date"] if isinstance(truth["date"], date) else date.fromisoformat(truth["date"])
    return talk, hear(talk, car_of(truth), day, known()), truth


def acts_heard(heard: Heard, asked: bool = False) -> set[tuple[str, str]]:
    """Acts that are claimed: without a question, or also those that are asked."""
    return {
        (key, did)
        for line in heard.lines
        if line.kind is Kind.ACT and (asked or not line.ask)
        for key, entry in line.told["work"].items()  # type: ignore[union-attr]
        for did in entry["did"]  # type: ignore[index, call-overload]
    }


def _span(talk: Talk, words: str) -> tuple[int, int]:
    """Where an excerpt stands in the talk, blanks being all alike."""
    flat = " ".join(talk.text.split())
    at = flat.find(" ".join(words.split()))
    places = [n for n, _ in _letters(talk.text)]
    before = len(flat[:at].replace(" ", "")) if at >= 0 else -1
    if before < 0:
        return -1, -1
    length = len(words.replace(" ", "").replace("\n", ""))
    return places[before], places[min(before + length, len(places)) - 1] + 1


def _letters(text: str) -> Iterator[tuple[int, str]]:
    return ((n, c) for n, c in enumerate(text) if not c.isspace())


def found(talk: Talk, lines: list[Line], words: str) -> bool:
    """Whether a line's words meet those of the truth."""
    start, end = _span(talk, words)
    return any(line.start < end and start < line.end for line in lines)


def readings_heard(heard: Heard) -> Counter[tuple[tuple[Fraction, ...], str]]:
    return Counter(
        (
            tuple(Fraction(n) for n in ([e["read"]] if isinstance(e["read"], str) else e["read"])),
            e["unit"],
        )  # type: ignore[union-attr]
        for line in heard.lines
        if line.kind is Kind.MEASURED
        for e in line.told["measured"].values()  # type: ignore[union-attr, misc]
    )


@dataclass
class Score:
    """All that is counted of some talks."""

    talks: int = 0
    words: int = 0
    components: Count = None  # type: ignore[assignment]
    acts: Count = None  # type: ignore[assignment]
    snags: Count = None  # type: ignore[assignment]
    waiting: Count = None  # type: ignore[assignment]
    measured: Count = None  # type: ignore[assignment]
    hours: Count = None  # type: ignore[assignment]
    asked: Count = None  # type: ignore[assignment]
    false: int = 0
    lines: int = 0

    def __post_init__(self) -> None:
        for name in ("components", "acts", "snags", "waiting", "measured", "hours", "asked"):
            setattr(self, name, Count())


def score(paths: list[Path]) -> Score:
    total = Score()
    for path in paths:
        talk, heard, truth = heard_of(path)
        total.talks += 1
        total.words += len(talk.text.split())
        total.lines += len(heard.lines)
        total.components.add(set(heard.components), set(truth.get("components") or ()))
        want = {(a["of"], a["did"]) for a in truth.get("acts") or ()}
        got = acts_heard(heard)
        total.acts.add(got, want)
        total.asked.add(acts_heard(heard, asked=True), want)
        total.false += len(got - want)
        for name, kinds in (
            ("snags", (Kind.SNAG, Kind.NEXT)),
            ("waiting", (Kind.WAITING, Kind.PART)),
        ):
            lines = [line for line in heard.lines if line.kind in kinds]
            count = getattr(total, name)
            hits = [found(talk, lines, e["words"]) for e in truth.get(name) or ()]
            count.right += sum(hits)
            count.true += len(hits)
            count.claimed += len(lines)
        wanted = Counter(
            (tuple(Fraction(str(n)) for n in m["read"]), m["unit"])
            for m in truth.get("measured") or ()
        )
        given = readings_heard(heard)
        total.measured.right += sum((wanted & given).values())
        total.measured.true += sum(wanted.values())
        total.measured.claimed += sum(given.values())
        hours = Counter(Fraction(str(h["hours"])) for h in truth.get("hours") or ())
        said = Counter(hours_heard(heard))
        total.hours.right += sum((hours & said).values())
        total.hours.true += sum(hours.values())
        total.hours.claimed += sum(said.values())
    return total


def hours_heard(heard: Heard) -> list[Fraction]:
    found = []
    for line in heard.lines:
        if line.kind is Kind.HOURS:
            told = line.told["hours"]
            values = told.values() if isinstance(told, dict) else [told]
            found += [Fraction(v) for v in values if isinstance(v, str)]
    return found


def seconds(words: int) -> float:
    """The processor's seconds for as many words of the longest talk, said again as often as it takes."""
    path = max(talks("tuned"), key=lambda path: len(talk_of(path).text))
    text, truth = talk_of(path).text, truth_of(path)
    said = " ".join(islice(cycle(text.split()), words))
    car, everyone = car_of(truth), known()
    began = process_time()
    hear(Talk(said), car, truth["date"], everyone)
    return process_time() - began


# What is told of some talks, by the heading of its column.
COLUMNS: tuple[tuple[str, Callable[["Score"], str]], ...] = (
    ("talks", lambda s: str(s.talks)),
    ("words", lambda s: f"{s.words:,}"),
    ("components F1", lambda s: f"{s.components.f1:.2f}"),
    ("acts F1", lambda s: f"{s.asked.f1:.2f}"),
    ("of them claimed F1", lambda s: f"{s.acts.f1:.2f}"),
    ("claimed, precision", lambda s: f"{s.acts.precision:.2f}"),
    ("false claims a talk", lambda s: f"{s.false / max(1, s.talks):.2f}"),
    ("snags recall", lambda s: f"{s.snags.recall:.2f}"),
    ("waiting recall", lambda s: f"{s.waiting.recall:.2f}"),
    ("readings exact", lambda s: f"{s.measured.recall:.2f}"),
    ("hours exact", lambda s: f"{s.hours.recall:.2f}"),
    ("lines a talk", lambda s: f"{s.lines / max(1, s.talks):.0f}"),
)


def row(name: str, told: "Score") -> str:
    return "| " + " | ".join([name, *(cell(told) for _, cell in COLUMNS)]) + " |"


HEAD = (
    "| | " + " | ".join(name for name, _ in COLUMNS) + " |\n" + "| --- " * (len(COLUMNS) + 1) + "|"
)


def tell(path: Path) -> None:
    """One talk: what was heard, right or wrong, and what was missed."""
    talk, heard, truth = heard_of(path)
    want = {(a["of"], a["did"]): a["words"] for a in truth.get("acts") or ()}
    for line in heard.lines:
        mark = "   "
        if line.kind is Kind.ACT:
            pairs = {(k, d) for k, e in line.told["work"].items() for d in e["did"]}  # type: ignore
            mark = "ok " if pairs <= set(want) else "?? " if line.ask else "XX "
            print(mark, line.kind, sorted(pairs), "ASK" if line.ask else "", "|", line.words)
        else:
            print(mark, line.kind, dict(line.told), line.ask, "|", line.words)
    got = acts_heard(heard)
    print("MISSED ACTS", *(f"{k}: {w}" for k, w in want.items() if k not in got), sep="\n  ")
    for name, kinds in (("snags", (Kind.SNAG, Kind.NEXT)), ("waiting", (Kind.WAITING, Kind.PART))):
        lines = [line for line in heard.lines if line.kind in kinds]
        print(
            f"MISSED {name}",
            *(e["words"] for e in truth.get(name) or () if not found(talk, lines, e["words"])),
            sep="\n  ",
        )
    have = set(heard.components)
    print(
        "COMPONENTS extra",
        have - set(truth["components"]),
        "missed",
        set(truth["components"]) - have,
    )
    print(
        "MEASURED wanted",
        *((m["read"], m["unit"], m["words"]) for m in truth.get("measured") or ()),
        sep="\n  ",
    )
    print("HOURS wanted", truth.get("hours"), "heard", hours_heard(heard))


if __name__ == "__main__":
    if len(sys.argv) > 2:
        for path in talks("tuned"):
            if path.stem.startswith(sys.argv[2]):
                tell(path)
    else:
        print(f"A talk of 3,000 words takes {seconds(3000):.2f} s of one core.\n")
        print(HEAD)
        if len(sys.argv) > 1:
            for path in talks("tuned"):
                print(row(path.stem[:14], score([path])))
        for part in ("tuned", "apart"):
            if talks(part):
                print(row(part, score(talks(part))))
