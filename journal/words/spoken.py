"""A long hash as words and digits that two people can compare over the telephone.

Sixteen bits make one group: six of them a word, ten of them a number of four digits from 0000 to 1023.
The words are short, plain and unlike each other.
"""

WORDS = (
    "anvil", "apple", "badger", "barrel", "basket", "beacon", "bishop", "bramble",
    "bridge", "bucket", "butter", "candle", "canvas", "castle", "cherry", "chisel",
    "clover", "copper", "cotton", "dagger", "donkey", "dragon", "falcon", "farmer",
    "feather", "fiddle", "forest", "garden", "ginger", "goblet", "hammer", "harbour",
    "hazel", "helmet", "island", "jacket", "kettle", "ladder", "lantern", "lemon",
    "magnet", "marble", "meadow", "mirror", "needle", "orchard", "oyster", "parcel",
    "pepper", "pigeon", "pocket", "quarry", "rabbit", "ribbon", "saddle", "salmon",
    "shovel", "thimble", "timber", "turnip", "velvet", "walnut", "whistle", "window",
)  # fmt: skip


def spoken(digest: bytes) -> tuple[str, ...]:
    """Groups such as `anvil 0412`, one for every two bytes of a digest of even length."""
    pairs = (int.from_bytes(digest[n : n + 2], "big") for n in range(0, len(digest), 2))
    return tuple(f"{WORDS[pair >> 10]} {pair & 0x3FF:04}" for pair in pairs)
