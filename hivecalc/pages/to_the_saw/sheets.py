"""What the lesson on cutting says of sheets: each laid out, and its cuts in order."""

from collections.abc import Iterator

from hivecalc.cutting.needs import SheetNeed, sheet_needs
from hivecalc.cutting.sheets import SheetPlan, cut_words, sheet_plan
from hivecalc.drawing.cutting import sheet_cut_up
from hivecalc.hive import Hive
from hivecalc.pages.messages import message, table
from hivecalc.stock import Yard

SECONDS = 2.0


def cut_up(hive: Hive, yard: Yard, material: str) -> str:
    """The sheets of one material with their pieces, and a table of the cuts of each.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> "the whole sheet" in cut_up(demo_hive(), demo_yard(), "foam")
    True
    """
    needs = [n for n in sheet_needs([hive], yard) if n.material == material]
    if not needs:
        return message("note", f"Your hive has no {material} to cut.")
    return "".join(part for need in needs for part in _need(need, hive))


def _need(need: SheetNeed, hive: Hive) -> Iterator[str]:
    plan = sheet_plan(need.wanted, need.sheets, kerf=need.kerf, seconds=SECONDS, units=hive.units)
    yield message("note", *_told(need, plan))
    for layout in plan.layouts:
        drawn = sheet_cut_up(layout, units=hive.units, name=hive.name)
        first, *cuts = cut_words(layout, hive.units)
        told = table([first], [[cut] for cut in cuts])
        yield f'<figure style="margin:0;overflow-x:auto">{drawn}</figure>{told}'


def _told(need: SheetNeed, plan: SheetPlan) -> Iterator[str]:
    bought = ", ".join(f"{layout.count} × {layout.sheet.name}" for layout in plan.layouts)
    name = need.name[:1].upper() + need.name[1:]
    yield f"{name}: {bought or 'nothing can be cut'}."
    if plan.layouts:
        proved = "Nothing cheaper will do: this is proved." if plan.proved else ""
        yield proved or "Whether something cheaper would do is not proved."
    for left in (*need.unplanned, *plan.unplanned):
        yield f"{left.count} × {left.label}: {left.why}."
