"""Renditions: a photograph in a few widths, upright, in sRGB, without any metadata."""

import hashlib
import io
from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from PIL import Image, ImageCms, ImageOps, UnidentifiedImageError

from journal.pictures.published import Published, Rendition
from journal.records.place import Place
from journal.records.problem import Problem, Severity

WIDTHS = (640, 1600)
QUALITY = 80
_SRGB = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB"))
_FAULTS = (UnidentifiedImageError, OSError, ValueError, SyntaxError, Image.DecompressionBombError)


def make_pictures(
    root: Path, files: Mapping[str, str], target: Path, folder: str, *, workers: int
) -> tuple[dict[str, Published], list[Problem]]:
    """Write the renditions of every photograph below `target` and tell what was made.

    `files` maps the name by which pages know a photograph to its path relative to `root`;
    `folder` is where renditions go, relative to the car's folder `target`. Names of renditions come
    from the photograph's bytes, so they tell nothing. A file that is no picture costs a problem.
    """
    if files:
        (target / folder).mkdir(parents=True, exist_ok=True)
    names = sorted(files)
    with ThreadPoolExecutor(workers) as pool:
        results = list(pool.map(lambda n: _make(root / files[n], target, folder), names))
    made: dict[str, Published] = {}
    problems = []
    for name, result in zip(names, results, strict=True):
        if isinstance(result, Published):
            made[name] = result
        else:
            problems.append(_bad(files[name], result))
    return made, problems


def _make(file: Path, target: Path, folder: str) -> Published | str:
    try:
        raw = file.read_bytes()
        with Image.open(io.BytesIO(raw)) as opened:
            opened.draft("RGB", (WIDTHS[-1], WIDTHS[-1]))
            image = _plain(opened)
    except _FAULTS as fault:
        return "it is empty" if file.exists() and not file.stat().st_size else _reason(fault)
    stem = hashlib.sha256(raw).hexdigest()[:16]
    renditions: list[Rendition] = []
    for width in WIDTHS:
        width = min(width, image.width)
        if renditions and renditions[-1].width == width:
            break
        height = max(1, round(image.height * width / image.width))
        path = f"{folder}/{stem}-{width}.jpg"
        scaled = (
            image
            if width == image.width
            else image.resize((width, height), Image.Resampling.LANCZOS)
        )
        scaled.save(target / path, "JPEG", quality=QUALITY, progressive=True, optimize=True)
        renditions.append(Rendition(path, width, height))
    return Published(tuple(renditions))


def _reason(fault: BaseException) -> str:
    if isinstance(fault, Image.DecompressionBombError):
        return "it is too large to be a photograph"
    return "it cannot be read as a picture"


def _plain(opened: Image.Image) -> Image.Image:
    """The picture upright, as sRGB on white, with nothing but its pixels."""
    profile = opened.info.get("icc_profile")
    image = ImageOps.exif_transpose(opened)
    if image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info:
        image = image.convert("RGBA")
        ground = Image.new("RGBA", image.size, "white")
        image = Image.alpha_composite(ground, image)
    if profile and image.mode in ("RGB", "CMYK", "L"):
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        try:
            converted = ImageCms.profileToProfile(image, source, _SRGB, outputMode="RGB")
        except ImageCms.PyCMSError:
            # A profile that does not fit its picture says nothing of its colours.
            converted = None
        image = converted or image
    plain = image.convert("RGB")
    plain.info.clear()
    return plain


def _bad(path: str, reason: str) -> Problem:
    return Problem(
        Place(path, 1), "bad-picture", f"the picture cannot be shown: {reason}", Severity.WARNING,
        help="save it again as JPEG, PNG, WebP or TIFF",
    )  # fmt: skip
