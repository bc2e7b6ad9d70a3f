"""A learner, a self-learner and an instructor at a real browser: what they do and see."""

import json
import re
import shutil
import time
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Locator, Route, expect

from hivecalc.course_folder import PLACES, prepare
from hivecalc.hive import hive_from_file
from tests.browser import HAS_RUN, KERNEL, TELL_ERRORS, Learner
from tests.browser import NOTEBOOK as NOW
from tests.jupyter_rig import ROOT, notebooks

pytestmark = pytest.mark.browser
LESSONS = [str(path.relative_to(ROOT)) for path in notebooks() if path.parent.name == "workbook"]
TAPE = "workbook/00-your-hive-and-your-tape.ipynb"
FRAME = "workbook/02-the-frame-of-the-bottom-board.ipynb"
FIRST_PICTURE = 20  # seconds at most on a loaded machine; DEVELOPERS.md has the measured figure
BOX = "workbook/07-the-box-and-its-sleeve.ipynb"
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


def test_what_is_used_of_three_readings_is_in_every_field_and_on_another_day(
    learner: Learner,
) -> None:
    learner.open_lesson(TAPE)
    label = learner.page.get_by_label("Hive length", exact=True)
    for place, text in (("first place", "20 1/8"), ("last place", "20 1/4")):
        learner.enter(f"Hive length, {place}", text)
    learner.page.get_by_role("button", name="Use this hive length").click()
    expect(label).to_have_value("20 1/4")
    learner.enter("Diagonal from front left", "26 3/16")
    learner.enter("Stud thickness", "1 1/2")  # the usual size, which stands there already
    expect(beside(learner, "Stud thickness")).to_contain_text("Saved: stud thickness 1 1/2 in")
    learner.enter("Hive length", "20 3/16")
    expect(beside(learner, "Hive length")).to_contain_text("Saved: hive length 20 3/16 in")
    learner.enter("Diagonal from front right", "seventeen")
    expect(learner.page.get_by_text("annot read “seventeen”")).to_have_count(1)
    learner.lab.close_sessions()
    learner.open_lesson(TAPE)
    expect(learner.page.get_by_label("Hive length, first place")).to_have_value("20 1/8")
    expect(learner.page.get_by_label("Diagonal from front left")).to_have_value("26 3/16")
    expect(label).to_have_value("20 3/16")
    kept = hive_from_file(hive_file(learner)).measured
    assert {n: str(v) for n, v in kept.items() if n != "hive_width"} == {
        "hive_length": "323/16", "stud_thickness": "3/2",
    }  # fmt: skip


def test_an_answer_with_enter_is_kept_once(learner: Learner) -> None:
    """The browser tells of Enter before it sends the text: the old text must not be answered."""
    learner.open_lesson(FRAME)
    for text in ("21", "21 5/8", "21 5/8"):
        learner.enter("Side rail length", text)
        expect(beside(learner, "Side rail length")).to_contain_text(
            "Right" if "5/8" in text else "✗"
        )
    kept = hive_file(learner).with_name("my-hive-answers.jsonl").read_text().splitlines()
    assert [json.loads(line)["answer"] for line in kept[1:]] == ["21", "21 5/8"]


def test_a_box_in_a_sleeve_asks_first_shows_its_own_sleeve_and_goes_back(learner: Learner) -> None:
    learner.open_lesson(TAPE)
    learner.enter("Hive length", "21 7/8")
    learner.open_lesson(BOX)
    for name, text in (("length", "20 1/2"), ("width", "14"), ("height", "11 3/8")):
        learner.page.get_by_label(f"Box {name}", exact=True).last.fill(text)
        learner.page.get_by_label(f"Box {name}", exact=True).last.press("Enter")
    learner.page.get_by_role("button", name="My hive is this box in a sleeve").click()
    expect(learner.page.get_by_text("Your hive is 21 7/8 in")).to_be_visible()
    learner.page.get_by_role("button", name="Yes, replace it by this box").click()
    rows = learner.page.locator(".jp-OutputArea-output tr")
    expect(rows.filter(has_text="skin side")).to_contain_text("11 3/8 in × 22 1/2 in")
    expect(rows.filter(has_text="foam side")).to_contain_text("9 7/8 in × 20 1/2 in")
    learner.page.get_by_role("button", name="Back to the size before").click()
    expect(learner.page.get_by_text("Your hive is 21 7/8 in")).to_be_visible()
    assert str(hive_from_file(hive_file(learner)).measured["hive_length"]) == "175/8"


