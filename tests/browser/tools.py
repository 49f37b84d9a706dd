"""What looks at the pages from outside, as tests/run installs it: axe-core and Lighthouse."""

import json
import os
import shutil
import subprocess
from functools import cache
from pathlib import Path
from typing import Any

from tests.browser.driving import browser_binary

HERE = Path(__file__).parent
MODULES = HERE / "node_modules"
INSTALL = "run: bash tests/run --only-install"


def _installed(name: str) -> Path:
    """The folder of a tool in the very version that package.json asks for."""
    asked = json.loads((HERE / "package.json").read_text(encoding="utf-8"))["dependencies"][name]
    told = MODULES / name / "package.json"
    assert told.is_file(), f"{name} {asked} is not installed; {INSTALL}"
    found = json.loads(told.read_text(encoding="utf-8"))["version"]
    assert asked == found, f"{name} is installed as {found}, not as {asked}; {INSTALL}"
    return told.parent


@cache
def axe_source() -> str:
    """The script of axe-core."""
    return (_installed("axe-core") / "axe.min.js").read_text(encoding="utf-8")


def lighthouse(address: str, report: Path) -> dict[str, Any]:
    """The report of one run on a page as a phone would load it."""
    node = shutil.which("node")
    assert node, f"node is not here: install the package nodejs, or {INSTALL}"
    command = [
        node, str(_installed("lighthouse") / "cli" / "index.js"), address, "--quiet",
        "--no-enable-error-reporting", "--output=json", f"--output-path={report}",
        "--only-categories=accessibility,best-practices,performance",
        "--chrome-flags=--headless=new --no-sandbox --disable-gpu --disable-dev-shm-usage",
    ]  # fmt: skip
    ran = subprocess.run(
        command, env={**os.environ, "CHROME_PATH": browser_binary()}, capture_output=True, text=True
    )
    assert ran.returncode == 0, ran.stderr[-2000:]
    told: dict[str, Any] = json.loads(report.read_text(encoding="utf-8"))
    return told
