"""The whole hive as it stands in the field: what each part of the stack measures and weighs."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from hivecalc.drawing.bottom_board.state import Sizes, titled
from hivecalc.drawing.exploded.layers import Layer, across, down
from hivecalc.drawing.exploded.painting import Painted, paint, painted, spot
from hivecalc.drawing.exploded.space import ACROSS, Projection
from hivecalc.drawing.labels import Label, Mark, column_height, draw_labels, fitted
from hivecalc.drawing.layout import Point
from hivecalc.drawing.svg import MARGIN, WIDTH, Sheet, figure
from hivecalc.length import Units
from hivecalc.space import (
    Solid,
    Weight,
    box_height,
    overall_height,
    skirt_laps,
    stacked,
    ways,
    weights,
)

TITLE = "The whole hive, as it stands"
LABELS = 128.0  # width of the column of labels
BESIDE = 14.0
LARGEST = 12.0  # scale: sheet units for an inch of a hive that is small
HIGHEST = 420.0  # of the hive on the sheet
# What is painted after what: where it is seen, nothing of a group stands behind an earlier one.
GROUPS = (
    ("bottom board", "box", "sleeve", "inner cover"),
    ("roof: skirt end, back", "roof: skirt side, left"),
    ("roof: rim",),
    ("roof: skirt end, front", "roof: skirt side, right"),
    ("roof: deck",),
    ("roof: cover",),
)
OUTER = frozenset({"side_rail", "front_rail", "back_rail", "landing_board", "sheet"})


def standing_hive(
    values: Sizes, built: Sequence[str], *, units: Units = "inch", name: str = ""
) -> str:
    """SVG picture of the whole hive, stacked, with heights, ways, lap and estimated weights.

    >>> from hivecalc.components import built, values
    >>> from hivecalc.hive import demo_hive
    >>> hive = demo_hive()
    >>> "laps the box 1 in" in standing_hive(values(hive), built(hive))
    True

    Values as components.values gives them, in inches, and `built` as components.built does; figures
    are shown in `units`, weights in pounds with inches and in kilograms with millimetres.
    """
    return _Standing(values, tuple(built), units).picture(name)


@dataclass(frozen=True)
class _Standing:
    values: Sizes
    built: tuple[str, ...]
    units: Units

    def picture(self, name: str) -> str:
        sheet = Sheet()
        top = sheet.paragraph(TITLE, MARGIN, bold=True)
        top = sheet.paragraph(self._intro, top) + MARGIN
        projection = self._projection(top)
        groups = [layer.lifted for layer in self._layers]
        seen = painted(groups, projection)
        with sheet.view("standing", projection.scale):
            paint(sheet, seen)
        bottom = max(y for one in seen for _, y in one.points)
        column = sorted(self._labels(seen), key=lambda label: label.target[1])
        bottom = max(bottom, top + column_height(column))
        draw_labels(sheet, "right", WIDTH - MARGIN - LABELS, column, (top, bottom))
        words = " ".join((f"{TITLE}. {self._intro}", *(f"{t}." for t in self._told)))
        return sheet.picture(titled(TITLE, name), words, bottom + MARGIN, projection.scale)

    # The stack

    @cached_property
    def _stack(self) -> tuple[Solid, ...]:
        return stacked(self.values, self.built)

    @cached_property
    def _layers(self) -> list[Layer]:
        """The pieces that are seen from outside, in the order in which they are painted."""
        outside = [s for s in self._stack if self._is_outside(s)]
        return [
            Layer(group[0], tuple(s for s in outside if s.name.startswith(group)))
            for group in GROUPS
        ]

    def _is_outside(self, solid: Solid) -> bool:
        if solid.component == "box":
            return "sleeve" not in self.built
        if solid.component == "sleeve":
            return solid.part.startswith(("skin", "edge_strip"))
        rim = solid.part.startswith("rim_")
        return rim or solid.component == "roof" or solid.part in OUTER

    def _projection(self, top: float) -> Projection:
        low, high = (limit * ACROSS for limit in across(self._layers))
        highest, lowest = down(self._layers)
        room = WIDTH - 2 * MARGIN - LABELS - BESIDE
        scale = min(LARGEST, room / (high - low), HIGHEST / (lowest - highest))
        left = MARGIN + (room - (high - low) * scale) / 2 - low * scale
        return Projection(left, top - highest * scale, scale)

    # Words

    @cached_property
    def _weights(self) -> dict[str, Weight]:
        return {weight.component: weight for weight in weights(self.values, self.built)}

    @property
    def _intro(self) -> str:
        whole = self._weights["whole hive"]
        high = figure(overall_height(self._stack), self.units)
        return (
            f"{high} high. About {self._mass(whole)} empty, {self._mass(whole, full=True)} full of "
            "honey: lift with two, or comb by comb."
        )

    def _mass(self, weight: Weight, *, full: bool = False) -> str:
        if self.units == "mm":
            return f"{round(weight.full if full else weight.empty)} kg"
        return f"{round(weight.full_pounds if full else weight.pounds)} lb"

    @cached_property
    def _rows(self) -> list[tuple[str, tuple[str, ...], Mark]]:
        """What each label points to, by how its pieces' names begin, and what it says."""
        lap = min(skirt_laps(self._stack).values())
        laps = (
            f"skirt laps the box {figure(lap, self.units)}"
            if lap > 0
            else f"skirt ends {figure(-lap, self.units)} above the box"
        )
        rows: list[tuple[str, tuple[str, ...], Mark]] = [
            ("roof: cover", ("roof", self._mass(self._weights["roof"])), "plain"),
            ("roof: skirt side, right", (laps,), "plain" if lap > 0 else "wrong"),
        ]
        rows += [self._box(tier) for tier in range(int(self.values["boxes"]), 0, -1)]
        board = self._weights["bottom board"]
        entrance = next(way for way in ways(self._stack) if way.name == "entrance")
        way_in = f"way in {figure(entrance.least, self.units)}"
        told = ("bottom board", self._mass(board), way_in)
        return [*rows, ("bottom board: side rail, right", told, "plain")]

    def _box(self, tier: int) -> tuple[str, tuple[str, ...], Mark]:
        several = self.values["boxes"] > 1
        weight = self._weights[f"box {tier}" if several else "box"]
        high = figure(box_height(self.values, self.built), self.units)
        name = f"box {tier}, {high}" if several else f"box, {high}"
        told = (name, f"{self._mass(weight)}, full {self._mass(weight, full=True)}")
        part = "sleeve" if "sleeve" in self.built else "box"
        return f"{part} {tier}:" if tier > 1 else f"{part}:", told, "plain"

    @property
    def _told(self) -> Iterator[str]:
        for _, lines, _ in self._rows:
            yield ", ".join(lines).capitalize()

    def _labels(self, seen: Sequence[Painted]) -> Iterator[Label]:
        for starts, lines, mark in self._rows:
            yield Label(fitted(lines, LABELS, mark), _spot(seen, starts), mark=mark)


def _spot(seen: Sequence[Painted], starts: str) -> Point:
    return spot(seen, lambda solid: solid.name.startswith(starts))
