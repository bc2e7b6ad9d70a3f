"""The roof: where its screws land, what its section shows and warns of, and its screws from above.

The cover's screws and the deck's stand on one line, but never in one place: the section is drawn
through a screw of the cover, and the deck's next one is seen behind it, dashed.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from math import hypot
from typing import Final, Literal, NamedTuple, TypeAlias

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
)
from hivecalc.drawing.faults import SPACE_TAKEN_TWICE, SlopingSeen, part
from hivecalc.drawing.labels import Dim, Text, depth, draw_dims, packed, room_for
from hivecalc.drawing.layout import Point
from hivecalc.drawing.subject import Named, Piece, Sizes, Subject, View, cut_finish, floated
from hivecalc.drawing.svg import Picture
from hivecalc.length import MM, Length, shown
from hivecalc.space import SIDES, ScrewRow, Side, Solid, screw_row
from hivecalc.space.fastening import on_cover
from hivecalc.space.roof import fall
from hivecalc.space.solids import NOTHING, Profile, rectangle, span

# ── its screws ──────────────────────────────────────────────────────────────────────────────────

Where: TypeAlias = Literal["front", "back"]
ENDS: tuple[Where, Where] = ("front", "back")

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


class ScrewLine(NamedTuple):
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
    def piece(self) -> Piece:
        """Its outline, a head that is sunk in, a shank and a point; one that misses is hatched."""
        said = self.fault or f"{self.sheet}: lands in the rail"
        data = {"screw": said, "sheet": self.sheet, "exact": self.exact}
        finish = MISSES if self.fault else BEHIND if self.aside else LANDS
        half, long = THICK / 2, float(self.exact)
        side = [(0, HEAD_WIDE / 2), (HEAD_HIGH, half), (long - POINT, half)]
        left, right = [self.at(deep, -wide) for deep, wide in side], [self.at(*at) for at in side]
        return [*left, self.at(long), *right[::-1]], finish, data


# ── cut along its middle ──────────────────────────────────────────────────────────────────────

BEYOND = ("skirt side, left", "rim side, left", "roof retainer, left")
HUNG = ("roof panel", "roof retainer, left")
HEIGHT = 2  # the axis that runs up
Pieces: TypeAlias = Mapping[str, Solid]
LEVEL = Fraction(1, 32)  # inches: an overhang that is shorter by less than this on the slope


@dataclass(frozen=True)
class CutRoof:
    """The roof cut along its middle, ready to be drawn through any view."""

    subject: Subject

    @cached_property
    def there(self) -> Mapping[str, Solid]:
        """The roof's pieces, and what it meets, by label."""
        return {**self.subject.met, **self.subject.solids}

    def profile(self, label: str) -> Profile:
        """The outline of a piece in the section, or of what the roof meets."""
        return self.there[label].blocks[0].profile

    @property
    def box_top(self) -> Length:
        """How high the box's top lies, from the rim's foot: lower by an inner cover's height."""
        return self.there["box below"].extents[HEIGHT][1]

    @cached_property
    def top(self) -> list[Point]:
        """The cover's upper face: its front and its back edge."""
        *_, back, front = floated(self.profile("cover"))
        return [front, back]

    @cached_property
    def up(self) -> Point:
        """The way square to the slope, upwards, one inch long."""
        (y0, z0), (y1, z1) = self.top
        long = hypot(y1 - y0, z1 - z0)
        return (z0 - z1) / long, (y1 - y0) / long

    # Its screws

    def lines(self, end: Where) -> list[ScrewLine]:
        """The screw lines at one end of the roof, the cover's first."""
        found, (up_y, up_z) = [], self.up
        for name, piece, _ in LINES[end]:
            back, front = floated(self.profile(piece))[2:]
            far = float(self.subject.now[name])
            (y, z), far = (front, far) if end == "front" else (back, -far)
            found.append(ScrewLine(name, (y, z), (y + up_z * far, z - up_y * far)))
        return found

    @cached_property
    def screws(self) -> dict[Where, list[DrawnScrew]]:
        """The screws at each end: the cover's and the deck's, each on its own line."""
        found: dict[Where, list[DrawnScrew]] = {end: [] for end in ENDS}
        way = -self.up[0], -self.up[1]
        for end, own in found.items():
            for line, (_, sheet, _) in zip(self.lines(end), LINES[end], strict=True):
                screw = DrawnScrew(line.mark, way, sheet, self.subject.now[f"{sheet}_screw"])
                fault = self._fault(screw, self.subject.solids[f"rim {end}"])
                own.append(replace(screw, fault=fault))
        return found

    def _fault(self, screw: DrawnScrew, rail: Solid) -> str:
        """What is wrong with where a screw lands: it must enter the rail and end in it."""
        low, high = map(float, rail.extents[1])
        # it enters where it comes out of the deck's lower face, if it is as long as that
        (y, z), *_ = floated(self.profile("deck"))
        deep = (y - screw.head[0]) * screw.way[0] + (z - screw.head[1]) * screw.way[1]
        enters, tip = screw.at(min(deep, float(screw.exact))), screw.at(float(screw.exact))
        if not all(low <= y <= high for y in (enters[0], tip[0])):
            return f"misses the {rail.label}"
        bottom, top = map(float, span(rail.blocks[0].profile, 1, Fraction(tip[0])))
        if tip[1] > top:
            return f"does not reach the {rail.label}"
        return "" if tip[1] > bottom else f"comes out below the {rail.label}"

    # Drawn

    def draw(self, canvas: Canvas, view: View) -> None:
        """Draw as much of the roof as the view shows, with what does not go marked."""
        for piece in self._behind:
            view.draw(canvas, *piece)
        view.draw_beside(canvas, self._pieces)
        self.seen.mark(canvas, view)
        view.draw_beside(canvas, (screw.piece for end in ENDS for screw in self.screws[end]))

    @cached_property
    def seen(self) -> SlopingSeen:
        """What the section shows of a wrong cut; of twins it sees one, and names no side.

        What is below is left out: no wrong cut of the roof moves what it stands on.
        """
        found = SlopingSeen.of(
            self.subject, ("y", "z"), lambda s: s.place != "right" and bool(s.cut)
        )
        true, cut = (
            [replace(s, place="") if s.place == "left" else s for s in some.values()]
            for some in (found.true, found.cut)
        )
        return replace(found, true={s.name: s for s in true}, cut={s.name: s for s in cut})

    @cached_property
    def _behind(self) -> list[Piece]:
        """What lies beyond the cut, the farthest first, then what is below."""
        beyond = [self._piece(self.subject.solids[label]) for label in BEYOND]
        below = reversed(self.subject.met.values())
        hidden = Finish(HIDDEN, PAPER)
        return [*beyond, *((floated(s.blocks[0].profile), hidden, None) for s in below)]

    @cached_property
    def _pieces(self) -> list[Piece]:
        """What is cut through, and what hangs out of a hive's own foam and retainers."""
        middle, solids = self.subject.now["hive_width"] / 2, self.subject.solids.values()
        found = [self._piece(s) for s in solids if s.extents[0][0] < middle < s.extents[0][1]]
        for label in HUNG if self._hangs_out else ():
            low = part(self.there[label].blocks[0], HEIGHT, (self._lowest, NOTHING))
            found += [(floated(low.profile), SPACE_TAKEN_TWICE, None)] if low else []
        return found

    def _piece(self, solid: Solid) -> Piece:
        finish = cut_finish(solid, self.subject.pen(solid))
        if solid.label in BEYOND:
            finish = Finish(THIN if finish.pen is OUTLINE else finish.pen, PAPER)
        return floated(solid.blocks[0].profile), finish, {"part": solid.label}

    @cached_property
    def _lowest(self) -> Length:
        return min(self.subject.solids[label].extents[HEIGHT][0] for label in HUNG)

    @property
    def _hangs_out(self) -> bool:
        return self._lowest < 0 and not self.subject.wrong

    # Measured on the assembled roof

    @cached_property
    def lap(self) -> Length:
        """How far the skirt laps the box; less than nothing where it ends above it."""
        return _lap(self.subject.solids, self.subject.now)

    @cached_property
    def measured(self) -> dict[str, Text]:
        """The skirt's lap on the box, the cover's lip and the deck's overhang, in words."""
        subject, found = self.subject, dict[str, Text]()
        for name, (word, length) in MEASURED.items():
            now = length(subject.solids, subject.now)
            before = length(subject.solids_before, subject.before)
            hidden = "?" if now != before else subject.figure(name)
            found[name] = subject.compared(word, now, before, hidden if subject.asked else "")
        return found

    @property
    def level_overhang(self) -> tuple[str, ...]:
        """The overhang measured level, in words, where the slope takes something off it."""
        overhang = _overhang(self.subject.solids, self.subject.now)
        level = -self.subject.solids["deck"].extents[1][0]
        if overhang - level < LEVEL or self.subject.asked:
            return ()
        return (f"level {shown(level, self.subject.units)}",)

    # Told

    @cached_property
    def slope(self) -> str:
        """How the roof slopes, in words."""
        now, units, steep = self.subject.now, self.subject.units, fall(self.subject.now)
        if not steep:
            return "The roof is flat: tilt the stand to the back, so that rain runs off there."
        if self.subject.asked:
            return "The roof falls to the back, so that rain runs off there."
        down = now["stud_width"] - now["rim_low_height"]
        long, name = (Fraction(12), "foot") if units == "inch" else (1000 * MM, "metre")
        each = shown(steep * long, units).removeprefix("≈ ")
        over = f"{self.subject.shown(down)} to the back over {self.subject.shown(down / steep)}"
        return f"The roof falls {over}, about {each} for each {name}, so rain runs off the back."

    @cached_property
    def warnings(self) -> list[str]:
        """What does not go: a screw beside its rail, a skirt too high, foam that hangs out."""
        found = [
            f"At the {end} the screw through the {screw.sheet} {screw.fault}."
            for end in ENDS
            for screw in self.screws[end]
            if screw.fault
        ]
        if self.lap <= 0:
            above = self.subject.shown(-self.lap)
            found.append(f"The skirt ends {above} above the box: wind and rain get in.")
        if self._hangs_out:
            below = self.subject.shown(-self._lowest)
            found.append(f"Foam or retainers hang {below} below the rim: the roof rocks.")
        return found


