"""`journal publish` from one address to another, car by car, here or by the workers of a scheduler."""

import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from functools import partial
from pathlib import Path
from secrets import token_hex

import click
from msgspec.structs import replace

from journal.commands.caches import pictures_in, publishing_in
from journal.commands.options import refusing
from journal.commands.pictures import means_for
from journal.outputs.afar.errands import Answer, Errand, run_errand
from journal.outputs.afar.publishing import Afar, Outcome, Run, publish_afar
from journal.outputs.afar.underway import Waiting
from journal.outputs.kept.program import version
from journal.outputs.kept.store import Store
from journal.outputs.pictures import Means
from journal.outputs.problems import problems_text
from journal.pictures.pool import Here, Pool
from journal.records.problem import Severity
from journal.words.text import counted, listed
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall


def published_afar(
    content: str, target: str, reader: Reader, car: str | None, as_of: date | None,
    cache: Path | None, on: str | None, *, full: bool,
) -> int:  # fmt: skip
    """Bring an archive up to date that lies elsewhere, and tell of it; the exit code."""
    store = Store(publishing_in(cache).resolve(), version())
    asked = Afar(
        _address(content), _address(target), reader, car, as_of, time.time_ns(), _copies(cache),
        token_hex(16),
    )  # fmt: skip
    waiting = Waiting(partial(click.echo, err=True), time.sleep)
    if full:
        store.clear(asked.name)
    try:
        with _by(on, cache) as (opened, run), opened() as pool:
            outcome = publish_afar(asked, store, pool, run, waiting)
    except WrongCall as fault:
        raise refusing(fault) from None
    if store.words():
        click.echo(store.words(), err=True)
    return _told(outcome, reader, target)


def errand_at_worker(cache: str | None, errand: Errand) -> Answer:
    """An errand with the caches of the person who runs the worker."""
    kept = Path(cache) if cache else None
    return _run(kept, Means(pictures_in(kept)), errand)


def _run(cache: Path | None, means: Means, errand: Errand) -> Answer:
    means = replace(means, cache=means.cache.resolve())
    return run_errand(errand, _copies(cache), publishing_in(cache).resolve(), means)


def _copies(cache: Path | None) -> Path:
    """Where copies of what lies elsewhere are kept; the folder may be deleted at any time."""
    return (publishing_in(cache).parent / "afar").resolve()


@contextmanager
def _by(on: str | None, cache: Path | None) -> Iterator[tuple[Pool, Run]]:
    """Who does it: this process, one car after the other with its pictures on all cores, or workers."""
    if on is None:
        with means_for(cache) as means:
            yield Here, partial(_run, cache, means)
        return
    from journal.commands.cluster import cluster

    with cluster(on) as opened:
        yield opened, partial(errand_at_worker, str(cache) if cache else None)


def _address(place: str) -> str:
    return place if "://" in place else Path(place).resolve().as_uri().replace("%20", " ")


def _told(outcome: Outcome, reader: Reader, target: str) -> int:
    if outcome.leaks:
        click.echo(problems_text(tuple(outcome.leaks)), err=True)
        click.echo("What would show that is withheld; it is as it was.", err=True)
    if outcome.ended:
        click.echo(
            f"Every worker that took up {listed(outcome.ended)} was ended over it; what is published of it "
            "is as it was. Give the workers more memory, or look at what is large there.",
            err=True,
        )  # fmt: skip
    if outcome.all:
        click.echo(problems_text(outcome.all), err=True)
    pages = counted(sum(outcome.pages.values()), "page")
    click.echo(f"{pages} for the {reader.value} at {target}; {counted(outcome.sent, 'file')} sent.")
    errors = any(problem.severity is Severity.ERROR for problem in outcome.all)
    return 1 if errors or outcome.leaks or outcome.ended else 0
