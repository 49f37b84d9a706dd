"""Every pair of theme colours that meets on a page can be read.

Source: WCAG 2.2, definitions of relative luminance and contrast ratio; 1.4.3 (AA, text 4.5) and
1.4.11 (non-text 3).
"""

import re
from pathlib import Path

import pytest

STYLE = (Path(__file__).parents[2] / "themes" / "coachline" / "style.css").read_text(
    encoding="utf-8"
)


def luminance(colour: str) -> float:
    """Relative luminance of `#rrggbb`."""
    channels = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, from 1 to 21."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize(
    ("colour", "ratio"),
    [
        # Reference values, section 18: on white, recomputed from the WCAG formula.
        ("#000000", 21), ("#767676", 4.542225), ("#777777", 4.478090), ("#757575", 4.607518),
        ("#949494", 3.033470), ("#959595", 2.995346), ("#595959", 7.004729), ("#5a5a5a", 6.896926),
        ("#0000ff", 8.592471), ("#ff0000", 3.998477),
    ],
)  # fmt: skip
def test_formula__gives_the_published_ratios(colour: str, ratio: float) -> None:
    assert ratio == pytest.approx(contrast(colour, "#ffffff"), abs=1e-6)


def _schemes() -> dict[str, dict[str, str]]:
    """Theme colours by scheme: those of `:root`, and those with the dark ones over them."""
    blocks = re.findall(r":root\s*\{([^}]*)\}", STYLE)
    colours = [dict(re.findall(r"--([\w-]+):\s*(#[0-9a-f]{6})", block)) for block in blocks]
    light, dark = colours[0], colours[1]
    return {"light": light, "dark": {**light, **dark}}


def _pairs() -> list[tuple[float, str, str]]:
    """What the theme says of itself: `pairs 4.5: ink on paper, ...`."""
    found = []
    for least, names in re.findall(r"^pairs ([\d.]+): ([^\n]+)$", STYLE, re.M):
        for pair in names.rstrip(",").split(", "):
            text, ground = pair.split(" on ")
            found.append((float(least), text, ground))
    return found


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("pair", _pairs(), ids=lambda p: f"{p[1]} on {p[2]}")
def test_pair__can_be_read(scheme: str, pair: tuple[float, str, str]) -> None:
    least, text, ground = pair
    colours = _schemes()[scheme]
    assert contrast(colours[text], colours[ground]) >= least


def test_every_colour__stands_in_a_pair() -> None:
    """A colour that is neither ground nor hairline is promised to be readable somewhere."""
    named = {name for _, text, ground in _pairs() for name in (text, ground)}
    # `rule` is the ornament between things, which nobody needs to see; open and absent origins are
    # drawn by their outline in `soft` or `line`.
    unseen = {"rule", "absent", "unknown"}
    assert set() == set(_schemes()["light"]) - named - unseen
