"""Spreading work over the machine's cores, so that Ctrl-C ends all of it at once."""

import contextlib
import multiprocessing
import os
import signal
import threading
from concurrent.futures import ProcessPoolExecutor, as_completed
from concurrent.futures.process import BrokenProcessPool

from tqdm import tqdm

_MOST = 61  # processes that Windows can wait for
_WORTH_IT = 8  # tasks from which on it pays to start processes, each of which takes seconds to begin


def spread(work, tasks, *, unit):
    """Do the same work for each task, on all cores where that pays.

    Parameters
    ----------
    work : callable
        A function of a module, for another process must find it by its name.
    tasks : list
        What it is called with, one after the other: plain data. Begun in this order, so the longest belong first.
    unit : str
        What one task makes, for the bar that shows how far it is.

    Returns
    -------
    list
        What the work returned, in the order of the tasks.

    Raises
    ------
    Exception
        The first error that the work raises; what is not finished is then given up.
    ChildProcessError
        If a process was ended from outside.
    """
    seen = dict(total=len(tasks), desc=f"{unit}s", unit=unit, delay=1, leave=False, disable=None)
    if (cores := _cores()) < 2 or len(tasks) < _WORTH_IT:
        return [work(task) for task in tqdm(tasks, **seen)]
    with ProcessPoolExecutor(min(cores, len(tasks), _MOST), multiprocessing.get_context("spawn"), _begin) as pool, _ended_together():
        with _unheard():
            begun = [pool.submit(work, task) for task in tasks]
        for done in tqdm(as_completed(begun), **seen):
            try:
                done.result()
            except BrokenProcessPool as error:
                raise ChildProcessError("A process that helped was ended from outside. Give the same command again.") from error
    return [done.result() for done in begun]


def _cores():
    """How many cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


@contextlib.contextmanager
def _ended_together():
    """Whatever ends us early also ends the processes begun meanwhile, in the midst of their work."""
    before = set(multiprocessing.active_children())
    try:
        yield
    except BaseException:
        for child in set(multiprocessing.active_children()) - before:
            child.terminate()
        raise


@contextlib.contextmanager
def _unheard():
    """What is begun here does not hear Ctrl-C: we do, and end it."""
    if threading.current_thread() is not threading.main_thread():
        yield  # only the main thread hears it at all
        return
    ours = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, ours)


def _begin():
    """The first that a process of ours does: be deaf to Ctrl-C on every system, and end if we are no more."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_follow, daemon=True).start()


def _follow():
    multiprocessing.parent_process().join()
    os._exit(1)
