"""The words that everyone has, and those of a workshop."""

from datetime import date
from pathlib import Path

from journal.hearing.hear import hear
from journal.hearing.heard import Kind
from journal.hearing.known import known_words
from journal.records.talk import Talk
from tests.hearing.listening import DAY, REGISTER
from tests.writing import a_car

OWN = """\
things:
  - {names: [boiler], in: exhaust, of: [silencer]}
acts:
  painted: [slap some colour on]
misheard: {sile sir: silencer}
"""


def done(root: Path, text: str) -> list[object]:
    known, problems = known_words(root)
    assert () == problems
    heard = hear(Talk(text), a_car(REGISTER), date.fromisoformat(DAY), known)
    return [line.told["work"] for line in heard.lines if line.kind is Kind.ACT and not line.ask]


def test_words__of_the_workshop_are_added_to_those_of_everyone(tmp_path: Path) -> None:
    (tmp_path / "terms.yaml").write_text(OWN, encoding="utf-8")
    assert [{"exhaust/silencer": {"did": ["removed"]}}] == done(tmp_path, "took the boiler off")
    assert [{"exhaust/silencer": {"did": ["removed"]}}] == done(tmp_path, "took the muffler off")
    assert [{"exhaust/silencer": {"did": ["removed"]}}] == done(tmp_path, "took the sile sir off")


def test_words__that_are_wrong_are_told_with_their_line(tmp_path: Path) -> None:
    (tmp_path / "terms.yaml").write_text("acts:\n  paintd: [colour]\n", encoding="utf-8")
    known, problems = known_words(tmp_path)
    assert ['acts has no act "paintd"; write painted'] == [
        f"{p.message}; {p.help}" for p in problems
    ]
    assert known.terms.acts.names() == known_words(Path("nowhere"))[0].terms.acts.names()
