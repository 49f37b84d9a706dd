"""What a worked example from outside is, and how an answer is held against it."""

from collections.abc import Mapping
from fractions import Fraction
from typing import NamedTuple

from journal.bench import SUM_NAMED
from journal.bench.base.working import Answer, work_out
from journal.words.quantities import KINDS, parse_quantity, plain_text
from journal.words.units import kind_of


class Example(NamedTuple):
    """One example: its source, what is written for the sum, and what the source says of each result.

    A result is a quantity with the digits that the source prints, and must agree to half of the last
    one; or the words of a result that is told in words.
    """

    source: str
    written: Mapping[str, str]
    results: Mapping[str, str]


def answer_of(name: str, written: Mapping[str, str]) -> Answer:
    """The answer of a sum to what must be right."""
    answer = work_out(SUM_NAMED[name], written.items())
    assert isinstance(answer, Answer), [mistake.words for mistake in answer]
    return answer


def mistakes_of(name: str, written: Mapping[str, str]) -> list[str]:
    """The mistakes that a sum finds, each in its one sentence."""
    answer = work_out(SUM_NAMED[name], written.items())
    assert not isinstance(answer, Answer)
    return [mistake.words for mistake in answer]


def check_example(name: str, example: Example) -> None:
    """Fails where an answer does not agree with an example."""
    worked = answer_of(name, example.written).worked
    results = {result.name: result for result in worked.results}
    for key, printed in example.results.items():
        result = results[key]
        if result.exact is None:
            assert printed == result.words, example.source
            continue
        kind = kind_of(result.unit) if result.unit else "number"
        assert kind in KINDS
        wanted = parse_quantity(printed, kind)
        off = abs(wanted.to(result.unit) - Fraction(result.exact))
        assert off <= _half_of_last(printed, wanted.unit, result.unit), (
            example.source,
            key,
            result,
        )


def _half_of_last(printed: str, unit: str, into: str) -> Fraction:
    decimals = plain_text(printed).split(" ")[0].partition(".")[2]
    half = Fraction(1, 2 * 10 ** len(decimals))
    if unit == into:
        return half
    one, nothing = (parse_quantity(f"{n} {unit}", kind_of(unit)).to(into) for n in (1, 0))
    return half * abs(one - nothing)
