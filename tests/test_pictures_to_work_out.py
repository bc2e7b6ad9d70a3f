"""Pictures that ask: what was measured stands on them, what is to be worked out does not."""

import re

import pytest

from hivecalc.components import values
from hivecalc.drawing.bottom_board import plan_to_work_out, section_to_work_out, stack_to_work_out
from hivecalc.hive import demo_hive, hive_from_text
from hivecalc.length import written

PICTURES = [plan_to_work_out, section_to_work_out, stack_to_work_out]
ODD = hive_from_text("""
    [measured]
    hive_length = "23 5/16"
    hive_width = "17 7/16"
    stud_thickness = "1 9/16"
    foam_thickness = "1 1/32"
    """)
ANSWERS = {
    plan_to_work_out: ["side_rail_length", "front_rail_length", "opening_length"],
    section_to_work_out: ["panel_length", "screen_length", "opening_length", "slot_height"],
    stack_to_work_out: ["headroom", "way_in", "slot_height"],
}


def words(svg: str) -> str:
    """What can be read or heard: texts, title and description."""
    return " ".join(re.findall(r">([^<]+)<", svg))


@pytest.mark.parametrize("draw", PICTURES)
def test_no_answer_is_on_a_picture_that_asks(draw):
    found = values(ODD)
    shown = words(draw(found))
    for name in ANSWERS[draw]:
        assert f" {written(found[f'bottom_board.{name}'])} in" not in shown
    assert "?" in shown


def test_what_was_measured_stands_on_it():
    assert "hive 23 1/8 in" in words(plan_to_work_out(values(demo_hive())))
    assert "foam panel 1 in" in words(stack_to_work_out(values(demo_hive())))
    assert "stud 1 1/2 in" in words(plan_to_work_out(values(demo_hive())))
