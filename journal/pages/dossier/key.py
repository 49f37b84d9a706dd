"""The key to a dossier, printed before its sections: what the codes, the origins and the grades mean."""

from typing import Any

from journal.words.vocabulary import EVIDENCE_MEANING, ORIGIN_MEANING, Evidence, Origin

CODES = (
    ("S", "a day sheet, on which the workshop wrote down what one day did"),
    ("P", "a photograph"),
    ("D", "a paper, such as a factory record, an invoice or a letter"),
)
SHARES = (
    ("material", "how much of what is there is the car’s own, as the works fitted it"),
    ("conforms", "how far what is there is as the works built it, whoever made it"),
)


def key_to() -> dict[str, Any]:
    """Every word that tables use in a sense of their own, with its meaning."""
    return {
        "codes": CODES,
        "shares": SHARES,
        "origins": tuple((o.value, ORIGIN_MEANING[o]) for o in Origin),
        "grades": tuple((g.value, EVIDENCE_MEANING[g]) for g in Evidence),
    }
