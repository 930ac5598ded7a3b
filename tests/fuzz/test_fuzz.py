"""Spoilt exports: each is loaded with all its rows accounted for, or stops the work in one sentence; nothing else.

`python tests/fuzz/mutate.py 5000` does the same at length.
"""

from pathlib import Path

import pytest
from dialects.dialects import CONTRACT, DIALECTS

from fuzz.havoc import havoc_salon
from fuzz.mutate import MOST_SECONDS, outcome, spoilt_salon, what_is_wrong, write
from fuzz.salons import whole_salon

SEEDS = range(20, 36)
ONCE_SLOW = (2810,)  # a cell of many blanks under service


def test_spoilt_exports_are_accounted_for_or_refused() -> None:
    found = [outcome(seed) for seed in SEEDS]
    failed = [f"seed {one.seed} ({one.dialect}): {one.says}" for one in found if one.kind == "FAILED"]
    assert failed == []
    slow = [(one.seed, one.seconds) for one in found if one.seconds > MOST_SECONDS]
    assert slow == []
    assert {one.kind for one in found} == {"loaded", "stopped"}  # else the spoiling has lost its bite


def test_unspoilt_salons_are_loaded_whole(tmp_path: Path) -> None:
    """What the spoiling begins with: otherwise it would find out nothing. All are loaded in tests/dialects."""
    for number, dialect in enumerate((CONTRACT, *DIALECTS[::8])):
        write(tmp_path / str(number), whole_salon(dialect.name))
        assert what_is_wrong(tmp_path / str(number)) == "", dialect.name


def test_bytes_spoilt_blindly_are_accounted_for_or_refused() -> None:
    found = [outcome(seed, havoc_salon) for seed in range(8)]
    assert [f"seed {one.seed}: {one.says}" for one in found if one.kind == "FAILED"] == []


@pytest.mark.parametrize("seed", ONCE_SLOW)
def test_what_once_took_too_long(seed: int) -> None:
    assert outcome(seed).kind == "loaded"


def test_a_seed_is_always_the_same_salon() -> None:
    assert [spoilt_salon(seed) for seed in (3, 17)] == [spoilt_salon(seed) for seed in (3, 17)]
    assert spoilt_salon(3) != spoilt_salon(17)
