"""A learner, a self-learner and an instructor at a real browser: what they do and see."""

import json
import re
import shutil
import time
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Locator, Response, Route, expect

from hivecalc.course_folder import PLACES, prints
from hivecalc.course_folder.copying import prepare
from hivecalc.course_folder.serving import EXTENSION, EXTENSIONS
from hivecalc.hive import hive_from_file
from tests.browser import IS_ALIVE, KERNEL, OPEN, Learner
from tests.browser import NOTEBOOK as NOW
from tests.jupyter_rig import ROOT, notebook_text
from tests.test_browser import grave_faults
from tests.test_chain_in_browser import MOST_ACTIONS, PREDICTED, first_chain

pytestmark = pytest.mark.browser
TAPE = "workbook/00-your-hive-and-your-tape.ipynb"
FRAME = "workbook/02-the-frame-of-the-bottom-board.ipynb"
FIRST_PICTURE = 20  # seconds at most on a loaded machine; DEVELOPERS.md has the measured figure
CELLS = f"{NOW}.content.widgets.map(cell => cell.model.sharedModel.source)"
BOX = "workbook/07-the-box-and-its-sleeve.ipynb"


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


def focus_by_tab(learner: Learner, wanted: Locator, most: int = 60) -> int:
    """Press Tab until this has the focus; how often comes back."""
    for pressed in range(1, most + 1):
        learner.page.keyboard.press("Tab")
        if wanted.evaluate("one => one === document.activeElement"):
            return pressed
    pytest.fail("Tab never reaches it")


def test_a_picture_is_there_at_once_and_the_lesson_comes_alive_in_its_place(learner):
    """Dark, where the lesson before was; and what it is made of is asked for anew each time."""
    page, kept = learner.page, dict[str, str | None]()

    def note(each: Response) -> None:
        if EXTENSION in each.url:
            kept[each.url] = each.headers["cache-control"]

    page.on("response", note)
    page.route("**/static/lab/*", lambda route: (page.wait_for_timeout(50), route.fallback()))
    page.goto(learner.address(FRAME), wait_until="commit")
    first = page.locator("#hivecalc-first")
    expect(first.locator("img")).to_be_visible()
    expect(first).to_have_css("background-color", "rgb(255, 255, 255)")
    expect(first.get_by_role("status")).to_have_text("Starting …")
    assert first.locator("img").evaluate("image => image.decode().then(() => image.width)") > 200
    assert page.locator(".jp-Notebook").count() == 0
    page.unroute("**/static/lab/*")
    expect(drawing(learner)).to_be_visible()
    expect(first).to_have_count(0)
    learner.wait_until_run()
    assert {url.rpartition(".")[2] for url in kept} == {"js", "css"}
    assert {*kept.values()} == {"no-cache"}  # or an update would not reach who has been here
    expect(page.locator(".hivecalc-status")).to_have_text("")
    expect(page.get_by_role("heading", name="02 · The frame")).to_be_in_viewport()
    expect(page.get_by_role("img", name=re.compile("^The bottom board pulled"))).to_be_in_viewport()
    learner.choose_theme("JupyterLab Dark")
    page.goto(learner.address(TAPE), wait_until="commit")
    expect(first).to_have_css("background-color", "rgb(17, 17, 17)")
    learner.wait_until_run(TAPE)


def test_lesson_00_as_somebody_new_goes_through_it(learner):
    learner.open_lesson(TAPE)
    for step in (
        by_keyboard_alone_to_a_changed_picture,
        the_answer_to_a_question_is_held_back_until_asked,
        no_key_and_no_click_changes_the_lesson_itself,
        what_can_not_be_right_is_refused_beside_its_field_and_kept_out,
        the_text_speaks_in_the_unit_of_the_tape,
    ):
        step(learner)


def by_keyboard_alone_to_a_changed_picture(learner: Learner) -> None:
    field = learner.page.get_by_label("Show me this reading", exact=True)
    focus_by_tab(learner, field)
    for key in ("Control+A", *"17 7/16", "Enter"):
        learner.page.keyboard.press(key)
    expect(drawing(learner)).to_contain_text("17 7/16 in")
    learner.page.keyboard.press("Tab")
    assert not field.evaluate("box => box === document.activeElement")


