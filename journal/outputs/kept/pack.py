"""Records as bytes and back, for what is kept.

The bytes are pickled, which could run anything when somebody else has written them. They are read only
behind the sum and the owner that `store` asks for; whoever can write there owns the account already. And
no more than records, page values and the plain types they are made of is ever made of them.
"""

import io
import pickle
from typing import Any

from markupsafe import Markup
from msgspec.msgpack import Encoder, Ext

_PLAIN = {
    "builtins": frozenset({"set", "frozenset"}),
    "datetime": frozenset({"date", "time", "datetime", "timedelta"}),
    "decimal": frozenset({"Decimal"}),
    "fractions": frozenset({"Fraction"}),
    "markupsafe": frozenset({"Markup"}),
}
_OURS = (
    "journal.words.",
    "journal.records.",
    "journal.reading.",
    "journal.pages.",
    "journal.pictures.",
    "journal.outputs.kept.",
)


class _Reader(pickle.Unpickler):
    def find_class(self, module: str, name: str) -> Any:
        """A type of ours or a plain one; anything else is not what we wrote."""
        if name in _PLAIN.get(module, ()) or (module.startswith(_OURS) and "." not in name):
            found = super().find_class(module, name)
            if isinstance(found, type):
                return found
        raise pickle.UnpicklingError(f"{module}.{name} is not kept")


def packed(value: object) -> bytes:
    """A value as bytes."""
    return pickle.dumps(value, 5)


def unpacked(data: bytes | None) -> Any:
    """The value again; None when there is none."""
    if data is None:
        return None
    # The sum over the bytes was right: what cannot be read is a type that should be listed above.
    return _Reader(io.BytesIO(data)).load()


def printed(value: object) -> bytes:
    """What a page shows as bytes: the same for equal values, others where a page could differ.

    A value is made of records of the class `Value`, mappings with their order, tuples (a list is told
    like one: templates only go through them), text, text that is marked up, whole numbers, truth
    and None. Of other types msgspec writes dates, decimals, words of a vocabulary and sets as if they were
    texts and tuples, so that none may stand in a value (`tests/pages/test_values.py`); for what it does
    not know it raises TypeError.
    """
    return _ENCODER.encode(value)


def _marked(value: object) -> Ext:
    """Text that is marked up stands in a page as it is, other text is escaped."""
    if type(value) is Markup:
        return Ext(_MARKED, value.encode("utf-8"))
    raise TypeError(f"{type(value).__name__} is nothing that a page shows")


_MARKED = 1
_ENCODER = Encoder(enc_hook=_marked)
