"""The inner cover taken apart: a sheet, the rim with its notch, a sheet."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from hivecalc.assembly import Solid
from hivecalc.drawing.bottom_board.state import Sizes, titled
from hivecalc.drawing.exploded.faults import FaultsInSpace, in_space
from hivecalc.drawing.exploded.layers import Layer, across, apart, down, gaps, layers
from hivecalc.drawing.exploded.painting import LINE, Painted, paint, painted, spot
from hivecalc.drawing.exploded.space import ACROSS, Place, Projection
from hivecalc.drawing.faults import RADIUS
from hivecalc.drawing.labels import Label, Mark, column_height, draw_labels, fitted
from hivecalc.drawing.layout import Point
from hivecalc.drawing.roof.state import ComponentState
from hivecalc.drawing.svg import CHANGED_LINE, INK, MARGIN, OUTLINE, THIN, WIDTH, Pen, Sheet, figure
from hivecalc.length import Length, Units

TITLE = "The inner cover, taken apart"
COMPONENT = "inner_cover"
LABELS = 142.0  # width of the column of labels
BESIDE = 14.0  # between the pieces and their labels
LARGEST = 14.0  # scale: sheet units for an inch of a hive that is small
LEAST_GAP = 30.0  # between two layers, on the sheet
NUMBERS = 2 * RADIUS + 8  # room for the numbers of faults
NOTCH_LINE = 11.0  # how far before the rim the notch is measured, on the sheet
TICK = Pen(INK, 1.3)
# The part, what the label of its piece begins with, the words for it.
PIECES = (
    ("sheet", "sheet, upper", "upper sheet"),
    ("rim_back", "rim back", "rim back"),
    ("rim_side", "rim side", "rim side × 2"),
    ("rim_front", "rim front", "rim front, both pieces together"),
)
LOWER = ("sheet, lower", "lower sheet, the same")
SIZES = ("thickness", "width", "length")
HEIGHT = "inner_cover.overall_height"


def exploded_inner_cover(
    values: Sizes, cut: Sizes | None = None, *, units: Units = "inch", name: str = ""
) -> str:
    """SVG picture of the inner cover taken apart: sheets, rim and notch, each with its sizes.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> "notch 2 in" in exploded_inner_cover(values(demo_hive()))
    True

    With `cut`, the same sizes with one or more wrong cuts among them, what then overlaps or stays
    open is marked, enlarged and told.

    >>> from fractions import Fraction
    >>> wrong = values(demo_hive(), {"inner_cover.rim_back_length": Fraction(15)})
    >>> "it runs 5/8 in into the right rim side" in exploded_inner_cover(
    ...     values(demo_hive()), wrong)
    True

    Values as components.values gives them, in inches; figures are shown in `units`. Raises
    NoPieceError where a piece would have no size left.
    """
    wrong = cut is not None
    return _Apart(_state(cut or values, values, units, wrong=wrong)).picture(name)


def changed_inner_cover(before: Sizes, now: Sizes, *, units: Units = "inch", name: str = "") -> str:
    """SVG picture of the inner cover taken apart, with the sizes from before a change.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import changed, demo_hive
    >>> wider = values(changed(demo_hive(), {"inner_notch": "3"}))
    >>> "notch 3 in, was 2 in" in changed_inner_cover(values(demo_hive()), wider)
    True

    Values as components.values gives them, in inches; figures are shown in `units`.
    """
    return _Apart(_state(now, before, units)).picture(name)


def inner_cover_to_work_out(values: Sizes, *, units: Units = "inch", name: str = "") -> str:
    """SVG picture of the inner cover taken apart, with "?" for what has to be worked out.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> "1/2 × 1 1/2 × ?" in inner_cover_to_work_out(values(demo_hive()))
    True

    Values as components.values gives them, in inches; what was measured is shown in `units`.
    """
    return _Apart(_state(values, values, units, asked=True)).picture(name)


def _state(
    now: Sizes, before: Sizes, units: Units, *, wrong: bool = False, asked: bool = False
) -> ComponentState:
    return ComponentState(now, before, units, wrong, asked, COMPONENT)


@dataclass(frozen=True)
class _Apart:
    state: ComponentState

    def picture(self, name: str) -> str:
        sheet = Sheet()
        top = sheet.paragraph(TITLE, MARGIN, bold=True)
        top = sheet.paragraph(self._intro, top) + MARGIN
        projection = self._projection(top)
        seen = painted([layer.lifted for layer in self._layers], projection)
        faults = self._faults
        with sheet.view("exploded", projection.scale):
            paint(sheet, seen, self._pen)
            faults.mark(sheet, projection)
            self._draw_notch(sheet, projection)
        bottom = max(y for one in seen for _, y in one.points)
        column = sorted(self._labels(seen, projection), key=lambda label: label.target[1])
        bottom = max(bottom, top + column_height(column))
        draw_labels(sheet, "right", WIDTH - MARGIN - LABELS, column, (top, bottom))
        faults.number(sheet, projection, (top, bottom))
        bottom = faults.tell(sheet, bottom + MARGIN)
        told = [fault.consequence.sentence for fault in faults.faults]
        words = " ".join([f"{TITLE}. {self._intro}", *self._texts(), *told])
        return sheet.picture(titled(TITLE, name), words, bottom, projection.scale)

    @property
    def _intro(self) -> str:
        now, units = self.state.now, self.state.units
        length, width = (figure(now[n], units) for n in ("hive_length", "hive_width"))
        height = ", ".join(self.state.lines(HEIGHT, ""))
        return f"As long and as wide as the hive, {length} by {width}; height{height}."

    def _texts(self) -> Iterator[str]:
        for part, _, word in PIECES:
            yield f"{', '.join((word, *self._sizes(part)))}.".capitalize()
        yield f"{LOWER[1]}. {', '.join(self._notch_lines)}.".capitalize()

    # The layers

    @cached_property
    def _flat(self) -> list[Layer]:
        """The layers from below upwards, not lifted."""
        return list(layers(COMPONENT, list(self.state.solids.values())))

    @cached_property
    def _layers(self) -> list[Layer]:
        """The layers, so far apart that their labels fit beside them."""
        many = sum(gaps(*pair) for pair in pairwise(self._flat))
        low, high = down(apart(self._flat, 0.0, 0.0))
        free = self._column_height - (high - low) * self._scale
        return apart(self._flat, max(LEAST_GAP, free / many) / self._scale, 0.0)

    @cached_property
    def _column_height(self) -> float:
        lines = [*(self._lines(part, word) for part, _, word in PIECES), (LOWER[1],)]
        labels = [Label(told, (0.0, 0.0)) for told in (*lines, self._notch_lines)]
        return column_height(labels) + 2 * len(labels)

    @cached_property
    def _scale(self) -> float:
        low, high = across(self._flat)
        return min(LARGEST, (self._right - self._left) / (high - low) / ACROSS)

    @property
    def _left(self) -> float:
        return MARGIN + (NUMBERS if self._faults.faults else 0.0)

    @property
    def _right(self) -> float:
        return WIDTH - MARGIN - LABELS - BESIDE

    def _projection(self, top: float) -> Projection:
        low, high = (limit * ACROSS * self._scale for limit in across(self._flat))
        left = self._left + (self._right - self._left - high + low) / 2 - low
        return Projection(left, top - down(self._layers)[0] * self._scale, self._scale)

    @cached_property
    def _faults(self) -> FaultsInSpace:
        lifts = self._flat if not self.state.wrong else None
        del lifts
        return in_space(self.state, self._flat)

    def _pen(self, solid: Solid) -> Pen:
        return LINE if self.state.pen(solid) is OUTLINE else CHANGED_LINE
