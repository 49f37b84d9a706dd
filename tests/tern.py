"""The smallest content that is all right: one workshop, one car, four components, one photograph."""

import io
from pathlib import Path

from PIL import Image

SHEET = "tern/sheets/2024/2024-03-05-gearbox.md"

FILES: dict[str, str] = {
    "workshop.yaml": """\
name: Saltmarsh Lane Workshop
hands:
  MT: {name: Margit Tolland, rate: 50}
  JB: {name: Jonah Birkett, rate: 48}
suppliers:
  northgate: Northgate Gears
  ravensdyke: Ravensdyke Platers
""",
    "tern/car.yaml": """\
name: Aldermoor Tern
year: 1958
body: drophead
booked-in: 2024-03-01
owner: Mrs Eleanor Harrow
""",
    "tern/register.yaml": """\
components:
  gearbox:
    laygear: first-fit
    front-bearing: first-fit
  brakes:
    pipes: first-fit
  brightwork:
    front-bumper: absent
""",
    "tern/papers/papers.yaml": """\
papers:
  factory-record: {title: Copy of the factory record}
""",
}


def a_picture() -> bytes:
    """A small JPEG."""
    out = io.BytesIO()
    Image.new("RGB", (8, 6), "darkgreen").save(out, "JPEG")
    return out.getvalue()


def put_content(root: Path, **overlay: str) -> Path:
    """Write the content under `root`, then `overlay` over it by path; returns `root`."""
    for path, text in {**FILES, **overlay}.items():
        put_file(root, path, text.encode("utf-8"))
    put_file(root, "tern/photos/2024-03-05/laygear.jpg", a_picture())
    return root


def put_file(root: Path, path: str, data: bytes) -> None:
    """Write one file with the folders it needs."""
    file = root / path
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(data)


def sheet_text(front: str = "", body: str = "", *, date: str = "2024-03-05") -> str:
    """A sheet on the gearbox with more front matter and text."""
    more = front.rstrip("\n") + "\n" if front.strip() else ""
    return f"---\ndate: {date}\nsubsystem: gearbox\n{more}---\n{body}"
