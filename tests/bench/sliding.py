"""A what-if's slider that is dragged: from each step to the painted picture, beside a bare echo.

Run:  python -m tests.bench.sliding

The echo is a notebook of bare ipywidgets: a slider, and a small picture that is written anew at
each step. Both are moved by the arrow key, which a slider answers as it does a drag.
"""

import os

from playwright.sync_api import Locator
from rich.console import Console
from rich.table import Table

from tests.bench.browser import held, spread, started
from tests.bench.page_clock import LISTEN, WATCH, Answer, kernel_part
from tests.browser import PATIENCE, Learner
from tests.jupyter_rig import notebook_text

ECHO = "workbook/bare-echo.ipynb"
CODE = """import ipywidgets
def drawn(n):
    return f'<svg role="img" width="90" height="40"><rect width="{n}" height="9"/></svg>'
slider, shown = ipywidgets.IntSlider(description="Slide it", max=200), ipywidgets.HTML(drawn(0))
slider.observe(lambda change: setattr(shown, "value", drawn(change["new"])), names="value")
ipywidgets.VBox([slider, shown])"""
LESSONS = {
    "stud, plan, lesson 02": "workbook/02-the-frame-of-the-bottom-board.ipynb",
    "foam, section, lesson 03": "workbook/03-runners-slot-and-panel.ipynb",
    "foam, stack, lesson 04": "workbook/04-the-screen-that-pulls-out.ipynb",
    "overhang, roof, lesson 05": "workbook/05-the-roof.ipynb",
}
STEPS, MOST_TIMES, MOST_MS, MOST_KB = 40, 2, 100, 15


def slid(learner: Learner, area: Locator) -> list[Answer]:
    """How each step of a slider in this area was answered, to and fro; the first ones left out."""
    handle = area.get_by_role("slider").last
    found = []
    for step in range(STEPS + 3):
        area.evaluate(WATCH, ["svg[role=img]", "the slider"])
        handle.press("ArrowRight" if step // 3 % 2 == 0 else "ArrowLeft")
        times = learner.page.evaluate("window.answer")
        learner.wait_idle()
        times.pop("changed")
        found.append(Answer(**times, **kernel_part(learner.page.evaluate("window.heard"))))
    return found[3:]


def measured() -> dict[str, list[Answer]]:
    """The answers of the echo and of each what-if, each on a page of its own."""
    found = {}
    with started() as (lab, browser):
        (lab.folder / ECHO).write_text(notebook_text(CODE), encoding="utf-8")
        for name, lesson in {"bare echo": ECHO, **LESSONS}.items():
            page = browser.new_page(viewport={"width": 1280, "height": 900})
            page.set_default_timeout(PATIENCE)
            learner = Learner(page, lab)
            page.expose_function("tellError", learner.note_error)
            learner.open_lesson(lesson, press=lesson == ECHO)
            page.evaluate(LISTEN)
            area = page.locator(".jp-OutputArea-output").filter(has=page.get_by_role("slider"))
            if lesson != ECHO:
                page.get_by_role("button", name="Show all figures").click()
                learner.wait_idle()
                area = area.filter(has=page.get_by_label("What if this were different:"))
            found[name] = slid(learner, area.last)
            page.close()
            lab.close_sessions()
    return found


def table(found: dict[str, list[Answer]]) -> Table:
    """Each slider's times, beside the limits."""
    shown = Table("ms from step to paint", "median", "p95", "limit", "kernel p95", "kB", "limit",
                  "kB at rest", "limit")  # fmt: skip
    echo = spread([a.whole for a in found["bare echo"]])[1]
    for name, answers in found.items():
        middle, late, _ = spread([a.whole for a in answers])
        size, later = (
            max(some) / 1000 for some in zip(*((a.size, a.later) for a in answers), strict=True)
        )
        ours = name != "bare echo"
        limits = (f"× {late / echo:.1f} {held(late, min(MOST_TIMES * echo, MOST_MS))}",
                  held(size, MOST_KB))  # fmt: skip
        shown.add_row(
            name, f"{middle:.0f}", f"{late:.0f}", limits[0] if ours else "",
            f"{spread([a.in_kernel for a in answers])[1]:.0f}", f"{size:.1f}",
            limits[1] if ours else "", f"{later:.1f}", held(later, MOST_KB) if ours else "",
        )  # fmt: skip
    return shown


def main() -> None:
    """Print the table, with the machine's load before it."""
    console = Console(width=150)
    console.print("load:", *(f"{load:.2f}" for load in os.getloadavg()))
    console.print(table(measured()))


if __name__ == "__main__":
    main()
