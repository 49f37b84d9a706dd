"""An archive written from nothing by the shortest way: what every other way must come to."""

from journal.outputs.archive import Order, write_archive
from journal.outputs.staging import staged
from journal.records.carfile import Content
from journal.records.problem import Problem


def publish(content: Content, order: Order) -> tuple[Problem, ...]:
    """Write it to the order's target; every problem found on the way."""
    with staged(order.target, keep_out_of=order.root) as staging:
        return write_archive(content, order, staging).problems
