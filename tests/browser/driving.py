"""A real browser for tests: headless Chromium, with the screen set from the test."""

import json
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from selenium import webdriver
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service

_BROWSERS = ("chromium", "chromium-browser", "google-chrome")
_FLAGS = (
    "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
    "--disable-dev-shm-usage", "--hide-scrollbars", "--allow-file-access-from-files",
)  # fmt: skip


@contextmanager
def a_browser(profile: Path) -> Iterator[webdriver.Chrome]:
    """A browser with a profile of its own; fails when there is none on this machine."""
    binary = next((found for name in _BROWSERS if (found := shutil.which(name))), None)
    driver = shutil.which("chromedriver")
    assert binary, "install the package chromium"
    assert driver, "install the package chromium-driver"
    options = Options()
    options.binary_location = binary
    for flag in (*_FLAGS, f"--user-data-dir={profile}"):
        options.add_argument(flag)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    browser = webdriver.Chrome(options=options, service=Service(driver))
    try:
        yield browser
    finally:
        browser.quit()


def screen(browser: webdriver.Chrome, width: int, height: int, *, dark: bool = False) -> None:
    """Set the size of the screen in CSS pixels and the colour scheme that the reader prefers."""
    browser.execute_cdp_cmd(
        "Emulation.setDeviceMetricsOverride",
        {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 700},
    )
    scheme = "dark" if dark else "light"
    browser.execute_cdp_cmd(
        "Emulation.setEmulatedMedia",
        {"features": [{"name": "prefers-color-scheme", "value": scheme}]},
    )


def complaints(browser: webdriver.Chrome) -> list[str]:
    """What the browser complained of, and every request that failed or left this machine."""
    found = [str(entry["message"]) for entry in browser.get_log("browser")]
    for entry in browser.get_log("performance"):
        message: dict[str, Any] = json.loads(entry["message"])["message"]
        params = message.get("params", {})
        if message["method"] == "Network.loadingFailed" and not params.get("canceled"):
            found.append(f"failed: {params.get('errorText')}")
        if message["method"] == "Network.requestWillBeSent":
            url = str(params["request"]["url"])
            if not url.startswith(("file:", "data:", "about:", "chrome")):
                found.append(f"asked: {url}")
    return found
