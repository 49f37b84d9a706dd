"""Problems as values: nothing in them is longer than a person reads, and no file has too many."""

from journal.outputs.problems import problems_text
from journal.pages.problemwords import problem_words
from journal.records.place import Place
from journal.records.problem import MOST_OF_A_FILE, Problem, shown_of


def _problem(path: str, line: int, message: str = "the line is wrong") -> Problem:
    return Problem(Place(path, line), "bad-yaml", message)


def test_problem__is_cut_where_what_it_quotes_is_as_long_as_a_file() -> None:
    long = "x" * 10_000
    problem = Problem(Place("a.md", 1), "bad-yaml", long, quoted=long, help=long, note=long)
    assert (400, 300, 600, 400) == tuple(
        len(text or "") for text in (problem.message, problem.quoted, problem.help, problem.note)
    )
    assert problem.message.endswith("x …")


def test_problem__of_the_usual_length_is_as_it_was_written() -> None:
    problem = Problem(Place("a.md", 1), "bad-yaml", "x", quoted="  y", help=None, note="z")
    assert ("x", "  y", None, "z") == (problem.message, problem.quoted, problem.help, problem.note)


def test_problems_of_a_file__are_shown_up_to_a_hundred_and_then_counted() -> None:
    many = [_problem("a.md", line) for line in range(1, MOST_OF_A_FILE + 4)]
    one = _problem("b.md", 7)
    shown, left = shown_of([*many, one])
    assert ((*many[:MOST_OF_A_FILE], one), {"a.md": 3}) == (shown, left)
    assert ((one,), {}) == shown_of([one])


def test_problems_that_are_not_shown__are_told_by_their_number_in_text_and_on_a_page() -> None:
    problems = [_problem("a.md", line) for line in range(1, 102)]
    told = "a.md: 1 more problem of this file is not shown\n\n101 errors in 1 file."
    assert problems_text(problems).endswith(f"\n\n{told}")
    last = problem_words(problems)[-1]
    assert ("a.md", "1 more problem of this file is not shown") == (last.place, last.message)