def test_a_chain_is_built_by_keyboard_alone_and_is_there_on_another_day(learner: Learner) -> None:
    learner.open_lesson(FRAME)
    page = learner.page
    finger = page.get_by_role("button", name="shorter by a finger or two").first
    finger.focus()
    for key in ("Space", "Tab", "Tab", "Tab", "Tab", "Space"):  # on to the hive length: once more
        page.keyboard.press(key)
        learner.wait_idle()
    for _ in range(5):
        page.keyboard.press("Tab")
    page.keyboard.press("Space")  # one stud thickness less
    learner.wait_idle()
    for _ in range(2):
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    walk = page.locator(".jp-OutputArea-output").filter(
        has=page.get_by_label("Side rail length", exact=True)
    )
    expect(walk).to_contain_text("Your chain is right")
    learner.enter("Side rail length, by your chain", "21 5/8")
    expect(walk).to_contain_text("You predicted: shorter by a finger or two")
    learner.lab.close_sessions()
    learner.open_lesson(FRAME)
    expect(walk).to_contain_text("You predicted: shorter by a finger or two")
    expect(walk.get_by_label("Side rail length, by your chain")).to_have_value("21 5/8")


def test_a_wrong_cut_is_drawn_told_and_undone(learner: Learner) -> None:
    learner.open_lesson(FRAME)
    learner.page.get_by_role("button", name="Show all figures").first.click()
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
    learner.page.keyboard.press("PageDown")  # it leads on from within a field, too
    expect(learner.page.get_by_label("Side rail length", exact=True)).to_be_hidden()
    learner.page.keyboard.press("ArrowLeft")  # and the field has let go of the keys
    expect(learner.page.get_by_label("Side rail length", exact=True)).to_be_visible()
    scroller = learner.page.locator(".jp-WindowedPanel-outer:visible")
    learner.page.keyboard.press("ArrowDown")  # what is taller than the wall is scrolled
    assert scroller.evaluate("box => box.scrollTop > 0 || box.scrollHeight <= box.clientHeight")
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


# ── from lesson to lesson, and where one left off ─────────────────────────────────────────────

NOTEBOOK = ".jp-NotebookPanel:visible"
PLACE_NOTED = 10  # seconds at most until the page has written down where the reader is


def wait_until_run(learner: Learner, name: str) -> None:
    """Wait until this lesson stands in front and has run."""
    learner.page.wait_for_function(f"name => {NOW}?.context?.path === name", arg=name)
    learner.page.wait_for_function(f"Boolean({KERNEL})")
    learner.page.evaluate(TELL_ERRORS)
    learner.page.wait_for_function(HAS_RUN)
    learner.wait_idle()


def contents(learner: Learner) -> Locator:
    return learner.page.locator(f"{NOTEBOOK} nav.hc-contents")


def show_contents(learner: Learner) -> None:
    """Show the table of contents by the button in the lesson's toolbar."""
    toolbar = learner.page.locator(f"{NOTEBOOK} .jp-Toolbar")
    toolbar.get_by_role("button", name="Contents", exact=True).click()
    expect(contents(learner)).to_be_visible()


def note_of(learner: Learner, name: str, after: int = 0) -> int:
    """When the page last wrote down where the reader is in a lesson, once that is after a time."""
    note = learner.lab.folder / PLACES / f"{name}.json"
    end = time.monotonic() + PLACE_NOTED
    while time.monotonic() < end:
        written = note.stat() if note.exists() else None
        if written and written.st_size and written.st_mtime_ns > after:
            return written.st_mtime_ns
        learner.page.wait_for_timeout(100)
    pytest.fail(f"nothing was noted of {name}")


