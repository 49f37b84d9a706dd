"""A day that is said to a phone, and what stands on its page and in the book."""

from datetime import date
from pathlib import Path

from tests.browser.phoning import Phone

TODAY = date.today().isoformat()
SAID = (
    "right so I took the laygear out. I had three and a half hours on it.\n\n"
    "I fitted the brake pipes. The union still weeps."
)
WAITS = """\
---
date: 2024-03-06
title: Laygear out
subsystem: gearbox
draft:
  - {words: took the laygear out, at: "0:12", work: {gearbox/laygear: {did: removed}}}
  - {words: it weeps, at: "0:40", ask: "Laygear: where?"}
  - words: the nuts again
    rechecks: {nuts: {after: 500 miles}}
recording: talk.mp4
---
::: workshop
I took the laygear out. Then the nuts again.

It weeps.
:::
"""
NEXT = "2024-03-06-laygear-out"


def go(phone: Phone, address: str) -> None:
    """Open a page of the day, with all that it asks for later, where nothing glides."""
    calm = {"features": [{"name": "prefers-reduced-motion", "value": "reduce"}]}
    phone.browser.execute_cdp_cmd("Emulation.setEmulatedMedia", calm)
    phone.open(address)
    phone.until("'saying' in document.documentElement.dataset")


def say(phone: Phone, words: str = SAID, hand: str = "MT") -> None:
    """Dictate, and have it heard."""
    phone.tap("#say")
    phone.tap("#said-text")
    phone.type(words)
    phone.run("document.querySelector('#said-hand').value = arguments[0]", hand)
    phone.tap("#hear")


def heard(phone: Phone) -> int:
    """How many lines were heard."""
    return int(phone.until("document.querySelectorAll('.heard-line').length"))


def line(phone: Phone, words: str, way: str) -> None:
    """Tap a way of the line that says these words."""
    card = phone.one(".heard-line", words)
    phone.run("arguments[0].dataset.mine = ''", card)
    phone.tap("[data-mine] button", way)
    phone.run("document.querySelector('[data-mine]')?.removeAttribute('data-mine')")


def count(phone: Phone) -> str:
    return str(phone.run("return document.querySelector('.heard-count').textContent"))


def written(root: Path) -> dict[str, str]:
    files = sorted((root / "tern/sheets").rglob("*.md"))
    return {f.stem: f.read_text("utf-8") for f in files if f.stem != "2024-03-05-gearbox"}


def focus(phone: Phone) -> str:
    """What has the focus: its words, or where it is."""
    return str(phone.run("const e = document.activeElement; return e.textContent.trim() || e.id"))
