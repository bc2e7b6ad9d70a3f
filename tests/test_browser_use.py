"""A learner, a self-learner and an instructor at a real browser: what they do and see."""

import re
import time
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Locator, Route, expect

from hivecalc.hive import hive_from_file
from tests.browser import Learner
from tests.jupyter_rig import ROOT, notebooks

pytestmark = pytest.mark.browser
LESSONS = [str(path.relative_to(ROOT)) for path in notebooks() if path.parent.name == "workbook"]
TAPE = "workbook/00-your-hive-and-your-tape.ipynb"
FRAME = "workbook/02-the-frame-of-the-bottom-board.ipynb"
FIRST_PICTURE = 20  # seconds at most on a loaded machine; DEVELOPERS.md has the measured figure
OURS = [".jp-OutputArea-output", ".jp-RenderedMarkdown"]
GRAVE = {"serious", "critical"}
# Faults of JupyterLab and ipywidgets themselves, which a lesson can't mend.
THEIRS = {"scrollable-region-focusable"}


def hive_file(learner: Learner) -> Path:
    return learner.lab.folder / "my-hive.toml"


def drawing(learner: Learner, nth: int = 0) -> Locator:
    return learner.page.locator(".jp-OutputArea-output svg[role=img]").nth(nth)


def beside(learner: Learner, label: str) -> Locator:
    """The message beside the field with this label."""
    row = learner.page.locator(".jp-OutputArea-output .widget-box").filter(
        has=learner.page.get_by_label(label, exact=True)
    )
    return row.last.locator("[role=alert], [role=status]").first


def test_a_lesson_is_alive_when_it_opens(learner: Learner) -> None:
    """Nobody presses Run: the picture comes by itself, and the reader stands at the top."""
    start = time.monotonic()
    url = f"http://127.0.0.1:{learner.lab.port}/lab/tree/{FRAME}?token={learner.lab.token}&reset"
    learner.page.goto(url)
    expect(drawing(learner)).to_be_visible()
    assert time.monotonic() - start < FIRST_PICTURE
    learner.wait_idle()
    expect(learner.page.get_by_role("heading", name="02 · The frame")).to_be_in_viewport()
    expect(learner.page.locator(".jp-CodeCell .cm-editor:visible")).to_have_count(0)


def test_by_keyboard_alone_from_the_first_field_to_a_changed_picture(learner: Learner) -> None:
    learner.open_lesson(TAPE)
    field = learner.page.get_by_label("Show me this reading", exact=True)
    for _ in range(40):
        learner.page.keyboard.press("Tab")
        if field.evaluate("box => box === document.activeElement"):
            break
    else:
        pytest.fail("Tab never reaches the first field")
    learner.page.keyboard.press("Control+A")
    learner.page.keyboard.type("17 7/16")
    learner.page.keyboard.press("Enter")
    expect(drawing(learner)).to_contain_text("17 7/16 in")
    learner.page.keyboard.press("Tab")
    focused = learner.page.evaluate("document.activeElement.getAttribute('aria-label') ?? ''")
    assert not field.evaluate("box => box === document.activeElement"), focused


def test_what_can_not_be_right_is_refused_beside_its_field_and_kept_out(learner: Learner) -> None:
    learner.open_lesson(TAPE)
    learner.enter("Hive length", "22 7/8")
    expect(beside(learner, "Hive length")).to_contain_text("Saved: hive length 22 7/8 in")
    learner.enter("Hive length", "<b>wide</b>")
    expect(beside(learner, "Hive length")).to_contain_text("Cannot read “<b>wide</b>”")
    expect(beside(learner, "Hive length")).to_contain_text("Still in use: 22 7/8 in")
    assert str(hive_from_file(hive_file(learner)).measured["hive_length"]) == "183/8"


