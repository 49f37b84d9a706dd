"""How pictures are made by this program, without what makes them, which takes long to load."""

from journal.outputs.kept.store import Store

_NAME = "pictures/recipe"


def kept_recipe(store: Store) -> str:
    """The recipe of `pictures.derive`. The version of the program, under which it is kept, tells the
    libraries that make pictures."""
    kept = store.get(_NAME)
    if kept is not None:
        return kept.decode()
    from journal.pictures.derive import recipe

    found = recipe()
    store.put(_NAME, found.encode())
    return found
