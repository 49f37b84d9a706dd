"""Speed, told as ratios to floors that are measured in the same run: `python -m tests.benchmarks`.

Not part of the tests, but for the workshop that is drawn for them. What is made of pictures meanwhile is
not kept among the things of the person who measures.
"""

import atexit
import os
import shutil
from tempfile import mkdtemp

if "XDG_CACHE_HOME" not in os.environ:
    os.environ["XDG_CACHE_HOME"] = mkdtemp(prefix="journal-benchmarks-")
    atexit.register(shutil.rmtree, os.environ["XDG_CACHE_HOME"], ignore_errors=True)
