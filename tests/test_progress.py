"""A learner's progress: slips counted, what comes back when and why, and a page that does no harm.

The days that are expected were counted on a calendar.
"""

import re
import xml.etree.ElementTree as ET
from datetime import date, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hivecalc.answers import Answer
from hivecalc.judging import SLIPS
from hivecalc.pages.progress import DAYS, Progress, SlipMade, asked_title, progress, progress_html

PANEL, SCREEN = "bottom_board.panel_width", "bottom_board.screen_width"
EAST = timezone(timedelta(hours=13))
MONDAY = date(2026, 5, 4)


def answered(day: int, asked: str = PANEL, verdict: str = "right", *slips: str) -> Answer:
    """An answer on a day of May 2026."""
    return Answer(asked, "14", verdict, slips, datetime(2026, 5, day, 9, tzinfo=EAST))


def slipped(day: int, *slips: str, asked: str = PANEL) -> Answer:
    return answered(day, asked, "slip", *slips)


def only(found: Progress) -> SlipMade:
    [slip] = found.slips
    return slip


# ── counting ──────────────────────────────────────────────────────────────────────────────────


def test_slips_are_counted_with_the_last_day_and_place():
    found = progress(
        [slipped(4, "gap_added"), slipped(5, "gap_added", "carry_dropped", asked=SCREEN),
         answered(5, "roof.lap", "unexplained"), answered(6, "roof.lap", "unreadable")],
        date(2026, 5, 6),
    )  # fmt: skip
    gap, carry = (next(s for s in found.slips if s.name == n) for n in ("gap_added",
                                                                     "carry_dropped"))  # fmt: skip
    assert (gap.times, gap.alone, gap.last, gap.asked) == (2, 1, date(2026, 5, 5), SCREEN)
    assert (carry.times, carry.alone) == (1, 0)
    assert (found.answers, found.days, found.unexplained, found.unreadable) == (4, 3, 1, 1)
    assert found.not_right == (PANEL, SCREEN, "roof.lap")


def test_a_day_is_the_learners_own():
    late = Answer(PANEL, "14", "slip", ("gap_added",), datetime(2026, 5, 4, 0, 30, tzinfo=EAST))
    assert only(progress([late], MONDAY)).last == MONDAY  # in UTC it is Sunday still


@pytest.mark.parametrize("verdict", ["right", "right_carried"])
def test_what_is_right_in_the_end_is_not_listed_as_wrong(verdict):
    told = [slipped(4, "gap_added"), answered(4, PANEL, verdict)]
    assert progress(told, MONDAY).not_right == ()


# ── when a slip comes back ────────────────────────────────────────────────────────────────────


def test_a_slip_comes_back_after_1_3_7_14_and_30_days():
    found, day = [slipped(4, "gap_added")], MONDAY
    for days, due in zip((1, 3, 7, 14, 30), ("05-05", "05-08", "05-15", "05-29", "06-28"),
                         strict=True):  # fmt: skip
        assert str(only(progress(found, day)).due) == f"2026-{due}"
        day += timedelta(days)
        assert progress(found, day - timedelta(1)).next == ()
        assert [n.asked for n in progress(found, day).next] == [PANEL]
        when = datetime(day.year, day.month, day.day, 9, tzinfo=EAST)
        found.append(Answer(PANEL, "14 1/8", "right", (), when))
    done = only(progress(found, day))
    assert (done.due, done.right_since, done.step) == (None, 5, 5)
    assert progress(found, day + timedelta(900)).next == ()


# What was answered after a slip on the 4th, and what the slip has then: times, right since, step.
SINCE = [
    ([answered(4), answered(4)], (1, 2, 0), "05-05"),  # before the day it is practice and no step
    ([answered(5), answered(8), slipped(9, "gap_added")], (2, 0, 0), "05-10"),  # it starts again
    ([answered(5, SCREEN)], (1, 0, 0), "05-05"),  # something else is no practice
    ([answered(5, "03-tray")], (1, 1, 1), "05-08"),  # an exercise that practises it is
]


@pytest.mark.parametrize(("since", "has", "due"), SINCE)
def test_what_counts_as_practice_of_a_slip(since, has, due):
    exercises = {"gap_added": ["03-drawer", "03-tray"]}
    found = only(progress([slipped(4, "gap_added"), *since], MONDAY, exercises))
    assert (found.times, found.right_since, found.step) == has
    assert str(found.due) == f"2026-{due}"


def test_the_exercise_done_longest_ago_and_the_least_practised_slip_come_first():
    exercises = {"gap_added": ["03-drawer", "03-tray"]}
    told = [slipped(4, "gap_added", asked="03-drawer"), answered(5, "03-tray"),
            answered(8, "03-drawer")]  # fmt: skip
    assert [n.asked for n in progress(told, date(2026, 5, 30), exercises).next] == ["03-tray"]
    told = [
        slipped(1, "gap_added", asked="a"), answered(2, "a"),  # a step on, due on the 5th
        slipped(2, "carry_dropped", asked="b"), answered(2, "b"),  # practised, due on the 3rd
        slipped(3, "wrong_inch", asked="c"),  # never right since, due on the 4th
        slipped(2, "tick_off", asked="d"),  # never right since, due on the 3rd
    ]  # fmt: skip
    found = progress(told, date(2026, 5, 9))
    assert [s.name for s in found.slips] == ["tick_off", "wrong_inch", "carry_dropped", "gap_added"]
    assert [n.asked for n in found.next] == ["d", "c", "b"]


