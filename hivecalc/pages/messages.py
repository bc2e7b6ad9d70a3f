"""Messages beside a field, tables, and the line at the top of a lesson.

Whatever a learner typed is escaped here. Colours come second: every message has its sign and word.
"""

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from html import escape
from pathlib import Path, PurePath
from typing import Final, Literal, TypeAlias

from hivecalc.components import DIMENSIONS, in_use, values
from hivecalc.derivation import title
from hivecalc.hive import BOX_SIZES, HIVE_SIZES, MEASUREMENTS, Fault, Hive, HiveFaults, demo_hive
from hivecalc.hive.hive import said_with_unit
from hivecalc.judging import Verdict, doubt, plain
from hivecalc.length import (
    MILLIMETRE,
    SIXTEENTH,
    SIXTY_FOURTH,
    TENTH_MM,
    UNITS,
    Grid,
    Units,
    length_from_text,
    shown,
    with_unit,
    written,
)
from hivecalc.measuring import STRAIGHT_ENOUGH
from hivecalc.reports.sizes import other
from hivecalc.support.faults import sentence

Tone: TypeAlias = Literal["right", "wrong", "note"]

CSS: Final = Path(__file__).with_name("lesson.css").read_text(encoding="utf-8")
STYLE: Final = f"<style>\n{CSS}</style>"
MOST_COLUMNS: Final = 5
"""A table of more is too wide for a phone."""
MOST_FAULTS: Final = 5
LONG: Final = Fraction(48)
"""Longer tapes have sixteenths at best: common practice, no published source."""
SIGNS: dict[Tone, str] = {"right": "✓", "wrong": "✗", "note": "•"}


@dataclass(frozen=True)
class Outcome:
    """What is shown after an entry, all of it HTML: a message, a picture, what follows.

    What follows may be worked out when it is asked for: a slider that moves does not wait for it.
    """

    message: str
    picture: str
    then: str | Callable[[], str] = ""

    @property
    def follows(self) -> str:
        """What follows, as HTML."""
        return self.then() if callable(self.then) else self.then


def message(tone: Tone, *sentences: str) -> str:
    """A message beside a field: its sign, then each sentence in a line of its own.

    >>> message("wrong", "23 x is no length.")
    '<div class="hc hc-wrong" role="alert"><p>✗ 23 x is no length.</p></div>'

    `role` makes a screen reader say it: at once where it is wrong, else when there is time. Nothing
    where there is nothing to say.
    """
    role = "alert" if tone == "wrong" else "status"
    lines = "".join(f"<p>{SIGNS[tone]} {escape(s)}</p>" for s in sentences if s)
    return f'<div class="hc hc-{tone}" role="{role}">{lines}</div>' if lines else ""


def picture(svg: str, caption: str = "") -> str:
    """A picture in its own box, with its caption; nothing where there is none."""
    below = f'<p class="hc">{escape(caption)}</p>' if caption else ""
    return f'<figure style="margin:0;overflow-x:auto">{svg}{below}</figure>' if svg else ""


def wide_picture(svg: str) -> str:
    """A picture in a box of its own, among words.

    Where the page is narrow, the picture is moved, and no words are cut off.
    """
    return f'<figure style="margin:0;overflow-x:auto;contain:inline-size">{svg}</figure>'


def folded(summary: str, inner: str, *, unfolded: bool = False) -> str:
    """HTML that shows a line, and the rest when somebody presses it."""
    state = " open" if unfolded else ""
    return f'<details class="hc"{state}><summary>{escape(summary)}</summary>{inner}</details>'


