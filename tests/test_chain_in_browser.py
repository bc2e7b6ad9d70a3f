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


@pytest.mark.parametrize(
    ("width", "height", "zoom"), [(1366, 768, 1), (390, 844, 1), (1366, 768, 1.5)]
)
def test_a_newcomer_builds_the_first_chain_in_a_few_presses(
    learner: Learner, width: int, height: int, zoom: float
) -> None:
    learner.open_lesson(FRAME)
    learner.view(width, height, zoom)

    def press(place: Locator) -> None:
        place.scroll_into_view_if_needed()
        box = place.bounding_box()
        assert box is not None
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= width / zoom
        place.click()

    assert first_chain(learner, press) <= MOST_ACTIONS
    learner.enter("Side rail length, by your chain", "21 5/8")
    expect(learner.page.get_by_text("You predicted: shorter by a finger or two")).to_be_visible()


def test_the_same_by_keyboard_alone(learner: Learner) -> None:
    learner.open_lesson(FRAME)
    tabs = 0

    def press(place: Locator) -> None:
        nonlocal tabs
        while not place.evaluate("node => node === document.activeElement"):
            learner.page.keyboard.press("Tab")
            tabs += 1
            assert tabs <= MOST_TABS, "Tab never reaches it"
        learner.page.keyboard.press("Space")

    assert first_chain(learner, press) <= MOST_ACTIONS


def test_a_slider_changes_the_picture_while_it_moves_and_one_press_goes_back(
    learner: Learner,
) -> None:
    learner.open_lesson(FRAME)
    learner.page.get_by_role("button", name="Show all figures").click()
    learner.wait_idle()
    panel = learner.page.locator(".jp-OutputArea-output").filter(
        has=learner.page.get_by_label("What if this were different:")
    )
    before = panel.locator("svg[role=img]").inner_html()
    panel.get_by_role("slider").focus()
    for _ in range(2):
        learner.page.keyboard.press("ArrowRight")
    learner.wait_idle()
    expect(panel.get_by_label("New value")).to_have_value("1 5/8")
    expect(panel.locator("svg[role=img]")).to_contain_text("was 1 1/2 in")
    panel.get_by_role("button", name="pieces already cut").click()
    learner.wait_idle()
    expect(panel.get_by_role("alert")).to_contain_text("1/8 in too long")
    assert panel.locator(".hc-seen").bounding_box()["height"] <= 900
    panel.get_by_role("button", name="Back to my hive").click()
    learner.wait_idle()
    expect(panel.get_by_label("New value")).to_have_value("1 1/2")
    assert words(panel.locator("svg[role=img]").inner_html()) == words(before)


def words(svg: str) -> list[str]:
    svg = re.sub(r"<style.*?</style>", "", svg)
    return [each.partition("<")[0] for each in svg.split(">") if each.partition("<")[0].strip()]


def test_on_the_wall_the_class_votes_by_digit_keys(learner: Learner) -> None:
    learner.open_lesson(FRAME)
    button(learner.page, PREDICTED).scroll_into_view_if_needed()
    hands = learner.page.locator(".hc-vote:visible")
    expect(hands).to_have_count(0)
    learner.page.get_by_role("button", name="Projector").click()
    for _ in range(20):
        if hands.count():
            break
        learner.page.keyboard.press("ArrowRight")
    for key in ("3", "3", "1"):
        learner.page.keyboard.press(key)
        learner.wait_idle()
    assert [hand.inner_text() for hand in hands.all()] == ["1: 1", "2: 0", "3: 2", "4: 0", "5: 0"]