def test_what_was_saved_is_there_after_the_kernel_has_died(learner: Learner) -> None:
    learner.open_lesson(TAPE)
    learner.enter("Hive width", "16 1/4")
    learner.lab.close_sessions()
    learner.page.reload()
    learner.open_lesson(FRAME)
    expect(drawing(learner)).to_contain_text("hive 16 1/4 in")


def test_a_wrong_cut_is_drawn_told_and_undone(learner: Learner) -> None:
    learner.open_lesson(FRAME)
    learner.enter("Front rail length", "15 7/8")
    expect(beside(learner, "Front rail length")).to_contain_text("once instead of twice")
    trial = learner.page.locator(".jp-OutputArea-output").filter(
        has=learner.page.get_by_label("This piece was cut wrong:", exact=True)
    )
    box = trial.get_by_label("New value", exact=True)
    box.fill("15 7/8")
    box.press("Enter")
    expect(trial.locator("svg[role=img]")).to_contain_text("overlap 1 1/2 in")
    expect(trial).to_contain_text("it runs 1 1/2 in into the right side rail")
    trial.get_by_role("button", name="Back to my hive").click()
    expect(trial.locator("svg[role=img]")).not_to_contain_text("overlap")
    expect(box).to_have_value("14 3/8")


def test_on_a_projector_one_idea_a_screen_by_keyboard_with_live_fields(learner: Learner) -> None:
    learner.open_lesson(FRAME)
    learner.view(1024, 768)
    learner.page.get_by_role("button", name="Projector").click()
    cells = learner.page.locator(".jp-Notebook .jp-Cell:visible")
    where = learner.page.locator(".hivecalc-where")
    expect(where).to_have_text(re.compile(r"^1 / \d+$"))
    for _ in range(2):
        learner.page.keyboard.press("ArrowRight")
    expect(where).to_have_text(re.compile(r"^3 / "))
    assert cells.count() < 4
    while learner.page.get_by_label("Side rail length", exact=True).is_hidden():
        learner.page.keyboard.press("PageDown")
    size = learner.page.get_by_label("Side rail length", exact=True).evaluate(
        "box => parseFloat(getComputedStyle(box).fontSize)"
    )
    assert size >= 18
    learner.enter("Side rail length", "21 5/8")
    expect(beside(learner, "Side rail length")).to_contain_text("Right")
    learner.page.keyboard.press("ArrowLeft")  # the field keeps its own arrow keys
    expect(learner.page.get_by_label("Side rail length", exact=True)).to_be_visible()
    learner.page.keyboard.press("Escape")
    expect(where).to_have_count(0)
    assert cells.count() > 10


def test_the_answer_to_a_question_is_held_back_until_asked(learner: Learner) -> None:
    learner.open_lesson(TAPE)
    text = learner.page.locator(".jp-RenderedMarkdown")
    answer = text.get_by_text("Three sixteenths more")
    expect(answer).to_be_hidden()
    text.get_by_text("Show the answer").first.click()
    expect(answer).to_be_visible()


@pytest.mark.parametrize("lesson", LESSONS)
def test_a_lesson_needs_no_network_and_has_no_grave_fault_for_anybody(
    learner: Learner, lesson: str
) -> None:
    """Requests to anywhere else are cut off; axe-core audits what is ours on the page."""
    outside: list[str] = []

    def cut(route: Route) -> None:
        if f"127.0.0.1:{learner.lab.port}" in route.request.url:
            route.fallback()
        else:
            outside.append(route.request.url)
            route.abort()

    learner.page.route(re.compile("^https?:"), cut)
    learner.open_lesson(lesson)
    expect(drawing(learner)).to_be_visible()
    assert not [url for url in outside if "hivecalc" in url]
    found = Axe().run(learner.page, context={"include": [[place] for place in OURS]})
    grave = {
        f"{v['id']}: {v['nodes'][0]['html'][:200]}"
        for v in found.response["violations"]
        if v["impact"] in GRAVE and v["id"] not in THEIRS
    }
    assert grave == set()
