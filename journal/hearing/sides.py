"""Words that tell which of several a reading was taken of, and in what state: on the near side, hot."""

WHERE = frozenset({
    "on", "at", "for", "the", "one", "other", "side", "end", "near", "off", "nearside", "offside", "left",
    "right", "hand", "top", "bottom", "first", "second", "next", "last", "same", "number", "cylinder",
    "cold", "hot", "wet", "dry", "this", "that", "front", "middle", "centre", "center", "back", "rear", "in",
    "edge", "edges", "inner", "outer", "upper", "lower", "empty", "full", "both", "ways",
})  # fmt: skip
# What a number is said with that is only one more of the same.
ONLY = frozenset({"only", "just", "about", "nearly", "again", "say"})
JOINS = frozenset({"and", "then", "or", "but", "another", "next", "plus", "also"})
