"""At the saw: a stud cut into strips, a rip at the fence, a tilted blade, a rim side's taper."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from math import hypot
from typing import TypeAlias

from hivecalc.drawing.canvas import (
    CHANGED,
    HIDDEN,
    INK,
    LENGTHWAYS,
    MARGIN,
    METAL,
    OUTLINE,
    PAPER,
    PENCIL,
    WIDTH,
    WOOD,
    Canvas,
    Finish,
    Pen,
    figure,
)
from hivecalc.drawing.labels import (
    Dim,
    Label,
    Text,
    draw_dims,
    draw_labels,
    packed,
    plain_dim,
    room_for,
    text_end,
)
from hivecalc.drawing.layout import LINE, Side
from hivecalc.drawing.subject import Outline, View
from hivecalc.drawing.svg import Picture
from hivecalc.length import Length, Units
from hivecalc.space.solids import NOTHING, rectangle
from hivecalc.workshop.settings import Bevel, Taper, degrees_text, taper_words
from hivecalc.workshop.strips import CrossSection, Rectangle, Rip, section_words

# ── a stud seen from its end ──────────────────────────────────────────────────────────────────────

STUD = "Cross-section of a stud, cut into strips"
CROSSED_OUT = "Crossed out: a rest that is too narrow to be cut any further."
LARGEST_STUD = 64.0  # units of the sheet for an inch
STUD_ROOM = LINE + 24.0  # for a row of labels and their leaders
HAIR = Fraction(1, 1000)
STUD_LOOKS = {
    "strip": Finish(OUTLINE, WOOD, "strip"),
    "kerf": Finish(HIDDEN, PAPER),
    "rest": Finish(Pen(OUTLINE.colour, 0.8), PAPER, "grain"),
    "narrow rest": Finish(Pen(OUTLINE.colour, 0.8), PAPER, "wrong"),
}


def stud_section(
    section: CrossSection, *, units: Units = "inch", name: str = "", captioned: bool = True
) -> Picture:
    """SVG picture of a stud's cross-section with its strips, kerfs and rests, true to scale.

    >>> from hivecalc.workshop.strips import cross_section
    >>> stud = cross_section(*map(Fraction, ("1.5", "3.5", "0.5", "0.75", "0.125")))
    >>> picture = stud_section(stud)
    >>> picture.traced.count("data-part='strip'"), "kerf 1/8 in" in picture
    (5, True)

    The stud lies as it does for the first rip, its `first` side along the sheet. Figures are shown
    in `units`. A rest that is too narrow to be held is crossed out, and it is said so. Its words
    stand below it, unless they stand beside it.
    """
    places = list(_places(section))
    narrow = any(part == "narrow rest" for part, _ in places)
    canvas, legend = Canvas(), [CROSSED_OUT] if narrow else []
    words = [*legend, *section_words(section, units)]
    top = canvas.paragraph(STUD, MARGIN, bold=True) + STUD_ROOM
    along, up = section.sides
    left = MARGIN + room_for([plain_dim("stud", up, units, 0, 0)]) + 2 * LINE
    scale = min(LARGEST_STUD, (WIDTH - 2 * MARGIN - left) / float(along))
    view = View(left, top, scale, (-HAIR, along + HAIR), (-HAIR, up + HAIR))
    with canvas.view("section", view.scale):
        for part, (x, y, wide, high) in places:
            outline = rectangle((x, x + wide), (y, y + high))
            view.draw(canvas, outline, STUD_LOOKS[part], {"part": part})
        rows = packed(_widths(section, units, view), view.left, WIDTH - MARGIN)
        bottom = draw_dims(canvas, "bottom", view.bottom, rows) + MARGIN
        rows = packed(_heights(section, units, view), top - STUD_ROOM / 2, float("inf"))
        draw_dims(canvas, "left", view.left, rows)
    through = [k for k in section.places["kerf"] if k.high == up]
    said = ("first rip", "last rip") if len(through) > 1 else ("only rip",)
    ends = zip(said, through[:: max(1, len(through) - 1)], strict=False)
    rips = [Label(Text((word,)), (view.x(k.x + k.wide / 2), top)) for word, k in ends]
    draw_labels(canvas, "top", top - 20, rips, (view.left, WIDTH - MARGIN))
    bottom = canvas.paragraphs(words if captioned else legend, bottom)
    return canvas.picture(STUD, " ".join(words), bottom + MARGIN, name)


def _places(section: CrossSection) -> Iterator[tuple[str, Rectangle]]:
    for part, places in section.places.items():
        for place in places:
            narrow = part == "rest" and min(place.wide, place.high) < section.least_fence
            yield f"{'narrow ' * narrow}{part}", place


def _widths(section: CrossSection, units: Units, view: View) -> Iterator[Dim]:
    """The first strip of each width along the sheet, the first kerf, the rest, the stud."""
    (along, up), shown = section.sides, set[tuple[str, Length]]()
    for word, places in section.places.items():
        for x, _, wide, high in places:
            if (word, wide) not in shown and (word == "strip" or high == up):
                shown.add((word, wide))
                yield plain_dim(word, wide, units, view.x(x), view.x(x + wide))
    yield plain_dim("stud", along, units, view.x(0), view.x(along))


def _heights(section: CrossSection, units: Units, view: View) -> Iterator[Dim]:
    """The first strip where it is lower than the stud, and the stud."""
    _, up = section.sides
    for _, y, _, high in section.places["strip"][:1]:
        if high != up:
            yield plain_dim("strip", high, units, view.y(y + high), view.y(y))
    yield plain_dim("stud", up, units, view.y(up), view.y(0))


# ── a rip seen from the end ──────────────────────────────────────────────────────────────────────

LARGEST_RIP = 48.0  # units of the sheet for an inch
FENCE = Fraction(1, 2)  # inches of the fence that are drawn, and of table beyond the stock
ABOVE = Fraction(1, 4)  # inches by which fence and blade stand above the stock
TABLE = Fraction(1, 4)  # inches of the table's thickness that are drawn
RIP_ROOM = LINE + 22.0
Place: TypeAlias = Fraction | float
STAYS = Finish(OUTLINE, WOOD, "stud")
FALLS = Finish(Pen(PENCIL, 0.9, "4 3"), PAPER, "grain")
IRON = Finish(Pen(INK, 0.9), METAL)
BLADE = Finish(Pen(INK, 0.7), PENCIL)
KEPT_OFF = "The wide part runs between blade and fence. What falls off on the other side is kept."
KEPT_HERE = "What stays between blade and fence is kept: push it with a push block, to the end."
AWAY = (
    "The blade leans away from the fence, so that what falls off is not caught under it. The face "
    "on the table comes out narrower than the face above."
)


def fence_and_kerf(
    rip: Rip, high: Length, kerf: Length, *, units: Units = "inch", name: str = ""
) -> Picture:
    """SVG picture of a rip from the end: the fence's distance, the kerf and what falls off.

    `high` is how thick the stock is as it lies on the table. Lengths in inches, shown in `units`.
    """
    text = KEPT_OFF if rip.keeps else KEPT_HERE
    ripped = _Ripped(rip.fence, rip.before, high, kerf, NOTHING, units)
    return ripped.picture("Fence and kerf", text, name)


def tilted_blade(
    bevel: Bevel, fence: Length, kerf: Length, *, units: Units = "inch", name: str = ""
) -> Picture:
    """SVG picture of a bevel being ripped, from the end: fence, tilt and what falls off.

    `fence` is where it is set: on a mark beside the bevel's own. Lengths in inches, shown in
    `units`.
    """
    tilt = f"The blade is tilted {degrees_text(bevel.tilt)}."
    upper = f"The face above stays {figure(bevel.upper, units)} wide."
    ripped = _Ripped(fence, bevel.upper, bevel.thickness, kerf, bevel.slope, units)
    return ripped.picture("A tilted blade", f"{tilt} {AWAY} {upper}", name)


@dataclass(frozen=True)
class _Ripped:
    """A rip in the plane across the stock: u from the fence, v up from the table."""

    fence: Length
    before: Length
    high: Length
    kerf: Length
    slope: Fraction
    units: Units

    def picture(self, title: str, text: str, name: str) -> Picture:
        canvas = Canvas()
        top = canvas.paragraph(f"{title}, seen from the end", MARGIN, bold=True) + RIP_ROOM
        wide = self.before + 2 * FENCE
        scale = min(LARGEST_RIP, (WIDTH - 2 * MARGIN) / float(wide))
        u, v = (-FENCE, self.before + FENCE), (-TABLE, self.high + ABOVE)
        view = View((WIDTH - float(wide) * scale) / 2, top, scale, u, v)
        with canvas.view("rip", view.scale):
            for part, outline, finish in self._pieces(view):
                view.draw(canvas, outline, finish, {"part": part})
            bottom = draw_dims(canvas, "bottom", view.bottom, packed(self._dims(view)))
        high = self.high + ABOVE
        places = view.points([(-FENCE / 2, self.high), (self.fence + self.slope * high, high)])
        labels = [Label(Text((w,)), at) for w, at in zip(("fence", "blade"), places, strict=True)]
        draw_labels(canvas, "top", view.top - 18, labels)
        bottom = canvas.paragraph(text, bottom + MARGIN)
        sizes = {"fence": self.fence, "kerf": self.kerf, "stock": self.before}
        figures = ", ".join(f"{word} {figure(size, self.units)}" for word, size in sizes.items())
        words = f"A rip seen from the end: {figures}. {text}"
        return canvas.picture(title, words, bottom + MARGIN, name)

    @property
    def _end(self) -> Place:
        """Where on the table the kerf ends."""
        across = self.kerf if not self.slope else float(self.kerf) * hypot(1, self.slope)
        return self.fence + across

    @property
    def _off(self) -> Place:
        """How wide what falls off is on the table."""
        return max(self.before - self._end, NOTHING)

    def _pieces(self, view: View) -> Iterator[tuple[str, Outline, Finish]]:
        """Table, fence and blade, what stays beside the fence, and what falls off."""
        (left, right), (low, high) = view.u, view.v
        yield "table", rectangle((left, right), (low, NOTHING)), IRON
        yield "fence", rectangle((left, NOTHING), (NOTHING, high)), IRON
        top = self.fence + self.slope * self.high
        stays = [(NOTHING, NOTHING), (self.fence, NOTHING), (top, self.high), (NOTHING, self.high)]
        yield "stays", stays, STAYS
        if self._off:
            end = self._end + self.slope * self.high
            falls: list[tuple[Place, Place]] = [(self._end, NOTHING), (self.before, NOTHING)]
            if end <= self.before:
                falls += [(self.before, self.high), (end, self.high)]
            else:  # a wedge: the kerf leaves through its side
                falls += [(self.before, self._off / self.slope)]
            yield "falls", falls, FALLS
        wide, foot, head = self._end - self.fence, self.slope * low, self.slope * high
        blade = ((foot, low), (foot + wide, low), (head + wide, high), (head, high))
        yield "blade", [(self.fence + u, v) for u, v in blade], BLADE

    def _dims(self, view: View) -> Iterator[Dim]:
        fence, nothing, end = self.fence, NOTHING, self._end
        dims: list[tuple[str, Length, Place, Place]] = [("fence", fence, nothing, fence)]
        if not self.slope:
            dims += [("kerf", self.kerf, fence, end)]
            dims += [("falls off", Fraction(self._off), end, self.before)] if self._off else []
        for word, exact, low, high in (*dims, ("stock", self.before, nothing, self.before)):
            yield plain_dim(word, exact, self.units, view.x(low), view.x(high))


# ── the taper ────────────────────────────────────────────────────────────────────────────────────

TAPERED = "The taper of a rim side"
HIGHEST_END = 120.0  # of an enlarged end on the sheet
LARGEST_END = 40.0  # units of the sheet for an inch
BETWEEN_ENDS = 20.0  # between the two enlarged ends
AIR = Fraction(1, 8)
WASTE = Finish(Pen(PENCIL, 0.9, "4 3"), PAPER)
CUT = Pen(CHANGED, 2.0)


def taper_drawing(
    taper: Taper, *, units: Units = "inch", name: str = "", captioned: bool = True
) -> Picture:
    """SVG picture of a rim side's taper, with its two heights and the marks for the cut.

    The front is at the left. Lengths in inches, shown in `units`. Its words stand below it, unless
    they stand beside it.
    """
    canvas = Canvas()
    top = canvas.paragraph(f"{TAPERED}, front at left", MARGIN, bold=True) + MARGIN
    bottom = _draw_whole(canvas, taper, units, top)
    both = "Both ends, larger: mark 1 in front, mark 2 at the back"
    bottom = canvas.paragraph(both, bottom + MARGIN, bold=True)
    bottom = _draw_ends(canvas, taper, units, bottom + MARGIN)
    rise, run = figure(taper.rise, units), figure(taper.run, units)
    angle = f"angle {degrees_text(taper.angle)}: {rise} over {run}"
    sentences = [angle, *taper_words(taper, units)]
    bottom = canvas.paragraphs(sentences if captioned else (), bottom)
    words = f"{TAPERED}: {'; '.join(sentences)}."
    return canvas.picture(TAPERED, words, bottom + MARGIN, name)


def _draw_side(canvas: Canvas, view: View, t: Taper) -> None:
    cut: Outline = [(0, t.high), (t.run, t.low)]
    view.draw(canvas, [*cut, (t.run, t.high)], WASTE, {"part": "waste"})
    view.draw(canvas, [(0, 0), (t.run, 0), *cut[::-1]], LENGTHWAYS, {"part": "rim side"})


def _draw_whole(canvas: Canvas, t: Taper, units: Units, top: float) -> float:
    scale = (WIDTH - 2 * MARGIN) / float(t.run + 2 * AIR)
    view = View(MARGIN, top, scale, (-AIR, t.run + AIR), (-AIR, t.high + AIR))
    with canvas.view("whole", scale):
        _draw_side(canvas, view, t)
        start, end = view.points([(0, t.high), (t.run, t.low)])
        canvas.line(start, end, CUT, {"part": "cut"})
        said = Text((f"length {figure(t.run, units)}",))
        run = Dim("roof.rim_side_length", t.run, said, view.x(0), view.x(t.run))
        return draw_dims(canvas, "bottom", view.bottom, packed([run]))


def _draw_ends(canvas: Canvas, t: Taper, units: Units, top: float) -> float:
    """Draw both ends enlarged, each with its height and a ring where the cut ends."""
    front = Dim("stud_width", t.high, Text((f"front {figure(t.high, units)}",)), 0, 0)
    back = Dim("rim_low_height", t.low, Text((f"back {figure(t.low, units)}",)), 0, 0)
    beside = MARGIN + room_for([front])
    scale = min(LARGEST_END, HIGHEST_END / float(t.high))
    shown = min(t.run / 2, Fraction((WIDTH - BETWEEN_ENDS) / 2 - beside) / Fraction(scale))
    up = -AIR, t.high + AIR
    left = View(beside, top, scale, (-AIR, shown - AIR), up)
    begin = WIDTH - beside - float(shown) * scale
    right = View(begin, top, scale, (t.run - shown + AIR, t.run + AIR), up)
    with canvas.view("front", scale):
        low = _draw_end(canvas, left, "left", t, front)
    with canvas.view("back", scale):
        return max(low, _draw_end(canvas, right, "right", t, back)) + MARGIN


def _draw_end(canvas: Canvas, view: View, side: Side, t: Taper, height: Dim) -> float:
    with canvas.window(view.frame):
        _draw_side(canvas, view, t)
    top, foot = view.y(height.exact), view.y(0)
    canvas.circle((view.x(0 if side == "left" else t.run), top), 4.0, CUT)
    rows = packed([replace(height, low=top, high=foot)], view.top, view.bottom + MARGIN)
    draw_dims(canvas, side, view.left if side == "left" else view.right, rows)
    return max(view.bottom, text_end(rows))
