"""Rain on a roof in section: it runs along the cover and drips off its back edge."""

from math import hypot

from hivecalc.drawing.layout import Point
from hivecalc.drawing.svg import PAPER, PENCIL, Pen, Sheet

RAIN = 14.0
"""Room that falling rain takes beyond the cover's edge, on the sheet."""

FALL = 48.0
"""How far below the cover's edge falling rain is drawn, on the sheet."""

ABOVE = 6.0  # between the cover and the rain on it
RUNNING, DROP = Pen(PENCIL, 1.1, "7 4"), Pen(PENCIL, 0.9)
ARROW, WIDE, HIGH, APART = 6.0, 2.2, 7.0, 13.0


def draw_rain(sheet: Sheet, front: Point, back: Point) -> None:
    """Draw rain that runs down the cover, from its front edge to its back edge, and off it."""
    (x0, y0), (x1, y1) = front, back
    sheet.path([(x0 + 4, y0 - ABOVE), (x1, y1 - ABOVE)], RUNNING)
    long = hypot(x1 - x0, y1 - y0)
    along, down = (x1 - x0) / long * ARROW, (y1 - y0) / long * ARROW
    tip = (x1 + along * 0.6, y1 - ABOVE + down * 0.6)
    for aside in (-0.55, 0.55):
        end = (tip[0] - along - down * aside, tip[1] - down + along * aside)
        sheet.line(tip, end, Pen(PENCIL, 1.1))
    draw_drops(sheet, back)


def draw_drops(sheet: Sheet, edge: Point) -> None:
    """Draw three drops that fall from an edge."""
    x, y = edge[0] + WIDE + 2, edge[1] + 8
    for i in range(3):
        top = y + i * APART
        low = top + HIGH
        sides = [
            (x - WIDE, low - 2),
            (x - WIDE * 0.7, low),
            (x + WIDE * 0.7, low),
            (x + WIDE, low - 2),
        ]
        sheet.polygon([(x, top), *sides], DROP, PAPER, data={"rain": "drop"})