def the_answer_to_a_question_is_held_back_until_asked(learner: Learner) -> None:
    text = learner.page.locator(".jp-RenderedMarkdown")
    answer = text.get_by_text("Three sixteenths more")
    expect(answer).to_be_hidden()
    text.get_by_text("Show the answer").first.click()
    expect(answer).to_be_visible()


def no_key_and_no_click_changes_the_lesson_itself(learner: Learner) -> None:
    """In the notebook as JupyterLab shows it these add, cut and edit cells."""
    cells = learner.page.evaluate(CELLS)
    learner.page.get_by_role("heading", name="Three places").click()
    for key in ("b", "d", "d", "x", "a", "m", "Enter", "Delete", "1"):
        learner.page.keyboard.press(key)
    learner.page.get_by_role("heading", name="Three places").dblclick()
    learner.wait_idle()
    assert learner.page.evaluate(CELLS) == cells
    expect(learner.page.locator(".jp-MarkdownCell .cm-editor:visible")).to_have_count(0)


def what_can_not_be_right_is_refused_beside_its_field_and_kept_out(learner: Learner) -> None:
    learner.enter("Hive length", "22 7/8")
    expect(beside(learner, "Hive length")).to_contain_text("Saved: hive length 22 7/8 in")
    learner.enter("Hive length", "<b>wide</b>")
    expect(beside(learner, "Hive length")).to_contain_text("Cannot read “<b>wide</b>”")
    expect(beside(learner, "Hive length")).to_contain_text("Still in use: 22 7/8 in")
    assert str(hive_from_file(hive_file(learner)).measured["hive_length"]) == "183/8"


def the_text_speaks_in_the_unit_of_the_tape(learner: Learner) -> None:
    text = learner.page.locator(".jp-RenderedMarkdown p")
    inches = text.filter(has_text="and go three of the smallest")
    millimetres = text.filter(has_text="and go seven of the smallest")
    expect(inches).to_be_visible()
    expect(millimetres).to_be_hidden()
    learner.page.get_by_label("Your tape shows", exact=True).select_option("millimetres")
    expect(millimetres).to_be_visible()
    expect(inches).to_be_hidden()


def test_lesson_02_as_a_self_learner_goes_through_it(learner):
    learner.open_lesson(FRAME)
    for step in (
        a_slow_answer_is_said_to_be_on_its_way,
        the_code_is_a_choice_and_brings_the_whole_bench_back,
        an_answer_with_enter_is_kept_once,
        a_kernel_that_has_ended_starts_again_at_a_press,
        the_contents_say_how_far_one_is_and_have_no_grave_fault,
        the_glossary_is_shown_to_read_and_leads_back,
        a_walk_leads_to_the_exercise_that_practises_it,
    ):
        step(learner)


def the_code_is_a_choice_and_brings_the_whole_bench_back(learner: Learner) -> None:
    page = learner.page
    page.get_by_role("button", name="Show the code").press("Enter")
    expect(page.get_by_role("menuitem", name="Run", exact=True)).to_be_visible()
    expect(page.locator(".jp-DirListing-item").first).to_be_visible()
    expect(page.locator(".jp-NotebookPanel-toolbar")).to_be_visible()
    expect(page.get_by_text("bench = Bench(hive_file)")).to_be_visible()
    page.get_by_role("button", name="Hide the code").press("Enter")
    expect(page.get_by_role("menuitem", name="Run", exact=True)).to_be_hidden()
    expect(page.get_by_text("bench = Bench(hive_file)")).to_be_hidden()
    expect(page.locator(".jp-SideBar:visible")).to_have_count(0)
    assert "/doc/tree/" in page.url


def a_slow_answer_is_said_to_be_on_its_way(learner: Learner) -> None:
    slow = f"{KERNEL}.requestExecute({{code: 'import time; time.sleep(2)'}})"
    learner.page.evaluate(f"() => {{ {slow}; }}")
    status = learner.page.locator(".hivecalc-status")
    expect(status).to_have_text("Working …")
    expect(status).to_have_text("")


