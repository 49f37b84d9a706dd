"""The formats that are read as photographs, and what is said of a file that is none of them."""

from pathlib import PurePath

from msgspec import Struct

from journal.records.photofacts import PhotoFacts

# The formats by their name in Pillow, and the endings that a file of the format may have.
# MPO is what phones write as JPEG when a second, smaller picture or a depth map goes along.
FORMS: dict[str, tuple[str, tuple[str, ...]]] = {
    "JPEG": ("JPEG", (".jpg", ".jpeg", ".jpe", ".jfif")),
    "MPO": ("JPEG", (".jpg", ".jpeg", ".jpe", ".jfif", ".mpo")),
    "HEIF": ("HEIF", (".heic", ".heif", ".hif")),
    "PNG": ("PNG", (".png",)),
    "WEBP": ("WebP", (".webp",)),
    "TIFF": ("TIFF", (".tif", ".tiff")),
}


class Unreadable(Struct, frozen=True):
    """Why a file gives no picture, as the end of a sentence that starts with what cannot be shown."""

    reason: str


def misnamed(facts: PhotoFacts, name: str) -> str | None:
    """The ending that a file should have, when its name has another."""
    ending = PurePath(name).suffix.lower()
    rightly = {e for form, endings in FORMS.values() if form == facts.form for e in endings}
    if ending in rightly:
        return None
    return next(endings[0] for form, endings in FORMS.values() if form == facts.form)
