"""Verifying a bag, from cheap to costly: its form, its totals, its files, every hash, then who signed it.

Each stage tells all that it finds. A stage that rests on one that failed is left out. A bag that was
signed must have the form in which `close_bag` leaves it; one without a signature is judged by what the
standard asks of any bag, and is told to be not signed.
"""

from collections.abc import Iterator, Mapping
from enum import StrEnum
from hashlib import file_digest
from pathlib import Path

from msgspec import Struct, field

from journal.ledgers.seals import Seals, fold_seals
from journal.outputs.bag.close import KEY, SIGNATURE, SIGNED, signed_text
from journal.outputs.bag.layout import (
    ALGORITHMS,
    BAGIT,
    DECLARATION,
    INFO,
    KNOWN,
    PAYLOAD,
    RECORD,
    files_below,
    info_in,
    is_declared,
    is_safe,
    listing,
    manifest,
    manifest_in,
    oxum,
    tag_manifest,
)
from journal.outputs.bag.pdf import CLAIMS, claims_of
from journal.outputs.bag.untouched import as_sealed, last_sealed
from journal.reading.seals import read_seals
from journal.reading.signatures import is_signed, key_hash, public_key_in

SEALS, DOSSIER = f"{PAYLOAD}/seals", f"{PAYLOAD}/dossier.pdf"
_NOTHING = "nothing"
_MANIFESTS = tuple((f(a), a) for a in KNOWN for f in (manifest, tag_manifest))
# No list answers for these, so that they must be what they were to the letter.
_UNHASHED = tuple(map(tag_manifest, ALGORITHMS))
_OURS = tuple((f(a), a) for a in ALGORITHMS for f in (manifest, tag_manifest))


class Kind(StrEnum):
    """What kind of thing is wrong."""

    FORM = "not as a bag is written"
    UNSAFE = "unsafe"
    MISSING = "missing"
    UNEXPECTED = "unexpected"
    CHANGED = "changed"
    UNSIGNED = "not signed"
    UNSEALED = "seal does not hold"
    APART = "does not follow"
    DOSSIER = "not a dossier of this bag"


class Finding(Struct, frozen=True):
    """One thing that is wrong: where, what should be there and what is."""

    kind: Kind
    path: str
    expected: str = ""
    found: str = ""


class Verified(Struct, frozen=True):
    """What was found of a bag, what was counted, and the seals in it.

    `sealed` counts the files that the seals name, `as_sealed` those of them that lie in the bag exactly
    as they were sealed. Of a `supplement` the others may lie in an earlier bag.
    """

    findings: tuple[Finding, ...]
    files: int = 0
    key: str = ""
    seals: Seals = field(default_factory=Seals)
    as_sealed: int = 0
    sealed: int = 0
    supplement: bool = False

    @property
    def good(self) -> bool:
        """Whether nothing is wrong."""
        return not self.findings

    @property
    def whole(self) -> bool:
        """Whether every file is as it was packed, signed by the workshop or not."""
        return all(f.kind is Kind.UNSIGNED and f.found == _NOTHING for f in self.findings)


def verify_bag(folder: Path) -> Verified:
    """Everything that is wrong with a bag."""
    lists, findings = _lists(folder)
    if findings:
        return Verified(tuple(findings))
    present = files_below(folder)
    findings = [
        *_links(folder),
        *_total(folder, present),
        *_complete(lists, present, _is_signed(folder)),
    ]
    findings += _changed(folder, lists, frozenset(present))
    key, unsigned = _signature(folder)
    findings += unsigned
    seals = fold_seals(read_seals(folder / SEALS), {}, {})
    findings += [
        Finding(Kind.UNSEALED, f"{SEALS}/{f.seal}", f.expected, f.found or f.what)
        for f in seals.faults
    ]
    if key and seals.last is not None and seals.last.key != key:
        findings.append(Finding(Kind.UNSEALED, SEALS, key, seals.last.key))
    findings += _dossier(folder / DOSSIER, seals)
    payload = sum(path.startswith(f"{PAYLOAD}/") for path in present)
    named = last_sealed(folder / SEALS)
    same = as_sealed(folder, f"{RECORD}/{seals.last.car}", named) if seals.last else ""
    return Verified(
        tuple(dict.fromkeys(findings)), payload, key, seals, same.count("\n"), len(named),
        _count(folder) > 1,
    )  # fmt: skip


def _count(folder: Path) -> int:
    """Which bag of its group it says it is (RFC 8493, section 2.2.2); the first unless it says so."""
    said = info_in(_text(folder / INFO)).get("bag-count", "").partition(" ")[0]
    return int(said) if said.isascii() and said.isdigit() else 1


def _dossier(file: Path, seals: Seals) -> Iterator[Finding]:
    """A dossier is an archival document with tags, made under the last seal of its bag. A bag of others
    has none."""
    if not file.is_file():
        if seals.statements:
            yield Finding(Kind.MISSING, DOSSIER)
        return
    claims = claims_of(file)
    if claims is None:
        yield Finding(Kind.DOSSIER, DOSSIER, "a PDF that can be read", "something else")
        return
    for name, expected in CLAIMS.items():
        if claims.get(name) != expected:
            yield Finding(Kind.DOSSIER, DOSSIER, f"{name} {expected}", claims.get(name, _NOTHING))
    if seals.last is not None and claims.get("root") != seals.last.root:
        found = claims.get("root", _NOTHING)
        yield Finding(Kind.DOSSIER, DOSSIER, f"made under the seal {seals.last.root}", found)