def an_answer_with_enter_is_kept_once(learner: Learner) -> None:
    """The browser tells of Enter before it sends the text: the old text must not be answered."""
    for text in ("21", "21 5/8", "21 5/8"):
        learner.enter("Side rail length", text)
        expect(beside(learner, "Side rail length")).to_contain_text(
            "Right" if "5/8" in text else "✗"
        )
    kept = hive_file(learner).with_name("my-hive-answers.jsonl").read_text().splitlines()
    assert [json.loads(line)["answer"] for line in kept[1:]] == ["21", "21 5/8"]


def a_kernel_that_has_ended_starts_again_at_a_press(learner: Learner) -> None:
    assert learner.errors == []
    learner.lab.close_sessions()
    again = learner.page.get_by_role("button", name="Start it again")
    expect(again).to_be_visible()
    learner.errors.clear()  # JupyterLab's own, about the kernel that has ended
    again.click()
    learner.wait_until_run(FRAME)
    expect(learner.page.get_by_label("Side rail length", exact=True)).to_have_value("21 5/8")


def test_a_lesson_that_is_loaded_again_does_not_carry_its_earlier_panels_along(learner):
    count = f"async () => Object.keys((await {KERNEL}.requestCommInfo({{}})).content.comms).length"
    learner.open_lesson(FRAME)
    once = learner.page.evaluate(count)
    assert once > 0
    learner.page.reload()
    learner.wait_until_run(FRAME)
    assert learner.page.evaluate(count) == once
    other = learner.page.context.new_page()
    other.goto(learner.address(FRAME))  # in a second window it takes nothing from the first
    other.wait_for_selector("[data-hivecalc=alive]")
    other.close()
    learner.enter("Side rail length", "21 5/8")
    expect(beside(learner, "Side rail length")).to_contain_text("Right")


def test_from_lesson_to_lesson_and_back(learner):
    names = [f"workbook/{path.name}" for path in sorted((ROOT / "workbook").glob("*.ipynb"))[:4]]
    nothing_is_asked_about_a_lesson_that_was_left(learner, names)
    only_the_last_few_stay_alive(learner, names[-1])
    back_and_forward_of_the_browser_lead_through_them(learner)


def nothing_is_asked_about_a_lesson_that_was_left(learner: Learner, names: list[str]) -> None:
    """Only what was changed is saved, and by JupyterLab alone: of two saves at once, one asks."""
    page, saved = learner.page, list[str]()

    def slowly(route: Route) -> None:
        if route.request.method == "PUT":
            saved.append(urlsplit(route.request.url).path.removeprefix("/api/contents/"))
            page.wait_for_timeout(1500)
        route.fallback()

    page.route("**/api/contents/workbook/*.ipynb*", slowly)
    learner.open_lesson(names[0])
    change = f"text => {NOW}.content.widgets[0].model.sharedModel.setSource(text)"
    page.evaluate(change, "# My own words")
    page.evaluate(f"{NOW}.context.save(); 0")  # as it does by itself, every half minute
    for name in names[1:]:
        learner.go_on_to(name)
        expect(page.locator(".jp-Dialog")).to_have_count(0)
    assert saved == names[:1]
    first = json.loads((learner.lab.folder / names[0]).read_bytes())
    assert "".join(first["cells"][0]["source"]) == "# My own words"
    page.unroute_all()


def only_the_last_few_stay_alive(learner: Learner, in_front: str) -> None:
    learner.page.wait_for_function(
        "async () => (await (await fetch('/api/sessions')).json()).length <= 3"
    )
    alive = [session["path"] for session in json.loads(learner.lab.answer("api/sessions"))]
    assert in_front in alive


def back_and_forward_of_the_browser_lead_through_them(learner: Learner) -> None:
    head = learner.page.locator(NOTEBOOK).get_by_role("heading", level=1)
    for turn, number in (("back", "02"), ("forward", "03"), ("back", "02")):
        learner.page.evaluate(f"history.{turn}()")
        expect(head).to_contain_text(f"{number} ·")
        assert f"/workbook/{number}-" in learner.page.url


