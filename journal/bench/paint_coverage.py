"""How much paint the panels need: area, coats, film, and what misses the panel."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from journal.bench.base.definition import TEXT, Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Grid, Output, Result, Teller, Worked, answered
from journal.words.amounts import fixed_number

AREA = Output("area", "area of all panels", (("m2", 2), ("sq ft", 1)))
COVERS = Output(
    "covers", "a litre covers in a coat, if none were lost", (("m2", 2), ("sq ft", 0)), "c"
)
REALLY = Output("really", "a litre really covers in a coat", (("m2", 2), ("sq ft", 0)))
WET = Output("wet", "wet film of a coat, for the comb", (("micron", 0), ("thou", 1)), "w")
BUILD = Output("build", "dry film of all coats", (("micron", 0), ("thou", 1)))
READY = Output("ready", "ready to spray, for all coats", (("l", 2), ("pint", 1)), "V")
UNTHINNED = Output("unthinned", "of that, paint with its hardener", (("l", 2), ("pint", 1)))
THINNER = Output("thinner", "and thinner", (("l", 2), ("pint", 1)))
A_COAT = Output("coat", "ready to spray for one coat", (("l", 2), ("pint", 1)))


class Panel(Struct, frozen=True):
    """A panel: its name, and the area of all its faces in m2."""

    name: str
    area: Fraction


class Film(Struct, frozen=True):
    """What a litre does: m2 in a coat with nothing lost, and wet and dry film of a coat in microns where
    they are known."""

    covers: Fraction
    wet: Fraction | None = None
    dry: Fraction | None = None


def _work(given: Given) -> Worked:
    panels = tuple(_panels(given))
    area = sum((panel.area for panel in panels), Fraction(0))
    film = _film(given)
    really = film.covers * given.one("lands").to("%") / 100
    coats = given.number("coats")
    spare = 1 + given.one("spare").to("%") / 100
    coat = area / really * spare
    ready = coat * coats
    tell = Teller((("m2", 2, 2), ("sq ft", 1, 1)), given)
    litres = Teller((("l", 2, 3), ("pint", 1, 2)), given)
    return Worked(
        tuple(_results(given, area, film, really, coat, ready)),
        tuple(_steps(given, panels, area, film, really, coat, tell, litres)),
        f"{litres(ready)} ready to spray for {int(coats)} coat{'s' if coats > 1 else ''} on {tell(area)}, with what misses the panel and {given.one('spare').words} to spare.",
        None,
        tuple(_warnings(film)),
        (_grid(panels, really, spare, coats, tell, litres),),
    )


def _panels(given: Given) -> Iterator[Panel]:
    if given.has("panels") == given.has("area"):
        told = "are missing" if not given.has("panels") else "cannot be given together with area"
        raise NotWorked("panels", told, "write them like bonnet: 1.2 m, 1.1 m; door: 1.1 m, 0.7 m, 2, or give the area of all")  # fmt: skip
    if given.has("area"):
        yield Panel("all panels", given.one("area").to("m2"))
        return
    for row in given.rows("panels"):
        faces = row.number("number") if row.has("number") else 1
        yield Panel(row.word("panel"), row.one("length").to("m") * row.one("width").to("m") * faces)


def _film(given: Given) -> Film:
    if given.has("tin"):
        if given.has("dry") or given.has("solids"):
            raise NotWorked("tin", "is one figure too many beside dry and solids", "give what the tin covers, or film and solids")  # fmt: skip
        return Film(given.one("tin").to("m2"))
    for name in ("dry", "solids"):
        if not given.has(name):
            raise NotWorked(
                name, "is missing", "give film and solids from the data sheet, or as tin what a litre covers"
            )  # fmt: skip
    dry = given.one("dry").to("micron")
    solids = given.one("solids").to("%") / (1 + _thinner(given))
    return Film(10 * solids / dry, 100 * dry / solids, dry)


def _thinner(given: Given) -> Fraction:
    return given.one("thinner").to("%") / 100


def _results(
    given: Given,
    area: Fraction,
    film: Film,
    really: Fraction,
    coat: Fraction,
    ready: Fraction,
) -> Iterator[Result]:
    yield answered(AREA, area, given)
    yield answered(COVERS, film.covers, given)
    yield answered(REALLY, really, given)
    if film.wet is not None and film.dry is not None:
        yield answered(WET, film.wet, given)
        yield answered(BUILD, film.dry * given.number("coats"), given)
    yield answered(A_COAT, coat, given)
    yield answered(READY, ready, given)
    thinner = _thinner(given)
    if thinner:
        yield answered(UNTHINNED, ready / (1 + thinner), given)
        yield answered(THINNER, ready * thinner / (1 + thinner), given)


def _steps(
    given: Given,
    panels: Sequence[Panel],
    area: Fraction,
    film: Film,
    really: Fraction,
    coat: Fraction,
    tell: Teller,
    litres: Teller,
) -> Iterator[str]:
    if len(panels) > 1:
        yield f"area: {' + '.join(tell.number(panel.area) for panel in panels)} = {tell(area)}"
    if film.dry is not None and film.wet is not None:
        solids = given.one("solids").to("%")
        thinned = solids / (1 + _thinner(given))
        if _thinner(given):
            yield f"solids once thinned: {float(solids):g} / {float(1 + _thinner(given)):g} = {fixed_number(thinned, 2)} %"
        yield f"a litre covers: 10 \N{MULTIPLICATION SIGN} {fixed_number(thinned, 2)} / {float(film.dry):g} = {fixed_number(film.covers, 2)} m2 with nothing lost"
        yield f"wet film: 100 \N{MULTIPLICATION SIGN} {float(film.dry):g} / {fixed_number(thinned, 2)} = {fixed_number(film.wet, 0)} micron"
    yield f"really covers: {given.one('lands').words} of {fixed_number(film.covers, 2)} = {fixed_number(really, 2)} m2 for a litre"
    yield f"a coat: {tell(area)} at {fixed_number(really, 2)} m2 for a litre, and {given.one('spare').words} more = {litres(coat)}"


def _warnings(film: Film) -> Iterator[str]:
    if film.wet is not None and film.wet > 150:
        yield "More than 150 micron wet in a coat runs on an upright panel: plan more and thinner coats."


def _grid(
    panels: Sequence[Panel],
    really: Fraction,
    spare: Fraction,
    coats: Fraction,
    tell: Teller,
    litres: Teller,
) -> Grid:
    rows = tuple(
        (
            panel.name,
            tell(panel.area),
            litres(panel.area / really * spare),
            litres(panel.area / really * spare * coats),
        )
        for panel in panels
    )
    return Grid("Panel by panel", ("Panel", "Area", "A coat", "All coats"), rows)


PAINT_COVERAGE = Sum(
    name="paint-coverage",
    title="Paint for an area and its coats",
    job=Job.PAINT,
    asks="How much paint do these panels need, and how wet is a coat?",
    inputs=(
        Input(
            "panels", "the panels, measured over their curves", "text", Takes.ROWS, optional=True,
            columns=(
                Input("panel", "what it is", TEXT),
                Input("length", "its length", "length", least="1 mm", most="20 m"),
                Input("width", "its width or height", "length", least="1 mm", most="20 m"),
                Input("number", "how many faces of it are painted, where more than one", "count", optional=True, least="1", most="100"),
            ),
        ),
        Input("area", "area of all panels together, where that is known", "area", symbol="A", optional=True, least="1 cm2", most="200 m2"),
        Input("dry", "dry film of a coat, from the data sheet", "length", symbol="d", optional=True, least="1 micron", most="1 mm"),
        Input("solids", "solids by volume of the paint with its hardener, from the data sheet", "share", symbol="s", optional=True, least="1 %", most="100 %"),
        Input("tin", "area that a litre ready to spray covers in a coat with nothing lost, as told on the tin, instead of film and solids", "area", optional=True, least="0.1 m2", most="200 m2"),
        Input("thinner", "thinner that is added, as a share of the paint", "share", symbol="t", default="0 %", least="0 %", most="200 %"),
        Input("coats", "number of coats", "count", symbol="n", default="2", least="1", most="30"),
        Input("lands", "share that lands on the panel: some 40 % from a high-pressure gun, 65 % from a low-pressure one, 95 % by brush", "share", default="50 %", least="5 %", most="100 %"),
        Input("spare", "share to spare for the cup, the hoses and a second go", "share", default="10 %", least="0 %", most="200 %"),
    ),
    outputs=(AREA, COVERS, REALLY, WET, BUILD, A_COAT, READY, UNTHINNED, THINNER),
    in_words=(
        "A litre of paint that were all solids covers 1000 m2 with a film of one micron. Thinner makes solids less: solids over one and the share of thinner. What "
        "lands is a share of what is sprayed. Area over what a litre really covers, for all coats, with something to spare, is the paint."
    ),
    formula=(
        "c = 10 s / (d (1 + t)), s in %, d in micron, c in m2 for a litre",
        "w = 100 d (1 + t) / s",
        "V = n A / (c \N{MULTIPLICATION SIGN} lands) \N{MULTIPLICATION SIGN} (1 + spare)",
    ),
    limits=(
        "Solids by volume, not by weight; colours differ. Filler and primer that are sanded off need their own sum.",
        "Curved panels are measured over the curve; insides, edges and shuts take as much again on a door or a bonnet.",
        "What lands differs with gun, air and painter: weigh the cup before and after a panel and use your own figure.",
        "Metallic and candy colours are sprayed to look right, not to a film: mix more, from one batch.",
    ),
    caution=(
        "Two-pack paint holds isocyanates: air-fed mask, suit and extraction, or leave it to a painter who has them. Solvent vapour burns and explodes. "
        "Film, coats and waiting times are those of the maker's data sheet."
    ),
    sources=(
        "Theoretical coverage 10 x solids by volume / dry film: promain.co.uk, Theoretical coverage rates; solids once thinned: sorwarchem.blogspot.com, 2022-04.",
        "What lands, 40 % from a conventional gun and 65 % from a low-pressure one: calculatormom.com, automotive paint coverage. From memory by brush.",
    ),
    example=(
        ("panels", "bonnet: 1.25 m, 1.15 m; roof: 1.2 m, 1.0 m; wing: 1.3 m, 0.6 m, 2; door: 1.1 m, 0.75 m, 2; boot lid: 1.1 m, 0.9 m"),
        ("dry", "25 micron"), ("solids", "48 %"), ("thinner", "20 %"), ("coats", "3"), ("lands", "55 %"), ("spare", "15 %"),
    ),
    work=_work,
)  # fmt: skip
