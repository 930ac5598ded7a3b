"""The parts of the habit: rhythm, stopping, weekdays."""

import numpy as np
import pytest

from analytics.methods import dropping_out, gap_table, return_times, weekdays
from analytics.methods.gap_table import EDGES, beyond, place, table

GRID = return_times.Grid(gap_table.LENGTHS, table().node_of, table().cells)


def fitted(gaps: list[list[int]], away: list[float], rounds: int = 4) -> tuple[return_times.Rhythms, np.ndarray]:
    """One kind; each client's gaps and the time since her last visit. Answers their weights on the nodes too."""
    whose = np.array([number for number, each in enumerate(gaps) for _ in each], np.int64)
    cells, _ = place(np.array([gap for each in gaps for gap in each], np.float64))
    longer = np.stack([beyond(part, np.array(away)) for part in table().longer])
    waits = return_times.Waits(whose, cells, np.zeros(len(gaps), np.int64), longer)
    rhythms = return_times.start(GRID, 1)
    for _ in range(rounds):
        rhythms, _ = return_times.closer(rhythms, waits, GRID, np.full(len(gaps), 0.02))
    return rhythms, rhythms.nodes(waits, GRID)


def middle(gaps: list[list[int]], away: list[float]) -> list[float]:
    """Time ahead by which half of what may come has come."""
    rhythms, nodes = fitted(gaps, away)
    longer = nodes @ rhythms.mixed(table().longer).T
    half = [np.interp(since, EDGES, row) / 2 for since, row in zip(away, longer, strict=True)]
    return [float(np.interp(-at, -row, EDGES)) - since for at, row, since in zip(half, longer, away, strict=True)]


def test_time_is_found_again_in_its_cell() -> None:
    times = np.array([0.2, 1.0, 3.0, 42.0, 400.0, 1900.0])
    cell, part = place(times)
    assert EDGES[cell] + part * (EDGES[cell + 1] - EDGES[cell]) == pytest.approx(times, rel=0.003)
    assert (np.diff(EDGES)[10:] >= 1).all()


def test_a_gap_has_one_length_or_another() -> None:
    assert table().cells.sum(axis=1) + table().longer[:, -1] == pytest.approx(1, abs=1e-3)
    rhythms, nodes = fitted([[42, 40, 44]] * 5, [10] * 5)
    assert nodes.sum(axis=1) == pytest.approx(1, abs=1e-5)
    assert rhythms.prior(GRID).sum(axis=1) == pytest.approx(1, abs=1e-5)
    assert rhythms.shapes.sum(axis=2) == pytest.approx(1)


@pytest.mark.parametrize(("shape", "beyond_twice"), [(8, 0.25), (7, 0.1518), (6, 0.124)])
def test_shapes_by_hand(shape: int, beyond_twice: float) -> None:
    """Beyond twice the median: no memory 1/4; Erlang-2 (1 + 3.357) e^−3.357; log-normal 1 − Φ(ln 2 ÷ 0.6)."""
    node = table().node_of[shape][100]
    length = np.exp(gap_table.LENGTHS[table().node_of[shape] == node].mean())
    assert beyond(table().longer[0], np.array([2 * length]))[0, node] == pytest.approx(beyond_twice, abs=0.002)


def test_the_days_gone_by_are_taken_off() -> None:
    assert middle([[42, 41, 43, 42, 42, 41, 43]] * 20, [2, 12, *[5] * 18])[:2] == pytest.approx([40, 30], abs=0.7)


def test_one_odd_client_is_pulled_toward_the_others() -> None:
    few, many = middle([[42] * 8] * 20 + [[60], [60] * 20], [0] * 22)[20:]
    assert 42 < few < many
    assert many == pytest.approx(60, abs=1)


def test_a_weekly_client_is_one() -> None:
    assert middle([[7] * 30] * 10 + [[42] * 8] * 10, [0] * 20)[0] == pytest.approx(7, abs=0.5)


def test_nobody_known_leaves_six_weeks() -> None:
    assert 34 <= middle([[]], [0])[0] <= 48


def test_who_came_once_tells_nothing_of_regularity() -> None:
    """Buyers without a rhythm, and as many who came once long ago, who are not taken for regular ones of long gaps."""
    draws = np.random.default_rng(5)
    gaps = [[max(1, round(gap)) for gap in draws.exponential(30, 6)] for _ in range(150)]
    rhythms, _ = fitted([*gaps, *[[]] * 150], [20] * 150 + [250] * 150)
    regular = (rhythms.lengths[:, :, None] * rhythms.shapes)[0, :, :5].sum()
    assert regular < 0.1


def test_stopping_is_found_where_there_is_some() -> None:
    """A third of 3,000 clients stopped at each visit; half of the rest came again by now."""
    draws = np.random.default_rng(2)
    times = draws.geometric(1 / 3, 3000) - 1
    a, b = dropping_out.fit(times, np.full(3000, 0.01))
    assert a / (a + b) == pytest.approx(1 / 3, abs=0.03)


def test_the_first_visit_has_a_chance_of_its_own() -> None:
    """Of 2,000 new clients 800 never came again; who came back stops with one chance in twenty from then on."""
    draws = np.random.default_rng(3)
    back = draws.geometric(0.05, 1200)
    times, later = np.concatenate([np.zeros(800, np.int64), back]), np.ones(2000, np.int64)
    found = dropping_out.Stopping().fitted(times, later, np.full(2000, 1e-3))
    assert found.first[1] == pytest.approx(0.4, abs=0.01)
    assert found.a / (found.a + found.b) == pytest.approx(0.05, abs=0.01)
    assert found.first[0] == pytest.approx(0.05, abs=0.01)  # nobody was seen as the book opened


def test_chance_to_have_stopped_by_hand() -> None:
    """Beta(1, 3) after one survived later visit: 1/5; who came once stopped with the chance of her group."""
    stopping = dropping_out.Stopping((0.1, 0.4), 1, 3)
    times, later = np.array([0, 0, 2]), np.array([0, 1, 1])
    assert stopping.gone(times, later) == pytest.approx([0.1, 0.4, 0.2])
    assert stopping.still(times, later, np.array([1, 0.5, 0.5])) == pytest.approx([0.9, 0.3 / 0.7, 0.4 / 0.6])


def test_a_chance_to_stay_worked_by_hand() -> None:
    """Beta(1, 3): E[(1 − p)²] = 3/4 × 4/5; after two visits survived she stops with 1/6."""
    assert dropping_out.stays(np.array([0, 1, 2]), 1, 3) == pytest.approx([1, 0.75, 0.6])
    assert dropping_out.stopped(np.array([2]), 1, 3) == pytest.approx(1 / 6)
    assert dropping_out.still_client(np.array([2]), np.array([0.2]), 1, 3) == pytest.approx(1 / 6 / (1 / 6 + 1 / 6))


def test_usual_weekdays_count_by_how_many_visits_show_them() -> None:
    always, new, any_day = np.array([0, 0, 0, 20, 0, 0, 0]), np.zeros(7), np.array([3, 3, 3, 3, 3, 3, 3])
    leanings = weekdays.leanings(np.array([always] * 10 + [new] + [any_day] * 10, float))
    assert leanings.sum(axis=1) == pytest.approx(7)
    assert leanings[0, 3] > 5 > leanings[10, 3] > leanings[11, 3]


def test_days_of_everybody_say_nothing_of_one() -> None:
    leanings = weekdays.leanings(np.array([[0, 0, 0, 9, 0, 9, 0]] * 30, float), relative=True)
    assert leanings[:, [3, 5]] == pytest.approx(1, abs=0.01)
