"""One profile for every property test: the same examples on every machine, no clock."""

from hypothesis import settings

settings.register_profile("journal", derandomize=True, deadline=None, max_examples=120)
settings.load_profile("journal")
