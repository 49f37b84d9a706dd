"""Sheets written at the desk: shown before they are saved, saved as files, never over what nobody saw."""

import json
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest

from tests.desk.asking import Asked, asking, browser_for
from tests.published import CONTENT
from tests.tern import SHEET, put_content, sheet_text

CAR = "/_/api/cars/tern"
NAME = "2024-03-05-gearbox"
TEXT = sheet_text("hours: {MT: 3.5}", "Split without trouble.\n")


@pytest.fixture
def asked(tmp_path: Path) -> Iterator[Asked]:
    root = put_content(tmp_path / "content", **{SHEET: TEXT})
    with asking(root, tmp_path / "keep") as made:
        made.desk.live.check()
        yield made


def post(asked: Asked, path: str, **told: Any) -> Any:
    return asked.browser.post(CAR + path, json=told, headers=asked.token())


def put(asked: Asked, name: str = NAME, **told: Any) -> Any:
    return asked.browser.put(f"{CAR}/sheets/{name}", json=told, headers=asked.token())


def read(asked: Asked) -> Any:
    return asked.browser.get(f"{CAR}/sheets/{NAME}").json()


def test_preview__shows_the_sheet_as_its_page_will_and_saves_nothing(asked: Asked) -> None:
    text = sheet_text("title: Casing apart\nhours: {MT: 2}", "The *second* gear is pitted.\n")
    told = post(asked, "/preview", text=text, day="2024-03-05", title="Casing apart").json()
    assert "<h1>Casing apart</h1>" in told["html"]
    assert "The <em>second</em> gear is pitted." in told["html"]
    assert ("/tern/sheets/2024-03-05-casing-apart.html", [], []) == (
        told["at"], told["remarks"], told["elsewhere"],
    )  # fmt: skip
    assert [SHEET] == [
        p.relative_to(asked.desk.root).as_posix() for p in asked.desk.root.rglob("*.md")
    ]


def test_preview__says_what_is_wrong_beside_what_it_is_about(asked: Asked) -> None:
    text = sheet_text("hours: {MT: 2.5.1}\nwork:\n  gearbox/laygaer: removed")
    hours, work = post(asked, "/preview", text=text, sheet=NAME).json()["remarks"]
    assert (["hours"], 4) == (hours["field"], hours["line"])
    assert 'hours of MT must be a number with a decimal point, found "2.5.1"' == hours["message"]
    assert ["work", "gearbox/laygaer"] == work["field"]
    assert work["help"].startswith("write gearbox/laygear")


def test_preview__of_what_is_no_sheet_is_empty_and_says_why(asked: Asked) -> None:
    told = post(asked, "/preview", text="just words").json()
    assert ("", ["no-front-matter"]) == (
        told["html"], [r["text"].split("[")[1].split("]")[0] for r in told["remarks"]],
    )  # fmt: skip


def test_save__a_new_sheet_is_a_file_with_the_name_of_its_day_and_title(asked: Asked) -> None:
    told = post(asked, "/sheets", text=TEXT, day="2024-03-06", title="Casing apart").json()
    assert "tern/sheets/2024/2024-03-06-casing-apart.md" == told["path"]
    assert TEXT.encode() == (asked.desk.root / told["path"]).read_bytes()
    assert told == post(asked, "/sheets", text=TEXT, day="2024-03-06", title="Casing apart").json()
    other = post(
        asked, "/sheets", text=f"{TEXT}More.\n", day="2024-03-06", title="Casing apart"
    ).json()
    assert "tern/sheets/2024/2024-03-06-casing-apart-2.md" == other["path"]


def test_save__a_change_is_written_only_over_what_was_read(asked: Asked) -> None:
    first = read(asked)
    assert TEXT == first["text"]
    told = put(asked, text=f"{TEXT}More.\n", hash=first["hash"]).json()
    assert SHEET == told["path"]
    answer = put(asked, text=f"{TEXT}Otherwise.\n", hash=first["hash"])
    assert 409 == answer.status_code
    assert {
        "said": "The sheet was changed meanwhile, and nothing was written over.",
        "ours": f"{TEXT}Otherwise.\n", "theirs": f"{TEXT}More.\n", "hash": told["hash"],
    } == answer.json()  # fmt: skip
    assert f"{TEXT}More.\n" == (asked.desk.root / SHEET).read_text()


@pytest.mark.parametrize(
    "told",
    [
        {},
        {"text": "x", "day": "2024-02-30", "title": ""},
        {"text": "\ud800", "day": "2024-03-06", "title": ""},
        {"text": ["x"], "day": "2024-03-06", "title": ""},
        ["text"],
    ],
)
def test_save__asked_wrongly_is_said_in_words(asked: Asked, told: Any) -> None:
    words = "A sheet is saved with its text, its day and its title."
    answer = asked.browser.post(
        f"{CAR}/sheets", content=json.dumps(told),
        headers={**asked.token(), "content-type": "application/json"},
    )  # fmt: skip
    assert (400, {"said": words}) == (answer.status_code, answer.json())


def test_save__a_sheet_longer_than_one_can_be_is_refused(asked: Asked) -> None:
    answer = post(asked, "/sheets", text="x" * 140_000, day="2024-03-06", title="Long")
    assert (413, {"said": "The sheet is longer than a sheet can be."}) == (
        answer.status_code, answer.json(),
    )  # fmt: skip


def test_save__title_and_name_lead_nowhere_else(asked: Asked) -> None:
    told = post(asked, "/sheets", text=TEXT, day="2024-03-06", title="../../../elsewhere").json()
    assert "tern/sheets/2024/2024-03-06-elsewhere.md" == told["path"]
    before = {p: p.read_bytes() for p in asked.desk.root.rglob("*") if p.is_file()}
    for name in ("..", "..%2f..%2fworkshop", "%2e%2e", "nothing"):
        assert put(asked, name, text=TEXT, hash="").status_code in (404, 405)
    assert before == {p: p.read_bytes() for p in asked.desk.root.rglob("*") if p.is_file()}


def test_save__twenty_phones_at_once_lose_nothing(asked: Asked) -> None:
    token = asked.token()

    def save(number: int) -> str:
        browser = browser_for(asked.desk)
        told = {"text": f"{TEXT}Phone {number}.\n", "day": "2024-03-06", "title": "Casing apart"}
        return str(browser.post(f"{CAR}/sheets", json=told, headers=token).json()["path"])

    with ThreadPoolExecutor(20) as pool:
        paths = list(pool.map(save, range(20)))
    assert 20 == len(set(paths))
    for number, path in enumerate(paths):
        assert f"{TEXT}Phone {number}.\n" == (asked.desk.root / path).read_text()


def test_sheets__of_the_demonstration_are_read_and_saved_as_the_same_bytes(
    tmp_path: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    """Saving what was read changes no file, though it may be written by hand in any form."""
    with asking(CONTENT, tmp_path / "keep") as asked:
        for name, car in asked.desk.live.state.cars.items():
            for sheet in car.file.sheets:
                told = asked.browser.get(f"/_/api/cars/{name}/sheets/{sheet.name}").json()
                raw = (CONTENT / sheet.source.path).read_bytes()
                assert (sheet.source.path, raw) == (told["path"], told["text"].encode())
