"""Somebody new at a real browser: from a lesson's page to the first right chain, and what-ifs.

On the demo hive a side rail is 21 5/8 in long: 23 1/8 less one stud of 1 1/2.
"""

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser import Learner

pytestmark = pytest.mark.browser
FRAME = "workbook/02-the-frame-of-the-bottom-board.ipynb"
MOST_ACTIONS = 12
MOST_TABS = 60
RIGHT = "Your chain is right"
SAID = "You predicted: shorter by a finger or two"
PREDICTED = "shorter by a finger or two (up to 2 in)"
PRESSES = (PREDICTED, "one more: hive length", "one less: stud thickness", "Check my chain")


def button(page: Page, name: str) -> Locator:
    return page.get_by_role("button", name=name).first


def first_chain(learner: Learner, press: Callable[[Locator], None]) -> int:
    """Press what leads to the first right chain; how many presses that took comes back."""
    for name in PRESSES:
        press(button(learner.page, name))
        learner.wait_idle()
    expect(learner.page.get_by_text(RIGHT).first).to_be_visible()
    return len(PRESSES)


def test_lesson_02_as_a_newcomer_goes_through_it(learner):
    learner.open_lesson(FRAME)
    for step in (
        the_first_chain_is_built_by_keyboard_alone,
        it_is_there_on_another_day,
        on_the_wall_a_link_has_room_for_its_name,
        a_slider_changes_the_picture_and_one_press_goes_back,
        a_wrong_cut_is_built_in_and_one_press_goes_back,
    ):
        step(learner)


def the_first_chain_is_built_by_keyboard_alone(learner: Learner) -> None:
    tabs = 0

    def press(place: Locator) -> None:
        nonlocal tabs
        while not place.evaluate("node => node === document.activeElement"):
            learner.page.keyboard.press("Tab")
            tabs += 1
            assert tabs <= MOST_TABS, "Tab never reaches it"
        learner.page.keyboard.press("Space")

    assert first_chain(learner, press) <= MOST_ACTIONS
    learner.enter("Side rail length, by your chain", "21 5/8")
    expect(panel(learner, "Side rail length")).to_contain_text(SAID)


def panel(learner: Learner, label: str) -> Locator:
    """The panel that has the field with this label."""
    field = learner.page.get_by_label(label, exact=True)
    return learner.page.locator(".jp-OutputArea-output").filter(has=field)


def it_is_there_on_another_day(learner: Learner) -> None:
    learner.lab.close_sessions()
    learner.open_lesson(FRAME)
    walk = panel(learner, "Side rail length")
    expect(walk).to_contain_text(SAID)
    expect(walk.get_by_label("Side rail length, by your chain")).to_have_value("21 5/8")


def on_the_wall_a_link_has_room_for_its_name(learner: Learner) -> None:
    """Two lines at most: a name broken after every few letters can't be read from the last row."""
    page = learner.page
    learner.view(1280, 720)
    page.get_by_role("button", name="Projector").click()
    name = page.locator(".widget-box:has(> .hc-count) > .widget-html .hc").first
    for _ in range(MOST_TABS):
        if name.is_visible():
            break
        page.keyboard.press("PageDown")
    lines = "one => one.getBoundingClientRect().height / parseFloat(getComputedStyle(one).fontSize)"
    assert name.evaluate(lines) < 2 * 1.5
    page.keyboard.press("Escape")
    learner.view(1366, 768)


def a_slider_changes_the_picture_and_one_press_goes_back(learner: Learner) -> None:
    learner.page.get_by_role("button", name="Show all figures").click()
    learner.wait_idle()
    what_if = panel(learner, "What if this were different:")
    before = what_if.locator("svg[role=img]").inner_html()
    what_if.get_by_role("slider").focus()
    for _ in range(2):
        learner.page.keyboard.press("ArrowRight")
    learner.wait_idle()
    expect(what_if.get_by_label("New value")).to_have_value("1 5/8")
    expect(what_if.locator("svg[role=img]")).to_contain_text("was 1 1/2 in")
    what_if.get_by_role("button", name="pieces already cut").click()
    learner.wait_idle()
    expect(what_if.get_by_role("alert")).to_contain_text("1/8 in too long")
    assert what_if.locator(".hc-seen").bounding_box()["height"] <= 900
    what_if.get_by_role("button", name="Back to my hive").click()
    learner.wait_idle()
    expect(what_if.get_by_label("New value")).to_have_value("1 1/2")
    assert words(what_if.locator("svg[role=img]").inner_html()) == words(before)


def a_wrong_cut_is_built_in_and_one_press_goes_back(learner: Learner) -> None:
    trial = panel(learner, "This piece was cut wrong:")
    box = trial.get_by_label("New value", exact=True)
    box.fill("15 7/8")
    box.press("Enter")
    expect(trial.locator("svg[role=img]")).to_contain_text("overlap 1 1/2 in")
    expect(trial).to_contain_text("it runs 1 1/2 in into the right side rail")
    trial.get_by_role("button", name="Back to my hive").click()
    expect(trial.locator("svg[role=img]")).not_to_contain_text("overlap")
    expect(box).to_have_value("14 3/8")


def words(svg: str) -> list[str]:
    svg = re.sub(r"<style.*?</style>", "", svg)
    return [each.partition("<")[0] for each in svg.split(">") if each.partition("<")[0].strip()]
