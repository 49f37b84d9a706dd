"""Units that a reading may be written in, by kind of quantity."""

UNITS: dict[str, tuple[str, ...]] = {
    "length": ("mm", "cm", "m", "in", "thou", "ft", "micron", "km", "mile"),
    "pressure": ("psi", "bar", "kPa", "inHg"),
    "torque": ("Nm", "lbf ft", "lbf in"),
    "force": ("N", "lbf", "kgf"),
    "mass": ("g", "kg", "oz", "lb"),
    "volume": ("ml", "cc", "l", "pint", "gallon"),
    "angle": ("deg", "min"),
    "temperature": ("C", "F"),
    "electrical": ("V", "A", "ohm", "kohm", "Mohm", "W"),
    "time": ("s", "minutes", "h"),
    "speed": ("rpm", "mph", "km/h"),
    "share": ("%",),
    "count": ("teeth", "turns", "clicks"),
}

ALL_UNITS: tuple[str, ...] = tuple(unit for units in UNITS.values() for unit in units)
