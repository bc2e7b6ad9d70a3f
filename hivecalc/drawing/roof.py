"""The roof: where its screws land, what its section shows and warns of, and its screws from above.

The cover's screws and the deck's stand on one line, but never in one place: the section is drawn
through a screw of the cover, and the deck's next one is seen behind it, dashed.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from math import hypot
from typing import Final, Literal, TypeAlias

from hivecalc.drawing.canvas import (
    HIDDEN,
    INK,
    MARGIN,
    METAL,
    NO_LINE,
    OUTLINE,
    PAPER,
    THIN,
    WIDTH,
    WRONG_LINE,
    Canvas,
    Finish,
    Pen,
    Picture,
)
from hivecalc.drawing.faults import SPACE_TAKEN_TWICE, SlopingSeen, Telling, part
from hivecalc.drawing.labels import Dim, Mark, depth, draw_dims, packed, room_for
from hivecalc.drawing.layout import Point
from hivecalc.drawing.subject import (
    Named,
    Outline,
    Piece,
    Sizes,
    Subject,
    View,
    cut_finish,
    floated,
)
from hivecalc.length import MM, Length, shown
from hivecalc.space import SIDES, ScrewRow, Side, Solid, screw_row
from hivecalc.space.roof import fall
from hivecalc.space.solids import Profile, rectangle, span

# ── its screws ──────────────────────────────────────────────────────────────────────────────────

Where: TypeAlias = Literal["front", "back"]

# A No. 8 wood screw: 0.164 in over its thread, by ASME B18.6.1; the head is about twice as wide.
# Both are from memory, and only for the look of it.
THICK, HEAD_WIDE, HEAD_HIGH, POINT = 0.164, 0.32, 0.1, 0.22
# The lines that are marked on the roof: the dimension, the piece from whose edge it is taken, and
# the words for it. The rim's back is thin, so there they lie nearer to the edge.
LINES: Mapping[Where, tuple[Named, Named]] = {
    "front": (("roof.cover_screw_line", "cover", "screw from cover's edge"),
              ("roof.deck_screw_line", "deck", "screw from deck's edge")),
    "back": (("roof.cover_back_screw_line", "cover", "screw from cover's edge"),
             ("roof.deck_back_screw_line", "deck", "screw from deck's edge")),
}  # fmt: skip
LANDS, MISSES = Finish(OUTLINE, METAL), Finish(WRONG_LINE, METAL, "wrong")
BEHIND = Finish(HIDDEN)


@dataclass(frozen=True)
class ScrewLine:
    """A screw line: its dimension, and in the section the edge it is taken from and the mark."""

    name: str
    edge: Point
    mark: Point


@dataclass(frozen=True)
class DrawnScrew:
    """A screw in the section: its head's middle, the way it points, and the sheet it starts from.

    `exact` is its length; `fault` says what is wrong with where it lands, or nothing.
    """

    head: Point
    way: Point
    sheet: str
    exact: Length
    fault: str = ""

    @property
    def aside(self) -> bool:
        """Whether it stands behind the cut: the deck's screws keep away from the cover's."""
        return self.sheet == "deck"

    def at(self, deep: float, aside: float = 0.0) -> Point:
        """The place so deep along the screw and so far aside from its middle, in inches."""
        (y, z), (dy, dz) = self.head, self.way
        return (y + dy * deep - dz * aside, z + dz * deep + dy * aside)

    @property
    def tip(self) -> Point:
        """Where its point is."""
        return self.at(float(self.exact))

    @property
    def piece(self) -> Piece:
        """Its outline, a head that is sunk in, a shank and a point; one that misses is hatched."""
        said = self.fault or f"{self.sheet}: lands in the rail"
        data = {"screw": said, "sheet": self.sheet, "exact": self.exact}
        finish = MISSES if self.fault else BEHIND if self.aside else LANDS
        half, shank = THICK / 2, float(self.exact) - POINT
        side = [(0, HEAD_WIDE / 2), (HEAD_HIGH, half), (shank, half)]
        left, right = [self.at(deep, -wide) for deep, wide in side], [self.at(*at) for at in side]
        return [*left, self.tip, *right[::-1]], finish, data


def lines(
    solids: Mapping[str, Solid], sizes: Mapping[str, Fraction], end: Where
) -> list[ScrewLine]:
    """The screw lines at one end of the roof, the cover's first."""
    found = []
    for name, piece, _ in LINES[end]:
        edge, along = _edge(solids[piece].blocks[0].profile, end)
        far = float(sizes[name])
        found.append(ScrewLine(name, edge, (edge[0] + along[0] * far, edge[1] + along[1] * far)))
    return found


