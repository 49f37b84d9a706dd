"""Centring: half the difference of the gaps, which way, and what shims cannot do."""

from tests.bench.worked_examples import Example

EXAMPLES = (
    Example(
        # 70 and 50 thou: half of the 20 between them.
        "Common practice, no source: half the difference of the two gaps is the shim.",
        {"one": "70 thou", "other": "50 thou", "tolerance": "5 thou"},
        {"offset": "10 thou", "shim": "10 thou", "gap": "60 thou", "scatter": "0 thou"},
    ),
    Example(
        # A gauge swept round a rim: the middle lies half of the full swing away, from memory.
        "From memory, rim-and-face alignment of shafts: the offset is half the full indicator reading.",
        {"one": "0.020 in", "other": "0 in", "tolerance": "0.002 in"},
        {"offset": "0.010 in"},
    ),
)
