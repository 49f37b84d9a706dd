"""BagIt 1.0 (RFC 8493): the files that make a folder a bag, their names and their forms."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from hashlib import file_digest
from pathlib import Path

DECLARATION = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"
BAGIT, INFO, PAYLOAD = "bagit.txt", "bag-info.txt", "data"
# The written record below the payload: a content folder.
RECORD = f"{PAYLOAD}/record"
READ_ME = "READ-ME-FIRST.html"
# RFC 8493, section 2.4: tools must know both.
ALGORITHMS = ("sha256", "sha512")
# What bags of others are checked by as well (RFC 8493, section 2.4, and the versions before it).
KNOWN = (*ALGORITHMS, "sha1", "md5")
_DECLARED = re.compile(r"BagIt-Version: \d+\.\d+\nTag-File-Character-Encoding: UTF-8\n?")
_LINE = re.compile(r"([0-9A-Fa-f]+)[ \t]+\*?(.+)")
_ENCODED = {"%": "%25", "\n": "%0A", "\r": "%0D"}
_WIDTH = 79

Hashes = Mapping[str, Mapping[str, str]]


def manifest(algorithm: str) -> str:
    """The name of the payload manifest for an algorithm."""
    return f"manifest-{algorithm}.txt"


def tag_manifest(algorithm: str) -> str:
    """The name of the tag manifest for an algorithm."""
    return f"tagmanifest-{algorithm}.txt"


def is_declared(text: str) -> bool:
    """Whether `bagit.txt` declares a bag of any version whose own files are in UTF-8."""
    return _DECLARED.fullmatch(text.replace("\r\n", "\n")) is not None


def hashes_below(folder: Path, paths: Iterable[str]) -> dict[str, dict[str, str]]:
    """For each path its hash by every algorithm, in hexadecimal."""
    return {path: {a: _hash(folder / path, a) for a in ALGORITHMS} for path in paths}


def manifest_text(hashes: Hashes, algorithm: str) -> str:
    """A manifest: one line a file, in order of paths (RFC 8493, section 2.1.3)."""
    return listing({path: hashes[path][algorithm] for path in hashes})


def listing(hashes: Mapping[str, str]) -> str:
    """Hashes by path as the lines of a manifest."""
    return "".join(f"{hashes[path]}  {encoded(path)}\n" for path in sorted(hashes))


def manifest_in(text: str) -> dict[str, str] | None:
    """Paths and their hashes in small letters, or None when the text is no manifest."""
    listed: dict[str, str] = {}
    for line in text.splitlines():
        match = _LINE.fullmatch(line)
        if match is None or decoded(match[2]) in listed:
            return None
        listed[decoded(match[2])] = match[1].lower()
    return listed


def encoded(path: str) -> str:
    """A path as manifests write it: only line ends and the sign for them are replaced."""
    return re.sub(r"[%\n\r]", lambda found: _ENCODED[found[0]], path)


def decoded(path: str) -> str:
    """A path as it is on disk."""
    return re.sub(
        "%(25|0[AaDd])", lambda found: {"25": "%", "0A": "\n", "0D": "\r"}[found[1].upper()], path
    )


def is_safe(path: str) -> bool:
    """Whether a path stays below the bag (RFC 8493, section 5.2)."""
    parts = path.replace("\\", "/").split("/")
    outside = path.startswith(("/", "~", "\\")) or re.match("[A-Za-z]:", path) is not None
    return bool(path) and not outside and ".." not in parts and "\0" not in path


def info_text(labels: Sequence[tuple[str, str]]) -> str:
    """`bag-info.txt`: a label and a value a line, long values folded (RFC 8493, section 2.2.2)."""
    return "".join("\n".join(_folded(f"{name}: {value}")) + "\n" for name, value in labels)


def info_in(text: str) -> dict[str, str]:
    """Labels in small letters with their values unfolded; of a label given twice the first counts."""
    found: dict[str, str] = {}
    label = ""
    for line in text.splitlines():
        if line[:1] in (" ", "\t") and label:
            found[label] += " " + line.strip()
        elif ":" in line:
            label, _, value = line.partition(":")
            label = label.strip().lower()
            found.setdefault(label, value.strip())
    return found


def oxum(folder: Path, paths: Iterable[str]) -> str:
    """Payload-Oxum: octets and files of the payload (RFC 8493, section 2.2.2)."""
    sizes = [(folder / path).stat().st_size for path in paths]
    return f"{sum(sizes)}.{len(sizes)}"


def files_below(folder: Path, inside: str = "") -> tuple[str, ...]:
    """Every file below a folder, or below one of its folders, by path relative to the first."""
    base = folder / inside
    found = (p.relative_to(folder).as_posix() for p in base.rglob("*") if p.is_file())
    return tuple(sorted(found))


def _hash(file: Path, algorithm: str) -> str:
    with file.open("rb") as opened:
        return file_digest(opened, algorithm).hexdigest()


def _folded(line: str) -> Iterator[str]:
    """Lines of at most 79 characters; those that go on are indented."""
    words = " ".join(line.split()).split(" ")
    now = words[0]
    for word in words[1:]:
        if len(now) + 1 + len(word) > _WIDTH:
            yield now
            now = f"  {word}"
        else:
            now = f"{now} {word}"
    yield now
