"""The layers: imports point left only, siblings among checks, ledgers and pages never meet."""

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import journal

ROOT = Path(journal.__file__).parent

# From left to right; a module may import from its own layer and from those before it.
LAYERS = (
    "words", "records", "reading", "checks", "readers", "ledgers", "bench", "digests", "hearing", "pictures",
    "pages", "outputs", "desk", "commands",
)  # fmt: skip

# Layers whose modules answer one question each and know nothing of one another.
APART = ("checks", "ledgers", "bench", "digests")
# What all bench sums are made of.
SHARED = "journal.bench.base"

# What a layer may use from outside besides the standard library. A layer may use what is named
# for the layers before it only where it is named again.
OUTSIDE: dict[str, frozenset[str]] = {
    "words": frozenset(),
    "records": frozenset({"pydantic", "pydantic_core"}),
    "reading": frozenset(
        {"yaml", "markdown_it", "mdit_py_plugins", "pydantic", "pydantic_core", "cryptography"}
    ),
    "checks": frozenset({"markdown_it"}),
    "readers": frozenset({"ahocorasick", "pydantic"}),
    "ledgers": frozenset(),
    "bench": frozenset(),
    "digests": frozenset(),
    "hearing": frozenset({"rapidfuzz"}),
    "pictures": frozenset({"PIL", "pillow_heif"}),
    "pages": frozenset({"markdown_it", "markupsafe", "segno"}),
    "outputs": frozenset(
        {
            "ahocorasick",
            "cryptography",
            "fsspec",
            "jinja2",
            "markupsafe",
            "pydantic",
            "pypdf",
            "typst",
        }
    ),
    "desk": frozenset({"anyio", "jinja2", "pydantic", "starlette", "uvicorn", "watchdog"}),
    "commands": frozenset({"click", "distributed", "platformdirs", "rich", "segno"}),
}
# What records are made of stands with what the language itself brings.
STANDARD = frozenset(__import__("sys").stdlib_module_names) | {"msgspec"}

# What reaches other machines, and who knows it.
REACHING = {"distributed": "commands/cluster.py", "fsspec": "outputs/afar/places.py"}

# Reading the clock, chance or the environment makes an output depend on more than what was written.
CLOCKS = frozenset({"time", "random", "secrets", "uuid", "getpass", "platform", "socket", "locale"})
# An id that is made from what it names, and from nothing else.
NAMING = frozenset({"uuid.UUID", "uuid.uuid5"})


@cache
def _modules() -> tuple[tuple[str, Path], ...]:
    return tuple(_found())


def _found() -> Iterator[tuple[str, Path]]:
    for layer in LAYERS:
        for path in sorted((ROOT / layer).rglob("*.py")):
            yield layer, path


@cache
def _imports(path: Path) -> tuple[str, ...]:
    """Every module imported anywhere in a file: at the top, inside functions, and for types only."""
    return tuple(_imported(path))


def _imported(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            yield from (f"{node.module}.{name.name}" for name in node.names)


def test_layers__imports_point_left_only() -> None:
    wrong = []
    for layer, path in _modules():
        for name in _imports(path):
            parts = name.split(".")
            if parts[0] != "journal" or len(parts) < 2 or parts[1] not in LAYERS:
                continue
            if LAYERS.index(parts[1]) > LAYERS.index(layer):
                wrong.append(f"{path.relative_to(ROOT)} ({layer}) imports {name} ({parts[1]})")
    assert [] == wrong


def test_layers__modules_that_answer_one_question_do_not_meet() -> None:
    wrong = []
    for layer, path in _modules():
        if (
            layer not in APART
            or path.name == "__init__.py"
            or path.parent == ROOT / "bench" / "base"
        ):
            continue
        own = path.relative_to(ROOT / layer).parts[0].removesuffix(".py")
        for name in _imports(path):
            parts = name.split(".")
            if name.startswith(f"{SHARED}."):
                continue
            if parts[:2] == ["journal", layer] and len(parts) > 2 and parts[2] != own:
                wrong.append(f"{path.relative_to(ROOT)} imports {name}")
    assert [] == wrong


def test_layers__outside_libraries_stay_where_they_belong() -> None:
    wrong = []
    for layer, path in _modules():
        for name in _imports(path):
            top = name.split(".")[0]
            if top not in STANDARD | OUTSIDE[layer] | {"journal"}:
                wrong.append(f"{path.relative_to(ROOT)} ({layer}) imports {name}")
    assert [] == wrong


def test_layers__what_reaches_other_machines_is_known_to_one_module_each() -> None:
    known = {
        (name.split(".")[0], path.relative_to(ROOT).as_posix())
        for _, path in _modules()
        for name in _imports(path)
        if name.split(".")[0] in REACHING
    }
    assert REACHING == dict(known)
    assert len(REACHING) == len(known)


def test_layers__no_clock_and_no_chance_below_the_commands() -> None:
    wrong = [
        f"{path.relative_to(ROOT)} imports {name}"
        for layer, path in _modules()
        if layer not in ("commands", "desk")
        for name in _imports(path)
        if name.split(".")[0] in CLOCKS and name not in NAMING
    ]
    assert [] == wrong


def test_layers__every_module_belongs_to_one() -> None:
    known = {*LAYERS, "starter", "__main__.py", "__init__.py", "__pycache__", "themes"}
    assert set() == {path.name for path in ROOT.iterdir()} - known


def test_modules__stay_short_enough_to_read_at_a_sitting() -> None:
    lengths = {
        str(path.relative_to(ROOT)): len(path.read_text(encoding="utf-8").splitlines())
        for _, path in _modules()
    }
    assert {} == {name: length for name, length in lengths.items() if length > 400}