def test_a_hive_as_a_builder_measures_it_first_and_makes_a_box_in_a_sleeve_of_it(learner):
    learner.open_lesson(TAPE)
    for step in (
        what_is_used_of_three_readings_is_in_every_field,
        all_of_it_is_there_on_another_day,
        a_box_in_a_sleeve_asks_first_shows_its_own_sleeve_and_goes_back,
    ):
        step(learner)


def what_is_used_of_three_readings_is_in_every_field(learner: Learner) -> None:
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


def all_of_it_is_there_on_another_day(learner: Learner) -> None:
    learner.lab.close_sessions()
    learner.open_lesson(TAPE)
    label = learner.page.get_by_label("Hive length", exact=True)
    expect(learner.page.get_by_label("Hive length, first place")).to_have_value("20 1/8")
    expect(learner.page.get_by_label("Diagonal from front left")).to_have_value("26 3/16")
    expect(label).to_have_value("20 3/16")
    learner.go_on_to(FRAME)
    plan = learner.page.locator(".jp-OutputArea-output svg").filter(has_text="hive 20 3/16 in")
    expect(plan.first).to_be_visible()
    kept = hive_from_file(hive_file(learner)).measured
    assert {n: str(v) for n, v in kept.items() if n != "hive_width"} == {
        "hive_length": "323/16", "stud_thickness": "3/2",
    }  # fmt: skip


def a_box_in_a_sleeve_asks_first_shows_its_own_sleeve_and_goes_back(learner: Learner) -> None:
    learner.go_on_to(BOX)
    learner.page.get_by_role("button", name="Show all figures").click()
    learner.wait_idle()
    for name, text in (("length", "20 1/2"), ("width", "14"), ("height", "11 3/8")):
        learner.page.get_by_label(f"Box {name}, measured", exact=True).fill(text)
        learner.page.get_by_label(f"Box {name}, measured", exact=True).press("Enter")
    learner.page.get_by_role("button", name="My hive is this box in a sleeve").click()
    expect(learner.page.get_by_text("Your hive is 20 3/16 in")).to_be_visible()
    learner.page.get_by_role("button", name="Yes, replace it with this box").click()
    rows = learner.page.locator(".jp-OutputArea-output tr")
    for part, wide, long in (
        ("skin side", "11 3/8 in", "22 1/2 in"),
        ("foam side", "9 7/8 in", "20 1/2 in"),
    ):
        cells = rows.filter(has_text=part).locator("td")
        expect(cells.nth(3)).to_have_text(wide)
        expect(cells.nth(4)).to_have_text(long)
    learner.page.get_by_role("button", name="Back to the size before").first.click()
    expect(learner.page.get_by_text("Your hive is 20 3/16 in")).to_be_visible()
    assert str(hive_from_file(hive_file(learner)).measured["hive_length"]) == "323/16"


def test_a_newcomer_does_little_from_the_address_to_a_right_chain(learner):
    """Opened at lesson 00 as `hivecalc open` does, on a phone: 12 presses at most.

    The contents by keyboard alone; what is pressed in the lesson lies within the window.
    """
    wide = 390
    learner.page.set_viewport_size({"width": wide, "height": 844})
    learner.open_lesson(TAPE)
    page = learner.page
    button = page.locator(f"{NOTEBOOK} .hivecalc-bar").get_by_role("button", name="Contents")
    expect(button).to_be_in_viewport()
    button.press("Enter")
    expect(contents(learner).get_by_text("you are here")).to_have_count(1)
    focus_by_tab(learner, contents(learner).get_by_role("link", name="02 · The frame"), 12)
    fits = contents(learner).evaluate("nav => nav.scrollWidth <= nav.clientWidth + 1")
    assert fits, "the contents are wider than the page"
    page.keyboard.press("Enter")
    learner.wait_until_run(FRAME)
    expect(page.locator(NOTEBOOK).get_by_role("heading", name="02 · The fr")).to_be_in_viewport()

    def press(place: Locator) -> None:
        place.scroll_into_view_if_needed()
        box = place.bounding_box()
        assert box is not None
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= wide
        place.click()

    assert 2 + first_chain(learner, press) <= MOST_ACTIONS
    learner.enter("Side rail length, by your chain", "21 5/8")
    expect(page.get_by_text("You predicted: shorter by a finger or two")).to_be_visible()


