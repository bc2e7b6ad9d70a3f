"""Pictures that ask: what was measured stands on them, what is to be worked out does not."""

import re

import pytest

from hivecalc.components import values
from hivecalc.drawing.bottom_board import plan_to_work_out, section_to_work_out, stack_to_work_out
from hivecalc.drawing.exploded import inner_cover_to_work_out
from hivecalc.drawing.roof import roof_section_to_work_out
from hivecalc.hive import changed, demo_hive, hive_from_text
from hivecalc.length import length_from_text, written

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


# A piece as somebody answered it: the picture, the dimension, the answer, what is said of it.
ANSWERED = [
    (plan_to_work_out, "bottom_board.front_rail_length", "15 7/8", "overlap ?: does not go"),
    (plan_to_work_out, "bottom_board.front_rail_length", "14", "gap ?: stays open"),
    (section_to_work_out, "bottom_board.panel_length", "20 5/8", "overlap ?: does not go"),
    (stack_to_work_out, "bottom_board.upper_runner_height", "3/4", "stands proud ?"),
    (stack_to_work_out, "bottom_board.front_rail_width", "3 1/4", "way in ?"),
    (roof_section_to_work_out, "roof.rim_side_length", "22 1/8", "gap ?: stays open"),
    (roof_section_to_work_out, "roof.cover_length", "28 5/8", "lip ?"),
    (inner_cover_to_work_out, "inner_cover.rim_back_length", "17 3/8", "stands out ?"),
    (inner_cover_to_work_out, "inner_cover.rim_front_length", "6 1/2", "notch ?"),
]


@pytest.mark.parametrize(("draw", "name", "answer", "told"), ANSWERED)
def test_an_answer_is_built_in_without_the_right_figure_and_the_amount(draw, name, answer, told):
    right, value = values(demo_hive()), length_from_text(answer)
    said = words(draw(right, values(demo_hive(), {name: value})))
    assert told in said
    for secret in (right[name], abs(value - right[name])):
        given = secret in demo_hive().measurements.values()
        assert given or f" {written(secret)} in" not in said, (secret, said)
    assert "should be" not in said
    assert "0.159" not in said  # how far the turned runner stands proud


def test_a_picture_that_asks_does_not_say_how_far_the_screen_stands_proud():
    thick = values(changed(demo_hive(), {"foam_thickness": "1 1/2", "front_stop_height": "1/4"}))
    assert thick["bottom_board.headroom"] < 0
    for draw in (section_to_work_out, stack_to_work_out):
        assert f"{written(-thick['bottom_board.headroom'])} in" not in words(draw(thick))
