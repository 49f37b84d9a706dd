"""Work on several cars by whoever is there for it, and again on what a process was ended over."""

from collections.abc import Iterator
from concurrent.futures import Executor, Future, as_completed
from functools import partial

from msgspec.structs import replace

from journal.outputs.kept.tree import Tree
from journal.outputs.onecar import Made, Task, Wanting, work_on
from journal.pictures.pool import Ended, Here
from journal.words.wrong import WrongCall


def worked_on(pool: Executor, tasks: list[Task]) -> Iterator[tuple[str, Made | Wanting]]:
    """What comes of every task by the name of its car, in the order in which they are done.

    Raises WrongCall when every process that took up one of them was ended over it.
    """
    if not isinstance(pool, Here):
        tasks = [_knowing(task) for task in tasks]
    futures: dict[Future[Made | Wanting], str] = {
        pool.submit(work_on, task): task.name for task in tasks
    }
    ended = {task.name: task for task in tasks}
    for future in as_completed(futures):
        try:
            done = future.result()
        except Ended:
            continue
        del ended[futures[future]]
        yield futures[future], done
    for name, task in ended.items():
        yield name, _alone(pool, task)


def _alone(pool: Executor, task: Task) -> Made | Wanting:
    """Work on a car while nothing else is under way that could be to blame."""
    try:
        return pool.submit(work_on, task).result()
    except Ended:
        raise WrongCall(
            f"every worker that took up {task.name} was ended over it, so the archive is as it was; "
            "give the workers more memory, or look at what is large in that car"
        ) from None


def _knowing(task: Task) -> Task:
    """The same task for another process, which cannot wait for what this one looks at."""
    tree = task.lying()
    if tree is not None:
        # What is looked at after its files were compared would tell nothing of those.
        tree.unfold()
    return replace(task, lying=partial(_as_it_is, tree))


def _as_it_is(tree: Tree | None) -> Tree | None:
    return tree