def test_lesson_02_as_an_instructor_shows_it(learner):
    learner.open_lesson(FRAME)
    learner.view(1024, 768)
    for step in (
        the_projector_begins_where_one_stands_and_fields_stay_alive,
        the_class_votes_by_digit_keys,
    ):
        step(learner)


def the_projector_begins_where_one_stands_and_fields_stay_alive(learner: Learner) -> None:
    go_down_to(learner, "The side rails")
    page = learner.page
    page.get_by_role("button", name="Projector").click()
    expect(page.get_by_role("heading", name="The side rails")).to_be_in_viewport()
    field = page.get_by_label("Side rail length", exact=True)
    while field.is_hidden():
        page.keyboard.press("PageDown")
    learner.enter("Side rail length", "21 5/8")
    expect(beside(learner, "Side rail length")).to_contain_text("Right")
    page.keyboard.press("ArrowLeft")  # the field keeps its own arrow keys
    expect(field).to_be_visible()
    page.keyboard.press("PageDown")  # it leads on from within a field, too
    expect(field).to_be_hidden()
    page.keyboard.press("ArrowLeft")  # and the field has let go of the keys
    expect(field).to_be_visible()
    before = note_of(learner, FRAME)
    page.keyboard.press("ArrowRight")
    note_of(learner, FRAME, before)
    shown = page.locator(f"{NOTEBOOK} .jp-Notebook .jp-Cell:visible").first
    place = json.loads((learner.lab.folder / PLACES / f"{FRAME}.json").read_bytes())["cell"]
    cells = json.loads((learner.lab.folder / FRAME).read_bytes())["cells"]
    [cell] = [cell for cell in cells if cell["id"] == place]
    expect(shown).to_contain_text("".join(cell["source"]).split("\n")[0].lstrip("# ")[:40])
    page.keyboard.press("Escape")
    expect(page.locator(".hivecalc-where")).to_have_count(0)
    expect(page.get_by_role("button", name="Projector")).to_be_visible()


def the_class_votes_by_digit_keys(learner: Learner) -> None:
    page = learner.page
    page.get_by_role("button", name=PREDICTED).first.scroll_into_view_if_needed()
    hands = page.locator(".hc-vote:visible")
    expect(hands).to_have_count(0)
    page.get_by_role("button", name="Projector").click()
    for _ in range(20):
        if hands.count():
            break
        page.keyboard.press("ArrowRight")
    for key in ("3", "3", "1"):
        page.keyboard.press(key)
        learner.wait_idle()
    assert [hand.inner_text() for hand in hands.all()] == ["1: 1", "2: 0", "3: 2", "4: 0", "5: 0"]


# ── from lesson to lesson, and where one left off ─────────────────────────────────────────────

NOTEBOOK = ".jp-NotebookPanel:visible"
PLACE_NOTED = 10  # seconds at most until the page has written down where the reader is


def contents(learner: Learner) -> Locator:
    return learner.page.locator(f"{NOTEBOOK} nav.hc-contents")


def show_contents(learner: Learner) -> None:
    bar = learner.page.locator(f"{NOTEBOOK} .hivecalc-bar")
    bar.get_by_role("button", name="Contents", exact=True).click()
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


def go_down_to(learner: Learner, heading: str) -> int:
    """Turn the mouse wheel until a heading stands near the top; when it was turned last."""
    head = learner.page.locator(NOTEBOOK).get_by_role("heading", name=heading)
    learner.page.locator(f"{NOTEBOOK} .jp-WindowedPanel-outer").hover()
    turned = 0
    for _ in range(60):
        if head.evaluate("head => head.getBoundingClientRect().top < 250"):
            return turned
        turned = time.time_ns()
        learner.page.mouse.wheel(0, 150)
        learner.page.wait_for_timeout(50)
    pytest.fail(f"{heading} never comes into view")