def go_down_to(learner: Learner, heading: str) -> None:
    """Turn the mouse wheel until a heading stands near the top."""
    head = learner.page.locator(NOTEBOOK).get_by_role("heading", name=heading)
    learner.page.locator(f"{NOTEBOOK} .jp-WindowedPanel-outer").hover()
    for _ in range(60):
        if head.evaluate("head => head.getBoundingClientRect().top < 250"):
            return
        learner.page.mouse.wheel(0, 150)
        learner.page.wait_for_timeout(50)
    pytest.fail(f"{heading} never comes into view")


def open_again(learner: Learner) -> None:
    """Open the course as `hivecalc open` does when it was stopped and starts anew."""
    learner.page.goto("about:blank")
    learner.lab.close_sessions()
    lesson = prepare(learner.lab.folder).opens
    port, token = learner.lab.port, learner.lab.token
    learner.page.goto(f"http://127.0.0.1:{port}/lab/tree/{lesson}?token={token}")
    wait_until_run(learner, lesson)


def test_the_contents_lead_to_another_lesson_by_keyboard_alone(learner: Learner) -> None:
    learner.open_lesson(TAPE)
    learner.view(390, 800)
    learner.fold_file_list()
    toolbar = learner.page.locator(f"{NOTEBOOK} .jp-Toolbar")
    button = toolbar.get_by_role("button", name="Contents", exact=True)
    expect(button).to_be_in_viewport()
    button.press("Enter")
    expect(contents(learner)).to_be_visible()
    expect(contents(learner).get_by_text("you are here")).to_have_count(1)
    expect(learner.page.get_by_role("button", name="Close the contents")).to_be_focused()
    frame = contents(learner).get_by_role("link", name="02 · The frame of the bottom board")
    for _ in range(12):
        learner.page.keyboard.press("Tab")
        if frame.evaluate("link => link === document.activeElement"):
            break
    else:
        pytest.fail("Tab never reaches lesson 02")
    wide = contents(learner).evaluate("nav => nav.scrollWidth <= nav.clientWidth + 1")
    assert wide, "the contents are wider than the page"
    learner.page.keyboard.press("Enter")
    wait_until_run(learner, FRAME)
    heading = learner.page.locator(NOTEBOOK).get_by_role("heading", name="02 · The frame")
    expect(heading).to_be_in_viewport()


def test_the_contents_say_how_far_one_is_and_have_no_grave_fault(learner: Learner) -> None:
    learner.open_lesson(FRAME)
    learner.enter("Side rail length", "21 5/8")
    show_contents(learner)
    mine = contents(learner).locator("li").nth(2)
    expect(mine).to_contain_text("50 minutes · begun, 1 of 4 questions right · you are here")
    expect(contents(learner).locator("li").nth(3)).to_contain_text("50 minutes · not begun")
    learner.enter("Front rail length", "14 3/8")
    expect(mine).to_contain_text("begun, 2 of 4 questions right")
    for theme in ("JupyterLab Light", "JupyterLab Dark"):
        learner.choose_theme(theme)
        found = Axe().run(learner.page, context={"include": [["nav.hc-contents"]]})
        assert [v["id"] for v in found.response["violations"] if v["impact"] in GRAVE] == []


def test_one_goes_on_in_the_lesson_and_at_the_place_where_one_stopped(learner: Learner) -> None:
    log = learner.lab.folder.parent / "lab.log"
    said = len(log.read_text())
    learner.open_lesson(TAPE)
    note_first = learner.lab.folder / PLACES / f"{TAPE}.json"
    learner.open_lesson(FRAME)
    go_down_to(learner, "Cut it wrong, on paper")
    note_of(learner, FRAME)
    assert not note_first.exists()  # it was only opened, not worked in
    assert "Uncaught exception" not in log.read_text()[said:]
    open_again(learner)
    heading = learner.page.locator(NOTEBOOK).get_by_role("heading", name="Cut it wrong, on paper")
    expect(heading).to_be_in_viewport()
    assert len(json.loads(learner.lab.answer("api/sessions"))) == 1
    learner.page.mouse.wheel(0, 20)
    learner.page.wait_for_url(re.compile(r"02-the-frame.*#cell-id="))
    learner.page.reload()
    wait_until_run(learner, FRAME)
    expect(heading).to_be_in_viewport()


