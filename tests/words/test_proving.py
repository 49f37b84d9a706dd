"""The proving lists: common practice, no source, and whole for everything on which safety hangs."""

from journal.words.names import is_slug
from journal.words.proving import CHANGES, LOOKS, OTHERWISE, PROVING, TAKES_APART
from journal.words.vocabulary import SUBSYSTEMS, Act


def test_lists__are_there_for_every_safety_critical_subsystem_and_no_other() -> None:
    assert {name for name, branch in SUBSYSTEMS.items() if branch.safety} == set(PROVING)


def test_proofs__have_stable_names_each_once_in_its_list() -> None:
    for asked in (*PROVING.values(), OTHERWISE):
        names = [proof.name for proof in asked]
        assert len(names) == len(set(names))
        assert all(is_slug(name) for name in names)
        assert all(proof.label[0].isupper() and proof.label[-1] != "." for proof in asked)


def test_lists__hold_what_the_trade_asks_for() -> None:
    names = {s: {proof.name for proof in asked} for s, asked in PROVING.items()}
    brakes = {"fluid-named", "pressure-held", "no-weep", "parking-brake", "road-test"}
    assert brakes <= names["brakes"]
    assert {"lock-to-lock", "fasteners-locked"} <= names["steering"]
    assert {"pressure-test", "hoses-clipped", "no-smell"} <= names["fuel"]
    wheels = {"tightened", "tightened-again", "tyre-age", "tyre-pressures"}
    assert wheels <= names["wheels-and-tyres"]
    assert {"fuses", "insulation"} <= names["electrical"]


def test_acts__either_change_a_thing_or_leave_it_as_it_was() -> None:
    leave = {
        Act.INSPECTED, Act.MEASURED, Act.CLEANED, Act.CONSERVED, Act.REFINISHED, Act.PAINTED,
        Act.RETRIMMED, Act.STORED, Act.PROVED,
    }  # fmt: skip
    assert set(Act) - leave == CHANGES
    assert TAKES_APART < CHANGES
    assert not LOOKS & CHANGES
