"""The best one-to-one assignment of headings to columns, and by how much it is better than any other."""

from collections.abc import Mapping

import numpy as np
from scipy.optimize import linear_sum_assignment

MARGIN = 2.5  # points by which a reading is better than the next before it is used
NEVER = -1000.0

Pair = tuple[int, str]


def assign(points: Mapping[Pair, float]) -> dict[Pair, float]:
    """The pairs of the best assignment, each with its margin: what the whole loses where that pair is forbidden.

    A heading may stay without a column and a column without a heading, for 0 points, so that a pair's margin is never
    more than its own points: it is small where the evidence is faint, and where two readings fit alike.
    """
    places = sorted({place for place, _ in points})
    columns = sorted({column for _, column in points})
    if not places:
        return {}
    matrix = np.full((len(places), len(columns) + len(places)), NEVER)
    for (place, column), value in points.items():
        matrix[places.index(place), columns.index(column)] = value
    for at in range(len(places)):
        matrix[at, len(columns) + at] = 0.0
    best, chosen = _solve(matrix)
    margins = {}
    for at, across in chosen:
        if across < len(columns) and matrix[at, across] > 0:
            kept, matrix[at, across] = matrix[at, across], NEVER
            margins[places[at], columns[across]] = best - _solve(matrix)[0]
            matrix[at, across] = kept
    return margins


def _solve(matrix: np.ndarray) -> tuple[float, list[tuple[int, int]]]:
    rows, columns = linear_sum_assignment(matrix, maximize=True)
    return float(matrix[rows, columns].sum()), list(zip(rows.tolist(), columns.tolist(), strict=True))
