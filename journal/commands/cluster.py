"""Work handed to the workers of a Dask scheduler. All that is asked of Dask is an executor."""

import logging
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import CancelledError, Executor, Future
from contextlib import ExitStack, contextmanager
from functools import partial
from hashlib import sha256
from pathlib import Path
from secrets import token_hex
from typing import Any, TypeVar

from journal.commands.atworker import OtherVersion, at_worker, unseen
from journal.commands.options import Refusal
from journal.outputs.kept.program import version
from journal.pictures.pool import Ended, Pool
from journal.words.wrong import WrongCall

T = TypeVar("T")

# How long a scheduler may take to answer, in seconds.
_PATIENCE = 5


@contextmanager
def cluster(
    address: str, folders: Sequence[Path] = (), files: Sequence[Path] = ()
) -> Iterator[Pool]:
    """A pool whose work is done by the workers of a scheduler. All of them must see these folders, which
    are ours to write into, and these files.

    Ends the command in one sentence when the scheduler does not answer, when it has no workers, and when
    one of them is of another version or lacks a folder or file.
    """
    client = _client(address)
    try:
        _refuse_others(client, address, folders, files)
        executor = Lent(client)

        @contextmanager
        def opened() -> Iterator[Executor]:
            yield executor

        yield opened
    finally:
        client.close()


def _client(address: str) -> Any:
    try:
        from distributed import Client
    except ImportError:
        raise Refusal(
            "--on needs what is not installed; install it with pip install 'restoration-journal[cluster]'"
        ) from None
    # It tells of every broken connection; what matters of that is told in our words.
    logging.getLogger("distributed").setLevel(logging.CRITICAL)
    try:
        return Client(address, timeout=_PATIENCE, set_as_default=False)
    except (OSError, ValueError):
        raise Refusal(
            f"no scheduler answers at {address}; write --on tcp://HOST:PORT as the scheduler tells it"
        ) from None


def _refuse_others(
    client: Any, address: str, folders: Sequence[Path], files: Sequence[Path]
) -> None:
    with ExitStack() as stack:
        marks = [stack.enter_context(_marked(folder)) for folder in folders]
        marks += [(str(file), sha256(file.read_bytes()).hexdigest()) for file in files]
        told = client.run(unseen, marks, on_error="return")
    if not told:
        raise Refusal(f"the scheduler at {address} has no workers")
    for worker, answer in sorted(told.items()):
        if isinstance(answer, Exception) or answer[0] != version():
            raise Refusal(
                f"the worker {worker} has another version of journal, of Python or of a library; install "
                "the same there"
            )
        if answer[1]:
            raise Refusal(
                f"the worker {worker} does not see the folder {Path(answer[1][0]).parent}; put it where "
                "all machines see it, or give content and archive as addresses such as s3://club/content"
            )


@contextmanager
def _marked(folder: Path) -> Iterator[tuple[str, str]]:
    """A file in a folder that nobody can have by chance, and the hash of what it holds."""
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    told = token_hex(16)
    file = folder / f".{told}.seen"
    file.write_text(told, encoding="utf-8")
    try:
        yield str(file), sha256(told.encode()).hexdigest()
    finally:
        file.unlink()


class Lent(Executor):
    """An executor of a cluster that hands out work with the version it is meant for.

    Work over which one worker after the other was ended raises Ended; how many may be, the scheduler
    decides (`allowed-failures`, three unless it is told otherwise).
    """

    def __init__(self, client: Any) -> None:
        # The same work handed out twice is to be done twice.
        self._executor = client.get_executor(pure=False)
        self._version = version()

    def submit(self, fn: Callable[..., T], /, *args: Any, **kwargs: Any) -> Future[T]:
        """Hand out a piece of work."""
        answer: Future[T] = Future()
        answer.set_running_or_notify_cancel()
        done = self._executor.submit(at_worker, self._version, partial(fn, **kwargs), *args)
        done.add_done_callback(partial(_passed_on, answer))
        return answer


def _passed_on(answer: Future[T], done: Future[T]) -> None:
    try:
        fault = done.exception()
    except CancelledError:
        fault = CancelledError()
    if fault is None:
        answer.set_result(done.result())
    else:
        answer.set_exception(_in_our_words(fault))


def _in_our_words(fault: BaseException) -> BaseException:
    from distributed import KilledWorker

    if isinstance(fault, KilledWorker):
        return Ended()
    if isinstance(fault, CancelledError):
        return WrongCall(
            "the scheduler was lost on the way; the archive is as it was, publish again"
        )
    if isinstance(fault, OtherVersion):
        return WrongCall(
            "a worker came that has another version of journal, of Python or of a library; install the "
            "same there"
        )
    return fault
