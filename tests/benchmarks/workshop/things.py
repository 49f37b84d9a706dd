"""The components of a car: what each is, what usually befalls it, and what is measured on it."""

from typing import NamedTuple

from journal.words.vocabulary import SUBSYSTEMS


class Gauge(NamedTuple):
    """A dimension that is read on a component: between `least` and `most` all is well."""

    what: str
    least: float
    most: float
    unit: str


class Thing(NamedTuple):
    """A component: its full name, what it is called, the way in which it is put right, and `gauge`.

    The ways are those of `lives.WAYS`.
    """

    key: str
    label: str
    way: str
    gauge: Gauge | None

    @property
    def subsystem(self) -> str:
        """The branch of the car that it belongs to."""
        return self.key.partition("/")[0]

    @property
    def slug(self) -> str:
        """Its name within the branch."""
        return self.key.partition("/")[2]

    @property
    def safety(self) -> bool:
        """Whether its failure can hurt someone."""
        return SUBSYSTEMS[self.subsystem].safety


_PLAY = Gauge("play", 0.02, 0.12, "mm")
_FLOAT = Gauge("end float", 0.05, 0.15, "mm")
_RUNOUT = Gauge("run-out", 0.00, 0.10, "mm")
_FLAT = Gauge("flatness", 0.00, 0.08, "mm")
_GAP = Gauge("gap", 3.0, 5.0, "mm")
_COAT = Gauge("coating", 0.10, 0.18, "mm")
_OHMS = Gauge("resistance", 0.5, 3.5, "ohm")
_VOLTS = Gauge("voltage", 12.2, 14.6, "V")
_LINING = Gauge("lining thickness", 4.2, 5.2, "mm")
_TORQUE = Gauge("tightening", 40.0, 52.0, "lbf ft")
_PRESSURE = Gauge("pressure", 1.6, 2.4, "bar")