def _is_signed(folder: Path) -> bool:
    """Whether anything of a signature is there, so that the bag must have our form."""
    return any((folder / name).is_file() for name in (SIGNED, SIGNATURE, KEY))


def _lists(folder: Path) -> tuple[dict[str, dict[str, str]], list[Finding]]:
    """The manifests by name, read; and what keeps them from being used."""
    findings = list(_declaration(folder))
    lists: dict[str, dict[str, str]] = {}
    if not (folder / PAYLOAD).is_dir():
        findings.append(Finding(Kind.MISSING, f"{PAYLOAD}/"))
    ours = _is_signed(folder)
    there = [name for name, _ in _MANIFESTS if (folder / name).is_file()]
    for name in [name for name, _ in _OURS] if ours else there or [manifest(ALGORITHMS[0])]:
        if name not in there:
            findings.append(Finding(Kind.MISSING, name))
            continue
        listed = manifest_in(_text(folder / name))
        if listed is None:
            findings.append(
                Finding(Kind.FORM, name, "a hash and a path on every line", "other text")
            )
            continue
        findings += [Finding(Kind.UNSAFE, path) for path in listed if not is_safe(path)]
        if ours and name in _UNHASHED and listing(listed) != _text(folder / name):
            findings.append(
                Finding(Kind.FORM, name, "hashes and paths in our form", "another form")
            )
        lists[name] = listed
    if not ours and not findings and not any(name in lists for name in map(manifest, KNOWN)):
        findings.append(Finding(Kind.MISSING, manifest(ALGORITHMS[0])))
    return lists, findings


def _declaration(folder: Path) -> Iterator[Finding]:
    written = _text(folder / BAGIT)
    if written != DECLARATION if _is_signed(folder) else not is_declared(written):
        yield Finding(Kind.FORM, BAGIT, DECLARATION, written or _NOTHING)


def _text(file: Path) -> str:
    return file.read_text(encoding="utf-8", errors="replace") if file.is_file() else ""


def _links(folder: Path) -> Iterator[Finding]:
    """A link shows a file that the bag does not hold."""
    for path in sorted(folder.rglob("*")):
        if path.is_symlink():
            yield Finding(Kind.UNSAFE, path.relative_to(folder).as_posix(), "a file", "a link")


def _total(folder: Path, present: tuple[str, ...]) -> Iterator[Finding]:
    stated = info_in(_text(folder / INFO)).get("payload-oxum", "")
    if not stated and not _is_signed(folder):
        return
    counted = oxum(folder, [path for path in present if path.startswith(f"{PAYLOAD}/")])
    if stated != counted:
        yield Finding(Kind.CHANGED, f"{INFO}: Payload-Oxum", stated or _NOTHING, counted)


def _complete(
    lists: Mapping[str, Mapping[str, str]], present: tuple[str, ...], ours: bool
) -> Iterator[Finding]:
    """Every listed file is there, and every file that is there is listed by every algorithm. In a bag of
    others files beside the payload need not be listed (RFC 8493, section 2.2.1)."""
    tag_manifests = {tag_manifest(a) for a in KNOWN}
    for name, listed in lists.items():
        tags = name in tag_manifests
        own = {p for p in present if p.startswith(f"{PAYLOAD}/") is not tags} - tag_manifests
        yield from (
            Finding(Kind.MISSING, path, f"listed in {name}") for path in sorted({*listed} - own)
        )
        yield from (
            Finding(Kind.UNEXPECTED, path, f"listed in {name}", "not listed")
            for path in sorted(own - {*listed})
            if ours or not tags
        )


def _changed(
    folder: Path, lists: Mapping[str, Mapping[str, str]], present: frozenset[str]
) -> Iterator[Finding]:
    algorithms = dict(_MANIFESTS)
    for name, listed in lists.items():
        for path, expected in sorted(listed.items()):
            if path not in present:
                continue
            with (folder / path).open("rb") as opened:
                found = file_digest(opened, algorithms[name]).hexdigest()
            if found != expected:
                yield Finding(Kind.CHANGED, path, expected, found)


def _signature(folder: Path) -> tuple[str, list[Finding]]:
    """The name of the key that signed the bag, and what is wrong with the signature."""
    for name in (SIGNED, SIGNATURE, KEY):
        if not (folder / name).is_file():
            return "", [Finding(Kind.UNSIGNED, name, "a signature of the workshop", _NOTHING)]
    stated = (folder / SIGNED).read_bytes()
    key = public_key_in((folder / KEY).read_bytes())
    if key is None or not is_signed(key, stated, (folder / SIGNATURE).read_bytes()):
        return "", [
            Finding(Kind.UNSIGNED, SIGNED, "signed by the key beside it", "signed by no such key")
        ]
    if stated.decode("utf-8", errors="replace") != signed_text(folder):
        return key_hash(key), [
            Finding(Kind.UNSIGNED, SIGNED, "the hashes of this bag", "the hashes of another one")
        ]
    return key_hash(key), []
