"""Messages beside a field, tables, and the line at the top of a lesson.

Whatever a learner typed is escaped here. Colours come second: every message has its sign and word.
"""

import re
from collections.abc import Iterable, Sequence
from fractions import Fraction
from html import escape
from typing import Literal, TypeAlias

from hivecalc.components import values
from hivecalc.derivation import title
from hivecalc.hive import HIVE_SIZES, MEASUREMENTS, Fault, Hive, HiveFaults, demo_hive
from hivecalc.hive.texts import sentence
from hivecalc.judging import Verdict
from hivecalc.length import Rounding, Units, shown

Tone: TypeAlias = Literal["right", "wrong", "note"]

STYLE = """<style>
.hc { font-size: 1.05em; line-height: 1.5; max-width: 46em; overflow-wrap: anywhere;
  overflow-x: auto; }
.hc p { margin: .3em 0; }
.hc-right, .hc-wrong, .hc-note { padding: .2em .7em; border-left: .35em solid #0072B2; }
.hc-right { border-left-color: #009E73; }
.hc-wrong { border-left: .45em double #D55E00; }
.hc table { border-collapse: collapse; overflow-wrap: normal; margin: .4em 0; font-size: 1em; }
.hc th, .hc td { text-align: left; padding: .25em .8em .25em 0; vertical-align: top;
  border-bottom: 1px solid currentColor; white-space: normal; }
.hc ol { margin: .3em 0; padding-left: 1.6em; }
.hc-changes details { border-bottom: 1px solid currentColor; padding: .25em 0; }
.hc-changes summary { display: flex; flex-wrap: wrap; gap: 0 .8em; cursor: pointer; }
.hc-changes summary > span { flex: 1 1 15em; }
.hc-changes summary > span + span { flex: 0 1 18em; display: grid; grid-template-columns: 1fr 1fr; }
.jupyter-widgets .widget-label, .jupyter-widgets input, .jupyter-widgets select,
.jupyter-widgets.widget-button { font-size: 1.05em; }
.jupyter-widgets .widget-label { text-align: left; }
.jupyter-widgets input, .jupyter-widgets select { height: 2em; flex: 0 0 auto; }
.jupyter-widgets.widget-button { line-height: 2em; padding: 0 1em; }
</style>"""
SIGNS: dict[Tone, str] = {"right": "✓", "wrong": "✗", "note": "•"}


def message(tone: Tone, *sentences: str) -> str:
    """A message beside a field: its sign, then each sentence in a line of its own.

    >>> message("wrong", "23 x is no length.")
    '<div class="hc hc-wrong" role="alert"><p>✗ 23 x is no length.</p></div>'

    `role` makes a screen reader say it: at once where it is wrong, else when there is time.
    """
    role = "alert" if tone == "wrong" else "status"
    lines = "".join(f"<p>{SIGNS[tone]} {escape(s)}</p>" for s in sentences)
    return f'<div class="hc hc-{tone}" role="{role}">{lines}</div>'


