"""Everything that is wrong in a content folder: from reading, from the checks, from the folds."""

from journal.checks import check_car
from journal.digests.money.fold import unpriced
from journal.digests.sums import digest_sums
from journal.ledgers.keepers import fold_keepers
from journal.ledgers.measured import fold_measured
from journal.ledgers.numbers import fold_numbers
from journal.ledgers.originality.fold import fold_originality
from journal.ledgers.outwork import fold_outwork
from journal.ledgers.parts import fold_parts
from journal.ledgers.proving import fold_proving
from journal.ledgers.rechecks import fold_rechecks
from journal.ledgers.snags import fold_snags
from journal.records.carfile import CarFile, Content
from journal.records.problem import Problem, problem_order


def problems_of(content: Content) -> tuple[Problem, ...]:
    """All problems of all cars, each once, in order of place."""
    found = {*content.problems}
    for car in content.cars:
        found |= {*problems_of_car(car)}
    return tuple(sorted(found, key=problem_order))


def problems_of_car(car: CarFile) -> tuple[Problem, ...]:
    """What the checks and the folds find in one car."""
    disputed = fold_numbers(car).disputed_components
    keepers = fold_keepers(car)
    folded = (
        *fold_originality(car, disputed=disputed).problems,
        *fold_snags(car).problems,
        *fold_proving(car).problems,
        *fold_parts(car).problems,
        *fold_outwork(car).problems,
        *fold_measured(car).problems,
        *keepers.problems,
        *fold_rechecks(car, exchanged=keepers.exchanged).problems,
        *unpriced(car),
        *digest_sums(car).problems,
    )
    return tuple(sorted({*check_car(car), *folded}, key=problem_order))