# By subsystem: name, label, way, gauge.
_TABLE: dict[str, tuple[tuple[str, str, str, Gauge | None], ...]] = {
    "chassis": (
        ("main-rails", "main side rails", "welded", None),
        ("crossmembers", "crossmembers", "welded", _FLAT),
        ("outriggers", "outriggers", "welded", None),
        ("body-mounts", "body mounts", "renewed", None),
        ("fasteners", "chassis fasteners", "plated", _TORQUE),
    ),
    "engine": (
        ("block", "cylinder block", "machined", _PLAY),
        ("crankshaft", "crankshaft", "machined", _FLOAT),
        ("bearings", "main and big-end bearings", "renewed", _PLAY),
        ("pistons", "pistons and rings", "renewed", _PLAY),
        ("camshaft", "camshaft and followers", "machined", _FLOAT),
        ("cylinder-head", "cylinder head", "machined", _FLAT),
        ("valves", "valves and springs", "renewed", None),
        ("rocker-gear", "rocker gear", "rebuilt", _PLAY),
        ("oil-pump", "oil pump", "rebuilt", _PLAY),
        ("sump", "sump", "refinished", None),
        ("mounts", "engine mounts", "renewed", None),
        ("number-boss", "engine number boss", "conserved", None),
    ),
    "gearbox": (
        ("casing", "gearbox casing", "cleaned", None),
        ("laygear", "laygear", "renewed", _FLOAT),
        ("mainshaft", "mainshaft", "machined", _FLOAT),
        ("synchromesh", "synchromesh rings", "renewed", None),
        ("selectors", "selectors", "adjusted", _PLAY),
        ("clutch", "clutch", "renewed", _RUNOUT),
        ("propeller-shaft", "propeller shaft", "rebuilt", _RUNOUT),
    ),
    "rear-axle": (
        ("casing", "axle casing", "refinished", None),
        ("crownwheel-and-pinion", "crownwheel and pinion", "adjusted", _PLAY),
        ("half-shafts", "half-shafts", "cleaned", _RUNOUT),
        ("hub-bearings", "rear hub bearings", "renewed", _FLOAT),
    ),
    "front-suspension": (
        ("wishbones", "wishbones", "refinished", None),
        ("springs", "front springs", "refinished", None),
        ("kingpins", "kingpins", "renewed", _PLAY),
        ("hubs", "front hubs", "adjusted", _FLOAT),
        ("dampers", "front dampers", "rebuilt", None),
        ("bushes", "front bushes", "perished", None),
    ),
    "rear-suspension": (
        ("springs", "rear springs", "sent", None),
        ("shackles", "spring shackles", "renewed", _PLAY),
        ("dampers", "rear dampers", "rebuilt", None),
    ),
    "steering": (
        ("box", "steering box", "adjusted", _PLAY),
        ("column", "steering column", "cleaned", None),
        ("wheel", "steering wheel", "refinished", None),
        ("track-rods", "track rods", "renewed", _PLAY),
        ("idler", "idler", "rebuilt", _PLAY),
    ),
    "brakes": (
        ("master-cylinder", "master cylinder", "sent", None),
        ("front-brakes", "front brakes", "relined", _LINING),
        ("rear-brakes", "rear brakes", "relined", _LINING),
        ("drums", "brake drums", "machined", _RUNOUT),
        ("wheel-cylinders", "wheel cylinders", "renewed", None),
        ("pipes", "brake pipes", "upgraded", None),
        ("hoses", "brake hoses", "perished", None),
        ("handbrake", "handbrake", "adjusted", None),
    ),
    "wheels-and-tyres": (
        ("road-wheels", "road wheels", "sent", _RUNOUT),
        ("tyres", "tyres", "perished", _PRESSURE),
        ("spinners", "spinners", "plated", None),
    ),
    "fuel": (
        ("tank", "fuel tank", "cleaned", None),
        ("pump", "fuel pump", "rebuilt", _PRESSURE),
        ("carburettors", "carburettors", "rebuilt", _PLAY),
        ("pipes", "fuel pipes", "renewed", None),
        ("throttle-linkage", "throttle linkage", "adjusted", _PLAY),
    ),
    "cooling": (
        ("radiator", "radiator", "recored", None),
        ("water-pump", "water pump", "rebuilt", _FLOAT),
        ("hoses", "water hoses", "perished", None),
        ("heater", "heater", "cleaned", None),
    ),
    "exhaust": (
        ("manifold", "exhaust manifold", "machined", _FLAT),
        ("silencer", "silencer", "renewed", None),
    ),
    "electrical": (
        ("main-loom", "main loom", "renewed", _OHMS),
        ("dynamo", "dynamo", "upgraded", _VOLTS),
        ("starter", "starter", "rebuilt", None),
        ("distributor", "distributor", "rebuilt", _PLAY),
        ("headlamps", "headlamps", "plated", None),
        ("wiper-motor", "wiper motor", "rebuilt", _OHMS),
        ("switches", "switches", "cleaned", _OHMS),
    ),
    "instruments": (
        ("speedometer", "speedometer", "sent", None),
        ("oil-gauge", "oil gauge", "sent", None),
        ("fascia", "fascia panel", "conserved", None),
    ),
    "body": (
        ("sills", "sills", "welded", _GAP),
        ("floors", "floors", "welded", None),
        ("doors", "doors", "repaired", _GAP),
        ("front-wings", "front wings", "welded", _GAP),
        ("bonnet", "bonnet", "refinished", _GAP),
        ("boot-lid", "boot lid", "repaired", _GAP),
    ),
    "paint": (
        ("primer", "primer coats", "painted", _COAT),
        ("outer-finish", "outer finish", "painted", _COAT),
    ),
    "brightwork": (
        ("bumpers", "bumpers", "plated", None),
        ("grille", "grille", "plated", None),
        ("handles", "door handles", "plated", None),
    ),
    "glass": (
        ("windscreen", "windscreen", "renewed", None),
        ("door-glasses", "door glasses", "cleaned", None),
    ),
    "trim": (
        ("seats", "seats", "retrimmed", None),
        ("carpets", "carpets", "renewed", None),
        ("door-cards", "door cards", "retrimmed", None),
    ),
    "hood": (
        ("frame", "hood frame", "refinished", None),
        ("covering", "hood covering", "retrimmed", None),
    ),
}

THINGS: tuple[Thing, ...] = tuple(
    Thing(f"{subsystem}/{slug}", label, way, gauge)
    for subsystem, lines in _TABLE.items()
    for slug, label, way, gauge in lines
)
