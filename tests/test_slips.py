"""A slip of the hand in a file of the demonstration costs no archive: whoever reads it, nothing is withheld.

Masks and search know persons, numbers and suppliers from the same records, also where a line is gone, a
letter is missing or two keys have changed places, and half of an entry can no longer be read.
"""

import random
import re
from collections.abc import Callable
from pathlib import Path

import pytest

from journal.outputs.archive import Order
from journal.outputs.withheld import Withheld
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall
from tests.plainly import publish
from tests.published import CONTENT
from tests.tern import put_file

CAR = "pellmarsh-lapwing"
# The whole of one car, and of the other what tells who and which.
OTHER = (
    "aldermoor-tern/car.yaml",
    "aldermoor-tern/register.yaml",
    "aldermoor-tern/papers/papers.yaml",
)
READERS = (Reader.OWNER, Reader.KEEPER, Reader.PUBLIC)


def _letter_gone(text: str, chance: random.Random) -> str:
    at = chance.randrange(len(text))
    return text[:at] + text[at + 1 :]


def _letters_changed_about(text: str, chance: random.Random) -> str:
    at = chance.randrange(len(text) - 1)
    return text[:at] + text[at + 1] + text[at] + text[at + 2 :]


def _line_gone(text: str, chance: random.Random) -> str:
    lines = text.splitlines(keepends=True)
    del lines[chance.randrange(len(lines))]
    return "".join(lines)


def _keys_changed_about(text: str, chance: random.Random) -> str:
    one, other = sorted(chance.sample([*re.finditer(r"[\w-]+(?=:)", text)], 2), key=re.Match.start)
    return "".join(
        (
            text[: one.start()],
            other[0],
            text[one.end() : other.start()],
            one[0],
            text[other.end() :],
        )
    )


SLIPS: tuple[Callable[[str, random.Random], str], ...] = (
    _letter_gone, _letters_changed_about, _line_gone, _keys_changed_about,
)  # fmt: skip


def _files() -> dict[str, str]:
    files = (p for p in CONTENT.rglob("*") if p.suffix in (".yaml", ".md"))
    paths = {path.relative_to(CONTENT).as_posix(): path for path in sorted(files)}
    kept = {p for p in paths if p == "workshop.yaml" or p.startswith(f"{CAR}/")} | {*OTHER}
    texts = {path: paths[path].read_text(encoding="utf-8") for path in sorted(kept)}
    leave = f"{CAR}/car.yaml"
    return {**texts, leave: texts[leave].replace("public: no", "public: yes")}


FILES = _files()


def withheld(
    root: Path, slip: Callable[[str, random.Random], str], chance: random.Random
) -> list[str]:
    """What is withheld from anyone after one slip in one file."""
    # The files that tell who and which are few and short, and each line of them counts.
    telling = [path for path in FILES if path.endswith(".yaml")]
    path = chance.choice((*telling, *telling, *FILES))
    put_file(root, path, slip(FILES[path], chance).encode())
    content = read_content(root)
    told = []
    for reader in READERS:
        try:
            publish(content, Order(root, root.parent / reader.value, reader, CAR))
        except Withheld as found:
            told += [f"{path}: {p.place}: {p.message}" for p in found.problems]
        except WrongCall:
            # The slip took the car, or its leave to be shown to all.
            continue
    put_file(root, path, FILES[path].encode())
    return told


@pytest.mark.parametrize("slip", SLIPS, ids=lambda slip: slip.__name__.strip("_"))
def test_slip__in_any_file_withholds_no_archive(
    slip: Callable[[str, random.Random], str], tmp_path: Path
) -> None:
    root = tmp_path / "content"
    for path, text in FILES.items():
        put_file(root, path, text.encode())
    chance = random.Random(slip.__name__)
    assert [] == [told for _ in range(2) for told in withheld(root, slip, chance)]
