"""`journal verify`: is the record, or a bag, or one file, what it was when it was sealed?"""

from collections.abc import Iterable, Iterator
from pathlib import Path

import click

from journal.commands.common import Refusal, car_option, load, one_car, refusing
from journal.ledgers.seals import Fault, SealedFile, Seals, Standing
from journal.outputs.bag.follows import not_following
from journal.outputs.bag.layout import BAGIT
from journal.outputs.bag.verify import Finding, Verified, verify_bag
from journal.outputs.bag.zip import opened_bag
from journal.outputs.proof import Proven, check_proof, proof_of
from journal.outputs.sealed import seals_of
from journal.words.spoken import spoken
from journal.words.text import counted
from journal.words.wrong import WrongCall

# How a file stands, gravest first; what is open or as it was sealed is only counted.
_TOLD = (
    Standing.CHANGED,
    Standing.REMOVED,
    Standing.LATE,
    Standing.AMENDED,
    Standing.ADDED,
)
_MEANS = {
    Standing.LATE: "of a closed day, and in no seal",
    Standing.AMENDED: "changed and sealed again",
    Standing.ADDED: "written after its day was closed, and sealed later",
}


@click.command()
@click.argument("what", type=click.Path(path_type=Path))
@car_option
@click.option(
    "--follows", "earlier", type=click.Path(path_type=Path), metavar="BAG",
    help="The bag that a supplement should follow.",
)  # fmt: skip
@click.option(
    "--of", "path", metavar="PATH",
    help="Print a proof for this file of the car, to be checked alone.",
)  # fmt: skip
@click.option(
    "--file", type=click.Path(path_type=Path, exists=True, dir_okay=False), metavar="FILE",
    help="The file that a proof should be of.",
)  # fmt: skip
def verify(
    what: Path, car: str | None, earlier: Path | None, path: str | None, file: Path | None
) -> None:
    """Hold WHAT against its seals: a content folder, a bag (folder or zip), or a proof.

    Prints one verdict, then everything that is not as it was sealed. The exit code is 1 when the
    record does not hold.
    """
    try:
        good, lines = _both(what, earlier) if earlier else _verdict(what, car, path, file)
    except WrongCall as fault:
        raise refusing(fault) from None
    for line in lines:
        click.echo(line)
    raise SystemExit(0 if good else 1)


def _verdict(
    what: Path, car: str | None, path: str | None, file: Path | None
) -> tuple[bool, Iterable[str]]:
    if what.is_dir() and (what / BAGIT).exists():
        return _bag(verify_bag(what))
    if what.is_dir():
        chosen = one_car(load(what), car)
        if path is not None:
            return True, [proof_of(what, chosen, path).rstrip("\n")]
        return _record(seals_of(what, chosen))
    if not what.is_file():
        raise Refusal(f'there is nothing at "{what}"')
    if what.suffix == ".zip":
        with opened_bag(what) as folder:
            return _bag(verify_bag(folder))
    return _proof(check_proof(what.read_text(encoding="utf-8", errors="replace"), file), file)


def _record(seals: Seals) -> tuple[bool, list[str]]:
    if seals.last is None and not seals.faults:
        return False, ["Nothing is sealed; close a period with journal seal."]
    sealed = sum(
        f.standing in (Standing.SEALED, Standing.AMENDED, Standing.ADDED) for f in seals.files
    )
    if seals.intact and seals.last is not None:
        verdict = (
            f"The record holds: {counted(sealed, 'file')} as sealed, up to {seals.last.up_to}, "
            f"{counted(len(seals.statements), 'seal')}."
        )
    else:
        verdict = "The record does not hold."
    told = [f for standing in _TOLD for f in seals.files if f.standing is standing]
    return seals.intact, [verdict, *map(_fault, seals.faults), *map(_file, told)]


def _fault(fault: Fault) -> str:
    differs = f": expected {fault.expected}, found {fault.found}" if fault.expected else ""
    return f"seal {fault.seal}: {fault.what}{differs}"


def _file(file: SealedFile) -> str:
    told = _MEANS.get(file.standing)
    if told is not None:
        return f"{file.standing.value}  {file.path}: {told}"
    expected = file.sealings[-1].sha256
    return f"{file.standing.value}  {file.path}: expected {expected}, found {file.now or 'nothing'}"


def _bag(verified: Verified) -> tuple[bool, list[str]]:
    if not verified.good and verified.whole:
        files = counted(verified.files, "file")
        return False, [f"The bag is whole, {files} as packed, and nobody signed it."]
    if not verified.good:
        return False, ["The bag does not hold.", *map(_finding, verified.findings)]
    words = ", ".join(spoken(bytes.fromhex(verified.key))[:4])
    return True, [
        f"The bag holds: {counted(verified.files, 'file')} as packed, "
        f"{counted(len(verified.seals.statements), 'seal')}.",
        f"It is signed with the key that is known by the words {words}, and so on.",
        *_as_sealed(verified),
    ]


def _as_sealed(verified: Verified) -> Iterator[str]:
    if verified.sealed:
        lie = "lies" if verified.as_sealed == 1 else "lie"
        earlier = "lie in an earlier bag, or " if verified.supplement else ""
        yield (
            f"Of {counted(verified.sealed, 'sealed file')} that it names, {verified.as_sealed} {lie} in it "
            f"exactly as sealed; the others {earlier}are without what their reader may not see."
        )


def _both(what: Path, earlier: Path) -> tuple[bool, list[str]]:
    """Whether one bag follows another, each of which must hold by itself."""
    with opened_bag(earlier) as first, opened_bag(what) as second:
        before, told = verify_bag(first), verify_bag(second)
        for name, verified in ((earlier.name, before), (what.name, told)):
            if not verified.good:
                return False, [f"{name}: {line}" for line in _bag(verified)[1]]
        apart = not_following(second, told, first, before)
    if apart:
        verdict = f"{what.name} does not follow {earlier.name}, though each of them holds."
        return False, [verdict, *map(_finding, apart)]
    return True, [*_bag(told)[1], _follows(earlier, before, told)]


def _follows(earlier: Path, before: Verified, told: Verified) -> str:
    first, last = before.seals.last, told.seals.last
    assert first is not None
    assert last is not None
    known = counted(first.entries, "entry", "entries")
    added = counted(last.entries - first.entries, "entry", "entries")
    return (
        f"It follows {earlier.name}: the {known} of seal {first.seal} are "
        f"the beginning of its own, to which {added} came up to seal {last.seal}."
    )


def _finding(finding: Finding) -> str:
    differs = f": expected {finding.expected.strip()}" if finding.expected else ""
    found = f", found {finding.found.strip()}" if finding.found else ""
    return f"{finding.kind.value}  {finding.path}{differs}{found}"


def _proof(proven: Proven | str, file: Path | None) -> tuple[bool, list[str]]:
    if isinstance(proven, str):
        return False, [f"The proof does not hold: {proven}."]
    stated = proven.statement
    of = f"{file.name} is the file" if file else "The proof is of the file"
    return True, [
        f"The proof holds: {of} {proven.path} that {stated.workshop} sealed with seal {stated.seal}, "
        f"up to {stated.up_to}.",
        f"Its SHA-256 is {proven.sha256}.",
        f"The key is {stated.key}.",
    ]
