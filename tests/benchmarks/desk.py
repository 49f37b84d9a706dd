"""From a sheet that is saved to the page that shows it, in a real browser.

    python -m tests.benchmarks.desk

The demonstration, and a car with 3,000 sheets: the page of a sheet is open, a sentence of the
sheet is written anew, and the time is taken until the page says it. Median and worst of 15.
"""

import shutil
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from selenium import webdriver

from tests.benchmarks.generate import Size, generate
from tests.benchmarks.publishing import last_sheet
from tests.browser.driving import a_browser, screen
from tests.desk.running import a_desk
from tests.published import CAR, CONTENT

TIMES, SHEETS = 15, 3000
# The browser itself takes the time, so that asking it costs nothing: when the words are there and drawn.
_WATCH = """
window.told = {};
new MutationObserver(() => {
  const said = document.querySelector("main").textContent.match(/Told anew: number \\d+/);
  if (said && !(said[0] in window.told)) {
    requestAnimationFrame(() => setTimeout(() => { window.told[said[0]] ??= Date.now(); }));
  }
}).observe(document.documentElement, { subtree: true, childList: true, characterData: true });
"""


def measured(
    browser: webdriver.Chrome, page: str, write: Callable[[str], None], pause: float
) -> list[float]:
    """Seconds from each writing to the page that shows it."""
    browser.get(page)
    browser.execute_script(_WATCH)
    time.sleep(1)
    took = []
    for number in range(TIMES):
        words = f"Told anew: number {number}"
        start = time.time()
        write(f"{words}.")
        until = start + 20
        while not (said := browser.execute_script("return window.told[arguments[0]]", words)):
            assert time.time() < until, f"{words} never came"
            time.sleep(0.1)
        took.append(said / 1000 - start)
        time.sleep(pause)
    return took


def main() -> None:
    """Measure both and say what came of it."""
    with TemporaryDirectory() as made, a_browser(Path(made) / "profile") as browser:
        folder = Path(made)
        screen(browser, 1280, 900)
        demo = folder / "demonstration"
        shutil.copytree(CONTENT, demo)
        sheet = sorted((demo / CAR / "sheets").rglob("*.md"))[40]
        text = sheet.read_text(encoding="utf-8")
        _say("demonstration", browser, demo, folder, f"{CAR}/sheets/{sheet.stem}.html",
             lambda words: _save(sheet, f"{text}\n{words}\n"), 0.7)  # fmt: skip
        many = folder / "many"
        generate(many, Size(cars=1, sheets=SHEETS, pictures=0))
        last = last_sheet(many)
        said = last.read_text(encoding="utf-8")
        _say(f"{SHEETS} sheets", browser, many, folder,
             f"{last.parents[2].name}/sheets/{last.stem}.html",
             lambda words: _save(last, f"{said}\n{words}\n"), 8)  # fmt: skip


def _say(
    name: str, browser: webdriver.Chrome, root: Path, folder: Path, page: str,
    write: Callable[[str], None], pause: float,
) -> None:  # fmt: skip
    with a_desk(root, folder / "state") as desk:
        took = measured(browser, desk.address + page, write, pause)
    print(
        f"{name}: median {1000 * median(took):.0f} ms, worst {1000 * max(took):.0f} ms of {TIMES}"
    )


def _save(file: Path, text: str) -> None:
    """As many editors save: a new file takes the place of the old one."""
    part = file.with_suffix(".part")
    part.write_text(text, encoding="utf-8")
    part.replace(file)


if __name__ == "__main__":
    main()
