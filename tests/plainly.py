"""An archive written from nothing by the shortest way: what every other way must come to."""

from journal.outputs.archive import Order, write_archive
from journal.outputs.staging import archive_mark, staged
from journal.records.carfile import Content
from journal.records.problem import Problem


def publish(content: Content, order: Order) -> tuple[Problem, ...]:
    """Write it to the order's target; every problem found on the way."""
    mark = archive_mark(content.cars[0].workshop.name if content.cars else "")
    with staged(order.target, mark, keep_out_of=order.root, notice=print) as staging:
        return write_archive(content, order, staging).problems
