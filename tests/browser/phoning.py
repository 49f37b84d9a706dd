"""A phone at the desk: a browser of phone size that is used with fingers, which are counted."""

import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from selenium import webdriver
from selenium.webdriver.common.by import By

from tests.browser.driving import screen

# Where the middle of a thing is, and whether a finger there would meet it.
_PLACE = """
const [node] = arguments;
node.scrollIntoView({block: "center", behavior: "instant"});
const box = node.getBoundingClientRect();
const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
const met = document.elementFromPoint(x, y);
return [x, y, met !== null && (node.contains(met) || met.contains(node) || node.closest("label") === met.closest("label"))];
"""  # noqa: E501 - one expression of the page


class Phone:
    """One phone. `taps` are the fingers put down so far."""

    def __init__(self, browser: webdriver.Chrome) -> None:
        self.browser = browser
        self.taps = 0
        self.held()
        browser.execute_cdp_cmd(
            "Emulation.setTouchEmulationEnabled", {"enabled": True, "maxTouchPoints": 2}
        )

    def held(self, width: int = 390, height: int = 844, *, dark: bool = False) -> None:
        """Hold it so that the screen is as wide and as high as this."""
        screen(self.browser, width, height, dark=dark)

    def open(self, address: str) -> None:
        """Go to a page of the desk, and wait until it can be written into."""
        self.browser.get(address)
        self.until("'ready' in document.documentElement.dataset")

    def run(self, script: str, *given: Any) -> Any:
        """What a script in the page returns."""
        return self.browser.execute_script(script, *given)

    def until(self, script: str, *given: Any, seconds: float = 30) -> Any:
        """What a script answers once it answers anything."""
        end = time.monotonic() + seconds
        while not (answer := self.run(f"return ({script})", *given)):
            assert time.monotonic() < end, f"never: {script}; {self.kept} {self.told}"
            time.sleep(0.05)
        return answer

    def one(self, selector: str, words: str = "") -> Any:
        """The first element of a selector that is seen and says these words."""
        found = self.run(
            "return [...document.querySelectorAll(arguments[0])].find((node) =>"
            " node.checkVisibility() && node.textContent.trim().includes(arguments[1]))",
            selector, words,
        )  # fmt: skip
        assert found is not None, f"{selector} {words} is not seen"
        return found

    def tap(self, selector: str, words: str = "") -> None:
        """Put a finger on what can be seen there."""
        x, y, met = self.run(_PLACE, self.one(selector, words))
        assert met, f"something lies over {selector} {words}"
        for kind, points in (("touchStart", [{"x": x, "y": y}]), ("touchEnd", [])):
            told = {"type": kind, "touchPoints": points}
            self.browser.execute_cdp_cmd("Input.dispatchTouchEvent", told)
        self.taps += 1
        time.sleep(0.15)

    def type(self, text: str) -> None:
        """Type, or dictate, into what has the focus."""
        self.browser.execute_cdp_cmd("Input.insertText", {"text": text})

    def photograph(self, selector: str, *files: Path) -> None:
        """Tap the camera; the phone's own camera is used, and gives these files."""
        camera = self.run("return document.querySelector(arguments[0]).closest('label')", selector)
        *_, met = self.run(_PLACE, camera)
        assert met, f"something lies over {selector}"
        self.browser.find_element(By.CSS_SELECTOR, selector).send_keys("\n".join(map(str, files)))
        self.taps += 1

    @property
    def kept(self) -> str:
        """What the page says of where everything is."""
        return str(self.run("return document.querySelector('#kept')?.textContent ?? ''"))

    @property
    def told(self) -> str:
        """What the page says on top."""
        return str(self.run("return document.querySelector('#told')?.textContent ?? ''"))

    def in_book(self) -> str:
        """Wait until it is in the book, and what the page says of it."""
        self.until("document.querySelector('#told .in-book, #told p.in-book')")
        return self.told

    @contextmanager
    def out_of_reach(self) -> Iterator[None]:
        """Go where the network does not reach."""
        self._network(offline=True)
        try:
            yield
        finally:
            self._network(offline=False)

    def _network(self, *, offline: bool) -> None:
        self.browser.execute_cdp_cmd("Network.enable", {})
        told = {"offline": offline, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1}
        self.browser.execute_cdp_cmd("Network.emulateNetworkConditions", told)

    def forget(self, address: str) -> None:
        """Nothing is kept any more of what was typed on the pages of a desk."""
        self.browser.get(f"{address}phone")
        self.run(
            "localStorage.clear(); sessionStorage.clear();"
            "return indexedDB.deleteDatabase('journal-desk'), true"
        )
