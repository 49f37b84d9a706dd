"""`journal publish --on`: the work of an archive, done by workers that are other processes and may die."""

import importlib.util
import os
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from concurrent.futures import Executor, Future, ThreadPoolExecutor, as_completed
from contextlib import nullcontext
from pathlib import Path
from typing import TypeVar
from unittest.mock import patch

import pytest
from msgspec.structs import replace

from journal.commands import cluster as lending
from journal.commands.atworker import OtherVersion, at_worker
from journal.commands.options import Refusal
from journal.outputs.kept.program import version
from journal.outputs.pictures import Means
from journal.pictures.pool import Ended, worked
from journal.words.wrong import WrongCall
from tests.clustering import Running, deadly, running, slow, wait_for
from tests.commands.running import files, run
from tests.editing import put_small
from tests.publishing import a_publishing, published_again

T = TypeVar("T")

# What a connection that breaks leaves behind in the library is not ours.
pytestmark = pytest.mark.filterwarnings("default::ResourceWarning", "default::DeprecationWarning")


@pytest.fixture(scope="module")
def two(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    with running(tmp_path_factory.mktemp("cluster"), 2) as there:
        yield there


def _publish(tmp_path: Path, name: str, *more: str) -> dict[str, bytes]:
    target, cache = tmp_path / name, tmp_path / f"{name}-cache"
    words = ("--for", "workshop", "--to", target, "--cache", cache, *more)
    done = run("publish", tmp_path / "content", *words)
    # Three sheets of each car name a photograph that is not there.
    assert 1 == done.exit_code, done.output
    return files(target)


def test_archive__by_two_workers_has_the_bytes_of_one_made_here(
    two: Running, tmp_path: Path
) -> None:
    put_small(tmp_path / "content")
    with patch.object(lending, "Lent", wraps=lending.Lent) as lent:
        there = _publish(tmp_path, "there", "--on", two.address)
    assert 1 == lent.call_count
    assert _publish(tmp_path, "here") == there
    assert [] == [name for name in files(tmp_path / "there-cache") if name.endswith(".seen")]


def test_worker__that_does_not_see_a_folder_is_refused_in_a_sentence(
    two: Running, tmp_path: Path
) -> None:
    """Files are looked at by their content: one that changes meanwhile is as one that is not there."""
    with (
        patch.object(lending, "sha256", lambda _: _Hash()),
        pytest.raises(Refusal) as refused,
        lending.cluster(two.address, (tmp_path / "cache",)),
    ):
        pass
    worker = str(refused.value.message).split()[2]
    assert (
        f"the worker {worker} does not see the folder {tmp_path / 'cache'}; put it where all machines see "
        "it, or give content and archive as addresses such as s3://club/content"
        == refused.value.message
    )


class _Hash:
    def hexdigest(self) -> str:
        return "of something else"


def test_worker__of_another_version_is_refused_in_a_sentence(two: Running) -> None:
    with (
        patch.object(lending, "version", lambda: "another"),
        pytest.raises(Refusal) as refused,
        lending.cluster(two.address),
    ):
        pass
    worker = str(refused.value.message).split()[2]
    assert (
        f"the worker {worker} has another version of journal, of Python or of a library; install the same "
        "there" == refused.value.message
    )


def test_worker__of_another_version_that_comes_later_does_nothing() -> None:
    with pytest.raises(OtherVersion):
        at_worker("another", os.kill, os.getpid(), signal.SIGKILL)
    assert 3 == at_worker(version(), max, 2, 3)


def test_archive__from_and_to_an_address_is_made_by_workers_that_fetch_and_put(
    two: Running, tmp_path: Path
) -> None:
    root = put_small(tmp_path / "content")
    cache = ("--for", "workshop", "--cache", tmp_path / "cache")
    words = ("publish", root.as_uri(), *cache, "--to", (tmp_path / "there").as_uri())
    done = run(*words, "--on", two.address)
    assert (1, "81 pages") == (done.exit_code, done.output.splitlines()[-1][:8])
    assert _publish(tmp_path, "here") == _without_lists(files(tmp_path / "there"))


def _without_lists(there: dict[str, bytes]) -> dict[str, bytes]:
    return {path: data for path, data in there.items() if not path.startswith(".journal-lies/")}


def test_work__of_a_worker_that_is_killed_is_done_by_the_others(tmp_path: Path) -> None:
    (tmp_path / "done").mkdir()
    root, there = put_small(tmp_path / "content"), (tmp_path / "there").as_uri()
    with running(tmp_path, 3) as now:
        with lending.cluster(now.address) as opened, opened() as pool:
            work = [pool.submit(slow, str(tmp_path / "done"), number) for number in range(12)]
            victim = now.workers[0]
            wait_for(lambda: any((tmp_path / "done").glob(f"*.{victim.pid}")))
            victim.kill()
            assert set(range(12)) == {done.result(60) for done in as_completed(work, 60)}
        # A whole archive, while one of the two that are left is killed in the midst of a car.
        words = ("--for", "workshop", "--to", there, "--cache", tmp_path / "cache")
        with ThreadPoolExecutor(1) as thread:
            publishing = thread.submit(run, "publish", root.as_uri(), *words, "--on", now.address)
            begun = tmp_path / "cache" / "afar"
            wait_for(lambda: publishing.done() or len([*begun.glob("*/content/*/car.yaml")]) == 2)
            now.workers[1].kill()
            assert 1 == publishing.result(90).exit_code
    assert _publish(tmp_path, "here") == _without_lists(files(tmp_path / "there"))


def test_work__that_kills_whoever_does_it_is_told_from_the_rest(tmp_path: Path) -> None:
    """With a scheduler that allows no failures; the work beside it, that it took down, is done alone."""
    with (
        running(tmp_path, 3, allowed_failures=0) as there,
        lending.cluster(there.address) as opened,
    ):
        work: dict[str, Callable[[], object]] = {"bad": deadly, "good": _seven}
        answers = dict(worked(opened, lambda *_: None, "making", work, of=2))
    assert {"bad": None, "good": 7} == answers


def _seven() -> int:
    return 7


class _Ending(Executor):
    """Workers that are ended by one car."""

    def submit(self, fn: Callable[..., T], /, *args: object, **kwargs: object) -> Future[T]:
        future: Future[T] = Future()
        (task,) = args
        if task.name == "tern":  # type: ignore[attr-defined]
            future.set_exception(Ended())
        else:
            future.set_result(fn(*args, **kwargs))
        return future


def test_car__that_ends_every_worker_is_named_and_the_archive_stays(tmp_path: Path) -> None:
    publishing = a_publishing(tmp_path, put_small(tmp_path / "content"))
    published_again(publishing)
    before = files(tmp_path / "archive")
    car = tmp_path / "content" / "tern" / "car.yaml"
    car.write_text(car.read_text().replace("1958", "1959"), encoding="utf-8")
    # Pictures lie in the cache already.
    by_them = patch.object(publishing, "means", _by(publishing.means, _Ending()))
    with by_them, pytest.raises(WrongCall) as told:
        published_again(publishing)
    assert (
        "every worker that took up tern was ended over it, so the archive is as it was; give the workers "
        "more memory, or look at what is large in that car" == str(told.value)
    )
    assert before == files(tmp_path / "archive")


def _by(means: Means, executor: Executor) -> Means:
    return replace(means, pool=lambda: nullcontext(executor))


def test_scheduler__that_does_not_answer_is_told_in_a_sentence(tmp_path: Path) -> None:
    put_small(tmp_path / "content")
    with patch.object(lending, "_PATIENCE", 0.3):
        words = ("--for", "workshop", "--to", tmp_path / "archive", "--cache", tmp_path / "cache")
        done = run("publish", tmp_path / "content", *words, "--on", "tcp://127.0.0.1:1")
    assert 2 == done.exit_code
    assert (
        "Error: no scheduler answers at tcp://127.0.0.1:1; write --on tcp://HOST:PORT as the scheduler "
        "tells it\n" == done.output
    )
    assert not (tmp_path / "archive").exists()


def test_on__without_the_extra_says_how_to_install_it(tmp_path: Path) -> None:
    put_small(tmp_path / "content")
    with patch.dict("sys.modules", {"distributed": None}):
        words = ("--for", "workshop", "--to", tmp_path / "archive", "--cache", tmp_path / "cache")
        done = run("publish", tmp_path / "content", *words, "--on", "tcp://127.0.0.1:1")
    assert 2 == done.exit_code
    assert (
        "Error: --on needs what is not installed; install it with pip install "
        "'restoration-journal[cluster]'\n" == done.output
    )


def test_publish__without_on_loads_nothing_of_a_cluster(tmp_path: Path) -> None:
    put_small(tmp_path / "content")
    code = (
        "import sys\nfrom journal.commands import main\n"
        "try: main(sys.argv[1:])\nexcept SystemExit: pass\n"
        "print(sorted({'dask', 'distributed', 'fsspec'} & {*sys.modules}))"
    )
    words = ["--for", "workshop", "--to", str(tmp_path / "a"), "--cache", str(tmp_path / "c")]
    command = [sys.executable, "-c", code, "publish", str(tmp_path / "content"), *words]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert "[]" == done.stdout.splitlines()[-1]
    assert importlib.util.find_spec("distributed") is not None
