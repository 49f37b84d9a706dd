"""Pictures that a phone has sent and no sheet holds yet: on disk, outside every car, until they are saved.

They survive the end of the desk. A browser names a picture by the id that it was given here, which is
looked up among those that lie in the tray and never used as a path.
"""

import json
import os
import re
from collections.abc import Iterator
from pathlib import Path
from secrets import token_hex
from threading import Lock

from msgspec import Struct
from msgspec.structs import asdict

from journal.desk.darkroom import Darkroom
from journal.pictures.forms import Unreadable
from journal.words.text import shortened

# A photograph of 50 megapixels takes some 25 MB.
PICTURE_BYTES = 64 * 1024 * 1024
TRAY_BYTES = 4 * 1024**3
TRAY_PICTURES = 1000

_ID = re.compile(r"[0-9a-f]{32}")
_DRAFT = re.compile(r"[0-9A-Za-z-]{8,64}")


class Laid(Struct, frozen=True):
    """One picture in the tray: by which `id` it goes, for which draft of a sheet it came, how the phone
    calls it, its hash, size in pixels, form, and when the camera says it was taken ("" if it does not)."""

    id: str
    draft: str
    name: str
    sha256: str
    bytes: int
    width: int
    height: int
    form: str
    taken: str


class Refused(Exception):
    """A picture is not taken into the tray, in a sentence for whoever sent it; with its HTTP status."""

    def __init__(self, status: int, words: str) -> None:
        super().__init__(words)
        self.status = status
        self.words = words


class Arriving:
    """A picture that is being sent, piece by piece."""

    def __init__(self, file: Path) -> None:
        self.file = file
        self._out = file.open("xb")

    def add(self, piece: bytes) -> None:
        """One more piece."""
        try:
            self._out.write(piece)
        except OSError as fault:
            raise disk_words(fault) from fault

    def close(self) -> None:
        """Put all of it down for good."""
        try:
            self._out.flush()
            os.fsync(self._out.fileno())
        except OSError as fault:
            raise disk_words(fault) from fault
        finally:
            self._out.close()

    def drop(self) -> None:
        """Nothing of it is kept."""
        self._out.close()
        self.file.unlink(missing_ok=True)


class Tray:
    """The tray in a folder of its own; `darkroom` judges whether what is sent is a picture."""

    def __init__(self, folder: Path, darkroom: Darkroom) -> None:
        self._folder = folder
        self._darkroom = darkroom
        self._lock = Lock()
        folder.mkdir(parents=True, exist_ok=True)
        for part in folder.glob("*.part"):
            part.unlink()
        self._laid = {laid.id: laid for laid in _lying(folder)}

    def laid(self, draft: str) -> tuple[Laid, ...]:
        """The pictures of one draft, by when they were taken and then as they are called."""
        mine = (laid for laid in self._laid.values() if laid.draft == draft)
        return tuple(sorted(mine, key=lambda laid: (laid.taken, laid.name, laid.id)))

    def find(self, id: str) -> Laid | None:
        """A picture by its id."""
        return self._laid.get(id)

    def file(self, laid: Laid) -> Path:
        """Where the picture itself lies, as it was sent."""
        return self._folder / f"{laid.id}.picture"

    def small(self, laid: Laid) -> bytes:
        """Its narrowest rendition, as WebP."""
        return (self._folder / f"{laid.id}.webp").read_bytes()

    def arriving(self) -> Arriving:
        """A place for a picture that comes in."""
        with self._lock:
            full = len(self._laid) >= TRAY_PICTURES
            if full or sum(laid.bytes for laid in self._laid.values()) >= TRAY_BYTES:
                raise Refused(
                    507, "The tray is full of pictures that no sheet holds; save or drop some."
                )
        try:
            return Arriving(self._folder / f"{token_hex(16)}.part")
        except OSError as fault:
            raise disk_words(fault) from fault

    def lay(self, arrived: Arriving, draft: str, name: str) -> Laid:
        """Take in a picture that has come in whole. One that lies there already for the draft is not
        taken twice. Raises Refused for what is no picture."""
        if not _DRAFT.fullmatch(draft):
            raise Refused(400, "The draft has no name.")
        seen = self._darkroom.glance(arrived.file)
        if isinstance(seen, Unreadable):
            raise Refused(
                415,
                f"The picture cannot be shown: {seen.reason}; send JPEG, HEIC, PNG, WebP or TIFF.",
            )
        facts = seen.facts
        known = next((x for x in self.laid(draft) if x.sha256 == facts.sha256), None)
        if known is not None:
            return known
        taken = f"{facts.taken_on}T{facts.taken_at}" if facts.taken_on else ""
        laid = Laid(
            token_hex(16), draft, told_name(name), facts.sha256, facts.size, facts.width, facts.height,
            facts.form, taken,
        )  # fmt: skip
        try:
            self._put(arrived, laid, seen.small.data)
        except OSError as fault:
            raise disk_words(fault) from fault
        return laid

    def drop(self, laid: Laid) -> None:
        """Take a picture out of the tray: it lies in a car, or nobody wants it."""
        with self._lock:
            self._laid.pop(laid.id, None)
            for ending in ("json", "webp", "picture"):
                (self._folder / f"{laid.id}.{ending}").unlink(missing_ok=True)

    def _put(self, arrived: Arriving, laid: Laid, small: bytes) -> None:
        """What is told of a picture is written last: without it there is none."""
        with self._lock:
            (self._folder / f"{laid.id}.webp").write_bytes(small)
            arrived.file.rename(self.file(laid))
            part = self._folder / f"{laid.id}.part"
            with part.open("w", encoding="utf-8") as out:
                json.dump(asdict(laid), out)
                out.flush()
                os.fsync(out.fileno())
            part.rename(self._folder / f"{laid.id}.json")
            _fsync_folder(self._folder)
            self._laid[laid.id] = laid


def told_name(name: str) -> str:
    """How a phone calls a picture, as a label: the last part of it, in letters that can be printed."""
    last = re.split(r"[/\\]", name)[-1]
    plain = "".join(c for c in last if c.isprintable())
    return shortened(plain.strip(), 80) or "picture"


def disk_words(fault: OSError) -> Refused:
    """A disk that takes no more, in words."""
    reason = (fault.strerror or "it cannot be written").lower()
    return Refused(
        507, f"The desk's disk does not take the picture: {reason}. It is still on this device."
    )


def _lying(folder: Path) -> Iterator[Laid]:
    for file in sorted(folder.glob("*.json")):
        try:
            told = json.loads(file.read_text(encoding="utf-8"))
            laid = Laid(**told)
        except (ValueError, TypeError):
            # It is none of ours, and is left alone.
            continue
        if (
            _ID.fullmatch(laid.id)
            and file.stem == laid.id
            and file.with_suffix(".picture").is_file()
        ):
            yield laid


def _fsync_folder(folder: Path) -> None:
    opened = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(opened)
    finally:
        os.close(opened)