def table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A table of plain texts, if there are any; a long row is a list where the page is narrow.

    >>> table(["piece"], [["<rail>"]])
    '<div class="hc"><table><tr><th>piece</th></tr><tr><td>&lt;rail&gt;</td></tr></table></div>'
    """
    top = "".join(f"<th>{escape(h)}</th>" for h in head)
    kind = ' class="hc-wide"' if len(head) > MOST_COLUMNS else ""
    names = [f' data-head="{escape(h)}: "' if h and kind else "" for h in head]
    cells = ("".join(map("<td{}>{}</td>".format, names, map(escape, row))) for row in rows)
    body = "".join(f"<tr>{row}</tr>" for row in cells)
    return f'<div class="hc"><table{kind}><tr>{top}</tr>{body}</table></div>' if body else ""


def echo(length: Fraction, units: Units, *, tenths: bool = False) -> str:
    """A length as exactly as a tape shows it, and in the other unit; in mm by `tenths` if asked so.

    >>> echo(Fraction(185, 8), "inch"), echo(Fraction(1, 64), "inch")
    ('23 1/8 in (≈ 587 mm)', '1/64 in (≈ 0.4 mm)')
    >>> echo(Fraction(125, 127), "inch"), echo(Fraction(125, 127), "mm")
    ('≈ 63/64 in (25 mm)', '25 mm (≈ 63/64 in)')

    >>> echo(Fraction(1), "inch", tenths=True)
    '1 in (25.4 mm)'
    >>> echo(Fraction(15000, 127), "mm")
    '3000 mm (≈ 118 1/8 in)'

    The other unit is rounded on a grid as fine as the length itself, 25 mm is never about 1 in; but
    a long tape has sixteenths at best.
    """
    grid = TENTH_MM if tenths and units == "inch" else _as_fine(length, other(units))
    texts = [with_unit(units, length), shown(length, grid=grid)]
    first, *second = [text for text in texts if not (length and text.startswith("≈ 0 "))] or texts
    return f"{first} ({second[0]})" if second else first


def echo_of(name: str, value: Fraction, units: Units) -> str:
    """The value of a measurement in words: a length in both units, a count, yes or no."""
    kind = MEASUREMENTS[name].kind
    return echo(value, units) if kind == "length" else said_with_unit(value, units, kind)


def _as_fine(length: Fraction, units: Units) -> Grid:
    """The grid of a unit that is at least as fine as the marks that a length lies on."""
    on_tape = (length / SIXTEENTH.step).denominator == 1
    on_rule = (length / MILLIMETRE.step).denominator == 1
    if units == "mm":
        return MILLIMETRE if on_tape or on_rule else TENTH_MM
    return SIXTEENTH if on_tape or length > LONG else SIXTY_FOURTH


def heading(hive: Hive, *, demo: bool, place: str, page: str = "") -> str:
    """The line at the top of a lesson: whose hive this is, and where it is kept.

    `page` is the name of the notebook it stands in, which shows the cells of the unit marked here.
    """
    if demo:
        here = PurePath(page).name.startswith("00")
        where = "further down, under “Your own figures”" if here else "in lesson 00"
        texts = [
            f"You see the demo hive, “{hive.name}”, of an invented orchard course.",
            f"Enter your own measurements {where}; they are kept in {place}.",
        ]
    else:
        still = [
            f"The {title(n)} is still the demo's, {shown(v, hive.units)}: measure yours."
            for units in UNITS
            for n, v in demo_hive(units).measured.items()
            if hive.measured.get(n) == v
        ]
        texts = [f"Your hive: “{hive.name}”, kept in {place}.", *still]
    return f'<div data-units="{hive.units}">{message("note", *texts)}</div>'


def on_this_page(hive: Hive, frames: int) -> str:
    """What is said where a lesson needs a box: whether it is the learner's, or made from frames."""
    if "frames" in hive.chosen:
        return ""
    if BOX_SIZES[0] not in hive.measured:
        return message(
            "note", f"On this page the box is made from {frames} frames, with your own stock."
        )
    box = with_unit(hive.units, *(hive.measured[n] for n in BOX_SIZES))
    yours = f"Pictures, sleeve and figures on this page are for your own box, {box}."
    asked = f"The questions about the box itself are for one of {frames} frames: yours is built."
    return message("note", yours, asked)


def meaning(name: str, hive: Hive) -> str:
    """What a measurement means, as it is said beside its field before anything was typed."""
    known, given = MEASUREMENTS[name], {**hive.measured, **hive.chosen}
    usual = f"Not {known.group} yet: this is the usual size. If yours is the same, press Enter."
    more = [usual] if known.defaults[hive.units] is not None else []
    if name in HIVE_SIZES:
        more = ["Worked out from your box and its sleeve: see lesson 07."]
    return message("note", known.meaning, *([] if name in given else more))


def kept(name: str, hive: Hive, typed: str = "") -> str:
    """What is said when a measurement was read and saved, and what makes it doubtful."""
    if name not in hive.measured and name not in hive.chosen:
        now = echo_of(name, in_use(hive, name), hive.units)
        return message("right", f"Yours is taken out. In use now: {now}.")
    saved = f"Saved: {plain(name)} {echo_of(name, in_use(hive, name), hive.units)}."
    return message("right", saved) + message("note", _doubt(name, hive, typed))


