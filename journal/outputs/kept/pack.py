"""Records as bytes and back, for what is kept.

The bytes are pickled, which could run anything when somebody else has written them. They are read only
behind the sum and the owner that `store` asks for; whoever can write there owns the account already. And
no more than records, page values and the plain types they are made of is ever made of them.
"""

import io
import pickle
from typing import Any

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
    """A value as bytes that are the same for equal values, whatever objects they are made of."""
    out = io.BytesIO()
    pickler = pickle.Pickler(out, 5)
    # Without this an object that stands in a value twice is written in another way than two equal ones.
    pickler.fast = True
    pickler.dump(value)
    return out.getvalue()
