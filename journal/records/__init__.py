"""Frozen records of everything that is written, each with the place it was written at."""

import os

# What is read depends on this program alone, and not on what else is installed beside it that would have a
# say in every record; to look for it takes longer than to read a sheet.
os.environ["PYDANTIC_DISABLE_PLUGINS"] = "__all__"
