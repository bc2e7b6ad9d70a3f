"""What a learner's entry leads to: a message, a picture and what follows, decided in one place.

A panel hands over what was typed and shows the three parts of the outcome. Raises LengthError or
HiveFaults for an entry that can't be used.
"""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from hivecalc.assembly import assembled
from hivecalc.assembly.consequences import consequences
from hivecalc.components import checked, values
from hivecalc.derivation import changes, title
from hivecalc.drawing.boards import cut_off, end_to_end
from hivecalc.drawing.bowed_rails import bowed_rails, gap_left
from hivecalc.drawing.out_of_square import out_of_square
from hivecalc.drawing.tape import burnt_inch_tape, hooked_tape, tape
from hivecalc.fit import broken, findings
from hivecalc.fractions_in_words import difference_in_words, sum_in_words
from hivecalc.hive import MEASUREMENTS, Hive, changed
from hivecalc.length import Length, Units, length_from_text, shown
from hivecalc.measuring import reading_to_use, squareness
from hivecalc.pages.changes import change_table
from hivecalc.pages.messages import both_units, message
from hivecalc.pages.views import VIEWS
from hivecalc.pages.workings import failing, how_derived

MOST_TOLD = 5  # consequences of one entry: more are only counted


@dataclass(frozen=True)
class Outcome:
    """What is shown after an entry, all of it HTML: a message, a picture, what follows."""

    message: str
    picture: str
    follows: str = ""


def reading(hive: Hive, text: str) -> Outcome:
    """The outcome of a reading to look at on the tape.

    >>> from hivecalc.hive import demo_hive
    >>> "587 mm" in reading(demo_hive(), "23 1/8").message
    True
    """
    return _on_tape(hive, text, tape)


def hooked_on(hive: Hive, text: str) -> Outcome:
    """The outcome of a board that is measured with the tape's hook over its end.

    >>> from hivecalc.hive import demo_hive
    >>> "The hook is over" in hooked_on(demo_hive(), "23 1/8").picture
    True
    """
    return _on_tape(hive, text, hooked_tape)


def without_hook(hive: Hive, text: str) -> Outcome:
    """The outcome of a board that is measured from the 1 in mark, or from 100 mm.

    >>> from hivecalc.hive import demo_hive
    >>> "The tape reads 24 1/8 in" in without_hook(demo_hive(), "23 1/8").picture
    True
    """
    return _on_tape(hive, text, burnt_inch_tape)


def _on_tape(hive: Hive, text: str, drawn: Callable[[Length, Units], str]) -> Outcome:
    length = length_from_text(text, hive.units)
    return Outcome(_read(length, hive.units), drawn(length, hive.units))


def as_read(hive: Hive, text: str) -> str:
    """What to say to a length that was typed: how it was read, in both units.

    >>> from hivecalc.hive import demo_hive
    >>> "587 mm" in as_read(demo_hive(), "23 1/8")
    True
    """
    return _read(length_from_text(text, hive.units), hive.units)


def _read(length: Length, units: Units) -> str:
    return message("note", f"This is {both_units(length, units)}.")


def unchanged(hive: Hive, view: str = "plan") -> Outcome:
    """The outcome where nothing has been changed yet: the hive as it is."""
    return Outcome(message("note", "Type a new value and press Enter."), VIEWS[view].of(hive))


def changed_measurement(hive: Hive, name: str, text: str, view: str = "plan") -> Outcome:
    """The outcome of a changed measurement: pieces cut for the old one, built into the new hive.

    >>> from hivecalc.hive import demo_hive
    >>> found = changed_measurement(demo_hive(), "stud_thickness", "1 9/16")
    >>> "21 5/8 in" in found.follows and "21 9/16 in" in found.follows
    True
    """
    new = checked(changed(hive, {name: text}))
    found = changes(values(hive), values(new))
    cut = {c.name: c.old for c in found if VIEWS[view].cuts(c.name)}
    drawn = VIEWS[view].with_cut(new, cut) if cut else VIEWS[view].after(hive, new)
    fits = what_no_longer_fits(new, cut, view) if cut else ""
    broken_now = failing(broken(findings(hive), findings(new)))
    said = f"{title(name).capitalize()}: {_was(name, hive, new)}"
    explained = change_table(found, new, VIEWS[view].components)
    return Outcome(message("note", said), drawn, fits + explained + broken_now)


def _was(name: str, *hives: Hive) -> str:
    was, now = (_said(h.measurements[name], name, h) for h in hives)
    return f"was {was}, now {now}."


def _said(value: Fraction, name: str, hive: Hive) -> str:
    return str(value) if MEASUREMENTS[name].kind == "count" else both_units(value, hive.units)


