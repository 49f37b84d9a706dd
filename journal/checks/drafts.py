"""Do lines that were heard in a talk wait for somebody to confirm them?"""

from collections.abc import Iterator

from journal.records.carfile import CarFile
from journal.records.problem import Problem, problem_at
from journal.words.text import counted


def check_drafts(car: CarFile) -> Iterator[Problem]:
    """Sheets with lines of a draft, each told once, at the first of them."""
    for sheet in car.sheets:
        waiting = len(sheet.front.draft)
        if waiting:
            verb = "that was heard is" if waiting == 1 else "that were heard are"
            yield problem_at(
                sheet.source, ("draft", 0), "unconfirmed-draft",
                f"{counted(waiting, 'line')} {verb} not confirmed yet",
                help=f"confirm them one by one with: journal write CONTENT --confirm {sheet.name}",
                note="until then none of them counts, and the sheet is for the workshop alone",
            )  # fmt: skip
