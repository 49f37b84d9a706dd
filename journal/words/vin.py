"""The vehicle identification number of 17 characters: characters, weights and check digit.

49 CFR 565.15 gives each character but the ninth a value and each place a weight; the remainder of
their sum by 11 is the check digit in the ninth place, with X for ten. ISO 3779 leaves out I, O and
Q. What is built for other markets may have any character in the ninth place.
"""

from journal.words.text import normal

LENGTH = 17
FIRST_YEAR = 1981

WEIGHTS: tuple[int, ...] = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)
_LETTERS = "ABCDEFGHJKLMNPRSTUVWXYZ"
_OF_LETTERS = (1, 2, 3, 4, 5, 6, 7, 8, 1, 2, 3, 4, 5, 7, 9, 2, 3, 4, 5, 6, 7, 8, 9)
VALUES: dict[str, int] = {
    **{str(digit): digit for digit in range(10)},
    **dict(zip(_LETTERS, _OF_LETTERS, strict=True)),
}


def vin_characters(text: str) -> str:
    """A number as it is compared: capitals without blanks, hyphens, stops and strokes."""
    return "".join(c for c in normal(text).upper() if c not in " -./*")


def vin_sum(text: str) -> int:
    """The sum of values by weights. Raises ValueError for what is not 17 of the characters used."""
    characters = vin_characters(text)
    if len(characters) != LENGTH or any(c not in VALUES for c in characters):
        raise ValueError("not 17 characters of those in use")
    return sum(VALUES[c] * weight for c, weight in zip(characters, WEIGHTS, strict=True))


def check_digit(text: str) -> str:
    """The check digit that the other 16 characters ask for. Raises ValueError like `vin_sum`."""
    return "0123456789X"[vin_sum(text) % 11]


def vin_remark(text: str) -> str:
    """What the rules say of a number, in a sentence without its full stop; never a rejection."""
    characters = vin_characters(text)
    if len(characters) != LENGTH:
        return f"has {len(characters)} characters where 49 CFR 565 and ISO 3779 have {LENGTH}"
    wrong = dict.fromkeys(c for c in characters if c not in VALUES)
    if wrong:
        return f"holds {', '.join(wrong)}, which ISO 3779 does not use"
    wanted = check_digit(characters)
    if wanted == characters[8]:
        return f"its ninth character, {wanted}, is the check digit of 49 CFR 565.15"
    return (
        f"its ninth character is {characters[8]} where 49 CFR 565.15 asks for {wanted}; "
        "outside North America it need not be a check digit"
    )
