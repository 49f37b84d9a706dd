"""How pictures are made by this program, without what makes them, which takes long to load."""

from journal.outputs.kept.program import carried
from journal.outputs.kept.store import Store

# Below this name in a store it is kept what is known of pictures.
FOLDER = "pictures"
_NAME = f"{FOLDER}/recipe"


def kept_recipe(store: Store) -> str:
    """The recipe of `pictures.derive`. The version of the program, under which it is kept, tells the
    encoders where they came along with Pillow; others are asked each time."""
    kept = store.get(_NAME) if carried() else None
    if kept is not None:
        return kept.decode()
    from journal.pictures.derive import recipe

    found = recipe()
    store.put(_NAME, found.encode())
    return found
