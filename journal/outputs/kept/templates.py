"""Templates as they were compiled, kept for the next process: compiling one takes longer than most pages.

What is kept is code, as in the files that Python itself keeps of a program it has compiled, and is read under
the same conditions: whoever can write there owns the account. The store asks for the owner, for the
version of the program and for a sum over the bytes; Jinja for the text that was compiled.
"""

from jinja2 import BytecodeCache, Environment
from jinja2.bccache import Bucket

from journal.outputs.kept.store import Store
from journal.outputs.theme import COMPILED, environment, theme_folder


def kept_environment(store: Store) -> Environment:
    """The templates of archives."""
    return environment(theme_folder(), compiled=_Kept(store))


class _Kept(BytecodeCache):
    def __init__(self, store: Store) -> None:
        self._store = store

    def load_bytecode(self, bucket: Bucket) -> None:
        """Hand over what this process has compiled, or one before it."""
        COMPILED.load_bytecode(bucket)
        data = self._store.get(_name(bucket)) if bucket.code is None else None
        if data is not None:
            bucket.bytecode_from_string(data)

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep what has been compiled."""
        COMPILED.dump_bytecode(bucket)
        self._store.put(_name(bucket), bucket.bytecode_to_string())


def _name(bucket: Bucket) -> str:
    return f"templates/{bucket.key}"
