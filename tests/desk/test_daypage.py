"""The page of the day as it comes: small, whole, and under a policy that lets nothing else in."""

import gzip
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from journal.desk.daypage import LATER, SCRIPTS, files_of_page, version
from journal.desk.quickpages import SCRIPTS as QUICK
from tests.desk.asking import Asked, asking
from tests.published import CAR, CONTENT
from tests.tern import SHEET, put_content, sheet_text

# What a page may weigh before it can be written into: at 3G speed (1.6 Mbit/s, 300 ms there and back, as
# WebPageTest's "3G" profile has it) 60 kB take 0.3 s, beside two times there and back.
WEIGHT = 60_000


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Asked]:
    with asking(CONTENT, tmp_path_factory.mktemp("keep")) as made:
        yield made


@pytest.fixture
def asked(tmp_path: Path) -> Iterator[Asked]:
    root = put_content(tmp_path / "content", **{SHEET: sheet_text("title: Casing <apart>")})
    with asking(root, tmp_path / "keep") as made:
        yield made


def data_of(page: str) -> Any:
    found = re.search(r'<script type="application/json" id="data">(.*?)</script>', page, re.DOTALL)
    assert found is not None
    return json.loads(found.group(1))


def named(page: str) -> list[str]:
    """The files that a page asks for before it can be written into."""
    return [*dict.fromkeys(re.findall(r'(?:href|src)="(/_/day/[^"]+)"', page))]


@pytest.mark.parametrize("path", [f"/day?car={CAR}", "/goods-in", "/snag"])
def test_page__weighs_little_and_is_asked_for_in_two_rounds(demo: Asked, path: str) -> None:
    headers = {"accept-encoding": "gzip"}
    with demo.browser.stream("GET", path, headers=headers) as answer:
        page = b"".join(answer.iter_raw())
    assert "gzip" == answer.headers["content-encoding"]
    text = gzip.decompress(page).decode()
    total = len(page)
    for file in named(text):
        with demo.browser.stream("GET", file, headers=headers) as answer:
            total += len(b"".join(answer.iter_raw()))
        assert "immutable" in answer.headers["cache-control"]
    assert total < WEIGHT
    imported = {
        name
        for file in named(text)
        if file.endswith(".js")
        for name in re.findall(r'from "\./(\w+\.js)"', demo.browser.get(file).text)
    }
    assert set() == imported - {file.rsplit("/", 1)[-1] for file in named(text)}


def test_files__have_a_name_that_changes_with_them(demo: Asked) -> None:
    assert demo.browser.get(f"/_/day/{version()}/day.js").content == files_of_page()["day.js"]
    assert 404 == demo.browser.get("/_/day/000000000000/day.js").status_code
    assert 404 == demo.browser.get(f"/_/day/{version()}/..%2fdesk.css").status_code
    assert {*SCRIPTS, *LATER, *QUICK} == {name for name in files_of_page() if name.endswith(".js")}


def test_page__does_not_ask_for_what_confirms_before_there_is_anything_to_confirm(
    demo: Asked,
) -> None:
    page = demo.browser.get(f"/day?car={CAR}").text
    assert {*SCRIPTS, "day.css"} == {file.rsplit("/", 1)[-1] for file in named(page)}
    for name in (*LATER, "confirming.css"):
        assert 200 == demo.browser.get(f"/_/day/{version()}/{name}").status_code


def test_page__leads_to_bench_sums(demo: Asked) -> None:
    assert '<a href="/_/sums">Bench sums</a>' in demo.browser.get("/day").text
    assert '<a href="/_/sums">Bench sums</a>' in demo.browser.get(f"/{CAR}/").text
    assert 200 == demo.browser.get("/_/sums").status_code


def test_page__holds_no_script_and_no_style_of_its_own(demo: Asked) -> None:
    for path in ("/day", "/goods-in", "/snag"):
        page = demo.browser.get(path).text
        assert [] == re.findall(r"\sstyle=|<style|\son\w+=", page)
        assert ["application/json", "module"] == sorted(re.findall(r'<script type="([^"]+)"', page))


def test_page__offers_what_is_used_most_first(demo: Asked) -> None:
    offers = data_of(demo.browser.get(f"/day?car={CAR}").text)["offers"]
    used = [one["sheets"] for one in offers["subsystems"]]
    assert sorted(used, reverse=True) == used
    assert used[0] > 0
    assert {"MT", "JB", "EP"} == {hand["name"] for hand in offers["hands"]}
    lately = offers["recent"]["gearbox"]
    assert 4 == len(lately)
    assert {"gearbox"} == {key.split("/")[0] for key in lately}


def test_page__of_a_sheet_holds_every_byte_of_it(demo: Asked) -> None:
    (file,) = CONTENT.rglob("2024-01-11-gearbox-measured.md")
    told = data_of(demo.browser.get(f"/day?car={CAR}&sheet={file.stem}").text)["opened"]
    assert file.read_bytes() == told["source"].encode()
    assert {"gearbox-laid-out.jpg", "mainshaft-run-out.jpg"} == {*told["pictures"]}
    for href in told["pictures"].values():
        assert "image/webp" == demo.browser.get(href).headers["content-type"]


def test_page__cannot_be_broken_out_of_by_what_is_written(asked: Asked) -> None:
    page = asked.browser.get("/day?car=tern&sheet=2024-03-05-gearbox").text
    assert "Casing <apart>" not in page
    assert "Casing <apart>" == data_of(page)["opened"]["form"]["title"]


@pytest.mark.parametrize(
    "path",
    ["/day?car=nowhere", "/day?car=tern&sheet=nothing", "/day?car=tern&sheet=../../workshop"],
)
def test_page__of_nothing_is_not_there(asked: Asked, path: str) -> None:
    assert 404 == asked.browser.get(path).status_code


def test_sheet__that_cannot_be_changed_in_a_form_says_so(asked: Asked) -> None:
    file = asked.desk.root / SHEET
    file.write_bytes(file.read_bytes().replace(b"title:", b"- title:"))
    answer = asked.browser.get("/day?car=tern&sheet=2024-03-05-gearbox")
    assert 404 == answer.status_code
    assert "cannot be read. Put it right in an editor first" in answer.text
