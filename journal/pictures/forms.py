"""The formats that are read as photographs, and what is said of a file that is none of them."""

from os.path import splitext

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
_ENDINGS = {
    form: tuple(e for other, endings in FORMS.values() if other == form for e in endings)
    for form, _ in FORMS.values()
}


class Unreadable(Struct, frozen=True):
    """Why a file gives no picture, as the end of a sentence that starts with what cannot be shown."""

    reason: str


def misnamed(facts: PhotoFacts, name: str) -> str | None:
    """The ending that a file should have, when its name has another."""
    rightly = _ENDINGS[facts.form]
    return None if splitext(name)[1].lower() in rightly else rightly[0]
