"""The cable for a load: thick enough to carry it, and for its length to leave the lamp its volts."""

from collections.abc import Iterator
from fractions import Fraction

from journal.bench.base.cables import CABLES, Cable, resistance
from journal.bench.base.definition import WORD, Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.loads import Loads, loads_given
from journal.bench.base.worked import Grid, Output, Worked, answered, said
from journal.words.amounts import fixed_number

LOAD = Output("load", "current of the load", (("A", 1),), "I")
LEAST = Output("least", "copper needed for the drop allowed", (("mm2", 2),), "A")
CABLE = Output("cable", "cable")
AREA = Output("area", "copper of that cable", (("mm2", 2),))
DROP = Output("drop", "volts lost in it", (("V", 2),))
SHARE = Output("share", "of the voltage", (("%", 1),))
LEFT = Output("left", "volts left at the load", (("V", 1),))
FITTED = Output("fitted-drop", "volts lost in the one that is there", (("V", 2),))
CARRIES = Output("carries", "what that cable carries as it is laid", (("A", 1),))

_SHOWN = 3
# Share of the voltage, in %, that may be lost where nothing is said (common practice).
USUAL = Fraction(4)


def _work(given: Given) -> Worked:
    loads = loads_given(given)
    volts, load = loads.volts, loads.amps
    allowed = _allowed(given, volts)
    metres = given.one("length").to("m") * (2 if given.word("return") == "cable" else 1)
    warm, loom = given.one("temperature").to("C"), given.word("laid") == "loom"
    least = resistance(Fraction(1), metres, warm) * load / allowed
    cables = CABLES[given.word("insulation")]
    at = next(
        (n for n, c in enumerate(cables) if c.area >= least and c.carries(loom=loom) >= load), None
    )
    if at is None:
        raise NotWorked(
            "length",
            f"asks with this load for more than any cable known here, {fixed_number(least, 0)} mm2 and {fixed_number(load, 0)} A",
            "bring the battery nearer, allow more drop, or split the load",
        )
    cable = cables[at]
    fitted = given.one("fitted").to("mm2") if given.has("fitted") else None
    drop = resistance(cable.area, metres, warm) * load
    results = [
        answered(LOAD, load, given),
        answered(LEAST, least, given),
        said(CABLE, cable.name),
        answered(AREA, cable.area, given),
        answered(DROP, drop, given),
        answered(SHARE, 100 * drop / volts, given),
        answered(LEFT, volts - drop, given),
        answered(CARRIES, cable.carries(loom=loom), given),
    ]
    if fitted is not None:
        results.append(answered(FITTED, resistance(fitted, metres, warm) * load, given))
    return Worked(
        tuple(results),
        tuple(_steps(given, loads, allowed, metres, warm, least, cable, drop)),
        _verdict(cable, cables[at - 1] if at else None, least, fitted),
        None if fitted is None else fitted >= cable.area,
        tuple(_warnings(given, volts, allowed)),
        (_grid(cables, at, load, metres, warm, allowed, loom=loom),),
    )


def _allowed(given: Given, volts: Fraction) -> Fraction:
    if given.has("drop"):
        allowed = given.one("drop").to("V")
        if allowed >= volts:
            raise NotWorked(
                "drop", "must be less than the voltage", "0.3 to 0.5 V is usual at 12 V"
            )
        return allowed
    share = given.one("share").to("%") if given.has("share") else USUAL
    return share * volts / 100


def _steps(
    given: Given,
    loads: Loads,
    allowed: Fraction,
    metres: Fraction,
    warm: Fraction,
    least: Fraction,
    cable: Cable,
    drop: Fraction,
) -> Iterator[str]:
    volts, load = loads.volts, loads.amps
    yield loads.step()
    if given.has("drop"):
        yield f"drop allowed: {float(allowed):g} V"
    else:
        share = given.one("share").words if given.has("share") else f"the usual {float(USUAL):g} %"
        yield f"drop allowed: {share} of {float(volts):g} V = {fixed_number(allowed, 2)} V"
    back = " there and back" if given.word("return") == "cable" else ""
    ohm = resistance(Fraction(1), Fraction(1), warm)
    yield f"copper at {fixed_number(warm, 0)} C: {fixed_number(ohm, 4)} ohm for a metre of 1 mm2; {fixed_number(metres, 2)} m{back}"
    yield (
        f"copper needed: {fixed_number(ohm, 4)} \N{MULTIPLICATION SIGN} {fixed_number(metres, 2)} \N{MULTIPLICATION SIGN} "
        f"{fixed_number(load, 2)} / {fixed_number(allowed, 2)} = {fixed_number(least, 2)} mm2"
    )
    yield (
        f"{cable.name}: {fixed_number(ohm, 4)} \N{MULTIPLICATION SIGN} {fixed_number(metres, 2)} \N{MULTIPLICATION SIGN} {fixed_number(load, 2)} / "
        f"{float(cable.area):g} = {fixed_number(drop, 2)} V"
    )


def _verdict(cable: Cable, thinner: Cable | None, least: Fraction, fitted: Fraction | None) -> str:
    why = "for the drop" if thinner is not None and thinner.area < least else "to carry the load"
    wanted = f"{cable.name} is the thinnest that will do, {why}."
    if fitted is None:
        return wanted
    if fitted >= cable.area:
        return f"The cable of {float(fitted):g} mm2 that is there will do."
    return f"The cable of {float(fitted):g} mm2 that is there is too thin: {wanted}"