def open_again(learner: Learner) -> None:
    """Open the course as `hivecalc open` does when it was stopped and starts anew."""
    learner.page.goto("about:blank")
    learner.lab.close_sessions()
    lesson = prepare(learner.lab.folder).opens
    port, token = learner.lab.port, learner.lab.token
    learner.page.goto(f"http://127.0.0.1:{port}/doc/tree/{lesson}?token={token}")
    learner.wait_until_run(lesson)


def the_contents_say_how_far_one_is_and_have_no_grave_fault(learner: Learner) -> None:
    show_contents(learner)
    mine = contents(learner).locator("li").nth(2)
    expect(mine).to_contain_text("50 minutes · begun, 1 of 5 questions right · you are here")
    expect(contents(learner).locator("li").nth(3)).to_contain_text("50 minutes · not begun")
    learner.enter("Front rail length", "14 3/8")
    expect(mine).to_contain_text("begun, 2 of 5 questions right")
    assert grave_faults(learner.page) == set()
    learner.choose_theme("JupyterLab Dark")
    assert grave_faults(learner.page, "color-contrast") == set()


def test_one_goes_on_in_the_lesson_and_at_the_place_where_one_stopped(learner):
    log = learner.lab.folder.parent / "lab.log"
    said = len(log.read_text())
    learner.open_lesson(TAPE)
    note_first = learner.lab.folder / PLACES / f"{TAPE}.json"
    learner.go_on_to(FRAME)
    noted = note_of(learner, FRAME, after=go_down_to(learner, "Cut it wrong, on paper"))
    assert not note_first.exists()  # it was only opened, not worked in
    since = log.read_text()[said:]  # Jupyter may list a kernel that just ends, and says so
    assert not re.search("Uncaught exception (?!GET /api/kernels)", since)
    open_again(learner)
    heading = learner.page.locator(NOTEBOOK).get_by_role("heading", name="Cut it wrong, on paper")
    expect(heading).to_be_in_viewport()
    open_now = {session["path"] for session in json.loads(learner.lab.answer("api/sessions"))}
    assert FRAME in open_now
    assert TAPE not in open_now
    learner.page.mouse.wheel(0, 20)  # and stays there when one comes back
    note_of(learner, FRAME, after=noted)
    learner.page.reload()
    learner.wait_until_run(FRAME)
    expect(heading).to_be_in_viewport()
    learner.go_on_to(TAPE)
    page = learner.page.locator(NOTEBOOK)
    page.get_by_role("link", name="lesson 02 · The frame of the bottom board").click()
    learner.wait_until_run(FRAME)
    expect(heading).to_be_in_viewport()
    expect(page.get_by_text("where you left off")).to_have_count(0)


def test_a_damaged_note_of_the_place_leads_to_the_top_of_its_lesson(learner):
    for lesson, note in ((TAPE, "[" * 200_000), (FRAME, '{"cell": "no such cell"}')):
        (learner.lab.folder / PLACES / f"{lesson}.json").write_text(note)
    open_again(learner)
    heads = learner.page.locator(NOTEBOOK)
    expect(heads.get_by_role("heading", name="02 · The frame")).to_be_in_viewport()
    learner.go_on_to(TAPE)
    expect(heads.get_by_role("heading", name="00 · Your hive")).to_be_in_viewport()


def test_a_folder_that_can_not_be_written_into_costs_no_more_than_the_place(learner):
    shutil.rmtree(learner.lab.folder / PLACES)
    (learner.lab.folder / PLACES).write_text("in the way")
    learner.open_lesson(FRAME)
    go_down_to(learner, "The side rails")
    learner.page.wait_for_url(re.compile("#cell-id="))
    learner.enter("Side rail length", "21 5/8")
    expect(beside(learner, "Side rail length")).to_contain_text("Right")
    show_contents(learner)


def a_walk_leads_to_the_exercise_that_practises_it(learner: Learner) -> None:
    page = learner.page
    page.locator(NOTEBOOK).get_by_role("link", name="exercise 02-03", exact=True).first.click()
    learner.wait_until_run("exercises/02-the-frame-of-the-bottom-board.ipynb")
    heading = page.locator(NOTEBOOK).get_by_role("heading", name=re.compile("^02-03 ·"))
    expect(heading).to_be_in_viewport()


