"""What lies in a folder: as it is, what is left over, and which links are dead."""

import os
import re
from html import unescape
from pathlib import Path
from urllib.parse import unquote, urlsplit

from tests.swapping import state_of

State = dict[str, bytes | None]


def state_in(place: Path) -> State:
    """What there is of content and output."""
    return inside(place, "content", "out")


def inside(folder: Path, *names: str) -> State:
    """Everything that lies in some of the folders of a place, by its path there."""
    found: State = {}
    for name in names:
        if (folder / name).exists():
            found |= {f"{name}/{path}": data for path, data in state_of(folder / name).items()}
    return found


def strays(folder: Path) -> list[str]:
    """What is left of a run that is over: staging folders, parts, locks, folders for a while."""
    hidden = {"content", "out", "cache", "state", "tmp", "said.txt", "workshop.key"}
    left = [p.name for p in folder.iterdir() if p.name not in hidden]
    left += (
        [f"tmp/{p.name}" for p in (folder / "tmp").iterdir()] if (folder / "tmp").exists() else []
    )
    for file in folder.rglob("*"):
        told = file.relative_to(folder).as_posix()
        if (
            file.name.endswith(".part")
            or ".writing-" in file.name
            or file.name.endswith(".staging")
        ):
            left.append(told)
    return sorted({*left})


_LINK = re.compile(r"""\s(?:href|src)=["']?([^"'\s>]+)""")


def dead_links(archive: Path) -> list[str]:
    """Links that lead to no file, of the pages that a reader comes to from the front page."""
    dead, seen, left = [], {archive / "index.html"}, [archive / "index.html"]
    while left:
        page = left.pop()
        for link in {*_LINK.findall(page.read_text(encoding="utf-8"))} if page.is_file() else ():
            parts = urlsplit(unescape(link))
            file = Path(os.path.normpath(page.parent / unquote(parts.path)))
            if parts.scheme or not parts.path or file in seen:
                continue
            seen.add(file)
            if not file.is_file():
                dead.append(f"{page.relative_to(archive)}: {link}")
            elif file.suffix == ".html":
                left.append(file)
    return dead


def differing(one: State, other: State) -> list[str]:
    """The first of the paths at which two states are not the same."""
    return sorted(p for p in one.keys() | other.keys() if one.get(p, 1) != other.get(p, 1))[:8]
