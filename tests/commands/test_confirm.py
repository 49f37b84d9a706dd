"""What was heard is confirmed line by line, with a key for each, and no answer is ever lost."""

from collections.abc import Callable
from pathlib import Path

import pytest

from journal.commands import confirm as confirming
from journal.commands.confirm import Confirming, confirm
from journal.outputs.sheets.print import front_told
from journal.reading.content import read_content
from journal.records.sheet import Sheet
from tests.commands.running import run
from tests.commands.terminal import in_a_terminal
from tests.tern import SHEET, put_content, put_file, sheet_text

NAME = "2024-03-05-gearbox"
FRONT = """\
recording: talk.mp4
draft:
  - {words: took the laygear out, at: "0:12", work: {gearbox/laygear: {did: removed}}}
  - {words: and the bearing, at: "0:20", ask: "Which bearing?", work: {gearbox/front-bearing: {did: removed}}}
  - {words: two hours, at: "0:31", hours: {MT: 2}}
  - {words: that thing there, ask: What was it?}
"""
BODY = "Out in one piece.\n\n::: workshop\ntook the laygear out and the bearing two hours\n:::\n"
ACCEPT = "a accept, c change, d drop, s later, q stop: "
SAY = "c say what it puts, d drop, s later, q stop: "


@pytest.fixture(autouse=True)
def person(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A person with a folder of their own."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "person"))


@pytest.fixture
def root(tmp_path: Path) -> Path:
    return put_content(tmp_path / "content", **{SHEET: sheet_text(FRONT, BODY)})


def sheet(root: Path) -> Sheet:
    (found,) = read_content(root).cars[0].sheets
    return found


def told(root: Path) -> dict[str, object]:
    """What the sheet says, without its draft and what every sheet says."""
    plain = front_told(sheet(root).front)
    return {k: v for k, v in plain.items() if k not in ("date", "subsystem", "draft")}


def waiting(root: Path) -> list[str]:
    return [line.words or "" for line in sheet(root).front.draft]


Keys = Callable[..., list[str]]


@pytest.fixture
def keys(root: Path, monkeypatch: pytest.MonkeyPatch) -> Keys:
    """Go through the sheet with some keys, and a line of text where one is typed; what was typed into."""

    def go(pressed: str, *typed: str | None) -> list[str]:
        left, texts, filled = iter(pressed), iter(typed), []

        def key(allowed: str, _asked: str) -> str | None:
            pressed = next(left)
            assert pressed in (*allowed, "-"), f"{pressed} is not asked for, but {allowed}"
            return None if pressed == "-" else pressed

        def line(_asked: str, text: str) -> str | None:
            filled.append(text)
            return next(texts)

        monkeypatch.setattr(confirming, "one_of_keys", key)
        monkeypatch.setattr(confirming, "line_of_text", line)
        confirm(Confirming(root, read_content(root).cars[0], SHEET, "MT"))
        assert [] == [*left, *texts]
        return filled

    return go


# In a terminal


def test_terminal__takes_a_key_for_each_line_without_enter_and_saves_as_it_goes(
    root: Path,
) -> None:
    with in_a_terminal("write", root, "--confirm", NAME, "--hand", "MT") as screen:
        first = screen.until(ACCEPT)
        assert "4 lines to go\n0:12  “took the laygear out”\n  Laygear: removed\n" in first
        assert "removed" not in root.joinpath(SHEET).read_text().split("draft:")[0]
        screen.press("a")
        assert screen.until(ACCEPT).startswith(
            "\n  accepted\n\n3 lines to go\n0:20  “and the bearing”"
        )
        assert "laygear: {did: removed}" in root.joinpath(SHEET).read_text().split("draft:")[0]
        # A key that is none is passed over.
        screen.press("x\x1b[A\rd")
        assert "dropped" in screen.until(ACCEPT)
        screen.press("s")
        assert "What was it?" in screen.until(SAY)
        screen.press("q")
        end = screen.rest()
    assert f"2 lines wait in {root / SHEET}; go on with: journal write {root} --car tern" in end
    assert 0 == screen.process.returncode
    assert ["two hours", "that thing there"] == waiting(root)


def test_terminal__a_line_is_changed_where_it_stands_and_the_talk_is_shown_to_whom_one_says(
    root: Path,
) -> None:
    put_file(root, SHEET, sheet_text(FRONT.split("  - {words: two")[0], BODY).encode())
    with in_a_terminal("write", root, "--confirm", f"{NAME}.md", "--hand", "MT") as screen:
        screen.until(ACCEPT)
        screen.press("c")
        screen.until("> --did gearbox/laygear=removed")
        screen.press(",cleaned --hours 1.5\r")
        assert "  Laygear: removed, cleaned\n" in screen.until(ACCEPT)
        screen.press("a")
        screen.until("Who may read what was said? w workshop, o owner, p everyone: ")
        screen.press("o")
        assert f"{root / SHEET}: every line is confirmed\n" in screen.rest()
    assert {
        "gearbox/laygear": {"did": ["removed", "cleaned"]}, "gearbox/front-bearing": {"did": "removed"},
    } == told(root)["work"]  # fmt: skip
    assert {"MT": "1.5"} == told(root)["hours"]
    assert "::: owner\ntook the laygear out" in root.joinpath(SHEET).read_text()


@pytest.mark.parametrize("end", ["\x03", "\x04"])
def test_terminal__the_usual_keys_end_it(root: Path, end: str) -> None:
    with in_a_terminal("write", root, "--confirm", NAME) as screen:
        screen.until(ACCEPT)
        screen.press(f"a{end}")
        assert "3 lines wait" in screen.rest()
    assert 3 == len(waiting(root))


def test_terminal__killed_at_any_line_has_lost_nothing_that_was_answered(root: Path) -> None:
    with in_a_terminal("write", root, "--confirm", NAME) as screen:
        for _ in range(2):
            screen.until(ACCEPT)
            screen.press("a")
        screen.until("2 lines to go")
        screen.kill()
    assert ["two hours", "that thing there"] == waiting(root)
    assert ("gearbox/laygear", "gearbox/front-bearing") == sheet(root).front.work.names()


def test_terminal_that_hears_no_key_alone__takes_a_line(root: Path) -> None:
    with in_a_terminal("write", root, "--confirm", NAME, term="dumb") as screen:
        screen.until(ACCEPT)
        screen.press("accept\n")
        screen.until(ACCEPT)
        screen.press("q\n")
        assert "3 lines wait" in screen.rest()


# What is answered


def test_all_accepted__is_what_the_talk_said_with_its_moments(root: Path, keys: Keys) -> None:
    keys("aaadw")
    assert {
        "hours": {"MT": "2"},
        "work": {"gearbox/laygear": {"did": "removed"}, "gearbox/front-bearing": {"did": "removed"}},
        "recording": [
            "talk.mp4",
            {"file": "talk.mp4", "at": "0:12", "of": "gearbox/laygear", "words": "took the laygear out"},
            {"file": "talk.mp4", "at": "0:20", "of": "gearbox/front-bearing", "words": "and the bearing"},
            {"file": "talk.mp4", "at": "0:31", "words": "two hours"},
        ],
    } == told(root)  # fmt: skip
    assert [] == waiting(root)


def test_all_dropped__leaves_the_sheet_as_if_nothing_had_been_said(root: Path, keys: Keys) -> None:
    keys("ddddw")
    assert {"recording": "talk.mp4"} == told(root)
    assert BODY in root.joinpath(SHEET).read_text()


def test_line_left_for_later__comes_first_the_next_time(root: Path, keys: Keys) -> None:
    keys("sasq")
    assert ["took the laygear out", "two hours", "that thing there"] == waiting(root)
    keys("aq")
    assert ["two hours", "that thing there"] == waiting(root)


def test_question__is_answered_by_saying_what_it_puts(root: Path, keys: Keys) -> None:
    filled = keys("sssc", '--raise "filler-weld=old weld beside the plug" --hold')
    assert [""] == filled
    keys("q")
    raised = {"raise": "old weld beside the plug", "hold": "yes"}
    assert {"filler-weld": raised} == told(root)["snags"]


def test_change_without_a_change__goes_back_to_the_line(root: Path, keys: Keys) -> None:
    filled = keys("cccaq", None, "", "--did gearbox/laygear=removed")
    assert ["--did gearbox/laygear=removed"] * 3 == filled
    assert {"gearbox/laygear": {"did": "removed"}} == told(root)["work"]


def test_change_that_says_nothing__is_told_and_typed_on(
    root: Path, keys: Keys, capsys: pytest.CaptureFixture[str]
) -> None:
    filled = keys("cq", "--did", "--did 'x", "--did gearbox/laygear=remvoed", "off it came", None)
    said = capsys.readouterr().out
    assert "  Option '--did' requires an argument.\n" in said
    assert "  a quote is opened and not closed\n" in said
    assert '  did of gearbox/laygear cannot be "remvoed"; write removed\n' in said
    assert "  Got unexpected extra arguments (off it came)\n" in said
    assert ["--did", "--did 'x", "--did gearbox/laygear=remvoed", "off it came"] == filled[1:]
    assert 4 == len(waiting(root))


def test_line_that_would_be_wrong__is_told_first_and_taken_all_the_same(
    root: Path, keys: Keys, capsys: pytest.CaptureFixture[str]
) -> None:
    keys("caq", "--did gearbox/layger=removed")
    assert (
        'error[unknown-component]: there is no component "gearbox/layger"\n'
        in capsys.readouterr().out
    )
    assert {"gearbox/layger": {"did": "removed"}} == told(root)["work"]


def test_line_that_would_be_wrong__can_be_changed_again(root: Path, keys: Keys) -> None:
    filled = keys("ccq", "--did gearbox/layger=removed", "--did gearbox/laygear=removed,cleaned")
    assert "--did gearbox/layger=removed" == filled[1]
    assert {"gearbox/laygear": {"did": ["removed", "cleaned"]}} == told(root)["work"]


def test_hours_without_a_hand_in_the_sheet__are_told_and_nothing_is_guessed(
    root: Path, keys: Keys, capsys: pytest.CaptureFixture[str]
) -> None:
    put_file(root, SHEET, sheet_text("hours: 1\n" + FRONT, BODY).encode())
    keys("ssaq")
    assert (
        "  the sheet has hours without a hand; write first whose they are\n"
        in capsys.readouterr().out
    )
    assert "1" == told(root)["hours"]
    assert 4 == len(waiting(root))


def test_what_the_sheet_says_otherwise__is_shown_before(
    root: Path, keys: Keys, capsys: pytest.CaptureFixture[str]
) -> None:
    front = FRONT.replace("{did: removed}}}", "{did: fitted, now: pattern}}}", 1)
    put_file(
        root, SHEET, sheet_text("work: {gearbox/laygear: {now: made}}\n" + front, BODY).encode()
    )
    keys("q")
    said = capsys.readouterr().out
    assert "  The sheet says otherwise: now of gearbox/laygear is made there\n" in said


@pytest.mark.parametrize(
    ("key", "text"),
    [
        ("w", "::: workshop\ntook the laygear out and the bearing two hours\n:::\n"),
        ("o", "::: owner\ntook the laygear out and the bearing two hours\n:::\n"),
        ("p", "Out in one piece.\n\ntook the laygear out and the bearing two hours\n"),
        ("-", "::: workshop\ntook the laygear out and the bearing two hours\n:::\n"),
    ],
)
def test_talk__is_read_by_whom_one_says_once_nothing_waits(
    root: Path, keys: Keys, key: str, text: str
) -> None:
    keys(f"dddd{key}")
    assert root.joinpath(SHEET).read_text().endswith(text)


def test_talk__is_not_asked_about_where_its_block_is_gone(root: Path, keys: Keys) -> None:
    put_file(root, SHEET, sheet_text(FRONT, "Out.\n").encode())
    keys("dddd")


# Somebody else


def test_sheet_changed_meanwhile__keeps_both(
    root: Path, keys: Keys, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = root / SHEET
    saved = confirming.save_over

    def first_the_other(*given: object, **more: object) -> object:
        monkeypatch.setattr(confirming, "save_over", saved)
        file.write_text(file.read_text().replace("Out in one piece.", "Out in two pieces."))
        return saved(*given, **more)  # type: ignore[arg-type]

    monkeypatch.setattr(confirming, "save_over", first_the_other)
    keys("aq")
    assert "Out in two pieces." in file.read_text()
    assert {"gearbox/laygear": {"did": "removed"}} == told(root)["work"]


def test_line_that_somebody_else_has_taken_out__is_passed_over(
    root: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    pressed = iter("aq")

    def key_while_another_takes_the_line_out(_allowed: str, _asked: str) -> str:
        left = [line for line in FRONT.splitlines() if "took" not in line]
        put_file(root, SHEET, sheet_text("\n".join(left), BODY).encode())
        return next(pressed)

    monkeypatch.setattr(confirming, "one_of_keys", key_while_another_takes_the_line_out)
    confirm(Confirming(root, read_content(root).cars[0], SHEET))
    assert "  somebody else has done with this line already\n" in capsys.readouterr().out
    assert ["and the bearing", "two hours", "that thing there"] == waiting(root)


# What cannot be confirmed


def test_sheet_that_cannot_be_read_whole__keeps_its_lines(root: Path) -> None:
    put_file(root, SHEET, sheet_text(FRONT.replace('"0:31"', '"31"'), BODY).encode())
    before = (root / SHEET).read_bytes()
    with in_a_terminal("write", root, "--confirm", NAME) as screen:
        end = screen.rest()
    assert "error[bad-moment]" in end
    assert f"Error: put {SHEET} right in an editor first; then its lines can be confirmed" in end
    assert 2 == screen.process.returncode
    assert before == (root / SHEET).read_bytes()


def test_confirm__where_nobody_sits_shows_what_waits_and_changes_nothing(root: Path) -> None:
    before = (root / SHEET).read_bytes()
    result = run("write", root, "--confirm", NAME, text="aaaa")
    assert (
        "0:12  “took the laygear out”\n  Laygear: removed\n"
        "0:20  “and the bearing”\n  Front bearing: removed\n  Which bearing?\n"
        "0:31  “two hours”\n  2 hours, MT\n"
        "“that thing there”\n  What was it?\n"
        "4 lines to confirm, in a terminal, with: "
        f"journal write {root} --car tern --confirm {NAME}\n"
    ) == result.stdout
    assert 0 == result.exit_code
    assert before == (root / SHEET).read_bytes()


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--confirm", "2024-03-05-gearbux"],
         f'Error: there is no sheet "2024-03-05-gearbux"; write {NAME}\n'),
        (["--confirm", NAME, "--from", "talk.txt"],
         "Error: --from makes a sheet and --confirm goes on with one; say one of the two\n"),
        (["--confirm", NAME, "--did", "gearbox/laygear=removed"],
         "Error: what a talk says is confirmed line by line; say the rest in a sheet of its own\n"),
        (["--recording", "talk.mp4"],
         "Error: --recording says where a talk was said; say --from with it\n"),
    ],
)  # fmt: skip
def test_confirm__is_refused_in_a_sentence(root: Path, words: list[str], told: str) -> None:
    result = run("write", root, *words)
    assert (2, told) == (result.exit_code, result.stderr)


def test_confirm__of_a_sheet_in_which_nothing_waits_says_so(root: Path) -> None:
    put_file(root, SHEET, sheet_text().encode())
    result = run("write", root, "--confirm", NAME)
    assert (0, f"no line waits in {SHEET}\n") == (result.exit_code, result.stdout)


def test_confirm__finds_the_sheet_in_whatever_car_has_it(root: Path) -> None:
    for path in ("car.yaml", "register.yaml"):
        put_file(root, f"plover/{path}", (root / "tern" / path).read_bytes())
    assert f"--car tern --confirm {NAME}" in run("write", root, "--confirm", NAME).stdout
    put_file(root, SHEET.replace("tern", "plover"), (root / SHEET).read_bytes())
    result = run("write", root, "--confirm", NAME)
    told = f'Error: several cars have a sheet "{NAME}"; say which: --car NAME\n'
    assert (2, told) == (result.exit_code, result.stderr)
