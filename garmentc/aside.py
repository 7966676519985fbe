"""Long searches in processes of their own: what they find comes as it is found, and they can be ended at any time.

Libraries that search can often not be stopped, and a fault in one may end its process. Here it then ends only the one.
"""

from __future__ import annotations

import multiprocessing
import os
import signal
import sys
import time
from collections.abc import Callable, Sequence
from contextlib import suppress
from multiprocessing.connection import Connection, wait
from typing import TYPE_CHECKING, TypeVar

from garmentc.host import seconds

if TYPE_CHECKING:
    from multiprocessing.context import ForkContext, SpawnContext

    Context = ForkContext | SpawnContext

Item = TypeVar("Item")
Found = TypeVar("Found")


def pause(span: float) -> None:
    """Do nothing for some seconds."""
    time.sleep(span)


def search_aside(
    work: Callable[[Item, Callable[[Found], None]], None],
    items: Sequence[Item],
    heard: Callable[[int, Found], None],
    limit: float,
) -> bool:
    """Do some work for each item in a process of its own, for ``limit`` seconds at most.

    ``work`` is a function of a module; it is given the item and a function that tells what it has found, which has to
    bear pickling. ``heard`` is called here with the index of the item for each thing told. A process that fails just
    tells nothing more. False when a person broke off (Ctrl-C): what was heard until then has been heard.
    """
    # A copy of this process starts at once. Elsewhere than on Linux it may not be copied safely.
    context: Context = (
        multiprocessing.get_context("fork") if sys.platform == "linux" else multiprocessing.get_context("spawn")
    )
    ends = seconds() + limit
    processes = []
    sources: dict[Connection, int] = {}
    done = True
    try:
        for index, item in enumerate(items):
            here, there = context.Pipe(duplex=False)
            process = context.Process(target=_work, args=(work, item, there), daemon=True)
            process.start()
            there.close()
            processes.append(process)
            sources[here] = index
        while sources and (left := ends - seconds()) > 0:
            for one in wait(list(sources), timeout=left):
                assert isinstance(one, Connection)
                try:
                    found = one.recv()
                except (EOFError, OSError):
                    del sources[one]
                else:
                    heard(sources[one], found)
    except KeyboardInterrupt:
        done = False
    finally:
        for process in processes:
            process.kill()
            process.join()
    return done


def _work(work: Callable[[Item, Callable[[Found], None]], None], item: Item, told: Connection) -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the first process decides
    # Libraries that search print what is not for the reader; faults of our own are still told.
    sys.stderr = os.fdopen(os.dup(2), "w")
    nowhere = os.open(os.devnull, os.O_WRONLY)
    for stream in (1, 2):
        os.dup2(nowhere, stream)
    with suppress(BrokenPipeError):
        work(item, told.send)
