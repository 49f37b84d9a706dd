"""The fuse between a load and its cable: it must carry the one and blow before the other is hurt."""

from collections.abc import Iterator
from fractions import Fraction

from journal.bench.base.cables import CABLES, FUSES, IN_LOOM, Fuse
from journal.bench.base.definition import WORD, Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.loads import Loads, loads_given
from journal.bench.base.worked import Grid, Output, Worked, answered, said
from journal.words.amounts import fixed_number

LOAD = Output("load", "current of the load", (("A", 1),), "I")
LEAST = Output("least", "least that the fuse must carry", (("A", 1),), "F")
MOST = Output("most", "most that it may carry, for the cable", (("A", 1),))
FUSE = Output("fuse", "fuse, as it is marked")
CARRIES = Output("carries", "what that fuse carries for hours", (("A", 1),))
BLOWS = Output("blows", "what blows it at once", (("A", 0),))

# How much more than the load a fuse must carry, by what the load is: ukmotorfactors.co.uk fuse rating
# calculator (1.25 steady, 1.5 general, 2 for motors); common practice.
_ROOM = {"steady": Fraction("1.25"), "lamps": Fraction("1.5"), "motor": Fraction(2)}


def _work(given: Given) -> Worked:
    loads = loads_given(given)
    load = loads.amps
    room = _ROOM[given.word("kind")]
    least = room * load
    most = _most(given)
    marking = given.word("marking")
    fuses = FUSES[marking]
    fuse = next((f for f in fuses if f.carries >= least), None)
    if fuse is None:
        raise NotWorked(
            "power" if given.has("power") else "current",
            f"asks for a fuse that carries {fixed_number(least, 0)} A, more than any known here",
            "split the circuit",
        )
    fits = most is None or fuse.carries <= most
    fitted = _fitted(given)
    results = [answered(LOAD, load, given), answered(LEAST, least, given)]
    if most is not None:
        results.append(answered(MOST, most, given))
    results.append(said(FUSE, fuse.name(marking) if fits else "none"))
    if fits:
        results += [answered(CARRIES, fuse.carries, given), answered(BLOWS, fuse.blows, given)]
    return Worked(
        tuple(results),
        tuple(_steps(given, loads, least, most, fitted)),
        _verdict(given, fuse, least, most, fitted),
        _right(fits, least, most, fitted),
        tuple(_warnings(given)),
        (_grid(fuses, marking, least, most),),
    )


def _most(given: Given) -> Fraction | None:
    """What the thinnest cable behind the fuse carries as it is laid."""
    if not given.has("cable"):
        return None
    area = given.one("cable").to("mm2")
    cables = CABLES[given.word("insulation")]
    thinner = [cable for cable in cables if cable.area <= area]
    if not thinner:
        raise NotWorked(
            "cable", f"is thinner than any known here, {float(cables[0].area):g} mm2", "ask its maker what it carries"
        )  # fmt: skip
    return thinner[-1].carries(loom=given.word("laid") == "loom")


def _fitted(given: Given) -> Fuse | None:
    if not given.has("fitted"):
        return None
    amps = given.one("fitted").to("A")
    return Fuse(amps / 2, amps) if given.word("marking") == "blow" else Fuse(amps, amps * 2)


def _right(fits: bool, least: Fraction, most: Fraction | None, fitted: Fuse | None) -> bool | None:
    if fitted is not None:
        return least <= fitted.carries and (most is None or fitted.carries <= most)
    return None if fits else False


def _steps(
    given: Given, loads: Loads, least: Fraction, most: Fraction | None, fitted: Fuse | None
) -> Iterator[str]:
    yield loads.step()
    room = _ROOM[given.word("kind")]
    yield f"must carry: {float(room):g} \N{MULTIPLICATION SIGN} {fixed_number(loads.amps, 2)} = {fixed_number(least, 2)} A"
    if most is not None:
        laid = f", {float(IN_LOOM):g} of its rating" if given.word("laid") == "loom" else ""
        yield f"cable of {given.one('cable').words}: carries {fixed_number(most, 1)} A as it is laid{laid}"
    if fitted is not None:
        yield f"fuse that is there: carries {float(fitted.carries):g} A, blows at once at {float(fitted.blows):g} A"


def _verdict(
    given: Given, fuse: Fuse, least: Fraction, most: Fraction | None, fitted: Fuse | None
) -> str:
    marking = given.word("marking")
    if most is not None and fuse.carries > most:
        return (
            f"No fuse known here both carries {fixed_number(least, 1)} A and protects a cable that carries {fixed_number(most, 1)} A: "
            "lay a thicker cable, or split the circuit."
        )
    wanted = f"A fuse marked {fuse.name(marking)} carries the load"
    wanted += " and protects the cable." if most is not None else "; the cable must carry as much."
    if fitted is None:
        return wanted
    if fitted.carries < least:
        return (
            f"The fuse marked {given.one('fitted').words} blows without a fault in time. {wanted}"
        )
    if most is not None and fitted.carries > most:
        return f"The fuse marked {given.one('fitted').words} carries more than the cable may: that gets hot before the fuse blows. {wanted}"
    return f"The fuse marked {given.one('fitted').words} will do."


