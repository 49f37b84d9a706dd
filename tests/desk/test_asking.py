"""What the pages on which a day is written can ask for, and that nothing odd is answered oddly."""

from pathlib import Path

import pytest
from httpx2 import InvalidURL
from hypothesis import HealthCheck, given, reject, settings
from hypothesis import strategies as st

from journal.desk.app import WAYS
from tests.desk.asking import Asked, asking
from tests.tern import SHEET, put_content, put_file, sheet_text

FRONT = """\
hours: {JB: 2, MT: 1}
work:
  gearbox/laygear: {did: removed, now: pattern, why: pitted}
parts:
  laygear: {what: Laygear, of: gearbox/laygear, from: northgate, ordered: 2024-03-05, price: 10}
snags:
  weld: {raise: old weld beside the plug, hold: yes}
  paint: paint the casing
"""


@pytest.fixture(scope="module")
def asked(tmp_path_factory: pytest.TempPathFactory) -> Asked:
    root = put_content(tmp_path_factory.mktemp("content"), **{SHEET: sheet_text(FRONT)})
    put_file(root, "tern/sheets/2024/2024-03-06-more.md", sheet_text(date="2024-03-06").encode())
    with asking(root, tmp_path_factory.mktemp("keep")) as made:
        return made


def test_cars__are_listed_with_their_last_day(asked: Asked) -> None:
    expected = [{"name": "tern", "title": "Aldermoor Tern, 1958", "last": "2024-03-06"}]
    assert expected == asked.browser.get("/_/api/cars").json()["cars"]


def test_offers__what_is_likely_stands_first(asked: Asked) -> None:
    told = asked.browser.get("/_/api/cars/tern").json()
    assert {"name": "gearbox", "label": "Gearbox", "sheets": 2} == told["subsystems"][0]
    assert ["JB", "MT"] == [hand["name"] for hand in told["hands"]]
    assert ["weld", "paint"] == [snag["name"] for snag in told["snags"]]
    assert [True, False] == [snag["hold"] for snag in told["snags"]]
    assert {
        "name": "laygear", "what": "Laygear", "from": "northgate", "of": ["gearbox/laygear"],
        "subsystems": ["gearbox"], "count": "1", "ordered": "2024-03-05", "due": None,
    } == told["waiting"][0]  # fmt: skip
    (laygear,) = [c for c in told["components"] if c["key"] == "gearbox/laygear"]
    assert ("Laygear", "pattern", "off") == (laygear["label"], laygear["now"], laygear["position"])


def test_offers__of_no_car_there_are_none(asked: Asked) -> None:
    answer = asked.browser.get("/_/api/cars/plover")
    assert (404, {"said": "There is no such car."}) == (answer.status_code, answer.json())


WORDS = st.text(max_size=30) | st.sampled_from(
    ["tern", "..", "%00", "0" * 32, "draft-0001", "é" * 9]
)
ODD = st.one_of(
    st.binary(max_size=200),
    st.sampled_from([b"{}", b"[]", b"null", b'{"car": 3}', b"[" * 5000, b'{"car": "tern", "text": []}']),
)  # fmt: skip


def _files(root: Path) -> dict[Path, bytes]:
    return {p: p.read_bytes() for p in root.rglob("*") if p.is_file()}


@settings(max_examples=300, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    way=st.sampled_from(WAYS), words=st.lists(WORDS, min_size=3, max_size=3), body=ODD,
    name=st.text(st.characters(min_codepoint=32, max_codepoint=126), max_size=40),
    trusted=st.booleans(),
)  # fmt: skip
def test_any_question__is_answered_without_a_fault_and_changes_no_file_of_the_workshop(
    asked: Asked, way: object, words: list[str], body: bytes, name: str, trusted: bool
) -> None:
    method, path, *_ = way  # type: ignore[misc]
    for word in words:
        path = path.replace("{", "\0", 1)
        before, _, after = path.partition("\0")
        path = before + word.replace("\\", "") + after.partition("}")[2] if after else before
    before_files = _files(asked.desk.root)
    headers = {**(asked.token() if trusted else {}), "x-picture-name": name}
    try:
        answer = asked.browser.request(method, path, content=body, headers=headers)
    except InvalidURL:
        # No browser can ask this.
        reject()
    assert answer.status_code < 500
    assert before_files == _files(asked.desk.root)
    if not trusted and method != "GET":
        assert answer.status_code in (403, 404)