def the_glossary_is_shown_to_read_and_leads_back(learner: Learner) -> None:
    learner.page.locator(NOTEBOOK).get_by_role("link", name="panel", exact=True).first.click()
    read = learner.page.locator(".jp-MarkdownViewer:visible")
    expect(read.get_by_role("heading", name="panel", exact=True)).to_be_in_viewport()
    expect(learner.page.locator(".jp-FileEditor:visible")).to_have_count(0)
    expect(learner.page.get_by_role("button", name="Projector")).to_have_count(0)  # no lesson
    learner.page.get_by_role("button", name="Back to the lesson").click()
    expect(learner.page.locator(NOTEBOOK).get_by_role("heading", name="02 · The")).to_be_visible()


# ── what runs by itself ───────────────────────────────────────────────────────────────────────

TRICKY = [
    "", "show(2)", 'say("\\n")\n\ttab', "¾ in × 蜂 🐝", "\x00\x1b\x7f\x80\u2028\ufeff",
    "a/b </script>",
]  # fmt: skip


def test_the_page_knows_cells_by_the_digest_that_the_manifest_has(learner):
    cells = [("markdown" if n % 2 else "code", source) for n, source in enumerate(TRICKY)]
    notebook = {"cells": [{"cell_type": kind, "source": source} for kind, source in cells]}
    assert (EXTENSIONS / EXTENSION / "page" / "src" / "given.js").exists()
    module = f"/lab/extensions/{EXTENSION}/page/src/given.js"
    learner.page.goto(f"http://127.0.0.1:{learner.lab.port}{module}?token={learner.lab.token}")
    digest = learner.page.evaluate(
        f"async cells => (await import('{module}')).digest(cells)", cells
    )
    assert digest == prints("00.ipynb", json.dumps(notebook).encode()).work


def test_what_the_course_did_not_give_runs_at_a_press_only(learner):
    """Not a notebook that was sent, nor a lesson that was changed; one that was only run does."""
    written = learner.lab.folder / "written"
    sent = learner.lab.folder / "exercises" / "zz-sent-by-somebody.ipynb"
    sent.write_text(notebook_text(f"open({str(written)!r}, 'w').close()"))
    learner.open_lesson(TAPE)
    learner.page.evaluate("window.jupyterapp.commands.execute('docmanager:save')")
    learner.lab.close_sessions()
    learner.open_lesson(TAPE)  # by itself
    changed = learner.lab.folder / TAPE
    lesson = json.loads(changed.read_bytes())
    lesson["cells"] += json.loads(sent.read_bytes())["cells"]
    changed.write_text(json.dumps(lesson))
    learner.lab.close_sessions()
    learner.page.goto(learner.address(TAPE))
    check_that_it_waits(learner, written)
    name = sent.relative_to(learner.lab.folder).as_posix()
    learner.page.evaluate(OPEN, name)
    learner.wait_for(f"name => {NOW}?.context?.path === name", name)
    check_that_it_waits(learner, written)


def check_that_it_waits(learner: Learner, written: Path) -> None:
    page = learner.page.locator(NOTEBOOK)
    expect(page.get_by_text("This notebook is changed or not from the course")).to_be_visible()
    learner.wait_for(f"{KERNEL}?.connectionStatus === 'connected'")
    learner.wait_idle()
    assert not written.exists()
    page.get_by_role("button", name="Run it", exact=True).click()
    learner.wait_for(IS_ALIVE)
    learner.wait_idle()
    assert written.exists()
    written.unlink()


def test_an_error_that_jupyter_hides_from_the_learner_is_found(learner):
    """The check of the checks: an error in what a field calls is shown nowhere on the page."""
    failing = "field.observe(lambda change: int(change.new), 'value')"
    text = "field = ipywidgets.Text(description='Width', continuous_update=False)"
    failing_one = learner.lab.folder / "workbook" / "failing.ipynb"
    failing_one.write_text(notebook_text(f"import ipywidgets\n{text}\n{failing}\nfield"))
    learner.open_lesson("workbook/failing.ipynb", press=True)
    learner.enter("Width", "wide")
    assert learner.errors == ["ValueError: invalid literal for int() with base 10: 'wide'"]
    learner.errors.clear()
