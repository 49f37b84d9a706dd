"""Are proofs told without contradiction, checked by other eyes, and the workshop's own ones in order?"""

from collections.abc import Iterator

from journal.records.carfile import CarFile
from journal.records.problem import Problem, Severity, problem_at
from journal.records.sections import Proof
from journal.records.sheet import Sheet
from journal.words.names import is_slug, nearest
from journal.words.proving import PROVING


def check_proving(car: CarFile) -> Iterator[Problem]:
    """Second pairs of eyes that are the first, proofs that say two things, own proofs that clash."""
    for sheet in car.sheets:
        for key, work in sheet.front.work:
            if work.by and work.by == work.checked:
                yield _same_eyes(sheet, ("work", key, "checked"), key, work.by)
        for name, proof in sheet.front.proving:
            if proof.by and proof.by == proof.checked:
                yield _same_eyes(sheet, ("proving", name, "checked"), name, proof.by)
            yield from _two_things(sheet, name, proof)
    yield from _own(car)


def _same_eyes(sheet: Sheet, loc: tuple[str, ...], what: str, hand: str) -> Problem:
    return problem_at(
        sheet.source, loc, "same-eyes", f"{hand} both did and checked {what}",
        severity=Severity.WARNING, help="name the other hand that looked, or leave checked: out",
    )  # fmt: skip


def _two_things(sheet: Sheet, name: str, proof: Proof) -> Iterator[Problem]:
    if proof.says_both:
        yield problem_at(
            sheet.source, ("proving", name), "proof-says-both",
            f'the proof "{name}" does not apply, and has a result',
            help="keep does-not-apply: with the reason, or what was found",
        )  # fmt: skip


def _own(car: CarFile) -> Iterator[Problem]:
    known = car.workshop.all_subsystems()
    for key, _ in car.workshop.proving:
        subsystem, slash, name = key.partition("/")
        loc = ("proving", key)
        if not slash or not is_slug(name):
            yield problem_at(
                car.workshop_source, loc, "bad-name",
                f'a proof is named subsystem/name, found "{key}"', help="write brakes/servo-holds",
            )  # fmt: skip
        elif subsystem not in known:
            meant = nearest(subsystem, known)
            way = f"write {meant}/{name}, or add it" if meant else "add it"
            yield problem_at(
                car.workshop_source, loc, "unknown-subsystem", f'there is no subsystem "{subsystem}"',
                help=f"{way} under subsystems: in workshop.yaml",
            )  # fmt: skip
        elif name in [asked.name for asked in PROVING.get(subsystem, ())]:
            yield problem_at(
                car.workshop_source, loc, "proof-asked-already",
                f"{key} is on the list already, with its own words", severity=Severity.WARNING,
                help="take the line out, or give what is asked besides a name of its own",
            )  # fmt: skip
