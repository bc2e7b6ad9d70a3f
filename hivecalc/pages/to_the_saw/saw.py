"""What the lesson at the saw says: cautions, settings in order, fence and kerf, the taper."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import count
from typing import Final

from hivecalc.components import checked, values
from hivecalc.cutting.needs.pieces import MARKS, needed
from hivecalc.cutting.strips import Rip
from hivecalc.drawing.saw import fence_and_kerf, taper_drawing, tilted_blade
from hivecalc.hive import Hive, HiveFaults, changed
from hivecalc.hive.values import said_with_unit
from hivecalc.length import Length
from hivecalc.pages.messages import both_units, message, refused, table
from hivecalc.pages.outcomes import Outcome
from hivecalc.pages.to_the_saw.folding import folded, wide_picture
from hivecalc.pages.to_the_saw.yards import with_kerf
from hivecalc.saw import CAUTIONS, Caution, Kind, SawPlan, Step, landing_bevel, saw_plan, taper
from hivecalc.saw.plan import KINDS
from hivecalc.saw.steps import bevels
from hivecalc.saw.telling import HEADINGS, WHY, setting_told, work_told
from hivecalc.stock import COMMON, Yard
from hivecalc.tables.saw import caution_told, settings_told

WHEN: Final[dict[Kind, str]] = {
    "before": "before the first cut",
    "crosscut": "crosscuts",
    "rip": "rips",
    "to_length": "strips to length",
    "bevel": "bevels",
    "taper": "taper",
    "after": "after the saw",
}
TWICE: Final = (
    "A distance of the fence comes again where a piece must be ripped off before it can be ripped "
    "itself."
)
LANDING: Final = "bottom board landing board"


def cautions() -> str:
    """What to take care of before, at each kind of step and after it, with the law that says so.

    >>> "Stand beside the line of the blade" in cautions()
    True
    """
    told: dict[Caution, list[str]] = {}
    for kind, found in CAUTIONS.items():
        for caution in found:
            told.setdefault(caution, []).append(WHEN[kind])
    rows = [[caution_told(caution), _when(places)] for caution, places in told.items()]
    first = f"Where nobody is named in brackets, it is {COMMON}."
    return message("note", first) + table(["take care", "when"], rows)


def _when(places: list[str]) -> str:
    return ", ".join(places) if len(places) < len(KINDS) else "at every step"


def settings(hive: Hive, yard: Yard) -> str:
    """Every setting of the saw for a hive, in order: the crosscuts, and the others folded away.

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
            listed = table(["", "setting", "what is cut"], rows)
            summary = f"{HEADINGS[kind]}. {settings_told(plan, kind)}"
            said = message("note", WHY[kind], *_twice(steps))
            yield folded(summary, said + listed, unfolded=kind == "crosscut")


def _twice(steps: tuple[Step, ...]) -> Iterator[str]:
    if any(step.kind == "rip" for step in steps) and len({s.setting for s in steps}) < len(steps):
        yield TWICE


def _step_row(number: int, step: Step, plan: SawPlan) -> list[str]:
    told = "; ".join(work_told(step, plan.units))
    return [str(number), setting_told(step, plan.units), told]


def fence(hive: Hive, yard: Yard, kerf: str) -> Outcome:
    """The outcome of a kerf: the front rail's rip, its kerf in the waste, and the tilted one.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> "5/8 in falls off" in fence(demo_hive(), demo_yard(), "1/8").message
    True
    """
    found, takes = values(hive), with_kerf(yard, kerf, hive.units).kerf
    rail = next(piece for piece in needed([hive]) if piece.part == "front_rail")
    stud, stays = found["stud_width"], rail.width
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
    return Outcome(message("note", *said), drawn, _landing(hive, takes))


def _landing(hive: Hive, kerf: Length) -> str:
    """The bevel of the landing board: how it is set, and the blade that leans."""
    bevel = landing_bevel(hive)
    (step,) = bevels({bevel: [(LANDING, 1)]}, MARKS[hive.units])
    said = f"For the slanted edge of the landing board: {setting_told(step, hive.units)}."
    drawn = tilted_blade(bevel, bevel.upper, kerf, units=hive.units, name=hive.name)
    return message("note", said) + wide_picture(drawn)


def tapered(hive: Hive, low: str) -> Outcome:
    """The outcome of another low height at the back of the roof: marks, angle and the picture.

    >>> from hivecalc.hive import demo_hive
    >>> "Half-way it must be 2 1/2 in" in tapered(demo_hive(), "1 1/2").message
    True

    A height that does not go is told, and the hive's own stays.
    """
    try:
        new = checked(changed(hive, {"rim_low_height": low})) if low.strip() else hive
    except HiveFaults as error:
        return replace(_tapered(hive), message=refused(error, "rim_low_height", hive))
    return _tapered(new)


def _tapered(hive: Hive) -> Outcome:
    cut = taper(hive)
    drawn = taper_drawing(cut, units=hive.units, name=hive.name)
    high, end, middle = (
        said_with_unit(size, hive.units) for size in (cut.high, cut.low, cut.middle)
    )
    said = f"Mark {high} at the front and {end} at the back. Half-way it must be {middle} high."
    return Outcome(message("note", said), drawn)