def _warnings(given: Given) -> Iterator[str]:
    if not given.has("cable"):
        yield "No cable is given. A fuse protects the cable: give the thinnest one behind it, or this says nothing of fire."
    if given.word("marking") == "blow":
        yield (
            "Marked by what blows it, as old British glass fuses are: one marked 35 A carries 17.5 A. A modern glass or blade fuse of the same "
            "figure carries twice as much and protects nothing."
        )


def _grid(fuses: tuple[Fuse, ...], marking: str, least: Fraction, most: Fraction | None) -> Grid:
    at = next(n for n, f in enumerate(fuses) if f.carries >= least)
    rows = []
    for fuse in fuses[max(at - 2, 0) : at + 3]:
        wrong = []
        if fuse.carries < least:
            wrong.append("too small for the load")
        if most is not None and fuse.carries > most:
            wrong.append("too large for the cable")
        rows.append(
            (
                fuse.name(marking),
                f"{float(fuse.carries):g} A",
                f"{float(fuse.blows):g} A",
                " and ".join(wrong) or "will do",
            )
        )
    return Grid("Fuses on either side", ("Marked", "Carries", "Blows at once", "Here"), tuple(rows))


FUSE_RATING = Sum(
    name="fuse-rating",
    title="Fuse for a circuit",
    job=Job.ELECTRICAL,
    asks="Which fuse carries this load and blows before its cable burns?",
    inputs=(
        Input("power", "power of all behind the fuse that can be on together", "power", Takes.READINGS, "P", optional=True, least="0.1 W", most="5 kW"),
        Input("current", "current of what is known in amperes, added to that", "current", Takes.READINGS, optional=True, least="0.01 A", most="600 A"),
        Input("voltage", "voltage of the car", "potential", symbol="U", default="12 V", least="4 V", most="60 V"),
        Input(
            "kind", "what the load is; the hardest of several", WORD, default="lamps",
            choices=(("steady", "steady: heating, electronics"), ("lamps", "filament lamps and mixed circuits"), ("motor", "motors and pumps that start against a load")),
        ),
        Input("cable", "copper of the thinnest cable behind the fuse: 14/0.30 is 1 mm2, 28/0.30 is 2 mm2, 44/0.30 is 3 mm2", "area", optional=True, least="0.1 mm2", most="120 mm2"),
        Input("insulation", "insulation of that cable", WORD, default="standard", choices=(("standard", "PVC of full thickness, and cotton braided over PVC"), ("thin", "thin wall"))),
        Input("laid", "how it is laid", WORD, default="alone", choices=(("alone", "by its rating as listed"), ("loom", "in a loom with others that are loaded for hours: 0.8 of it"))),
        Input(
            "marking", "what the figure on the fuse means", WORD, default="continuous",
            choices=(("continuous", "what it carries for hours: blade fuses and modern glass"), ("blow", "what blows it at once: old British glass")),
        ),
        Input("fitted", "figure on the fuse that is there, to see whether it will do", "current", optional=True, least="0.1 A", most="600 A"),
    ),
    outputs=(LOAD, LEAST, MOST, FUSE, CARRIES, BLOWS),
    in_words=(
        "The fuse must carry the load with room for its kind: 1.25 of a steady one, 1.5 of lamps and mixed circuits, twice that of a motor. It must carry no more "
        "than the thinnest cable behind it as that is laid. The smallest fuse sold that does both is named."
    ),
    formula=("I = P / U", "F = 1.25 I steady, 1.5 I lamps, 2 I motors", "F \N{LESS-THAN OR EQUAL TO} fuse \N{LESS-THAN OR EQUAL TO} what the cable carries"),
    limits=(
        "A fuse is chosen for the cable first and for the load after: where a circuit branches, the thinnest branch counts.",
        "Filament lamps take up to ten times their current for an instant when they are cold, motors several times theirs when they start; both are in the room that is left.",
        "The starter, and in many old cars lamps and ignition, run without a fuse; whether to add one is for whoever answers for the car.",
    ),
    caution=(
        "A fuse that is too large sets a car on fire, and headlamps that share one go out together. Keep to the fuse that the maker's manual names, with the marking "
        "that it means; find the fault when it blows, and never bridge it."
    ),
    sources=(
        "Room above the load: ukmotorfactors.co.uk, fuse rating calculator, common practice.",
        "Marking of old British fuses by what blows them, 35 A for 17.5 A: torontotriumph.com, A conFUSEing topic.",
        "Sizes of fuses: ISO 8820, and suppliers' lists for glass ones, from memory.",
    ),
    example=(
        ("power", "21 W, 21 W, 5 W, 5 W"), ("current", "2.5 A"), ("voltage", "12 V"), ("kind", "lamps"), ("cable", "2 mm2"),
        ("insulation", "standard"), ("laid", "alone"), ("marking", "blow"), ("fitted", "35 A"),
    ),
    work=_work,
)  # fmt: skip