def _lap(solids: Pieces, sizes: Sizes) -> Length:
    cover = sizes["inner_cover.overall_height"] if sizes["inner_cover"] else NOTHING
    return -cover - solids["skirt end, front"].extents[HEIGHT][0]


def _lip(solids: Pieces, _: Sizes) -> Length:
    return (solids["cover"].cut[1] - solids["deck"].cut[1]) / 2


def _overhang(solids: Pieces, sizes: Sizes) -> Length:
    return (solids["deck"].cut[1] - sizes["hive_length"]) / 2


MEASURED = {
    "roof.lap": ("lap on the box", _lap), "cover_lip": ("lip", _lip),
    "overhang": ("overhang", _overhang),
}  # fmt: skip
"""What is found on the assembled roof: the word for it, and how."""


# ── from above ────────────────────────────────────────────────────────────────────────────────

HEADING: Final = "The flat cover from above, front at left"
HIGHEST: Final = 250.0  # of the cover on the sheet
SCREW = 3.4  # radius on the sheet
RING: Final = Pen(INK, 1.4)
COVER, DECK = Finish(OUTLINE, METAL), Finish(HIDDEN)
SHEETS = (("cover", NO_LINE, INK), ("deck", RING, PAPER))


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
        sentences = list(self._sentences())
        bottom = canvas.paragraphs(sentences, bottom, 4) + MARGIN
        words = " ".join((f"{HEADING}.", *sentences))
        return canvas.picture("Screws of the roof, from above", words, bottom, self.subject.name)

    # Places

    @cached_property
    def _rows(self) -> Mapping[Side, ScrewRow]:
        return {side: screw_row(self.subject.now, side) for side in SIDES}

    @property
    def _size(self) -> tuple[Length, Length]:
        return self.subject.now["roof.cover_length"], self.subject.now["roof.cover_width"]

    @cached_property
    def _places(self) -> Mapping[str, set[tuple[Length, Length]]]:
        """Where the screws of cover and deck stand on the cover, corner screws only once."""
        now, rows = self.subject.now, self._rows.items()
        cover = {on_cover(now, side, at, row.line) for side, row in rows for at in row.cover}
        deck = {on_cover(now, side, at, row.line) for side, row in rows for at in row.deck}
        return {"cover": cover, "deck": deck}

    def _view(self, left: float, top: float) -> View:
        long, wide = self._size
        room = WIDTH - 2 * MARGIN - 80
        scale = min(room / float(long), HIGHEST / float(wide))
        return View(left, top, scale, (NOTHING, long), (NOTHING, wide), down=True)

    # Drawn

    def _draw_sheets(self, canvas: Canvas, view: View) -> None:
        """Draw the cover, the deck below it, the screw line, and the screws of both."""
        (long, wide), lip = self._size, self.subject.now["cover_lip"]
        front, back, side = (self._rows[at].line for at in ("front", "back", "left"))
        view.draw(canvas, rectangle((NOTHING, long), (NOTHING, wide)), COVER)
        view.draw(canvas, rectangle((lip, long - lip), (lip, wide - lip)), DECK)
        view.draw(canvas, rectangle((front, long - back), (side, wide - side)), DECK)
        for sheet, pen, fill in SHEETS:
            for along, across in sorted((v, u) for u, v in self._places[sheet]):
                canvas.circle((view.x(along), view.y(across)), SCREW, pen, fill)

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
            Dim(name, high - low, Text((self.subject.shown(high - low),)), at(low), at(high))
            for name, low, high in lines[side]
        ]

    def _sentences(self) -> Iterator[str]:
        now, shown = self.subject.now, self.subject.shown
        cover, deck = (len(self._places[sheet]) for sheet in ("cover", "deck"))
        most, of_cover, of_deck = map(
            shown, (now[n] for n in ("screw_spacing", "cover_screw", "deck_screw"))
        )
        yield f"Full: {cover} screws of the cover, {of_cover} long, none more than {most} apart."
        yield f"Rings: {deck} screws of the deck below, {of_deck} long, between the cover's."
        yield "Dashed: the deck's edge, and the screw line over the middle of the rim."