def _doubt(name: str, hive: Hive, typed: str) -> str:
    """The question that a size gives rise to, as it was typed or beside the other readings."""
    if MEASUREMENTS[name].kind != "length":
        return ""
    size, units = hive.measurements[name], hive.units
    readings = [reading for reading in hive.readings.get(name, ()) if reading is not None]
    asked = doubt(name, typed or written(size, units).removeprefix("≈ "), units, readings)
    if asked or not readings or abs(max(readings) - size) <= STRAIGHT_ENOUGH:
        return asked
    largest = with_unit(units, max(readings))
    return f"The largest of your readings is {largest}. Which of the two is right?"


def sleeved(hive: Hive) -> str:
    """What is said when the hive was made of a box and its sleeve: what its size becomes."""
    return message("right", f"Saved. In its sleeve your hive is {_size_of(hive)}.")


def replaces(before: Hive, box: Hive) -> str:
    """What is asked before a box in its sleeve takes the place of a size that was given."""
    return message(
        "note",
        f"Your hive is {_size_of(before)}. This box in its sleeve makes it {_size_of(box)}.",
        "The old size is set aside, and “Back to the size before” brings it back.",
        "Press again to replace it.",
    )


def gone_back(hive: Hive) -> str:
    """What is said when the size that was set aside has come back."""
    text = f"Your hive is {_size_of(hive)} again."
    return message("right", text, "The size that it had until now is set aside.")


def _size_of(hive: Hive) -> str:
    sizes = values(hive)
    length, width = (echo(sizes[n], hive.units) for n in HIVE_SIZES)
    return f"{length} long and {width} wide"


UNIT_LEFT_OUT: Final = {
    ("millimetres", "mm"): r"(?:^|: )([\d.]+) in is too large; give (.+? in) to (.+? in)",
    ("centimetres", "cm"): r"(?:^|: )([\d.]+) mm is too small; give (.+? mm) to (.+? mm)",
}
"""Units that a number without one may be in, and what is then wrong with it: number and limits."""


def _fits(text: str, *limits: str) -> bool:
    """Whether a length lies within two others."""
    low, high = map(length_from_text, limits)
    return low <= length_from_text(text) <= high


def refused(error: Exception, name: str = "", hive: Hive | None = None) -> str:
    """What is said where an entry can't be used: each fault, and what stays in use instead.

    `name` is the measurement that the field is for, which is then not named.
    """
    lines = (str(error) or type(error).__name__).split("\n")
    if isinstance(error, HiveFaults):
        lines = [_plain(fault, name) for fault in error.faults]
    for (unit, sign), likely in UNIT_LEFT_OUT.items():
        found = [match.groups() for match in (re.search(likely, fault) for fault in lines) if match]
        if any(_fits(f"{number} {sign}", low, high) for number, low, high in found):
            lines.append(f"Is it in {unit}? Then write {sign} behind the number.")
    if hive and name in hive.measurements:
        now = said_with_unit(hive.measurements[name], hive.units, MEASUREMENTS[name].kind)
        lines.append(f"Still in use: {now}.")
    return message("wrong", *map(sentence, lines[:MOST_FAULTS]))


def _plain(fault: Fault, name: str) -> str:
    """A fault as it stands beside a field: no file and no switch, and a size by its title.

    >>> _plain(Fault("my-hive.toml, [measured] hive_length", "hive_width is given", "x"), "frames")
    'hive length: hive width is given; x.'
    """
    place = fault.place.rpartition(" ")[2]
    place = place if place in MEASUREMENTS else fault.place
    about = "" if place == name else f"{place}: "
    text = f"{about}{fault.found}; {fault.accepted}."
    known = {**MEASUREMENTS, **DIMENSIONS.dimensions}
    names = r"(?:[a-z_]+\.)?[a-z]+_\w+"
    return re.sub(names, lambda m: title(m[0]) if m[0] in known else m[0], text)


def verdict_message(verdict: Verdict) -> str:
    """The verdict on an answer, beside its field: what it is, and then what to look at."""
    text = message("right" if verdict.right else "wrong", verdict.message)
    return text + message("note", verdict.tells_apart, verdict.question)