def test_why_is_said_with_the_counts():
    told = [slipped(4, "gap_added"), slipped(5, "gap_added")]
    [following] = progress(told, date(2026, 5, 7)).next
    assert following.why == ("This slip gives 2 of your answers (the last one 2 days ago). "
                             "You have not had it right since.")  # fmt: skip
    assert following.practice == SLIPS["gap_added"].to_practise()
    [later] = progress([slipped(4, "gap_added"), answered(4)], date(2026, 5, 5)).next
    assert later.why == ("This slip gives one of your answers (yesterday). You have had it right "
                         "once since; it comes back so that it stays right.")  # fmt: skip


ANSWERS = st.builds(
    Answer,
    st.sampled_from(["a", "b", PANEL]),
    st.just("14"),
    st.sampled_from(["right", "slip", "unexplained", "unreadable"]),
    st.lists(st.sampled_from(["gap_added", "tick_off", "?"]), max_size=3, unique=True).map(tuple),
    st.datetimes(datetime(2020, 1, 1), datetime(2030, 1, 1), timezones=st.just(EAST)),  # noqa: DTZ001 - the zone comes beside it
)


@given(st.lists(ANSWERS, max_size=20), st.dates(date(2019, 1, 1), date(2031, 1, 1)))
def test_in_any_order_of_answers_the_counts_hold(told, today):
    found = progress(told, today, {"gap_added": ["b"]})
    assert found.answers == len(told)
    for slip in found.slips:
        named = [a for a in told if slip.name in a.slips]
        assert (slip.times, slip.last) == (len(named), named[-1].when.date())
        assert slip.alone == sum(a.slips == (slip.name,) for a in named)
        assert 0 <= slip.step <= slip.right_since
        assert (slip.due is None) == (slip.step == len(DAYS))
        assert slip.due is None or slip.due > slip.last
    assert all(n.slip.due <= today for n in found.next)
    assert len(found.next) == min(3, sum(s.due is not None and s.due <= today for s in found.slips))
    ET.fromstring(f"<div>{progress_html(found).replace('<br>', '<br/>')}</div>")


# ── the page ──────────────────────────────────────────────────────────────────────────────────


def page(told: list[Answer], today: date = date(2026, 5, 7), titles=None) -> str:
    """The page, without what its cells tell a narrow screen."""
    return re.sub(r"<td [^>]*>", "<td>", progress_html(progress(told, today), titles))


def test_the_page_says_what_to_do_next_and_why():
    html = page([slipped(4, "gap_added"), slipped(5, "gap_added", "wrong_inch")])
    for part in ("2 answers of yours on 2 days", "What to do next", "bottom board: panel width",
                 "(gap added)", "(the last one 2 days ago)", "To warm up: A tray",
                 "<td>gap added</td><td>2</td><td>1</td><td>2 days ago</td><td>never</td>",
                 "<td>now</td>", "3, 7, 14 and 30 days"):  # fmt: skip
        assert part in html
    assert "it gives no mark" in html
    assert "%" not in html


MENDED = [slipped(4, "gap_added"), answered(5), answered(8)]  # right after 1 and 3 days: then 7
# What was answered, the day of May, what the page says, what it does not say.
PAGES = [
    ([slipped(6, "gap_added")], 6,
     ("No slip comes back today. The next one comes back tomorrow.", "<td>tomorrow</td>"),
     "(gap added)"),
    ([answered(4), answered(5, "roof.lap", "unexplained")], 7,
     ("No slip has given an answer of yours.", "1 wrong answer that no known slip gives.",
      "Not right yet, when you last answered: roof: lap."), "(gap added)"),
    ([slipped(4, "gap_added", asked="03-2")], 7, ("<b>A drawer &amp; its gap</b>",), "03-2"),
    (MENDED, 10, ("<td>in 5 days</td>", "The next one comes back in 5 days."), "today</td>"),
]  # fmt: skip


@pytest.mark.parametrize(("told", "day", "says", "not_said"), PAGES)
def test_the_page_says_what_comes_back_and_when_by_titles(told, day, says, not_said):
    html = page(told, date(2026, 5, day), {"03-2": "A drawer & its gap"})
    assert [text for text in says if text not in html] == []
    assert not_said not in html
    assert asked_title("inner_cover.rim_side_length") == "inner cover: rim side length"


@pytest.mark.parametrize("text", ["<script>alert(1)</script>", "\x1b[31m\u202e", "x" * 5000])
def test_what_somebody_wrote_into_the_file_does_no_harm(text):
    html = page([slipped(4, text, asked=text), answered(5, text, "unexplained")])
    assert "<script" not in html
    assert html.isprintable()
    assert len(html) < 4000
    ET.fromstring(f"<div>{html.replace('<br>', '<br/>')}</div>")
