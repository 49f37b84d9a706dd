"""The assignment problem, exactly: what goes where, one to each, so that all together costs the least."""

from collections.abc import Sequence


def assigned(costs: Sequence[Sequence[int]]) -> tuple[int, ...]:
    """The column of each row such that no column is taken twice and the costs add up to the least.

    There are at least as many columns as rows. Rows are taken up one by one along a shortest path of
    reduced costs (H. W. Kuhn, The Hungarian method for the assignment problem, Naval Research
    Logistics Quarterly 2 (1955) 83-97).
    """
    columns = len(costs[0])
    of_row, of_column = [0] * len(costs), [0] * columns
    row_in: list[int | None] = [None] * columns
    for start in range(len(costs)):
        distance: list[int | None] = [None] * columns
        came_from: list[int | None] = [None] * columns
        settled: dict[int, int] = {}
        row, column, walked = start, -1, 0
        while True:
            for j in range(columns):
                if j not in settled:
                    here = walked + costs[row][j] - of_row[row] - of_column[j]
                    if (there := distance[j]) is None or here < there:
                        distance[j], came_from[j] = here, None if column < 0 else column
            column = min(
                (j for j in range(columns) if j not in settled), key=lambda j: distance[j] or 0
            )
            walked = distance[column] or 0
            taken = row_in[column]
            if taken is None:
                break
            settled[column], row = walked, taken
        of_row[start] += walked
        for j, at in settled.items():
            holder = row_in[j]
            assert holder is not None
            of_row[holder] += walked - at
            of_column[j] -= walked - at
        while (before := came_from[column]) is not None:
            row_in[column], column = row_in[before], before
        row_in[column] = start
    by_row = {row: column for column, row in enumerate(row_in) if row is not None}
    return tuple(by_row[n] for n in range(len(costs)))
