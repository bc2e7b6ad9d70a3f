"""The box and its sleeve from above, as rectangles that grow outwards from the frames."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from hivecalc.assembly import Solid, solids, surroundings
from hivecalc.assembly.outlines import Interval, rectangle
from hivecalc.assembly.solids import hull
from hivecalc.drawing.bottom_board.state import Sizes, titled
from hivecalc.drawing.dimensions import Dim, Row, depth, draw_dims, packed
from hivecalc.drawing.labels import Label, draw_labels, fitted
from hivecalc.drawing.layout import Side
from hivecalc.drawing.svg import FOAM, MARGIN, OUTLINE, PAPER, PENCIL, WIDTH, WOOD, Pen, Sheet, figure
from hivecalc.drawing.view import Look, View
from hivecalc.length import Length, Units

TITLE = "The box and its sleeve from above"
HEADING = "From above, front at left"
HIGHEST = 280.0  # of the outermost rectangle on the sheet
UNDER = 12.0  # between the drawing and its labels
BOARD, PLYWOOD = Look(OUTLINE, WOOD, "grain"), Look(OUTLINE, WOOD, "board")
LAYERS = {
    "side": BOARD,
    "end": Look(OUTLINE, WOOD, "grain_across"),
    "foam_side": Look(OUTLINE, FOAM, "foam"),
    "foam_end": Look(OUTLINE, FOAM, "foam"),
    "skin_side": PLYWOOD,
    "skin_end": PLYWOOD,
}
