"""One way to cut, measured in a process of its own."""

import os
import re
import time
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from multiprocessing import get_context
from pathlib import Path
from typing import TypeAlias

import psutil


@dataclass(frozen=True)
class Row:
    """What one way came to: what it found, its bound, seconds, and the most memory it took."""

    found: float | None
    bound: float | None
    seconds: float
    megabytes: float


Way: TypeAlias = Callable[[], tuple[float | None, float | None]]


def alone(way: Way) -> Row:
    """Return what a way comes to in a fresh process, the loading of libraries included."""
    with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as pool:
        return pool.submit(_measured, way).result()


def _measured(way: Way) -> Row:
    start = time.perf_counter()
    found, bound = way()
    seconds = time.perf_counter() - start
    processes = [os.getpid(), *(child.pid for child in psutil.Process().children())]
    return Row(found, bound, seconds, sum(map(_most_megabytes, processes)))


def _most_megabytes(process: int) -> float:
    """Return the most memory that a process has had; Linux tells it."""
    status = Path(f"/proc/{process}/status").read_text()
    return int(re.findall(r"VmHWM:\s*(\d+) kB", status)[0]) / 1024
