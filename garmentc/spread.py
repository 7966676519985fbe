"""Spreads work that is done again for each of many things over the cores of the machine."""

from __future__ import annotations

import gc
import os
import pickle
import signal
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from typing import TypeVar

from garmentc.record import Record

Item = TypeVar("Item")
Result = TypeVar("Result")

_FEWEST = 3  # things for which a second process pays


class _Worker(Record):
    process: int
    results: int
    """Where its results can be read (a file descriptor)."""


def spread(work: Callable[[Item], Result], items: Sequence[Item]) -> list[Result]:
    """The results of some work for each item, in their order; results have to bear pickling.

    The work must not change anything outside: it may be done in a copy of this process. What such a copy fails to
    bring back (it raised an error, or was killed) is done here, so that an error is raised as if there were no copy.
    """
    shares = min(cores(), len(items)) if len(items) >= _FEWEST else 1
    workers = [_start(work, items[share::shares]) for share in range(1, shares)]
    try:
        found: dict[int, Result] = {i: work(items[i]) for i in range(0, len(items), shares)}
        for share, worker in enumerate(workers, start=1):
            found.update(zip(range(share, len(items), shares), _results(worker), strict=False))
    except BaseException:
        for worker in workers:
            with suppress(ProcessLookupError):
                os.kill(worker.process, signal.SIGKILL)
        raise
    finally:
        for worker in workers:
            os.close(worker.results)
            os.waitpid(worker.process, 0)
    return [found[i] if i in found else work(item) for i, item in enumerate(items)]


def stream(work: Callable[[Item], Result], items: Sequence[Item]) -> Iterator[Result]:
    """The results of some work for each item as they come, in any order; results have to bear pickling.

    For work that takes long and may be broken off: what is not asked for any more is stopped. Each item is done once,
    unless a copy of this process was killed over it; then it is done here.
    """
    copies = min(cores(), len(items) - 1)
    if items:
        yield work(items[0])  # what it imports and remembers, the copies then have
    if copies + 1 < _FEWEST:
        yield from map(work, items[1:])
        return
    from multiprocessing.connection import Connection, wait

    waiting: dict[Connection, list[Item]] = {}
    workers: list[_Worker] = []
    try:
        for share in range(copies):
            own = list(items[1 + share :: copies])
            worker = _start_stream(work, own)
            workers.append(worker)
            waiting[Connection(worker.results, writable=False)] = own
        while waiting:
            for ready in wait(list(waiting)):
                assert isinstance(ready, Connection)
                left = waiting[ready]
                try:
                    found = ready.recv()
                except (EOFError, pickle.UnpicklingError):
                    ready.close()
                    yield from map(work, waiting.pop(ready))
                    continue
                left.pop(0)
                yield found
                if not left:
                    waiting.pop(ready).clear()
                    ready.close()
    finally:
        for connection in waiting:
            connection.close()
        for worker in workers:
            with suppress(ProcessLookupError):
                os.kill(worker.process, signal.SIGKILL)
            os.waitpid(worker.process, 0)


def _start_stream(work: Callable[[Item], Result], items: Sequence[Item]) -> _Worker:
    """A copy of this process that sends the result for each item as soon as it has it."""
    from multiprocessing.connection import Connection

    def send_all(writable: int) -> None:
        signal.signal(signal.SIGINT, signal.SIG_IGN)  # the original stops its copies
        gc.freeze()  # what the original made stays shared, and is not looked through for garbage
        gc.enable()
        with Connection(writable, readable=False) as results:
            for item in items:
                results.send(work(item))

    return _copied(send_all)


def _start(work: Callable[[Item], Result], items: Sequence[Item]) -> _Worker:
    """A copy of this process that works through some items and says what it found."""

    def send(writable: int) -> None:
        data = pickle.dumps([work(item) for item in items], pickle.HIGHEST_PROTOCOL)
        with os.fdopen(writable, "wb") as stream:
            stream.write(data)

    return _copied(send)


def _copied(run: Callable[[int], None]) -> _Worker:
    """A copy of this process that does nothing but run, with the file descriptor that it writes to."""
    readable, writable = os.pipe()
    process = os.fork()
    if process:
        os.close(writable)
        return _Worker(process, readable)
    # From here on in the copy, which must never return to the callers of the original.
    try:
        os.close(readable)
        run(writable)
    finally:
        os._exit(0)


def cores() -> int:
    """How many processes may run at once; 1 where a process can't be copied."""
    if not hasattr(os, "fork"):
        return 1
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _results(worker: _Worker) -> Iterator[Result]:
    with os.fdopen(worker.results, "rb", closefd=False) as stream:
        data = stream.read()
    with suppress(EOFError, pickle.UnpicklingError):
        yield from pickle.loads(data)
