"""The day page on a slow telephone network, in a real browser of phone size.

    python -m tests.benchmarks.daypage

Throttled as the "3G" profile of WebPageTest has it (1.6 Mbit/s down, 768 kbit/s up, 300 ms there and
back), with the processor of this machine and with one four times slower. The time is taken from the moment
the page is asked for until it can be written into: every script has run, and what is typed is kept.
Median and worst of 9, with nothing in the browser's cache, and with the files of the page kept there.
"""

import shutil
import time
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from selenium import webdriver

from tests.browser.driving import a_browser, screen
from tests.desk.running import a_desk
from tests.published import CAR, CONTENT

TIMES = 9
LATENCY, DOWN, UP = 300, 1_600_000 / 8, 768_000 / 8
CASES = (
    ("nothing kept", True, 1), ("files kept", False, 1), ("nothing kept, slow", True, 4),
    ("files kept, slow", False, 4),
)  # fmt: skip
_READY = """
const all = ["navigation", "resource"].flatMap((kind) => performance.getEntriesByType(kind));
const [mark] = performance.getEntriesByName("ready");
return mark ? [mark.startTime, all.reduce((sum, one) => sum + one.transferSize, 0)] : null;
"""


def opened(browser: webdriver.Chrome, page: str) -> tuple[float, int]:
    """Milliseconds until the page can be written into, and the bytes that were sent for it."""
    browser.get(page)
    until = time.monotonic() + 30
    while (told := browser.execute_script(_READY)) is None:
        assert time.monotonic() < until, "the page never was ready"
        time.sleep(0.05)
    return float(told[0]), int(told[1])


def main() -> None:
    """Measure and say what came of it."""
    with TemporaryDirectory() as made, a_browser(Path(made) / "profile") as browser:
        folder = Path(made)
        with a_desk(shutil.copytree(CONTENT, folder / "content"), folder / "state") as desk:
            page = f"{desk.address}day?car={CAR}"
            screen(browser, 390, 844)
            opened(browser, page)
            browser.execute_cdp_cmd("Network.enable", {})
            browser.execute_cdp_cmd(
                "Network.emulateNetworkConditions",
                {
                    "offline": False,
                    "latency": LATENCY,
                    "downloadThroughput": DOWN,
                    "uploadThroughput": UP,
                },
            )
            for name, fresh, slower in CASES:
                browser.execute_cdp_cmd("Emulation.setCPUThrottlingRate", {"rate": slower})
                browser.execute_cdp_cmd("Network.setCacheDisabled", {"cacheDisabled": fresh})
                took = [opened(browser, page) for _ in range(TIMES)]
                times = [ms for ms, _ in took]
                print(f"{name}: median {median(times):.0f} ms, worst {max(times):.0f} ms of {TIMES}, "
                      f"{took[0][1]:,} bytes")  # fmt: skip


if __name__ == "__main__":
    main()
