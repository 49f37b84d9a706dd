"""Goods in and snags from the phone: one sheet of the day holds them, however many phones there are."""

import json
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from tests.desk.asking import Asked, asking
from tests.desk.filling import DRAFT, TODAY, post, send, sheets
from tests.pictures.images import encoded, halves
from tests.tern import SHEET, put_content, sheet_text

ORDERS = sheet_text("""\
parts:
  bearing: {what: Front bearing, from: northgate, of: gearbox/front-bearing, qty: 1, ordered: 2024-03-01}
  gasket: {what: Cover gasket, from: northgate, qty: 1, ordered: 2024-03-01}
""")  # fmt: skip
GOODS, SNAGS = f"{TODAY}-goods-in", f"{TODAY}-snags"


@pytest.fixture
def asked(tmp_path: Path) -> Iterator[Asked]:
    root = put_content(tmp_path / "content", **{SHEET: ORDERS})
    with asking(root, tmp_path / "keep") as made:
        made.desk.live.check()
        yield made


def receive(asked: Asked, part: str = "bearing", outcome: str = "accepted", **told: Any) -> Any:
    return post(
        asked, "goods-in", **{"part": part, "outcome": outcome, "why": "", "photos": [], **told}
    )


def raise_(asked: Asked, text: str, **told: Any) -> Any:
    return post(asked, "snag", **{"text": text, "subsystem": "gearbox", "photos": [], **told})


def test_part__that_came_in_is_in_the_sheet_of_the_day_with_its_picture(asked: Asked) -> None:
    id = send(asked, encoded(halves(60, 40)))
    assert 200 == receive(asked, photos=[id]).status_code
    assert {
        GOODS: f"""\
---
date: {TODAY}
title: Goods in
subsystem: gearbox
parts:
  bearing: {{received: {TODAY}, outcome: accepted}}
photos:
  - {{file: front-bearing.jpg, of: gearbox/front-bearing, caption: "Front bearing, as it came in"}}
---
"""
    } == sheets(asked.desk.root)


def test_second_part__is_put_into_the_same_sheet(asked: Asked) -> None:
    receive(asked)
    asked.desk.live.refresh()
    receive(asked, "gasket", "rejected", draft="fedcba9876543210", why="holes do not meet")
    (text,) = sheets(asked.desk.root).values()
    assert f"  gasket: {{received: {TODAY}, outcome: rejected, why: holes do not meet}}" in text


def test_part__asked_again_is_received_once_with_one_picture(asked: Asked) -> None:
    id = send(asked, encoded(halves(60, 40)))
    receive(asked, photos=[id])
    before = sheets(asked.desk.root)
    asked.desk.live.refresh()
    assert GOODS == receive(asked, photos=[id]).json()["saved"]["name"]
    assert before == sheets(asked.desk.root)


def test_part__that_nobody_awaits_is_refused_in_words(asked: Asked) -> None:
    answer = receive(asked, "clutch")
    (told,) = answer.json()["remarks"]
    assert '"clutch" is not awaited any more; it may be in the book already' == told["text"]
    assert {} == sheets(asked.desk.root)


def test_outcome__is_one_of_three(asked: Asked) -> None:
    answer = receive(asked, outcome="mislaid")
    assert (400, "A part is accepted, reworked or rejected.") == (
        answer.status_code,
        answer.json()["said"],
    )


def test_snag__is_named_by_its_words_and_may_stop_the_handover(asked: Asked) -> None:
    assert 200 == raise_(asked, "Weeps at the rear cover", hold=True).status_code
    (text,) = sheets(asked.desk.root).values()
    assert text.endswith(
        "title: Snags\nsubsystem: gearbox\nsnags:\n"
        "  weeps-at-the-rear: {raise: Weeps at the rear cover, hold: yes}\n---\n"
    )


def test_snag__without_words_is_refused(asked: Asked) -> None:
    (told,) = raise_(asked, "  ").json()["remarks"]
    assert "say what is open" == told["text"]


def test_snags__with_the_same_first_words_are_two(asked: Asked) -> None:
    raise_(asked, "Weeps at the rear cover")
    raise_(asked, "Weeps at the rear main seal", draft="fedcba9876543210")
    (text,) = sheets(asked.desk.root).values()
    assert "  weeps-at-the-rear-2: {raise: Weeps at the rear main seal}" in text


def test_snags__of_another_subsystem_have_a_sheet_of_their_own(asked: Asked) -> None:
    raise_(asked, "Weeps")
    raise_(asked, "Pulls", subsystem="brakes", draft="fedcba9876543210")
    assert {SNAGS, f"{SNAGS}-2"} == {*sheets(asked.desk.root)}


def test_sheet__that_a_person_wrote_keeps_every_byte_besides(asked: Asked) -> None:
    written = f"---\ndate: {TODAY}\ntitle: Snags\nsubsystem: gearbox   # mine\nhours: {{MT: 1}}\n---\nSeen.\n"
    file = asked.desk.root / f"tern/sheets/{date.today():%Y}/{SNAGS}.md"
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(written)
    raise_(asked, "Weeps")
    wanted = written.replace("{MT: 1}\n", "{MT: 1}\nsnags:\n  weeps: {raise: Weeps}\n")
    assert wanted == file.read_text("utf-8")


def test_phones__that_raise_at_once_lose_nothing(asked: Asked) -> None:
    def one(n: int) -> int:
        return int(raise_(asked, f"Snag number {n}", draft=f"{n:016x}").status_code)

    with ThreadPoolExecutor(8) as pool:
        assert [200] * 20 == [*pool.map(one, range(20))]
    (text,) = sheets(asked.desk.root).values()
    assert [f"{{raise: Snag number {n}}}" in text for n in range(20)] == [True] * 20


@pytest.mark.parametrize(
    "told",
    [
        None, [], {}, {"draft": "short"}, {"text": 3}, {"photos": "all"}, {"photos": [1]},
        {"text": "x" * 3000}, {"subsystem": None},
    ],
)  # fmt: skip
def test_what_no_page_of_ours_sends__is_refused(asked: Asked, told: Any) -> None:
    whole = {"draft": DRAFT, "text": "Weeps", "subsystem": "gearbox", "photos": []}
    sent = json.dumps({**whole, **told} if isinstance(told, dict) and told else told)
    answer = asked.browser.post("/_/api/cars/tern/snag", content=sent, headers=asked.token())
    assert 400 == answer.status_code
    assert {} == sheets(asked.desk.root)


def test_pages__list_what_is_awaited_and_say_when_nothing_is(asked: Asked) -> None:
    page = asked.browser.get("/goods-in").text
    assert "Front bearing" in page
    assert "ordered 1 March 2024" in page
    for n, part in enumerate(("bearing", "gasket")):
        receive(asked, part, draft=f"{n:016x}")
    asked.desk.live.refresh()
    assert "Nothing is awaited." in asked.browser.get("/goods-in").text
