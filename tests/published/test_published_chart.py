"""The individuals chart against the handbook."""

import polars as pl
import pytest

from analytics.methods.control_chart import usual_before

# NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.2 (readings from memory, the arithmetic redone).
READINGS = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]
LIMITS = (45.8159, 55.8041)  # around 50.81 with 3 ÷ 1.128; 2.66 is that, rounded


def test_limits_of_the_handbook() -> None:
    low, high = usual_before(pl.col("value"), len(READINGS))
    last = pl.DataFrame({"value": [*READINGS, 99.9]}).select(low=low, high=high).row(-1)
    assert last == pytest.approx(LIMITS, abs=0.001)