def _edge(profile: Profile, end: Where) -> tuple[Point, Point]:
    """A sheet's upper edge at this end, and the way from there along its upper face."""
    back, front = ((float(y), float(z)) for y, z in profile[2:])
    here, there = (front, back) if end == "front" else (back, front)
    long = hypot(there[0] - here[0], there[1] - here[1])
    return here, ((there[0] - here[0]) / long, (there[1] - here[1]) / long)


def screws(
    solids: Mapping[str, Solid], sizes: Mapping[str, Fraction], end: Where
) -> list[DrawnScrew]:
    """The screws at one end: the cover's and the deck's, each on its own line."""
    _, (along_y, along_z) = _edge(solids["deck"].blocks[0].profile, "front")
    way, rail = (along_z, -along_y), solids[f"rim {end}"]
    found = [
        DrawnScrew(line.mark, way, sheet, sizes[f"{sheet}_screw"])
        for line, (_, sheet, _) in zip(lines(solids, sizes, end), LINES[end], strict=True)
    ]
    return [replace(screw, fault=_fault(screw, solids["deck"], rail)) for screw in found]


def _fault(screw: DrawnScrew, deck: Solid, rail: Solid) -> str:
    """What is wrong with where a screw lands: it must enter the rail and end in it."""
    profile = rail.blocks[0].profile
    low, high = (float(y) for y in rail.extents[1])
    under = _below(screw, deck.blocks[0].profile)
    if not all(low <= y <= high for y in (under[0], screw.tip[0])):
        return f"misses the {rail.label}"
    bottom, top = (float(z) for z in span(profile, 1, Fraction(screw.tip[0])))
    if screw.tip[1] > top:
        return f"does not reach the {rail.label}"
    return "" if screw.tip[1] > bottom else f"comes out below the {rail.label}"


def _below(screw: DrawnScrew, deck: Profile) -> Point:
    """Where a screw comes out of the deck's lower face, or where its point is if it does not."""
    y, z = (float(c) for c in deck[0])
    deep = (y - screw.head[0]) * screw.way[0] + (z - screw.head[1]) * screw.way[1]
    return screw.at(min(deep, float(screw.exact)))


# ── cut along its middle ──────────────────────────────────────────────────────────────────────

Pieces: TypeAlias = Mapping[str, Solid]
BEYOND = ("skirt side, left", "rim side, left", "roof retainer, left")
HUNG = ("roof panel", "roof retainer, left")
ENDS: tuple[Where, Where] = ("front", "back")
HEIGHT = 2  # the axis that runs up
LEVEL = Fraction(1, 32)  # inches: an overhang that is shorter by less than this on the slope


@dataclass(frozen=True)
class Measured:
    """A length that is found on the assembled roof: itself, as it was before, and its word."""

    name: str
    word: str
    now: Length
    before: Length

    def lines(self, subject: Subject) -> tuple[str, ...]:
        """The word and the length, and below it the one to compare it with, if it is another."""
        same = self.now == self.before
        if subject.asked:
            return subject.with_before(self.word, subject.figure(self.name) if same else "?", None)
        return subject.with_before(
            self.word, subject.shown(self.now), None if same else self.before
        )

    @property
    def mark(self) -> Mark:
        """How a label with this length is marked."""
        return "plain" if self.now == self.before else "changed"


