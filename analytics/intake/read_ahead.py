"""Exports read by several threads, in order, while the ones before them are being put away."""

from collections import deque
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from typing import TypeVar

from analytics.intake.find import Export

READERS = 2
MOST_BYTES = 48 * 1024**2  # of exports that are in memory at once; a larger one is there alone

T = TypeVar("T")


def read_ahead(exports: list[Export], read: Callable[[Export], T]) -> Iterator[tuple[Export, T]]:
    """Each export with what `read` answers, in order; what it raises is raised when the export's turn comes."""
    with ThreadPoolExecutor(READERS) as pool:
        waiting: deque[tuple[Export, int, Future[T]]] = deque()
        for export in exports:
            size = export.size_bytes
            while waiting and sum(bytes_ for _, bytes_, _ in waiting) + size > MOST_BYTES:
                yield _first(waiting)
            waiting.append((export, size, pool.submit(read, export)))
        while waiting:
            yield _first(waiting)


def _first(waiting: deque[tuple[Export, int, Future[T]]]) -> tuple[Export, T]:
    export, _, reading = waiting[0]
    answer = reading.result()
    waiting.popleft()
    return export, answer
