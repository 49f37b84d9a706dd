"""The dossier in a bag: can it be read, is it of the archival form it should be, and of these seals?"""

import re
from pathlib import Path

from pypdf import PdfReader
from pypdf.errors import PyPdfError

# ISO 19005-2, level A, and ISO 14289-1, as XMP tells them.
CLAIMS = {
    "pdfaid:part": "2",
    "pdfaid:conformance": "A",
    "pdfuaid:part": "1",
}
_ROOT = re.compile("root ([0-9a-f]{64})")


def claims_of(file: Path) -> dict[str, str] | None:
    """What a PDF says of its form, by the names in `CLAIMS`, and under `root` the root of the seal that
    it was made under; None when it cannot be read as a PDF with pages."""
    try:
        reader = PdfReader(file)
        told = reader.xmp_metadata.stream.get_data().decode() if reader.xmp_metadata else ""
        pages, information = len(reader.pages), reader.metadata
    except (PyPdfError, OSError, ValueError, KeyError, TypeError, AttributeError):
        return None
    if not pages:
        return None
    found = {name: re.search(rf"<{name}>([^<]*)<|{name}=\"([^\"]*)\"", told) for name in CLAIMS}
    claims = {name: match[1] or match[2] for name, match in found.items() if match}
    root = _ROOT.search(str(information.keywords or "") if information else "")
    return {**claims, "root": root[1]} if root else claims
