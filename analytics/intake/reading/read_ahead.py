"""Exports read by several threads, in order, while the ones before them are being put away."""

from collections import deque
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from typing import TypeVar

from analytics.intake.reading.find import Export

READERS = 2
MOST_BYTES = 48 * 1024**2  # of exports that are in memory at once; a larger one is there alone

T = TypeVar("T")


def read_ahead(exports: list[Export], read: Callable[[Export], T]) -> Iterator[T]:
    """What `read` answers for each export, in order; what it raises is raised when the export's turn comes."""
    with ThreadPoolExecutor(READERS) as pool:
        waiting: deque[tuple[int, Future[T]]] = deque()
        for export in exports:
            size = export.size_bytes
            while waiting and sum(bytes_ for bytes_, _ in waiting) + size > MOST_BYTES:
                yield _first(waiting)
            waiting.append((size, pool.submit(read, export)))
        while waiting:
            yield _first(waiting)


def _first(waiting: deque[tuple[int, Future[T]]]) -> T:
    answer = waiting[0][1].result()
    waiting.popleft()
    return answer