def test_the_way_on_leads_back_to_the_place_in_another_lesson(learner: Learner) -> None:
    learner.open_lesson(FRAME)
    go_down_to(learner, "Three key points")
    note_of(learner, FRAME)
    learner.open_lesson(TAPE)
    learner.page.get_by_role("link", name="lesson 02 · The frame of the bottom board").click()
    wait_until_run(learner, FRAME)
    heading = learner.page.locator(NOTEBOOK).get_by_role("heading", name="Three key points")
    expect(heading).to_be_in_viewport()
    expect(learner.page.locator(NOTEBOOK).get_by_text("Go on with")).to_have_count(0)


def test_on_the_projector_the_screen_is_noted_too(learner: Learner) -> None:
    learner.open_lesson(FRAME)
    learner.page.get_by_role("button", name="Projector").click()
    before = note_of(learner, FRAME)
    for _ in range(3):
        learner.page.keyboard.press("ArrowRight")
    note_of(learner, FRAME, before)
    shown = learner.page.locator(f"{NOTEBOOK} .jp-Notebook .jp-Cell:visible").first
    place = json.loads((learner.lab.folder / PLACES / f"{FRAME}.json").read_bytes())["cell"]
    cells = json.loads((learner.lab.folder / FRAME).read_bytes())["cells"]
    [cell] = [cell for cell in cells if cell["id"] == place]
    expect(shown).to_contain_text("".join(cell["source"]).split("\n")[0].lstrip("# "))


@pytest.mark.parametrize("note", ['{"cell": "no such cell"}', '{"cell": "tw', "[" * 200_000])
def test_a_damaged_note_of_the_place_leads_to_the_top_of_its_lesson(
    learner: Learner, note: str
) -> None:
    (learner.lab.folder / PLACES / f"{FRAME}.json").write_text(note)
    open_again(learner)
    heading = learner.page.locator(NOTEBOOK).get_by_role("heading", name="02 · The frame")
    expect(heading).to_be_in_viewport()


def test_a_folder_that_can_not_be_written_into_costs_no_more_than_the_place(
    learner: Learner,
) -> None:
    shutil.rmtree(learner.lab.folder / PLACES)
    (learner.lab.folder / PLACES).write_text("in the way")
    learner.open_lesson(FRAME)
    go_down_to(learner, "The side rails")
    learner.page.wait_for_url(re.compile("#cell-id="))
    learner.enter("Side rail length", "21 5/8")
    expect(beside(learner, "Side rail length")).to_contain_text("Right")
    show_contents(learner)


def test_the_glossary_is_shown_to_read_from_a_lesson_and_from_the_list(learner: Learner) -> None:
    learner.open_lesson(FRAME)
    learner.page.locator(NOTEBOOK).get_by_role("link", name="panel", exact=True).first.click()
    read = learner.page.locator(".jp-MarkdownViewer:visible")
    expect(read.get_by_role("heading", name="panel", exact=True)).to_be_in_viewport()
    expect(learner.page.locator(".jp-FileEditor:visible")).to_have_count(0)
    expect(learner.page.get_by_role("button", name="Projector")).to_have_count(0)  # no lesson
    learner.page.locator(".jp-DirListing-item", has_text="instructor").dblclick()
    learner.page.locator(".jp-DirListing-item", has_text="tools-and-safety.md").dblclick()
    expect(read.get_by_role("heading", level=1)).to_contain_text("Tools")
    expect(learner.page.locator(".jp-FileEditor:visible")).to_have_count(0)