@dataclass(frozen=True)
class CutRoof:
    """The roof cut along its middle, ready to be drawn through any view."""

    subject: Subject

    def profile(self, label: str) -> Profile:
        """The outline of a piece in the section, or of what the roof meets."""
        return self.there[label].blocks[0].profile

    @cached_property
    def there(self) -> Mapping[str, Solid]:
        """The roof's pieces, and what it meets, by label."""
        return {**self.subject.met, **self.subject.solids}

    @property
    def box_top(self) -> Length:
        """How high the box's top lies, from the rim's foot: lower by an inner cover's height."""
        return self.subject.met["box below"].extents[HEIGHT][1]

    @cached_property
    def top(self) -> Outline:
        """The cover's upper face: its front and its back edge."""
        *_, back, front = floated(self.profile("cover"))
        return [front, back]

    @cached_property
    def up(self) -> Point:
        """The way square to the slope, upwards, one inch long."""
        (y0, z0), (y1, z1) = self.top
        long = hypot(y1 - y0, z1 - z0)
        return float(z0 - z1) / long, float(y1 - y0) / long

    def back_edge(self, view: View) -> Point:
        """The cover's back edge on the sheet."""
        y, z = self.top[1]
        return view.x(y), view.y(z)

    @cached_property
    def screws(self) -> dict[Where, list[DrawnScrew]]:
        """The screws at each end."""
        return {where: screws(self.subject.solids, self.subject.now, where) for where in ENDS}

    # Drawn

    def draw(self, canvas: Canvas, view: View) -> None:
        """Draw as much of the roof as the view shows, with what does not go marked."""
        for piece in self._behind:
            view.draw(canvas, *piece)
        view.draw_beside(canvas, self._pieces)
        self.telling(view).mark(canvas, view)
        view.draw_beside(canvas, (screw.piece for where in ENDS for screw in self.screws[where]))

    def telling(self, view: View) -> Telling:
        """The faults of a wrong cut, ready to be marked and named beside this view."""
        return Telling(self.seen, view, self.draw)

    @cached_property
    def seen(self) -> SlopingSeen:
        """What the section shows of a wrong cut; of twins it sees one, and names no side.

        What is below is left out: no wrong cut of the roof moves what it stands on.
        """
        pieces = self.subject.compared(lambda s: s.place != "right" and bool(s.cut))
        true, cut = ({s.name: s for s in map(_without_side, some.values())} for some in pieces)
        return SlopingSeen(("y", "z"), true, cut, self.subject.units, self.subject.asked)

    @cached_property
    def _behind(self) -> list[Piece]:
        """What lies beyond the cut, the farthest first, then what is below."""
        beyond = [self._piece(self.subject.solids[label]) for label in BEYOND]
        below = reversed(self.subject.met.values())
        hidden = Finish(HIDDEN, PAPER)
        return [*beyond, *((floated(s.blocks[0].profile), hidden, None) for s in below)]

    @cached_property
    def _pieces(self) -> list[Piece]:
        """What is cut through, and what hangs out."""
        middle, solids = self.subject.now["hive_width"] / 2, self.subject.solids.values()
        cut = (s for s in solids if s.extents[0][0] < middle < s.extents[0][1])
        return [*map(self._piece, cut), *self._hung_out()]

    def _piece(self, solid: Solid) -> Piece:
        finish = cut_finish(solid, self.subject.pen(solid))
        if solid.label in BEYOND:
            finish = Finish(THIN if finish.pen is OUTLINE else finish.pen, PAPER)
        return floated(self.profile(solid.label)), finish, {"part": solid.label}

    def _hung_out(self) -> Iterator[Piece]:
        """The parts of a hive's own foam and retainers that hang out below the rim."""
        for label in HUNG if self._hangs_out else ():
            low = part(self.profile(label), HEIGHT, (self._lowest, Fraction(0)))
            if low:
                yield floated(low), SPACE_TAKEN_TWICE, None

    @cached_property
    def _lowest(self) -> Length:
        return min(self.subject.solids[label].extents[HEIGHT][0] for label in HUNG)

    @property
    def _hangs_out(self) -> bool:
        return self._lowest < 0 and not self.subject.wrong

    # Measured

    @cached_property
    def skirt_lap(self) -> Measured:
        """How far the skirt laps the box; less than nothing where it ends above it."""

        def found(pieces: Pieces, now: Sizes) -> Length:
            cover = now["inner_cover.overall_height"] if now["inner_cover"] else Fraction(0)
            return -cover - pieces["skirt end, front"].extents[HEIGHT][0]

        return self._measured("roof.lap", "lap on the box", found)

    @cached_property
    def lip(self) -> Measured:
        """How far the cover stands out beyond the deck."""
        return self._measured(
            "cover_lip", "lip", lambda s, _: (s["cover"].cut[1] - s["deck"].cut[1]) / 2
        )

    @cached_property
    def overhang(self) -> Measured:
        """How far the deck stands out beyond the hive, as it was cut."""
        return self._measured(
            "overhang", "overhang", lambda s, now: (s["deck"].cut[1] - now["hive_length"]) / 2
        )

    def _measured(self, name: str, word: str, found: Callable[[Pieces, Sizes], Length]) -> Measured:
        subject = self.subject
        before = found(subject.solids_before, subject.before)
        return Measured(name, word, found(subject.solids, subject.now), before)

    @property
    def level_overhang(self) -> str:
        """The overhang measured level, where the slope takes something off it."""
        level = -self.subject.solids["deck"].extents[1][0]
        if self.overhang.now - level < LEVEL or self.subject.asked:
            return ""
        return f"level {shown(level, self.subject.units)}"

    # Told

    @cached_property
    def slope(self) -> str:
        """How the roof slopes, in words."""
        if not fall(self.subject.now):
            return "The roof is flat: tilt the stand to the back, so that rain runs off there."
        if self.subject.asked:
            return "The roof falls to the back, so that rain runs off there."
        now, units, steep = self.subject.now, self.subject.units, fall(self.subject.now)
        down = now["stud_width"] - now["rim_low_height"]
        long, name = (Fraction(12), "foot") if units == "inch" else (1000 * MM, "metre")
        each = shown(steep * long, units).removeprefix("≈ ")
        over = f"{self.subject.shown(down)} to the back over {self.subject.shown(down / steep)}"
        return f"The roof falls {over}, about {each} for each {name}, so rain runs off the back."

    @cached_property
    def warnings(self) -> list[str]:
        """What does not go: a screw beside its rail, a skirt too high, foam that hangs out."""
        found = [
            f"At the {where} the screw through the {screw.sheet} {screw.fault}."
            for where in ENDS
            for screw in self.screws[where]
            if screw.fault
        ]
        if self.skirt_lap.now <= 0:
            above = self.subject.shown(-self.skirt_lap.now)
            found.append(f"The skirt ends {above} above the box: wind and rain get in.")
        if self._hangs_out:
            below = self.subject.shown(-self._lowest)
            found.append(f"Foam or retainers hang {below} below the rim: the roof rocks.")
        return found


