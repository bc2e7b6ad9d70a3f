"""A step at the saw in words: what is set, what is cut, and why it is done so."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from hivecalc.hive.values import said_with_unit
from hivecalc.length import Length, Units, decimal_inches, shown
from hivecalc.saw.cautions import Kind
from hivecalc.saw.ripping import Pass
from hivecalc.saw.steps import Step
from hivecalc.saw.taper import Taper

HEADINGS: Final[Mapping[Kind, str]] = {
    "crosscut": "Crosscut from the boards, the longest first",
    "rip": "Rip the blanks",
    "to_length": "Cut the strips to length",
    "bevel": "Rip with the blade tilted",
    "taper": "Taper the rim's sides",
}
"""What each kind of step is called."""

WHY: Final[Mapping[Kind, str]] = {
    "crosscut": (
        "The stop block makes all pieces of one length alike. Longest first, so that what is left "
        "of a board still serves for a shorter piece. Square the board's end before the first cut."
    ),
    "rip": (
        "The fence gives what stays beside it, so the kerf comes off what falls away. The widest "
        "rest comes first, so that the wide part is always the one that is held."
    ),
    "to_length": (
        "Strips are ripped long and cut to length last: a long piece is held more safely, and all "
        "pieces of one length come from one setting."
    ),
    "bevel": (
        "Bevels come after all square cuts, so that the blade is tilted once for each angle and "
        "set upright once."
    ),
    "taper": (
        "The taper comes last, as a tapered piece has no straight edge left on that side. Both "
        "sides go through the jig at one setting, so that they are alike."
    ),
}
"""Why each kind of step is done so, and when."""


def degrees_text(angle: float) -> str:
    """An angle as a saw's scale shows it.

    >>> degrees_text(30.0), degrees_text(4.838)
    ('30°', '≈ 4.8°')
    """
    return f"{decimal_inches(Fraction(round(angle * 1000), 1000), 1)}°"


def setting_told(step: Step, units: Units = "inch") -> str:
    """What is set at a step.

    >>> setting_told(Step("rip", Fraction(21, 8), ()))
    'fence 2 5/8 in from the blade'
    """
    distance = said_with_unit(step.setting, units)
    if step.kind == "rip":
        return f"fence {distance} from the blade"
    if step.kind == "bevel":
        return f"fence {distance} from the blade, tilted {degrees_text(step.tilt)} away from it"
    if step.kind == "taper":
        return f"jig with an offset of {distance}, {degrees_text(step.tilt)}"
    return f"stop block {distance} from the blade"


def work_told(step: Step, units: Units = "inch") -> Iterator[str]:
    """What is cut at a step, a line for each kind of piece.

    >>> from hivecalc.saw.steps import Work
    >>> list(work_told(Step("crosscut", Fraction(20), (Work("side rail", 2),))))
    ['2 × side rail']
    """
    for work in step.work:
        how = f": {_passing(work.passing, units)}" if work.passing else ""
        yield f"{work.count} × {work.label}{how}"
    if step.taper:
        yield from taper_told(step.taper, units)


def _passing(passing: Pass, units: Units) -> str:
    rip = passing.rip
    stays, off = (said_with_unit(length, units) for length in (rip.fence, rip.off))
    which = {"stud": "", "slice": "a slice laid flat, "}[passing.stage]
    if rip.keeps:
        return f"{which}{off} falls off and is kept, {stays} stays for the next rip"
    falls = f"{off} falls off" if rip.off else "only dust falls off"
    return f"{which}{stays} stays at the fence and is kept, {falls}"


def taper_told(taper: Taper, units: Units = "inch") -> Iterator[str]:
    """How a taper is marked, set up and checked.

    >>> for line in taper_told(Taper(Fraction(24), Fraction(7, 2), Fraction(3, 2))):
    ...     print(line)
    mark 1: at the front end, 3 1/2 in up, the top corner
    mark 2: 24 in from the front end, 1 1/2 in up from the straight edge
    the cut runs from mark to mark; the wedge above it is waste
    on a sled, the straight edge lies ≈ 2 in nearer to the blade at the back
    a hinged jig stands 1 in open, 12 in from its hinge
    check: 2 1/2 in high half-way; 2 in fall over 24 in
    """
    front, back = taper.marks
    high, low, run, rise, middle = (
        said_with_unit(length, units)
        for length in (front.up, back.up, back.along, taper.rise, taper.middle)
    )
    yield f"mark 1: at the front end, {high} up, the top corner"
    yield f"mark 2: {run} from the front end, {low} up from the straight edge"
    yield "the cut runs from mark to mark; the wedge above it is waste"
    nearer = shown(taper.jig_offset, units)
    yield f"on a sled, the straight edge lies {nearer} nearer to the blade at the back"
    foot, leg = _leg(taper, units)
    yield f"a hinged jig stands {shown(foot, units)} open, {leg} from its hinge"
    yield f"check: {middle} high half-way; {rise} fall over {run}"


def _leg(taper: Taper, units: Units) -> tuple[Length, str]:
    """How far a jig stands open, and how far from its hinge: a foot, or 300 mm."""
    if units == "mm":
        leg = Fraction(300 * 5, 127)
        return leg * taper.slope, "300 mm"
    return taper.per_foot, "12 in"
