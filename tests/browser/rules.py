"""axe-core run on the page that is open."""

from typing import Any

from selenium import webdriver

from tests.browser.driving import PROBES
from tests.browser.tools import axe_source

RULES = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa")
ADVICE = "best-practice"


def violations(browser: webdriver.Chrome, *, colours: bool = True) -> list[str]:
    """What breaks a rule, one of contrast only when `colours` are asked for.

    What only goes against advice is printed (pytest -rP shows it).
    """
    if not browser.execute_script("return 'axe' in window"):
        # The policy of the page stops what the page loads, not what the driver runs in it.
        browser.execute_script(axe_source())
    run = (PROBES / "axe.js").read_text(encoding="utf-8")
    told: dict[str, Any] = browser.execute_async_script(run, [*RULES, ADVICE], colours)
    assert told["rules"] > 30, told
    broken = []
    for fault in told["violations"]:
        line = f"{fault['id']}: {fault['help']}: {fault['first']}"
        if set(fault["tags"]) & set(RULES):
            broken.append(line)
        else:
            print("advice:", line)
    return broken
