"""What one call into each room costs, and how fast a file of answers is judged.

Run:  python -m tests.bench.rooms
"""

import csv
import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from hivecalc.answers import rows_in
from hivecalc.components import DIMENSIONS
from hivecalc.document.page import document_html, document_pdf
from hivecalc.hive import demo_hive, hive_from_text, hive_text
from hivecalc.reports.book import book
from hivecalc.reports.judge import judged_rows

HIVE = demo_hive()
ROWS = 20_000


def milliseconds(work: Callable[[], object], times: int) -> list[float]:
    """Milliseconds of each of several runs, sorted."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        taken.append(1000 * (time.perf_counter() - start))
    return sorted(taken)


def judge_a_file(path: Path) -> None:
    """Judge every row of a file of answers, as the command does."""
    for _ in judged_rows(HIVE, rows_in(path), str, str(path)):
        pass


def write_answers(path: Path) -> None:
    """Write a class's answers: right ones, slips and others, for every dimension in turn."""
    names = [n for n in DIMENSIONS.dimensions if n.startswith("bottom_board.")]
    with path.open("w", newline="") as file:
        rows = csv.writer(file)
        rows.writerow(["dimension", "answer"])
        rows.writerows([names[i % len(names)], f"{10 + i % 13} {1 + i % 7}/8"] for i in range(ROWS))


def main() -> None:
    """Print a table: median and largest of each call, then answers a second."""
    text = hive_text(HIVE)
    works: dict[str, tuple[Callable[[], object], int]] = {
        "a hive file read": (lambda: hive_from_text(text), 200),
        "the hive book as HTML": (lambda: document_html(book(HIVE)), 10),
        "the hive book as PDF": (lambda: document_pdf(book(HIVE)), 5),
    }
    for name, (work, times) in works.items():
        taken = milliseconds(work, times)
        print(f"{name:36} median {statistics.median(taken):8.2f} ms   max {taken[-1]:8.2f}")
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "answers.csv"
        write_answers(path)
        (taken_ms,) = milliseconds(lambda: judge_a_file(path), 1)
    print(f"answers judged from a file: {ROWS / taken_ms * 1000:,.0f} a second")


if __name__ == "__main__":
    main()
