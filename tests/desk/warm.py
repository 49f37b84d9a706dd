"""A desk that is asked for a day when this is imported, and forgotten: whatever is forked from a process
that has imported it has its records, templates and rules ready, and need not build them anew.
"""

import gc
from pathlib import Path
from tempfile import TemporaryDirectory

from journal.desk.asking import API
from tests.desk.asking import asking
from tests.desk.filling import CAR, a_form, post, save, send
from tests.pictures.images import encoded, halves
from tests.tern import SHEET, put_content, sheet_text

_PAGES = (
    "/", "/day", "/snag", "/goods-in", "/tern/index.html", "/tern/sheets/2024-03-05-gearbox.html", CAR,
)  # fmt: skip
_SAID = "I took the laygear out. Three and a half hours on it."


def ask_for_a_day(folder: Path) -> None:
    """Everything that a desk does for a day in which something is said, photographed and saved."""
    root = put_content(folder / "content", **{SHEET: sheet_text("hours: {MT: 3.5}")})
    with asking(root, folder / "keep") as asked:
        for path in _PAGES:
            asked.browser.get(path)
        hear = f"{API}/heard/tern?day=2024-03-06&hand=MT"
        assert 200 == asked.browser.post(hear, content=_SAID, headers=asked.token()).status_code
        photo = {"id": send(asked, encoded(halves(60, 40))), "of": ["gearbox/laygear"]}
        form = a_form(hours={"MT": "2"}, body="Apart.", photos=[photo])
        assert 200 == post(asked, "look", form=form).status_code
        assert 200 == save(asked, form).status_code


with TemporaryDirectory() as made:
    ask_for_a_day(Path(made))
gc.collect()
gc.freeze()
