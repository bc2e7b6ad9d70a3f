"""Blanks and cross-sections in words: how many strips, how they are ripped, what is left."""

from collections import Counter
from collections.abc import Iterator

from hivecalc.cutting.strips.blanks import Blanks
from hivecalc.cutting.strips.cross_section import LEAST_HELD, CrossSection, Rectangle
from hivecalc.hive.values import said_with_unit
from hivecalc.length import Length, Units

NEVER = (
    "Never cut a rest on the saw that is less than {} wide: it can't be held. That width is common "
    "practice, no published source; your saw's manual may ask for more."
)
LIES = {"width": "lies flat", "thickness": "stands on edge"}


def blanks_told(blanks: Blanks, units: Units = "inch") -> tuple[str, ...]:
    """Sentences on some blanks: what they are the rest of, and how they are ripped.

    >>> from hivecalc.cutting.needs import board_needs
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> *_, back = board_needs([demo_hive()], demo_yard())[0].blanks
    >>> print(" ".join(blanks_told(back)))
    What is left of “blank, strip of 1/2 × 1 1/2 in” becomes roof rim back, as it falls.
    """
    told = section_told(blanks.section, units, blanks.material)
    if not blanks.rest_of:
        return told
    pieces = dict.fromkeys(label for strip in blanks.strips for label, _ in strip.pieces)
    rest = f"What is left of “{blanks.rest_of}” becomes {_and(list(pieces))}"
    return (f"{rest}.", *told) if blanks.section.passes else (f"{rest}, as it falls.",)


def section_told(
    section: CrossSection, units: Units = "inch", material: str = "stud"
) -> tuple[str, ...]:
    """Sentences on a cross-section: the count, the order of the rips, and the rest.

    >>> from fractions import Fraction
    >>> from hivecalc.cutting.strips import cross_section
    >>> stud = cross_section(*map(Fraction, ("1.5", "3.5", "0.5", "1.5", "0.125")))
    >>> for sentence in section_told(stud)[:3]:
    ...     print(sentence)
    A stud of 1 1/2 in by 3 1/2 in gives 5 strips of 1/2 in by 1 1/2 in with a kerf of 1/8 in.
    It lies flat. Set the fence to 2 7/8 in, 2 1/4 in, 1 5/8 in, 1 in and 1/2 in, in this order.
    The wide part runs between blade and fence, and each slice falls off on the other side.
    """
    sides = (section.thickness, section.width), (section.piece_thickness, section.piece_width)
    stock, strip = (" by ".join(said_with_unit(s, units) for s in pair) for pair in sides)
    if not section.count:
        return (f"A {material} of {stock} gives no strip of {strip}.",)
    many = "one strip" if section.count == 1 else f"{section.count} strips"
    kerf = said_with_unit(section.kerf, units)
    return (
        f"A {material} of {stock} gives {many} of {strip} with a kerf of {kerf}.",
        *_first_rips(section, units),
        *_second_rips(section, units),
        *_rest(section, units),
    )


def _first_rips(section: CrossSection, units: Units) -> Iterator[str]:
    if section.rips:
        distances = _listed([rip.fence for rip in section.rips], units)
        yield f"It {LIES[section.first]}. Set the fence to {distances}."
    if any(rip.keeps for rip in section.rips):
        yield (
            "The wide part runs between blade and fence, and each slice falls off on the other "
            "side."
        )


def _second_rips(section: CrossSection, units: Units) -> Iterator[str]:
    ways = dict.fromkeys(part for part in section.slices if part.rips)
    for part in ways:
        distances = _listed([rip.fence for rip in part.rips], units)
        slices = sum(other == part for other in section.slices)
        which = "the slice" if slices == 1 else f"each of {slices} slices"
        thick = said_with_unit(part.size, units)
        yield f"Lay {which} of {thick} flat and set the fence to {distances}."


def _listed(lengths: list[Length], units: Units) -> str:
    listed = _and([said_with_unit(length, units) for length in lengths])
    return f"{listed}, in this order" if len(lengths) > 1 else listed


def _and(words: list[str]) -> str:
    *first, last = words
    return f"{', '.join(first)} and {last}" if first else last


def _rest(section: CrossSection, units: Units) -> Iterator[str]:
    for rest, many in Counter(map(_sides, section.rests)).items():
        sides = " by ".join(said_with_unit(side, units) for side in rest)
        yield f"Left: {many} of {sides}." if many > 1 else f"Left: {sides}."
    if any(min(rest.wide, rest.high) < LEAST_HELD for rest in section.rests):
        yield NEVER.format(said_with_unit(LEAST_HELD, units))


def _sides(rest: Rectangle) -> tuple[Length, Length]:
    return min(rest[2:]), max(rest[2:])
