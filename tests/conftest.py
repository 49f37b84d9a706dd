"""One profile for every property test: the same examples on every machine, no clock."""

import os
from tempfile import gettempdir

from hypothesis import settings

settings.register_profile("journal", derandomize=True, deadline=None, max_examples=120)
settings.load_profile("journal")

# The cache of pictures is one for all processes of a run, and not that of the person who runs it.
RUN = os.environ.get("PYTEST_XDIST_TESTRUNUID", str(os.getpid()))
os.environ["XDG_CACHE_HOME"] = os.path.join(gettempdir(), f"journal-cache-{RUN}")
