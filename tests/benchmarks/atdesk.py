"""From a sheet that is saved to the page that tells it, at a desk that runs; without a browser."""

import time
from contextlib import closing
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from urllib.request import urlopen

from tests.benchmarks.publishing import last_sheet
from tests.desk.running import a_desk

TIMES = 7
# Between two savings the desk is left to itself, so that it has asked its checks about the one before.
_PAUSE = 4.0


def edited(root: str, cache: str) -> float:
    """Seconds from the saving of the last sheet to its page with the new sentence, the median of several."""
    sheet = last_sheet(Path(root))
    before = sheet.read_text(encoding="utf-8")
    took = []
    with TemporaryDirectory() as keep, a_desk(Path(root), Path(keep), "--cache", cache) as desk:
        page = f"{desk.address}{sheet.parents[2].name}/sheets/{sheet.stem}.html"
        _answer(page)
        with closing(urlopen(f"{desk.address}_/live", timeout=600)) as live:
            for number in range(TIMES):
                time.sleep(_PAUSE)
                words = f"Told anew, for the time number {number}."
                start = time.perf_counter()
                sheet.write_text(f"{before}\n{words}\n", encoding="utf-8")
                while words not in _answer(page):
                    live.readline()
                took.append(time.perf_counter() - start)
    sheet.write_text(before, encoding="utf-8")
    return median(took)


def _answer(page: str) -> str:
    with urlopen(page, timeout=600) as answer:
        return str(answer.read().decode())
