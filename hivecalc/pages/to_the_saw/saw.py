"""What the lesson at the saw says: cautions, settings in order, fence and kerf, the taper."""

from collections.abc import Iterator
from itertools import count
from typing import Final

from hivecalc.components import checked, values
from hivecalc.cutting.strips import Rip
from hivecalc.drawing.saw import fence_and_kerf, taper_drawing
from hivecalc.hive import Hive, changed
from hivecalc.hive.values import said_with_unit
from hivecalc.pages.messages import both_units, message, table
from hivecalc.pages.outcomes import Outcome
from hivecalc.pages.to_the_saw.yards import with_kerf
from hivecalc.saw import CAUTIONS, Caution, Kind, SawPlan, Step, saw_plan, taper
from hivecalc.saw.plan import KINDS
from hivecalc.saw.telling import HEADINGS, WHY, setting_told, work_told
from hivecalc.stock import COMMON, Yard

WHEN: Final[dict[Kind, str]] = {
    "before": "Before the first cut",
    **HEADINGS,
    "after": "After the saw",
}


def cautions() -> str:
    """What to take care of before, at each kind of step and after it, each with its source.

    >>> "Stand beside the line of the blade" in cautions()
    True
    """
    told: dict[Caution, list[str]] = {}
    for kind, found in CAUTIONS.items():
        for caution in found:
            told.setdefault(caution, []).append(WHEN[kind])
    rows = [[c.text, _when(places), c.source] for c, places in told.items()]
    first = f"Where no law is named, it is {COMMON}."
    return message("note", first) + table(["take care", "when", "written down in"], rows)


def _when(places: list[str]) -> str:
    return "; ".join(places) if len(places) < len(KINDS) else "At every step"


def settings(hive: Hive, yard: Yard) -> str:
    """Every setting of the saw for a hive, in order, with what is cut at it and why.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> "stop block 39 3/8 in from the blade" in settings(demo_hive(), demo_yard())
    True
    """
    plan = saw_plan([hive], yard)
    many = sum(step.cuts for step in plan.steps)
    said = [f"{len(plan.steps)} settings for {many} cuts."]
    said += [f"{left.count} × {left.label}: {left.why}." for left in plan.unplanned]
    return message("note", *said) + "".join(_sections(plan))


def _sections(plan: SawPlan) -> Iterator[str]:
    numbers = count(1)
    for kind in KINDS:
        if steps := plan.of(kind):
            rows = [_step_row(next(numbers), step, plan) for step in steps]
            head = ["", HEADINGS[kind].lower(), "what is cut"]
            yield message("note", WHY[kind]) + table(head, rows)


def _step_row(number: int, step: Step, plan: SawPlan) -> list[str]:
    told = "; ".join(work_told(step, plan.units))
    return [str(number), setting_told(step, plan.units), told]


def fence(hive: Hive, yard: Yard, kerf: str) -> Outcome:
    """The outcome of a kerf: the rip that leaves the front rail, with the kerf on the waste side.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> "5/8 in falls off" in fence(demo_hive(), demo_yard(), "1/8").message
    True
    """
    found, takes = values(hive), with_kerf(yard, kerf, hive.units).kerf
    stud, stays = found["stud_width"], found["bottom_board.front_rail_width"]
    off = max(stud - stays - takes, stud * 0)
    drawn = fence_and_kerf(
        Rip(stays, stud, off, keeps=False),
        found["stud_thickness"],
        takes,
        units=hive.units,
        name=hive.name,
    )
    falls = f"{said_with_unit(off, hive.units)} falls off" if off else "Only dust falls off"
    said = (
        f"For the front rail, set the fence to {both_units(stays, hive.units)}, whatever the kerf.",
        f"{falls}: what is over, less the kerf of {said_with_unit(takes, hive.units)}.",
    )
    return Outcome(message("note", *said), drawn)


def tapered(hive: Hive, low: str) -> Outcome:
    """The outcome of another low height at the back of the roof: marks, angle and the picture.

    >>> from hivecalc.hive import demo_hive
    >>> "Half-way it must be 2 1/2 in" in tapered(demo_hive(), "1 1/2").message
    True

    Raises LengthError, and HiveFaults for a height that does not go.
    """
    new = checked(changed(hive, {"rim_low_height": low})) if low.strip() else hive
    cut = taper(new)
    drawn = taper_drawing(cut, units=hive.units, name=hive.name)
    high, end, middle = (
        said_with_unit(size, hive.units) for size in (cut.high, cut.low, cut.middle)
    )
    said = f"Mark {high} in front and {end} at the back. Half-way it must be {middle} high."
    return Outcome(message("note", said), drawn)