def _warnings(given: Given, volts: Fraction, allowed: Fraction) -> Iterator[str]:
    if allowed > volts / 10:
        yield "More than a tenth of the voltage is allowed to be lost: lamps lose about a third of their light by that."
    if given.word("return") == "body":
        yield "The way back is through the body: clean metal, a good earth lead and a tight terminal, or the volts are lost there."


def _grid(
    cables: tuple[Cable, ...],
    at: int,
    load: Fraction,
    metres: Fraction,
    warm: Fraction,
    allowed: Fraction,
    *,
    loom: bool,
) -> Grid:
    shown = cables[max(at - _SHOWN, 0) : at + _SHOWN]
    rows = []
    for cable in shown:
        drop = resistance(cable.area, metres, warm) * load
        carries = cable.carries(loom=loom)
        wrong = [word for word, bad in (("drops too much", drop > allowed), ("carries too little", carries < load)) if bad]  # fmt: skip
        rows.append(
            (
                cable.name,
                f"{fixed_number(carries, 1)} A",
                f"{fixed_number(drop, 2)} V",
                " and ".join(wrong) or "will do",
            )
        )
    return Grid(
        "Cables on either side", ("Cable", "Carries", "Drops", "With this load"), tuple(rows)
    )


CABLE_SIZE = Sum(
    name="cable-size",
    title="Cable size for a load",
    job=Job.ELECTRICAL,
    asks="Which cable carries this load over this length without losing too many volts?",
    inputs=(
        Input("power", "power of all on this cable that can be on together", "power", Takes.READINGS, "P", optional=True, least="0.1 W", most="5 kW"),
        Input("current", "current of what is known in amperes, added to that", "current", Takes.READINGS, optional=True, least="0.01 A", most="600 A"),
        Input("voltage", "voltage of the car", "potential", symbol="U", default="12 V", least="4 V", most="60 V"),
        Input("length", "length of the cable, one way", "length", symbol="l", least="50 mm", most="30 m"),
        Input(
            "return", "how the current comes back", WORD, default="body",
            choices=(("body", "through the body, to earth near by"), ("cable", "by a second cable of the same size")),
        ),
        Input("drop", "volts that may be lost in it", "potential", symbol="u", optional=True, least="0.01 V", most="10 V"),
        Input("share", "share of the voltage that may be lost, where no drop is given; 4 % unless told", "share", optional=True, least="0.5 %", most="20 %"),
        Input(
            "insulation", "insulation of the cable", WORD, default="standard",
            choices=(("standard", "PVC of full thickness, and cotton braided over PVC"), ("thin", "thin wall")),
        ),
        Input(
            "laid", "how it is laid", WORD, default="loom",
            choices=(("loom", "in a loom with others that are loaded: 0.8 of its rating"), ("alone", "by itself in moving air")),
        ),
        Input("temperature", "how warm the copper gets", "temperature", symbol="T", default="40 C", least="-40 C", most="120 C"),
        Input("fitted", "copper of the cable that is there, to see whether it will do", "area", optional=True, least="0.1 mm2", most="120 mm2"),
    ),
    outputs=(LOAD, LEAST, CABLE, AREA, DROP, SHARE, LEFT, CARRIES, FITTED),
    in_words=(
        "The current is the power over the voltage. It loses, over the length of copper that it runs through, volts that grow with current and length and "
        "shrink with the area. The cable is the thinnest one sold that loses no more than is allowed and carries the current as it is laid."
    ),
    formula=(
        "I = P / U",
        "A = \N{GREEK SMALL LETTER RHO} l I / u, twice l where a cable brings it back",
        "\N{GREEK SMALL LETTER RHO} = (1 / 56) (1 + 0.00393 (T \N{MINUS SIGN} 20)) ohm mm2 / m",
    ),
    limits=(
        "Usual at 12 V are 0.3 V for headlamps, 0.4 V for charging and 0.5 V for other things (common practice); half of that at 6 V.",
        "Joints, switches, fuse holders and earths lose volts as well, in an old car often more than the cable: measure them under load.",
        "A starter cable is chosen for its few seconds: give the drop allowed there, usually 0.5 V at 12 V, and its current as measured or from the manual.",
        "Old lists call the same strands by thousandths of an inch: 14/012 is 14/0.30, 28/012 is 28/0.30, 44/012 is 44/0.30.",
        "Filament lamps are stamped for their rated voltage; at charging voltage they take a little more.",
    ),
    caution=(
        "A cable that is too thin, or has too large a fuse, sets a car on fire. Disconnect the battery before work, fuse every added circuit near its "
        "feed, and keep to the maker's wiring diagram; the cable maker's own rating goes before the list here."
    ),
    sources=(
        "Ohm's law; IEC 60028 for the rise of resistance with warmth; 1/56 ohm as cable makers reckon stranded copper.",
        "Ratings to 3 mm2 with standard insulation: rydertowing.co.uk, guidance on choice and use of cable. Others from memory of suppliers' lists.",
        "Common practice, no source: 0.8 of the rating in a loom, and the drops that are usual.",
    ),
    example=(
        ("power", "55 W, 55 W"), ("voltage", "12 V"), ("length", "3.5 m"), ("return", "body"), ("drop", "0.3 V"),
        ("insulation", "standard"), ("laid", "loom"), ("temperature", "40 C"), ("fitted", "2 mm2"),
    ),
    work=_work,
)  # fmt: skip
