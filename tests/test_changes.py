"""What a changed measurement changes, and why: rows against a hand calculation, steps added up.

Old and new values are worked out a second way in `by_hand`; the numbers of every step are added up
here as they stand in its text, once as they are now and once as they were.
"""

import re
from fractions import Fraction
from html import unescape

import pytest

from hivecalc.components import DIMENSIONS, built
from hivecalc.derivation import title
from hivecalc.hive import Hive, changed, demo_hive, hive_from_text
from hivecalc.length import length_from_text
from hivecalc.pages import outcomes
from hivecalc.pages.views import VIEWS
from tests.by_hand import by_hand
from tests.hives import HIVES

CHANGES = [
    ("orchard", "stud_thickness", "1 9/16"), ("orchard", "hive_length", "22 7/8"),
    ("orchard", "strip_narrow", "7/16"), ("orchard", "overhang", "3"),
    ("sleeved", "foam_thickness", "1 1/8"), ("eight-frame", "frames", "10"),
    ("eight-frame", "board_thickness", "5/8"),
]  # fmt: skip


def follows(hive: Hive, name: str, text: str, view: str = "plan") -> str:
    return outcomes.planned_anew(hive, name, text, view).follows


def lines(html: str) -> list[str]:
    """Return the HTML of each line about a dimension that changes."""
    return re.findall(r"<details>(.*?)</details>", html, re.DOTALL)


def plain(html: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", "", html)).split())


def told(line: str) -> tuple[str, str, str]:
    """Return what a line says: the component and the name, the old and the new value."""
    name, was, now = (plain(s) for s in re.findall(r"<span>(.*?)</span>", line))
    return name.removesuffix(" why"), was.removeprefix("was "), now.removeprefix("now ")


def differing(hive: Hive, now: Hive) -> dict[str, tuple[Fraction, Fraction]]:
    """Return what the hand calculation finds changed of what is built, by the name shown."""
    old, new = (by_hand(h.measurements) for h in (hive, now))
    names = (n for n in old if n not in hive.measurements and old[n] != new[n])
    dimensions = (DIMENSIONS.dimension(n) for n in names)
    return {
        f"{d.component.replace('_', ' ')}: {d.title}": (old[d.name], new[d.name])
        for d in dimensions
        if d.component in built(hive)
    }


def length_of(text: str) -> Fraction:
    """Return the length that a text says, less than nothing behind a minus sign."""
    return -length_from_text(text[1:]) if text.startswith("−") else length_from_text(text)


@pytest.mark.parametrize(("hive", "name", "text"), CHANGES)
def test_a_line_for_each_dimension_that_changes_by_hand(hive, name, text):
    before = hive_from_text(HIVES[hive])
    expected = differing(before, changed(before, {name: text}))
    found = {name: values for name, *values in map(told, lines(follows(before, name, text)))}
    assert found.keys() == expected.keys()
    exact = [(n, i) for n in found for i in (0, 1) if re.fullmatch(r"[^≈,]+ (in|mm)", found[n][i])]
    assert len(exact) > 0.9 * len(found)
    assert all(length_of(found[n][i]) == expected[n][i] for n, i in exact)


# ── the steps ──────────────────────────────────────────────────────────────────────────────────


def step(line: str) -> tuple[str, str, str, str]:
    """Return the step under a line: the name, the numbers, the new and the old value."""
    ((_, numbers),) = re.findall(r"<p>= (.*?)<br>= (.*?)<br>", line)
    name, was, new = told(line)
    return name, plain(numbers), new, was


def worth(numbers: str) -> Fraction:
    """Return what a sum of lengths, written as a builder does, comes to."""
    text = re.sub(r"(\d+) (\d+)/(\d+)", r"(\1 + \2/\3)", numbers)
    text = re.sub(r"(\d+(?:\.\d+)?)", r"Fraction('\1')", text)
    text = text.translate({ord("−"): "-", ord("×"): "*", ord("÷"): "/"})
    return Fraction(eval(text, {"Fraction": Fraction}))  # noqa: S307 - our own numbers and signs


@pytest.mark.parametrize(("hive", "name", "text"), CHANGES)
def test_every_step_adds_up_as_it_is_and_as_it_was(hive, name, text):
    found = follows(hive_from_text(HIVES[hive]), name, text)
    assert f"Here the new {title(name)} comes in." in found
    sums = []
    for shown, numbers, new, was in map(step, lines(found)):
        assert "(was " in numbers, shown
        sums.append((re.sub(r" \(was [^)]*\)", "", numbers), new))
        sums.append((re.sub(r"(?:≈ )?(?:\d+ )?[\d./]+ \(was ([^)]*)\)", r"(\1)", numbers), was))
    exact = [(n, value) for n, value in sums if not re.search("≈|larger|smaller", n + value)]
    assert len(exact) > 0.4 * len(sums)
    for numbers, value in exact:
        assert worth(numbers) == length_of(value), numbers


def test_the_component_that_is_looked_at_stands_first():
    found = [told(line)[0] for line in lines(follows(demo_hive(), "stud_thickness", "2", "roof"))]
    components = list(dict.fromkeys(name.partition(":")[0] for name in found))
    assert components == ["roof", "bottom board", "inner cover"]


def test_what_is_not_in_the_picture_is_folded_away_and_counted():
    html = follows(demo_hive(), "stud_thickness", "2", "roof")
    shown, folded = html.split('<details class="hc-others">')
    assert {told(line)[0].partition(":")[0] for line in lines(shown)} == {"roof"}
    assert f"{len(lines(folded))} more in other parts of the hive" in folded


def test_two_values_that_are_rounded_alike_are_told_apart():
    # By hand: over a stud of 1 1/2 the slope of 2 in 23 5/8 takes 0.1270 in off, of 1 9/16 0.1323.
    thicker = lines(follows(demo_hive(), "stud_thickness", "1 9/16", "roof"))
    found = {name: values for name, *values in map(told, thicker)}
    assert found["roof: rim front inner height"] == ["≈ 3 3/8 in", "≈ 3 3/8 in, a hair less"]


def test_a_change_that_reaches_no_piece_says_so():
    assert "No piece changes." in follows(demo_hive(), "joint_depth", "3/8")


@pytest.mark.parametrize("view", sorted(VIEWS))
def test_lines_open_without_a_program(view):
    seen, text = ("foam_thickness", "15/16") if view == "box" else ("stud_thickness", "1 9/16")
    hive = hive_from_text("[chosen]\nframes = 10") if view == "box" else demo_hive()
    html = follows(hive, seen, text, view)
    others = html.count('<details class="hc-others">')
    assert others == 1
    assert html.count("<details>") == html.count("<summary>") - others > 20
    assert html.count("</details>") == html.count("<summary>")
    assert not re.search(r"<script|\son\w+=|href=", html)


def test_a_wrong_cut_leads_to_how_its_size_is_derived():
    html = outcomes.wrong_cut(demo_hive(), "bottom_board.front_rail_length", "15 7/8").follows
    opened = plain(html.partition("How front rail length is worked out</summary>")[2])
    assert "= 17 3/8 − 2 × 1 1/2 = 14 3/8 in" in opened  # 17 3/8 less two studs, by hand
