"""The usual cautions, shown wherever work that can hurt someone is written of.

Sources are those listed under "Cautions shown to users" in the project's reference values. Every
text defers to the maker's manual, local codes and qualified practice: the journal records and
calculates, it certifies nothing.
"""

CAUTIONS: dict[str, str] = {
    # HSE, Health and safety in motor vehicle repair: asbestos in brakes and clutches.
    "asbestos": "Linings and gaskets of this age may hold asbestos: damp down, wipe, bag and label; never blow out or dry-brush.",
    "clutch-dust": "Clutch linings of this age may hold asbestos: damp down, wipe and bag; never blow out.",
    # 49 CFR 571.116 for fluids; common practice for proving.
    "brakes": "Brakes are to be proved and road-tested by a qualified person, to the maker's manual and local rules, before the car is used. "
    "Use fresh sealed fluid of the kind the maker names; silicone and glycol fluids never mix.",
    # Common practice, no source.
    "steering": "Steering work is to be checked by a qualified person to the maker's manual before the car is used: every fastener locked, free from lock to lock.",
    # HSE, Health and safety in motor vehicle repair: working under vehicles.
    "lifting": "Jacks and axle stands together, never a jack alone; brakes on, wheels chocked, before anyone goes under the car.",
    # Common practice, no source.
    "springs": "A loaded road spring stores enough force to kill: use the maker's compressor or method, and keep out of its path.",
    # Common practice, no source.
    "wheels": "Tighten wheels to the maker's figure and check again after the first miles. Tyres age out whatever their tread.",
    # HSE, Safe use of petrol in garages (HSG261).
    "petrol": "Petrol vapour is heavier than air and runs to pits and drains: no draining over a pit, no flame or spark, no heat on a tank until it is proved clean.",
    # Common practice, no source.
    "scald": "Never open a hot cooling system: pressure falls and the coolant boils out at once.",
    # Common practice, no source.
    "battery": "Disconnect the battery before work; a charging battery gives off hydrogen. Every added circuit has its own fuse.",
    # WAC 296-307-49503 and 29 CFR 1910.252(a), hot work.
    "welding": "Hot work: clear or shield what can burn, watch for half an hour after, and never weld near a tank that held fuel.",
    # HSE, Health and safety in motor vehicle repair: isocyanate paints.
    "paint": "Two-pack paint holds isocyanates: air-fed mask only, in a ventilated booth.",
    # HSE, Health and safety in motor vehicle repair: used engine oil.
    "oil": "Used engine oil can cause skin cancer on long contact: gloves, and wash it off.",
}

GENERAL = (
    "This record describes work done; it certifies nothing. Brakes, steering, suspension, wheels, fuel and wiring "
    "are to be checked by a qualified person, to the maker's manual and the rules where the car is used, before it goes on the road."
)
