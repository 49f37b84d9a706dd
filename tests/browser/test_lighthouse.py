"""Lighthouse on the pages that are opened most, as a phone loads them: what no load changes."""

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from journal.outputs.archive import Order
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from tests.browser.serving import served
from tests.browser.tools import lighthouse
from tests.pictures.images import encoded, halves
from tests.plainly import publish
from tests.published import CAR, CONTENT, MEANS

SHEET = "2025-08-20-twenty-pictures"
PICTURES = 20
PAGES = ("index.html", "ledger.html", f"sheets/{SHEET}.html")

# Judged without a clock, so that a busy machine changes nothing: these have all of their points. How soon
# a page is there is a time, and `python -m tests.benchmarks.scores` takes it.
WHOLE = ("accessibility", "best-practices")
STEADY = (
    "cumulative-layout-shift", "offscreen-images", "uses-optimized-images",
    "modern-image-formats", "unsized-images", "efficient-animated-content", "unminified-javascript",
    "unused-javascript", "legacy-javascript", "duplicated-javascript", "no-document-write", "redirects",
    "uses-passive-event-listeners", "font-display", "viewport",
)  # fmt: skip
# What a page may weigh until it stands, in bytes: two and a half seconds of a slow line, 1.6 Mbit/s.
HEAVIEST = 500_000


def _sheet_with_pictures(car: Path) -> None:
    """Add a sheet that shows twenty of the demonstration's photographs."""
    found = sorted((car / "photos").rglob("*.jpg"))[:PICTURES]
    assert len(found) == PICTURES
    day = car / "photos" / SHEET[:10]
    day.mkdir()
    told = []
    for n, photo in enumerate(found, start=1):
        shutil.copyfile(photo, day / f"view-{n}.jpg")
        told.append(
            f"  - {{file: view-{n}.jpg, caption: View {n} round the car, alt: The car from side {n}}}"
        )
    lines = "\n".join(told)
    (car / "sheets" / "2025" / f"{SHEET}.md").write_text(
        f"---\ndate: {SHEET[:10]}\ntitle: Twenty pictures\nsubsystem: body\nphotos:\n{lines}\n---\n"
        "All round the car with the camera.\n",
        encoding="utf-8",
    )


def put_archive(folder: Path) -> Path:
    """The owner's archive of the demonstration with such a sheet."""
    content = folder / "content"
    shutil.copytree(CONTENT, content)
    _sheet_with_pictures(content / CAR)
    archive = folder / "archive"
    publish(read_content(content), Order(content, archive, Reader.OWNER, CAR, means=MEANS))
    sheet = (archive / "sheets" / f"{SHEET}.html").read_text(encoding="utf-8")
    assert sheet.count("<figure ") >= PICTURES
    return archive


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    with served(put_archive(tmp_path_factory.mktemp("twenty"))) as home:
        yield home


def _lost(report: dict[str, Any]) -> list[str]:
    """What took points away, in words."""
    refs = [ref["id"] for name in WHOLE for ref in report["categories"][name]["auditRefs"]]
    audits = [report["audits"][name] for name in (*refs, *STEADY)]
    return [
        f"{audit['id']} {audit['score']}: {audit['title']} {audit.get('displayValue', '')}"
        for audit in audits
        if audit["score"] is not None and audit["score"] < 1
    ]


@pytest.mark.timeout(240)
@pytest.mark.parametrize("path", PAGES)
def test_page__has_all_points_and_is_no_heavier_than_it_may_be(
    address: str, tmp_path: Path, path: str
) -> None:
    report = lighthouse(address + path, tmp_path / "report.json")
    assert [] == _lost(report)
    assert [1, 1] == [report["categories"][name]["score"] for name in WHOLE]
    # Each of them was looked at, and none passed over as not applying.
    assert {1} == {report["audits"][name]["score"] for name in STEADY}
    assert report["audits"]["total-byte-weight"]["numericValue"] < HEAVIEST


def test_page__that_loses_points_is_told(tmp_path: Path) -> None:
    picture = encoded(halves(1600, 1200))
    (tmp_path / "large.jpg").write_bytes(picture)
    (tmp_path / "page.html").write_text(
        "<!doctype html><html lang=en><title>A page</title><meta name=viewport content='width=device-width'>"
        "<main><h1>A page</h1><p><img src=large.jpg><p style='color:#ccc'>Pale words.</main>",
        encoding="utf-8",
    )
    with served(tmp_path) as home:
        report = lighthouse(f"{home}page.html", tmp_path / "report.json")
    lost = {told.split()[0] for told in _lost(report)}
    assert {"image-alt", "color-contrast", "unsized-images"} <= lost
