"""How long the habits of 3,000 clients take to fit, against their plain median gaps.

Run by hand: `PYTHONPATH=tests python tests/bench/bench_habit.py`. Processor time, so that a busy machine says the same.
"""

import time
from collections.abc import Callable
from dataclasses import replace

import polars as pl
from simulated.lives import CROWD, END, live, services

from analytics.records.clients.rhythm import habits
from analytics.records.clients.root_visits import CLIENT, root_lines, root_visits

RUNS = 3


def seconds(work: Callable[[], object]) -> float:
    """Least processor time of several runs."""
    took = []
    for _ in range(RUNS):
        start = time.process_time()
        work()
        took.append(time.process_time() - start)
    return min(took)


def main() -> None:
    lives = live(replace(CROWD, new_per_year=0.0), seed=1)
    visits = root_visits(root_lines(lives.bookings(END), services()), END)
    plain = seconds(lambda: visits.group_by(CLIENT).agg(pl.col("gap_days").median()))
    fitted = seconds(lambda: habits(visits, END).expected())
    print(f"{visits.n_unique(CLIENT)} clients, {visits.height} visits: {fitted:.2f} s, {fitted / plain:.0f} × medians")


if __name__ == "__main__":
    main()
