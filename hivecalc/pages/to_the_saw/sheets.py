"""What the lesson on cutting says of sheets: each laid out, and its cuts in order."""

from collections.abc import Iterator

from hivecalc.cutting.needs import SheetNeed, sheet_needs
from hivecalc.cutting.planner import Planner
from hivecalc.cutting.sheets import Layout, SheetPlan, cut_words
from hivecalc.drawing.cutting import sheet_cut_up
from hivecalc.hive import Hive
from hivecalc.hive.texts import sentence
from hivecalc.pages.messages import message, table
from hivecalc.pages.to_the_saw.folding import folded, wide_picture
from hivecalc.stock import Yard

SECONDS = 2.0
PROVED = {
    "cost": "Nothing cheaper will do: this is proved.",
    "sheets": "Nobody can do with fewer sheets: this is proved.",
}
OPEN = {
    "cost": "Whether something cheaper would do is not proved.",
    "sheets": "Whether fewer sheets would do is not proved.",
}


def cut_up(hive: Hive, yard: Yard, material: str) -> str:
    """The sheets of one material with their pieces, and the cuts of each, folded away.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> "the whole sheet" in cut_up(demo_hive(), demo_yard(), "foam")
    True
    """
    needs = [need for need in sheet_needs([hive], yard) if _is_of(need, material)]
    if not needs:
        return message("note", f"Your hive has no {material} to cut.")
    planner = Planner(hive.units, SECONDS)
    plans = [(need, planner.sheets(need, "cost")) for need in needs]
    layouts = (layout for _, plan in plans for layout in plan.layouts)
    first = dict.fromkeys(cut_words(layout, hive.units)[0] for layout in layouts)
    care = message("note", *first) if first else ""
    return care + "".join(part for need, plan in plans for part in _laid_out(need, plan, hive))


def _is_of(need: SheetNeed, material: str) -> bool:
    """Whether it is cut from this material, as the hive or as the yard calls it."""
    return need.material == material or need.name.startswith(material)


def _laid_out(need: SheetNeed, plan: SheetPlan, hive: Hive) -> Iterator[str]:
    yield message("note", *_told(need, plan))
    for layout in plan.layouts:
        _, *cuts = cut_words(layout, hive.units)
        many = "1 cut" if len(layout.cuts) == 1 else f"{len(layout.cuts)} cuts, in order"
        drawn = sheet_cut_up(layout, units=hive.units, name=hive.name)
        yield wide_picture(drawn) + folded(many, table(["cut"], [[cut] for cut in cuts]))


def _told(need: SheetNeed, plan: SheetPlan) -> Iterator[str]:
    taken = ", ".join(map(_taken, plan.layouts))
    yield f"{sentence(need.name)}: {taken or 'nothing can be cut'}."
    if plan.layouts:
        yield (PROVED if plan.proved else OPEN)[plan.aim]
    yield from plan.notes
    for left in (*need.unplanned, *plan.unplanned):
        yield f"{left.count} × {left.label}: {left.why}."


def _taken(layout: Layout) -> str:
    at_hand = ", at hand" if layout.sheet.at_hand else ""
    return f"{layout.count} × {layout.sheet.name}{at_hand}"
