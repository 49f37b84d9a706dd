"""One small workshop at a desk for all tests of a module that change nothing on disk."""

from collections.abc import Iterator

import pytest

from tests.desk.asking import Asked, asking
from tests.tern import SHEET, put_content, sheet_text


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Asked]:
    root = put_content(
        tmp_path_factory.mktemp("content"), **{SHEET: sheet_text("hours: {MT: 3.5}")}
    )
    with asking(root, tmp_path_factory.mktemp("keep")) as asked:
        yield asked


@pytest.fixture
def phone_desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Asked]:
    root = put_content(
        tmp_path_factory.mktemp("content"), **{SHEET: sheet_text("hours: {MT: 3.5}")}
    )
    with asking(root, tmp_path_factory.mktemp("keep"), phone=True) as asked:
        yield asked
