"""Spoken words as the text of a sheet: nothing in them becomes Markdown, nor a block for one reader."""

import re

# Marks that mean something wherever they stand; an ampersand only before the name of a character.
_ANYWHERE = re.compile(r"[\\`*_\[\]<]|&(?=#?\w+;)|:(?=:)|(?<=:):")
# What begins a list, a heading, a quotation, a fence or a block at the start of a line.
_AT_START = re.compile(r"[#>+\-~=:|]")
_NUMBERED = re.compile(r"([0-9]{1,9})([.)])(?=\s|$)")


def escaped(line: str) -> str:
    """One line of text, so written that Markdown shows every character of it and nothing else."""
    safe = _ANYWHERE.sub(lambda found: f"\\{found[0]}", " ".join(line.split()))
    if _AT_START.match(safe):
        return f"\\{safe}"
    return _NUMBERED.sub(r"\1\\\2", safe, count=1) if _NUMBERED.match(safe) else safe