def _without_side(solid: Solid) -> Solid:
    return replace(solid, place="") if solid.place == "left" else solid


# ── from above ────────────────────────────────────────────────────────────────────────────────

HEADING: Final = "The flat cover from above, front at left"
HIGHEST: Final = 250.0  # of the cover on the sheet
SCREW = 3.4  # radius on the sheet
NOTHING = Fraction(0)
RING: Final = Pen(INK, 1.4)
COVER, DECK = Finish(OUTLINE, METAL), Finish(HIDDEN)


def roof_from_above(subject: Subject) -> Picture:
    """SVG picture of the cover from above, with its own screws and, under it, the deck's.

    Places are those on the flat sheets, as one marks them.
    """
    return _FromAbove(subject).picture()


@dataclass(frozen=True)
class _FromAbove:
    subject: Subject

    def picture(self) -> Picture:
        canvas = Canvas()
        top = canvas.paragraph(HEADING, MARGIN, bold=True)
        flat = self._view(0, 0)
        left, above = room_for(self._dims("left", flat)), depth(packed(self._dims("top", flat)))
        view = self._view(MARGIN + left + 6, top + above + 6)
        with canvas.view("roof from above", view.scale):
            self._draw_sheets(canvas, view)
            draw_dims(canvas, "top", view.top, packed(self._dims("top", view)))
            sides = packed(self._dims("left", view), view.top, view.bottom)
            draw_dims(canvas, "left", view.left, sides)
            below = packed(self._dims("bottom", view), view.left, WIDTH - MARGIN)
            bottom = draw_dims(canvas, "bottom", view.bottom, below) + MARGIN
        bottom = canvas.paragraphs(self._sentences, bottom, 4)
        words = " ".join((f"{HEADING}.", *self._sentences))
        return canvas.picture(
            self.subject.titled("Screws of the roof, from above"),
            words,
            bottom + MARGIN,
            view.scale,
        )

    # Places

    @cached_property
    def _rows(self) -> Mapping[Side, ScrewRow]:
        return {side: screw_row(self.subject.now, side) for side in SIDES}

    @property
    def _size(self) -> tuple[Length, Length]:
        return self.subject.now["roof.cover_length"], self.subject.now["roof.cover_width"]

    def _place(self, side: Side, at: Length, line: Length) -> tuple[Length, Length]:
        """A place on the cover, along it and across it, from its front left corner."""
        long, wide = self._size
        if side in ENDS:
            return (line if side == "front" else long - line), at
        return at, (line if side == "left" else wide - line)

    def _places(self, kind: str) -> set[tuple[Length, Length]]:
        """Where the screws of the cover or of the deck stand; corner screws only once."""
        return {
            self._place(side, at, row.line)
            for side, row in self._rows.items()
            for at in (row.cover if kind == "cover" else row.deck)
        }

    # Drawn

    def _view(self, left: float, top: float) -> View:
        long, wide = self._size
        room = WIDTH - 2 * MARGIN - 80
        scale = min(room / float(long), HIGHEST / float(wide))
        return View(left, top, scale, (NOTHING, long), (NOTHING, wide), down=True)

    def _draw_sheets(self, canvas: Canvas, view: View) -> None:
        """Draw the cover, the deck below it, the screw line, and the screws of both."""
        (long, wide), lip = self._size, self.subject.now["cover_lip"]
        front, back, side = (self._rows[at].line for at in ("front", "back", "left"))
        view.draw(canvas, rectangle((NOTHING, long), (NOTHING, wide)), COVER)
        view.draw(canvas, rectangle((lip, long - lip), (lip, wide - lip)), DECK)
        view.draw(canvas, rectangle((front, long - back), (side, wide - side)), DECK)
        for kind, pen, fill in (("cover", NO_LINE, INK), ("deck", RING, PAPER)):
            for u, v in sorted(self._places(kind)):
                canvas.circle((view.x(u), view.y(v)), SCREW, pen, fill)

    def _dims(self, side: str, view: View) -> list[Dim]:
        """From the edge to the screw line, above and at the left; below from screw to screw."""
        (long, _), rows = self._size, self._rows
        first, second = rows["right"].cover[:2]
        lines: dict[str, list[tuple[str, Length, Length]]] = {
            "top": [("roof.cover_screw_line", NOTHING, rows["front"].line),
                    ("roof.cover_back_screw_line", long - rows["back"].line, long)],
            "left": [("roof.cover_screw_line", NOTHING, rows["left"].line)],
            "bottom": [("to deck screw", first, rows["right"].deck[0]),
                       ("to cover screw", first, second)],
        }  # fmt: skip
        at = view.y if side == "left" else view.x
        return [
            Dim(name, high - low, (self.subject.shown(high - low),), at(low), at(high))
            for name, low, high in lines[side]
        ]

    # Told

    @property
    def _sentences(self) -> tuple[str, ...]:
        now, shown = self.subject.now, self.subject.shown
        cover, deck = (len(self._places(kind)) for kind in ("cover", "deck"))
        most, *lengths = (shown(now[n]) for n in ("screw_spacing", "cover_screw", "deck_screw"))
        return (
            f"Full: {cover} screws of the cover, {lengths[0]} long, none more than {most} apart.",
            f"Rings: {deck} screws of the deck below, {lengths[1]} long, between the cover's.",
            "Dashed: the deck's edge, and the screw line over the middle of the rim.",
        )