def table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A table of plain texts.

    >>> table(["piece"], [["<rail>"]])
    '<div class="hc"><table><tr><th>piece</th></tr><tr><td>&lt;rail&gt;</td></tr></table></div>'
    """
    top = "".join(f"<th>{escape(h)}</th>" for h in head)
    body = "".join("<tr>" + "".join(f"<td>{escape(c)}</td>" for c in row) + "</tr>" for row in rows)
    return f'<div class="hc"><table><tr>{top}</tr>{body}</table></div>'


def both_units(length: Fraction, units: Units, rounding: Rounding = Rounding.NEAREST) -> str:
    """A length in the hive's own unit, and in the other one in brackets.

    >>> both_units(Fraction(185, 8), "inch")
    '23 1/8 in (≈ 587 mm)'
    """
    other: Units = "mm" if units == "inch" else "inch"
    return f"{shown(length, units, None, rounding)} ({shown(length, other, None, rounding)})"


def heading(hive: Hive, *, demo: bool, place: str) -> str:
    """The line at the top of a lesson: whose hive this is, and where it is kept.

    >>> from hivecalc.hive import demo_hive
    >>> "demo hive" in heading(demo_hive(), demo=True, place="my-hive.toml")
    True
    """
    if demo:
        return message(
            "note",
            f"You see the demo hive, “{hive.name}”, of an invented orchard course.",
            f"Enter your own measurements in lesson 00; they are kept in {place}.",
        )
    still = [
        f"The {title(n)} is still the demo's, {shown(v, hive.units)}: measure yours."
        for n, v in demo_hive().measured.items()
        if hive.measured.get(n) == v
    ]
    return message("note", f"Your hive: “{hive.name}”, kept in {place}.", *still)


def on_this_page(frames: int) -> str:
    """What is said where a lesson takes a box of so many frames for this page.

    >>> "10 frames" in on_this_page(10)
    True
    """
    return message(
        "note", f"On this page the box is made from {frames} frames, with your own stock."
    )


def meaning(name: str) -> str:
    """What a measurement means, as it is said beside its field before anything was typed.

    >>> "Outside length of the hive" in meaning("hive_length")
    True
    """
    return message("note", MEASUREMENTS[name].meaning)


def kept(name: str, hive: Hive) -> str:
    """What is said when a measurement was read and saved."""
    value = hive.measurements[name]
    if MEASUREMENTS[name].kind == "count":
        return message("right", f"Saved: {value} {title(name)}.")
    return message("right", f"Saved: {title(name)} {both_units(value, hive.units)}.")


def sleeved(hive: Hive) -> str:
    """What is said when the hive was made of a box and its sleeve: what its size becomes."""
    sizes = values(hive)
    length, width = (both_units(sizes[n], hive.units) for n in HIVE_SIZES)
    return message("right", f"Saved. In its sleeve your hive is {length} long, {width} wide.")


def refused(error: HiveFaults, name: str, hive: Hive) -> str:
    """What is said when a measurement is refused: each fault, and what stays in use.

    >>> from hivecalc.hive import changed
    >>> try:
    ...     changed(demo_hive(), {"stud_thickness": "38"})
    ... except HiveFaults as error:
    ...     told = refused(error, "stud_thickness", demo_hive())
    >>> "write mm behind the number" in told, "Still in use: 1 1/2 in." in told
    (True, True)
    """
    faults = [_plain(f, name) for f in error.faults]
    if hive.units == "inch" and any(" in is too large" in f for f in faults):
        faults.append("Is it in millimetres? Then write mm behind the number.")
    value = hive.measurements.get(name)
    if value is None:
        return message("wrong", *faults)
    now = str(value) if MEASUREMENTS[name].kind == "count" else shown(value, hive.units)
    return message("wrong", *faults, f"Still in use: {now}.")


def _plain(fault: Fault, name: str) -> str:
    """A fault as it is told beside a field: no file and no switch, and a size by its title.

    >>> _plain(Fault("my-hive.toml, [measured] hive_length", "hive_width is given", "x"), "frames")
    'Hive length: hive width is given; x.'
    """
    place = fault.place.removeprefix("--set ").rpartition("] ")[2]
    about = "" if place == name else f"{place}: "
    told = re.sub(r"\w+", _titled, f"{about}{fault.found}; {fault.accepted}.")
    return sentence(told)


def _titled(word: re.Match[str]) -> str:
    return title(word[0]) if "_" in word[0] and word[0] in MEASUREMENTS else word[0]


def verdict_message(verdict: Verdict) -> str:
    """The verdict on an answer, beside its field: what it is, and then what to look at.

    >>> from hivecalc.judging import verdict
    >>> told = verdict_message(verdict(demo_hive(), "bottom_board.front_rail_length", "15 7/8"))
    >>> told.startswith('<div class="hc hc-wrong"'), '<div class="hc hc-note"' in told
    (True, True)
    """
    further = [text for text in (verdict.tells_apart, verdict.question) if text]
    told = message("right" if verdict.right else "wrong", verdict.message)
    return told + (message("note", *further) if further else "")