def wrong_cut(hive: Hive, dimension: str, text: str, view: str = "plan") -> Outcome:
    """The outcome of a piece cut to some size: built in where it belongs.

    >>> from hivecalc.hive import demo_hive
    >>> found = wrong_cut(demo_hive(), "bottom_board.front_rail_length", "15 7/8")
    >>> "1 1/2 in" in found.follows
    True
    """
    cut = {dimension: length_from_text(text, hive.units)}
    right, as_cut = (shown(v[dimension], hive.units) for v in (values(hive), cut))
    said = f"{title(dimension).capitalize()}: {as_cut} as cut, {right} as worked out."
    broken_now = failing(broken(findings(hive), findings(hive, cut)))
    follows = what_no_longer_fits(hive, cut, view) + broken_now + how_derived(hive, dimension)
    return Outcome(message("note", said), VIEWS[view].with_cut(hive, cut), follows)


def what_no_longer_fits(hive: Hive, cut: Mapping[str, Fraction], view: str = "plan") -> str:
    """What happens when pieces of these sizes are built into the component that is looked at."""
    component = VIEWS[view].component
    true, as_cut = (assembled(v, component) for v in (values(hive), values(hive, cut)))
    found = list(dict.fromkeys(c.sentence for c in consequences(true, as_cut, hive.units)))
    if not found:
        return message("right", "Everything goes together.")
    more = [f"And {len(found) - MOST_TOLD} more."] if len(found) > MOST_TOLD else []
    return message("wrong", *found[:MOST_TOLD], *more)


def three_places(texts: Sequence[str], hive: Hive) -> tuple[Length, str]:
    """The reading to use of those that were typed, and what to say about them.

    >>> from hivecalc.hive import demo_hive
    >>> three_places(["23", "", "23 1/16"], demo_hive())[0]
    Fraction(369, 16)
    """
    found = [length_from_text(t, hive.units) for t in texts if t.strip()]
    advice = reading_to_use(found, hive.units)
    return advice.use, message("note" if advice.straight else "wrong", advice.sentence)


def two_diagonals(hive: Hive, rising: str, falling: str) -> Outcome:
    """The outcome of two diagonals: how far the box is out of square, drawn larger than it is."""
    sizes = values(hive)
    length, width = sizes["hive_length"], sizes["hive_width"]
    if not (rising.strip() and falling.strip()):
        said = message("note", square_hint(length, width, hive.units))
        return Outcome(said, out_of_square(length, width, Fraction(0), units=hive.units))
    first, second = (length_from_text(t, hive.units) for t in (rising, falling))
    found = squareness(length, width, first, second, hive.units)
    said = message("right" if found.square else "wrong", found.sentence)
    return Outcome(said, out_of_square(length, width, found.lean, units=hive.units))


def two_boards(hive: Hive, first: str, second: str) -> Outcome:
    """The outcome of two boards laid end to end: the whole, and how it is added up."""
    both = [length_from_text(t, hive.units) for t in (first, second)]
    drawn = end_to_end(*both, units=hive.units)
    return Outcome("", drawn, message("note", *sum_in_words(*both)))


def piece_cut_off(hive: Hive, whole: str, off: str) -> Outcome:
    """The outcome of a piece cut off a board: what is left, and how it is taken off."""
    both = [length_from_text(t, hive.units) for t in (whole, off)]
    drawn = cut_off(*both, units=hive.units)
    return Outcome("", drawn, message("note", *difference_in_words(*both)))


def bowed(hive: Hive, text: str) -> Outcome:
    """The outcome of side rails that bow inwards: the gap left to the panel, or that it sticks.

    >>> from hivecalc.hive import demo_hive
    >>> "sticks" in bowed(demo_hive(), "1/8").message
    True
    """
    bow, found = length_from_text(text, hive.units), values(hive)
    left = gap_left(found, bow)
    drawn = bowed_rails(found, bow, units=hive.units, name=hive.name)
    if left > 0:
        said = message("right", f"{both_units(left, hive.units)} of gap is left: it slides.")
    else:
        said = message("wrong", "The gap is used up: the panel sticks.")
    return Outcome(said, drawn)


def square_hint(length: Fraction, width: Fraction, units: Units) -> str:
    """What both diagonals are when a box of these sides is square.

    >>> square_hint(Fraction(4), Fraction(3), "inch")
    'If your box is square, both diagonals are about 5 in.'
    """
    diagonal = Fraction(math.isqrt(int((length**2 + width**2) * 10**12)), 10**6)
    return f"If your box is square, both diagonals are about {shown(diagonal, units)}.".replace(
        "≈ ", ""
    )
