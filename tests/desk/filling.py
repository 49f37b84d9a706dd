"""A page of the desk as it asks: forms, pictures, and what is answered."""

import json
from datetime import date
from pathlib import Path
from typing import Any

from journal.desk.asking import API
from tests.desk.asking import Asked

CAR = f"{API}/cars/tern"
DRAFT = "0123456789abcdef"
TODAY = date.today().isoformat()


def a_form(**said: Any) -> dict[str, Any]:
    """The form of a day on the gearbox."""
    return {
        "date": "2024-03-06", "title": "", "subsystem": ["gearbox"], "hours": {}, "body": "", "work": [],
        "parts": [], "measured": [], "snags": [], "photos": [], **said,
    }  # fmt: skip


def post(asked: Asked, what: str, **told: Any) -> Any:
    """What the desk answers to a page of the car."""
    said = json.dumps({"draft": DRAFT, **told})
    return asked.browser.post(f"{CAR}/{what}", content=said, headers=asked.token())


def save(asked: Asked, form: dict[str, Any], **told: Any) -> Any:
    """Save a form."""
    return post(asked, "save", form=form, **told)


def send(asked: Asked, data: bytes, name: str = "IMG_1.jpg", draft: str = DRAFT) -> str:
    """Send a picture; its id."""
    told = {**asked.token(), "x-picture-name": name}
    answer = asked.browser.post(f"{API}/drafts/{draft}/pictures", content=data, headers=told)
    assert 200 == answer.status_code
    return str(answer.json()["id"])


def sheets(root: Path) -> dict[str, str]:
    """Every sheet by its name, but for the one that was there before."""
    files = sorted((root / "tern" / "sheets").rglob("*.md"))
    return {f.stem: f.read_text("utf-8") for f in files if f.stem != "2024-03-05-gearbox"}


def said_beside(answer: Any) -> list[tuple[list[Any], str]]:
    """What is said, and beside which field."""
    return [(remark["field"], remark["text"]) for remark in answer.json()["remarks"]]
