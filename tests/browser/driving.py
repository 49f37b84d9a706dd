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

PROBES = Path(__file__).parent / "probes"
# Keys by name, with the virtual key code and the text that each sends.
KEYS = {
    "Tab": (9, ""), "Enter": (13, "\r"), " ": (32, " "), "ArrowDown": (40, ""), "Escape": (27, ""),
    "ArrowUp": (38, ""), "ArrowLeft": (37, ""), "ArrowRight": (39, ""), "Home": (36, ""),
    "End": (35, ""), "Backspace": (8, ""),
}  # fmt: skip
_BROWSERS = ("chromium", "chromium-browser", "google-chrome")
_FLAGS = (
    "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
    "--disable-dev-shm-usage", "--hide-scrollbars",
    # One process draws all pages and none waits spare: opening a page costs a third less.
    "--renderer-process-limit=1", "--disable-site-isolation-trials",
    "--disable-features=BackForwardCache,SpareRendererForSitePerProcess,IsolateOrigins,site-per-process",
)  # fmt: skip


def browser_binary() -> str:
    """The browser's program; fails when there is none on this machine."""
    binary = next((found for name in _BROWSERS if (found := shutil.which(name))), None)
    assert binary, "install the package chromium, or run: bash tests/run --only-install"
    return binary


@contextmanager
def a_browser(profile: Path) -> Iterator[webdriver.Chrome]:
    """A browser with a profile of its own; fails when there is none on this machine."""
    driver = shutil.which("chromedriver")
    assert driver, "install the package chromium-driver, or run: bash tests/run --only-install"
    options = Options()
    options.binary_location = browser_binary()
    for flag in (*_FLAGS, f"--user-data-dir={profile}"):
        options.add_argument(flag)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    browser = webdriver.Chrome(options=options, service=Service(driver))
    try:
        yield browser
    finally:
        browser.quit()


def screen(
    browser: webdriver.Chrome, width: int, height: int, *, dark: bool = False, paper: bool = False
) -> None:
    """Set the size of the screen in CSS pixels, the colour scheme preferred, screen or print."""
    browser.execute_cdp_cmd(
        "Emulation.setDeviceMetricsOverride",
        {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 700},
    )
    scheme = "dark" if dark else "light"
    browser.execute_cdp_cmd(
        "Emulation.setEmulatedMedia",
        {
            "media": "print" if paper else "screen",
            "features": [{"name": "prefers-color-scheme", "value": scheme}],
        },
    )


def let_scripts_run(browser: webdriver.Chrome, run: bool) -> None:
    """Whether pages opened from now on may run their scripts; what a test asks always runs."""
    browser.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": not run})


def press(browser: webdriver.Chrome, *keys: str, shift: bool = False) -> None:
    """Press and let go keys one after the other, as a keyboard does: those in KEYS, or characters."""
    for key in keys:
        code, text = KEYS.get(key, (ord(key[0].upper()), key))
        pressed = {
            "key": key, "code": key, "windowsVirtualKeyCode": code, "modifiers": 8 if shift else 0
        }  # fmt: skip
        down = {**pressed, "type": "keyDown" if text else "rawKeyDown", "text": text}
        browser.execute_cdp_cmd("Input.dispatchKeyEvent", down)
        browser.execute_cdp_cmd("Input.dispatchKeyEvent", {**pressed, "type": "keyUp"})


def ask(browser: webdriver.Chrome, *probes: str) -> Any:
    """What the last of these probes returns for the page that is open; it may stand on those before."""
    texts = [(PROBES / f"{probe}.js").read_text(encoding="utf-8") for probe in probes]
    return browser.execute_script("\n".join(texts))


def complaints(browser: webdriver.Chrome, *within: str) -> list[str]:
    """What the browser has to say since it was last asked: messages of any severity, and every request
    that failed or went to anything whose address does not start with one of `within`.
    """
    home = within or ("file:",)
    found = [f"said: {entry['message']}" for entry in browser.get_log("browser")]
    for entry in browser.get_log("performance"):
        message: dict[str, Any] = json.loads(entry["message"])["message"]
        params = message.get("params", {})
        if message["method"] == "Network.loadingFailed" and not params.get("canceled"):
            found.append(f"failed: {params.get('errorText')} {params.get('blockedReason', '')}")
        if message["method"] == "Network.responseReceived":
            answer = params["response"]
            if int(answer["status"]) >= 400:
                found.append(f"answered {answer['status']}: {answer['url']}")
        if message["method"] == "Network.requestWillBeSent":
            url = str(params["request"]["url"])
            if not url.startswith((*home, "data:", "about:", "chrome")):
                found.append(f"asked: {url}")
    return found
