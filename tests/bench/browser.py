"""What a learner waits for in a real browser, and the memory that a lesson takes.

Run:  python -m tests.bench.browser

JupyterLab runs on a course folder, as `hivecalc open` starts it, and Chromium shows its lessons.
Measured in one run: each moving panel from the key to the painted picture, answers to their
verdicts, and each kernel's peak of memory. The machine's load stands beside the figures: where it
is above the number of cores, they say little, unless the run goes before all else (Linux, as root:
`chrt -r 1 python -m …`).
"""

import os
import statistics
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory

from playwright.sync_api import Browser, expect
from rich.console import Console
from rich.table import Table

from tests.bench.learner_entries import BOOK, CHECKS, VISITS, Panel
from tests.bench.page_clock import LISTEN, Answer, answers
from tests.browser import KERNEL, PATIENCE, Lab, Learner, running_browser, running_lab
from tests.chromium import HOW_TO_GET_ONE, chromium

ANSWER_LIMIT, KERNEL_LIMIT = 150, 50  # ms, p95
MEMORY_LIMIT = 200


@contextmanager
def started() -> Iterator[tuple[Lab, Browser]]:
    """A fresh course folder with JupyterLab on it, and a fresh browser."""
    executable = chromium() or sys.exit(HOW_TO_GET_ONE)
    with (
        TemporaryDirectory() as place,
        running_lab(Path(place)) as lab,
        running_browser(executable) as browser,
    ):
        yield lab, browser


# ── lessons in use ────────────────────────────────────────────────────────────────────────────


@dataclass
class Found:
    """What was measured: answers and load by panel, and the kernel's peak by lesson."""

    answers: dict[Panel, list[Answer]] = field(default_factory=dict)
    load: dict[Panel, float] = field(default_factory=dict)
    peaks: dict[str, float] = field(default_factory=dict)


def lessons_in_use() -> Found:
    """Every panel answered, lesson by lesson; each lesson has a page and a kernel of its own."""
    found = Found()
    with started() as (lab, browser):
        for lesson, panels in VISITS.items():
            with opened(lab, browser, lesson) as learner:
                for panel in panels:
                    found.answers[panel] = answers(learner, panel)
                    found.load[panel] = os.getloadavg()[0]
                found.peaks[lesson] = kernel_peak(learner)
        for lesson, use in ((CHECKS, use_checks), (BOOK, make_book)):
            with opened(lab, browser, lesson) as learner:
                use(learner)
                found.peaks[lesson] = kernel_peak(learner)
    return found


@contextmanager
def opened(lab: Lab, browser: Browser, lesson: str) -> Iterator[Learner]:
    """Somebody with this lesson open, until the block ends; hidden errors are raised then."""
    page = browser.new_page(viewport={"width": 1280, "height": 900})
    page.set_default_timeout(PATIENCE)
    learner = Learner(page, lab)
    page.on("pageerror", learner.note_error)
    page.expose_function("tellError", learner.note_error)
    learner.open_lesson(lesson)
    page.evaluate(LISTEN)
    yield learner
    page.close()
    lab.close_sessions()
    assert learner.errors == []


def kernel_peak(learner: Learner) -> float:
    """The most memory that the lesson's kernel has had, in MB."""
    status = learner.page.evaluate(
        f"""async () => (await {KERNEL}.requestExecute({{
            code: '', silent: true, user_expressions: {{pid: '__import__("os").getpid()'}},
        }}).done).content.user_expressions.pid.data['text/plain']"""
    )
    lines = Path("/proc", status, "status").read_text().splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith("VmHWM")) * 1024 / 1e6


def use_checks(learner: Learner) -> None:
    """Enter a frame and pieces as they were made, and a tolerance."""
    for label, text in (
        ("Width in front", "17 3/8"),
        ("Width in the middle", "17 7/16"),
        ("Width at the back", "17 3/8"),
        ("Diagonal from front left", "28 15/16"),
        ("Diagonal, front right to back left", "28 3/4"),
        ("Side rail length", "21 1/2"),
        ("Panel width", "14 1/4"),
    ):
        learner.enter(label, text)
    cut = learner.page.get_by_label("I cut to within", exact=True).first
    cut.fill("1/16")
    cut.press("Enter")
    learner.wait_idle()


def make_book(learner: Learner) -> None:
    """Make the hive book."""
    learner.page.get_by_role("button", name="Make the book").click()
    expect(learner.page.get_by_text("Written:").first).to_be_visible()
    learner.wait_idle()


# ── tables ────────────────────────────────────────────────────────────────────────────────────


def spread(times: Sequence[float]) -> tuple[float, float, float]:
    """The middle one, the one that all but a twentieth keep to, and the largest."""
    twentieths = statistics.quantiles(times, n=20, method="inclusive")
    return statistics.median(times), twentieths[-1], max(times)


def held(value: float, limit: float) -> str:
    """Whether a limit is kept."""
    return f"held ({limit:g})" if value <= limit else f"MISSED ({limit:g})"


def answers_table(found: Found) -> Table:
    """Each panel's times from the key to the painted answer, and the kernel's part of them."""
    heads = ("ms from key to paint", "median", "p95", "max", "n", "p95 limit")
    kernel = ("kernel median", "p95", "max", "p95 limit", "load")
    table = Table(*heads, *kernel, title="Answers in the page")
    for panel, timed in found.answers.items():
        whole, own = (spread([getattr(a, w) for a in timed]) for w in ("whole", "in_kernel"))
        table.add_row(
            panel.name,
            *(f"{time:.0f}" for time in whole),
            str(len(timed)),
            held(whole[1], ANSWER_LIMIT),
            *(f"{time:.1f}" for time in own),
            held(own[1], KERNEL_LIMIT),
            f"{found.load[panel]:.1f}",
        )
    return table


def stages_table(found: Found) -> Table:
    """Where the time of an answer goes, and what is sent to the page for it; medians."""
    heads = ("median ms", "key → kernel", "kernel", "its end → drawn", "drawn → painted")
    table = Table(*heads, "messages", "kB", title="Where the time goes")
    for panel, timed in found.answers.items():
        stages = (
            [a.begun - a.key for a in timed],
            [a.in_kernel for a in timed],
            [a.drawn - a.done for a in timed],
            [a.painted - a.drawn for a in timed],
        )
        sent = ([a.messages for a in timed], [a.size / 1000 for a in timed])
        row = (f"{statistics.median(each):.1f}" for each in (*stages, *sent))
        table.add_row(panel.name, *row)
    return table


def memory_table(found: Found) -> Table:
    """The peak of each lesson's kernel."""
    table = Table("kernel's peak, MB", "", "limit", title="Memory")
    for lesson, peak in found.peaks.items():
        table.add_row(lesson, f"{peak:.0f}", held(peak, MEMORY_LIMIT))
    return table


def main() -> None:
    """Print all tables, with the load of the machine before and after."""
    console = Console(width=170)
    console.print("load before:", *(f"{load:.2f}" for load in os.getloadavg()))
    found = lessons_in_use()
    for table in (answers_table, stages_table, memory_table):
        console.print(table(found))
    console.print("load after:", *(f"{load:.2f}" for load in os.getloadavg()))


if __name__ == "__main__":
    main()
