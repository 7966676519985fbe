"""Work spread over processes gives what it would give in one."""

import os
import signal

import pytest

from garmentc import spread as module
from garmentc.spread import spread, stream


def test_results_come_in_the_order_of_the_items() -> None:
    assert spread(lambda n: n * n, range(23)) == [n * n for n in range(23)]


@pytest.mark.parametrize("count", [0, 1, 2, 3])
def test_few_items(count: int) -> None:
    assert spread(str, range(count)) == [str(n) for n in range(count)]


def test_more_than_one_process_is_used(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "cores", lambda: 3)
    assert len(set(spread(lambda _: os.getpid(), range(12)))) == 3


def test_one_core_stays_in_this_process(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "cores", lambda: 1)
    assert set(spread(lambda _: os.getpid(), range(12))) == {os.getpid()}


@pytest.mark.parametrize("at", range(6))
def test_an_error_is_raised_as_if_there_were_one_process(at: int) -> None:
    def work(n: int) -> int:
        if n == at:
            raise ValueError(f"no {n}")
        return n

    with pytest.raises(ValueError, match=f"no {at}"):
        spread(work, range(6))


def test_what_a_killed_process_would_have_brought_is_done_here(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "cores", lambda: 2)
    here = os.getpid()

    def work(n: int) -> int:
        if os.getpid() != here:
            os.kill(os.getpid(), signal.SIGKILL)
        return n

    assert spread(work, range(8)) == list(range(8))


def test_results_larger_than_a_pipe_holds() -> None:
    assert [len(one) for one in spread(lambda n: bytes(n), [1_000_000] * 5)] == [1_000_000] * 5


@pytest.mark.parametrize("cores", [1, 3])
@pytest.mark.parametrize("count", [0, 1, 2, 23])
def test_a_stream_gives_each_result_once(monkeypatch: pytest.MonkeyPatch, cores: int, count: int) -> None:
    monkeypatch.setattr(module, "cores", lambda: cores)
    assert sorted(stream(lambda n: n * n, range(count))) == [n * n for n in range(count)]


def test_a_stream_does_what_a_killed_process_left(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "cores", lambda: 2)
    here = os.getpid()

    def work(n: int) -> int:
        if n == 5 and os.getpid() != here:
            os.kill(os.getpid(), signal.SIGKILL)
        return n

    assert sorted(stream(work, range(12))) == list(range(12))


def test_a_stream_raises_the_error_of_a_process(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "cores", lambda: 2)

    def work(n: int) -> int:
        if n == 7:
            raise OSError("the disk is full")
        return n

    with pytest.raises(OSError, match="full"):
        list(stream(work, range(12)))


def test_a_stream_that_is_left_stops_its_processes(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "cores", lambda: 3)
    results = stream(lambda n: n, range(1000))
    next(results)
    next(results)
    results.close()
    with pytest.raises(ChildProcessError):
        os.waitpid(-1, os.WNOHANG)
