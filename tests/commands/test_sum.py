"""`journal sum`: all sums by the job they serve, one worked out, and what is missing asked for."""

import json

import pytest
from click.testing import CliRunner

from journal.bench import SUMS
from journal.commands import main
from tests.commands.running import run

SHIMS = ("target=0.42 mm", "tolerance=0.02 mm", "shims=0.10 mm x 3, 0.15 x 2, 0.18 x 1, 0.25 x 1")


def test_sum__without_a_name_lists_all_by_the_job_they_serve() -> None:
    result = run("sum")
    assert 0 == result.exit_code
    assert all(f"  {each.name} " in result.stdout for each in SUMS)
    heads = [line for line in result.stdout.splitlines() if line and not line.startswith(" ")]
    jobs = dict.fromkeys(each.job.value for each in SUMS)
    assert sorted(job.capitalize() for job in jobs) == sorted(heads)


def test_sum__shows_all_that_must_stand_beside_a_result() -> None:
    result = run("sum", "shim-pack", *SHIMS)
    assert 0 == result.exit_code
    heads = [line for line in result.stdout.splitlines() if line and not line.startswith(" ")]
    assert [
        "Shim pack from stock", "Given", "Working", "Result", "The best packs", "Formula", "Limits",
        "Caution", "Source",
    ] == heads  # fmt: skip
    assert "  fewest: 1 × 0.25 + 1 × 0.18 = 0.43 mm\n" in result.stdout
    assert "0.430 mm (16.9 thou)" in result.stdout


def test_sum__as_json_has_exact_figures() -> None:
    told = json.loads(run("sum", "shim-pack", *SHIMS, "--as", "json").stdout)
    assert ("shim-pack", True) == (told["sum"], told["right"])
    thickness = next(r for r in told["results"] if r["name"] == "thickness")
    assert ("0.43", "mm", "0.430 mm") == (thickness["exact"], thickness["unit"], thickness["told"])
    assert {"given", "working", "limits", "caution", "sources", "formula"} <= set(told)


def test_sum__with_a_wrong_unit_says_so_in_one_sentence() -> None:
    result = run("sum", "shim-pack", "target=12 psi", *SHIMS[1:])
    assert 2 == result.exit_code
    assert (
        'Error: target must be a length, found "12 psi"; write it in mm, in or thou\n'
        == result.stderr
    )


def test_sum__tells_every_mistake_at_once_and_what_is_missing() -> None:
    result = run("sum", "shim-pack", "target=12 psi", "bore=3")
    assert 2 == result.exit_code
    assert [
        "Error: bore is not asked for by shim-pack; known here: target, tolerance, shims",
        'target must be a length, found "12 psi"; write it in mm, in or thou',
        "tolerance is missing; it is how much thicker or thinner it may be",
        "shims is missing; it is what is in the drawer, each thickness with its count",
        "journal sum shim-pack --explain tells what it asks for",
    ] == result.stderr.splitlines()


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("shimpack",), 'there is no bench sum "shimpack"; write shim-pack'),
        (("shim-pack", "0.42 mm"), 'an input is written key=value, found "0.42 mm"'),
        (("shim-pack", "target=1 mm", "target=2 mm"), "target is given twice"),
    ],
)
def test_call__that_is_wrong_ends_with_2(words: tuple[str, ...], told: str) -> None:
    result = run("sum", *words)
    assert 2 == result.exit_code
    assert f"Error: {told}\n" == result.stderr


def test_sum__explains_what_it_asks_for() -> None:
    for each in SUMS:
        result = run("sum", each.name, "--explain")
        assert 0 == result.exit_code
        assert all(f"\n  {asked.name} " in result.stdout for asked in each.inputs)
        assert "\nCaution\n" in result.stdout


def test_sum__asks_for_what_is_missing_where_a_terminal_is(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("journal.commands.sum._asks", lambda: True)
    typed = "2 psi\n0.02 mm\n0.10 mm x 3, 0.12 x 1\n"
    result = CliRunner().invoke(main, ["sum", "shim-pack", "target=0.42 mm"], input=typed)
    assert 0 == result.exit_code
    assert "how much thicker or thinner it may be: a length in mm, in or thou" in result.stderr
    assert 'tolerance must be a length, found "2 psi"; write it in mm, in or thou' in result.stderr
    assert "1 of 0.12 mm and 3 of 0.10 mm come to 0.42 mm, just right." in " ".join(
        result.stdout.split()
    )
