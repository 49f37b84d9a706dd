"""A tool that is not here fails the tests that need it, in one sentence that says what to do."""

import json
import shutil
from pathlib import Path

import pytest

from tests.browser import driving, tools

INSTALL = "run: bash tests/run --only-install"


@pytest.fixture
def modules(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(tools, "axe_source", tools.axe_source.__wrapped__)
    monkeypatch.setattr(tools, "HERE", tmp_path)
    monkeypatch.setattr(tools, "MODULES", tmp_path / "node_modules")
    asked = {"dependencies": {"axe-core": "4.0.0", "lighthouse": "12.0.0"}}
    (tmp_path / "package.json").write_text(json.dumps(asked), encoding="utf-8")
    return tmp_path / "node_modules"


def test_axe__that_is_missing_is_named(modules: Path) -> None:
    with pytest.raises(AssertionError) as told:
        tools.axe_source()
    assert f"axe-core 4.0.0 is not installed; {INSTALL}" == str(told.value).splitlines()[0]


def test_axe__of_another_version_is_not_used(modules: Path) -> None:
    (modules / "axe-core").mkdir(parents=True)
    (modules / "axe-core" / "package.json").write_text('{"version": "3.9.9"}', encoding="utf-8")
    with pytest.raises(AssertionError) as told:
        tools.axe_source()
    said = f"axe-core is installed as 3.9.9, not as 4.0.0; {INSTALL}"
    assert said == str(told.value).splitlines()[0]


def test_node__that_is_missing_is_named(modules: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shutil, "which", lambda name: None)
    with pytest.raises(AssertionError) as told:
        tools.lighthouse("http://127.0.0.1:9/", modules / "report.json")
    said = f"node is not here: install the package nodejs, or {INSTALL}"
    assert said == str(told.value).splitlines()[0]


def test_browser__that_is_missing_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shutil, "which", lambda name: None)
    with pytest.raises(AssertionError) as told:
        driving.browser_binary()
    assert f"install the package chromium, or {INSTALL}" == str(told.value).splitlines()[0]
