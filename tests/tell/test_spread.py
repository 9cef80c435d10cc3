"""Work spread over processes: the order, the errors, and that nothing stays behind."""

import functools
import math
import multiprocessing
import os
import signal
from concurrent.futures import ThreadPoolExecutor

import pytest

from benchreckoner.tell import spread


@pytest.fixture
def two_cores(monkeypatch):
    monkeypatch.setattr(spread, "_cores", lambda: 2)
    yield
    assert multiprocessing.active_children() == []


def test_the_answers_come_in_the_order_of_the_tasks(two_cores):
    assert spread.spread(math.factorial, [3000, *range(9)], unit="number") == [math.factorial(3000), 1, 1, 2, 6, 24, 120, 720, 5040, 40320]


def test_it_is_other_processes_that_work(two_cores):
    here, heard = os.getpid(), signal.getsignal(signal.SIGINT)
    assert here not in spread.spread(eval, ["__import__('os').getpid()"] * 8, unit="process")
    deaf = spread.spread(eval, ["__import__('signal').getsignal(2) == __import__('signal').SIG_IGN"] * 8, unit="process")
    assert deaf == [True] * 8
    assert signal.getsignal(signal.SIGINT) is heard


def test_an_error_comes_through_as_it_was(two_cores):
    with pytest.raises(ValueError, match="^math domain error$"):
        spread.spread(math.sqrt, [4] * 7 + [-1], unit="root")


def test_a_process_that_is_ended_from_outside_is_told(two_cores):
    with pytest.raises(ChildProcessError, match="ended from outside"):
        spread.spread(os._exit, [3] * 8, unit="end")


@pytest.mark.skipif(os.name == "nt", reason="no process there can send another an interrupt alone")
def test_an_interrupt_ends_all_of_it(two_cores):
    with pytest.raises(KeyboardInterrupt):
        spread.spread(functools.partial(os.kill, os.getpid()), [0] * 8 + [signal.SIGINT], unit="signal")


def test_many_cores_are_no_more_than_windows_can_wait_for(monkeypatch):
    asked = []

    def pool(most, *rest):
        asked.append(most)
        return ThreadPoolExecutor(2)

    monkeypatch.setattr(spread, "_cores", lambda: 128)
    monkeypatch.setattr(spread, "ProcessPoolExecutor", pool)
    assert spread.spread(math.sqrt, [4] * 200, unit="root") == [2] * 200 and asked == [61]  # the standard library refuses more there


@pytest.mark.parametrize(("cores", "tasks"), [(1, 20), (4, 3)])
def test_where_it_does_not_pay_no_process_is_begun(monkeypatch, cores, tasks):
    monkeypatch.setattr(spread, "_cores", lambda: cores)
    assert spread.spread(lambda task: (task, os.getpid()), list(range(tasks)), unit="task") == [(task, os.getpid()) for task in range(tasks)]
