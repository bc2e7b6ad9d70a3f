"""A sheet of paper to draw on: shapes, hatching and texts, written as an SVG picture.

Colours are Okabe and Ito's, which stay apart for colour-blind eyes (Color Universal Design, 2008):
one for "this is what changed", one for "this does not go". Neither is ever shown by colour alone.
"""

from collections.abc import Collection, Iterable, Iterator, Sequence
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from hashlib import sha256
from html import escape
from itertools import count
from typing import Final, NamedTuple, TypeAlias

from hivecalc.drawing.layout import ASCENT, LETTER, LINE, Box, Point, in_pieces, wrapped
from hivecalc.drawing.svg import (
    DATA,
    ID,
    Data,
    Line,
    Picture,
    Way,
    attributes,
    element,
    harmless,
    joined,
    letters,
    noted,
    path_data,
    short,
    styled,
)
from hivecalc.length import SIXTY_FOURTH, Units, is_mark, limit_text, mixed

WIDTH = 360.0
"""Width of a sheet that stands in a page, in its own units."""

MARGIN = 8.0
LEAST_LETTER = 12.0  # px at the size shown, however narrow the page is
MOST_WIDTH = 600.0  # px, however wide the page is

PAPER, INK, PENCIL = "#fffdf8", "#262626", "#6a6a6a"
CHANGED, WRONG = "#0072B2", "#D55E00"
WOOD, FOAM, METAL = "#f8efdf", "#eef3f6", "#e8e8e8"


class Pen(NamedTuple):
    """How a line is drawn: its colour, how thick it is, and its dashes, if any."""

    colour: str
    thickness: float
    dashes: str = ""


@dataclass(frozen=True)
class Hand:
    """How a text is written."""

    bold: bool = False
    colour: str = INK
    upright: bool = False
    halo: bool = True


BOLD, STRESSED = Hand(bold=True), Hand(bold=True, colour=CHANGED)
OUTLINE = Pen(INK, 1.1)
THIN = Pen(PENCIL, 0.6)
HIDDEN = Pen(PENCIL, 0.8, "4 3")
CHANGED_LINE = Pen(CHANGED, 2.6)
WRONG_LINE = Pen(WRONG, 2.2)
NO_LINE = Pen("none", 0)
LIT = Pen(CHANGED, 3)


@dataclass(frozen=True)
class Finish:
    """How a shape is drawn: its outline, what fills it and how it is hatched."""

    pen: Pen = OUTLINE
    fill: str | None = None
    hatch: str | None = None


OUTLINED = Finish()
WOODEN, LENGTHWAYS = Finish(OUTLINE, WOOD), Finish(OUTLINE, WOOD, "grain")
CROSSWAYS, FOAMED = Finish(OUTLINE, WOOD, "grain_across"), Finish(OUTLINE, FOAM, "foam")
Shape: TypeAlias = tuple[Sequence[Point], Finish, Data | None]
"""A closed shape on a sheet, its look, and what is noted of it."""

TAPED: Final = Fraction(1, 16)  # what is thinner is gauged, not read off a tape

# Hatching after the habits of ISO 128: what is cut is hatched, and neighbours lean opposite ways.
# For each: the width and height of a tile, the path that is drawn in it, and its line.
_HATCHES: dict[str, tuple[float, float, str, Pen]] = {
    "stud": (7, 7, "M-1 8 8 -1", Pen(PENCIL, 0.6)),
    "strip": (4, 4, "M-1 -1 5 5", Pen(PENCIL, 0.6)),
    "board": (9, 9, "M-1 10 10 -1M2 10 10 2", Pen(PENCIL, 0.5)),
    "foam": (10, 8, "M0 4 2.5 6.5 7.5 1.5 10 4", Pen(PENCIL, 0.5)),
    "grain": (97, 12, "M0 2c20 1 34-1 52 0M60 5.5c12-1 24 1 34 0M14 9c22 1 30-.5 44 0",
              Pen(PENCIL, 0.45)),
    "grain_across": (12, 97, "M2 0c1 20-1 34 0 52M5.5 60c-1 12 1 24 0 34M9 14c1 22-.5 30 0 44",
                     Pen(PENCIL, 0.45)),
    "wrong": (5, 5, "M0 0 5 5M5 0 0 5", Pen(WRONG, 0.9)),
}  # fmt: skip
_NUMBERS = count(1)


def figure(length: Fraction, units: Units) -> str:
    """A length as it stands on a drawing, with its unit.

    >>> [figure(Fraction(f), "inch") for f in ("173/8", "0.034", "0.2785")]
    ['21 5/8 in', '0.034 in', '≈ 9/32 in']

    A length that a tape can show has no decimals in inches; a wire or a sheet of mesh is gauged.
    """
    if units == "inch" and length >= TAPED and not is_mark(length):
        return f"{mixed(length, SIXTY_FOURTH)} in"
    return limit_text(length, units)


def corners(left: float, top: float, right: float, bottom: float) -> list[Point]:
    """The corners of a rectangle on a sheet."""
    return [(left, top), (right, top), (right, bottom), (left, bottom)]


@lru_cache
def _outlined(pen: Pen) -> str:
    """How a shape is outlined, as CSS, as far as it is not by the sheet's own thin line."""
    rules = []
    if pen.colour != THIN.colour:
        rules.append(f"stroke:{pen.colour}")
    if pen.thickness not in {0, THIN.thickness}:
        rules.append(f"stroke-width:{pen.thickness:g}".replace(":0.", ":."))
    if pen.dashes:
        rules.append(f"stroke-dasharray:{pen.dashes}")
    return ";".join(rules)


class Canvas:
    """A sheet of paper that is drawn on from the top; x runs right, y down.

    Pieces whose labels are `lit` get a thick outline and a tint.
    """

    def __init__(self, width: float = WIDTH, lit: Collection[str] = ()) -> None:
        self._width, self._lit, self._scale = width, lit, 0.0
        self._drawn: list[str | Way | Line] = []
        self._classes: dict[str, str] = {}
        self._hatches: dict[str, None] = {}
        self._windows: list[str] = []

    # Parts of the sheet

    @contextmanager
    def _group(self, begin: str, end: str) -> Iterator[None]:
        self._drawn.append(begin)
        yield
        self._drawn.append(end)

    def noted(self, data: Data) -> AbstractContextManager[None]:
        """A part of the sheet of which this is noted."""
        return self._group(f"{DATA}<g{noted(data)}>{DATA}", f"{DATA}</g>{DATA}")

    def view(self, name: str, scale: float) -> AbstractContextManager[None]:
        """A part of the sheet that is drawn true to one scale, in units for one inch."""
        self._scale = self._scale or scale
        return self.noted({"view": name, "scale": repr(scale)})

    def window(self, box: Box) -> AbstractContextManager[None]:
        """A part of the sheet beyond whose border nothing shows of what is drawn in it."""
        mark = f"{ID}-{len(self._windows)}"
        border = element("path", d=path_data(Way("", corners(*box), closed=True)))
        self._windows.append(element("clipPath", border, id=mark))
        return self._group(f"<g clip-path='url(#{mark})'>", "</g>")

    # Lines and shapes

    def _named(self, *styles: str) -> str:
        """The classes of some styles: a, b, c and so on."""
        names = (self._classes.setdefault(s, letters(len(self._classes))) for s in styles if s)
        return " ".join(names)

    def _style(self, fill: str | None, pen: Pen) -> str:
        return self._named(f"fill:{fill}" if fill else "", _outlined(pen))

    def line(self, start: Point, end: Point, pen: Pen = THIN, data: Data | None = None) -> None:
        """Draw a straight line."""
        self.path((start, end), pen, data)

    def path(self, points: Sequence[Point], pen: Pen = THIN, data: Data | None = None) -> None:
        """Draw a line through several points; one that goes on where the last ended prolongs it."""
        way = Way(self._style(None, pen), [*points], noted=noted(data))
        last = self._drawn[-1] if self._drawn else None
        if (
            isinstance(last, Way)
            and last[2:] == way[2:] == (False, False, "")
            and (last.style, last.points[-1]) == (way.style, way.points[0])
        ):
            last.points.extend(way.points[1:])
        else:
            self._drawn.append(way)

    def dot(self, place: Point, colour: str = INK) -> None:
        """Draw a dot, as at the end of a leader."""
        self.path((place, place), Pen(colour, 3.4))

    def polygon(
        self, points: Sequence[Point], finish: Finish = OUTLINED, data: Data | None = None
    ) -> None:
        """Draw a closed shape, filled first, then hatched, then outlined."""
        self._drawn += [way._replace(alone=True) for _, way in self._shape(points, finish, data)]

    def shapes(self, shapes: Iterable[Shape]) -> None:
        """Draw closed shapes side by side: first all that fills them, the thickest outlines last.

        Alike ones are written together, so this is for shapes that need not hide one another.
        """
        found = [way for shape in shapes for way in self._shape(*shape)]
        self._drawn += [way for _, way in sorted(found, key=lambda each: (each[0], each[1].style))]

    def _shape(
        self, points: Sequence[Point], finish: Finish, data: Data | None
    ) -> Iterator[tuple[float, Way]]:
        """The ways by which a shape is drawn, each with how late it comes among others."""
        way, fill = Way("", [*points], closed=True), finish.fill
        if finish.hatch:
            if fill:
                yield -1, way._replace(style=self._style(fill, NO_LINE))
            self._hatches[finish.hatch] = None
            fill = f"url(#{ID}-{finish.hatch})"
        style, late = self._style(fill, finish.pen), finish.pen.thickness
        yield late, way._replace(style=style, noted=noted(data))
        if data and data.get("part") in self._lit:
            lit = self._named(f"fill:{CHANGED};fill-opacity:.3", _outlined(LIT))
            yield LIT.thickness, way._replace(style=lit)

    def frame(self, box: Box) -> None:
        """Draw a thin frame round a window."""
        self.polygon(corners(*box), Finish(THIN))

    def circle(self, centre: Point, radius: float, pen: Pen, fill: str = "none") -> None:
        """Draw a circle."""
        place = {"cx": float(centre[0]), "cy": float(centre[1]), "r": float(radius)}
        style = styled(self._style(fill, pen))
        self._drawn.append(f"<circle{style}{attributes(place)}/>")

    # Texts

    def number(self, number: int, centre: Point, radius: float, pen: Pen, *, bold: bool) -> None:
        """Write a number in a circle; it has no halo, which would cut the circle."""
        self.circle(centre, radius, pen, PAPER)
        place = centre[0], centre[1] + 0.36 * LETTER
        self.text(str(number), place, "middle", Hand(bold=bold, halo=False))

    def text(
        self, text: str, place: Point, anchor: str = "start", hand: Hand | None = None
    ) -> None:
        """Write one line whose letters stand on y; upright, it is read from the right."""
        hand, (x, y) = hand or Hand(), map(short, place)
        style = {
            "text-anchor:": "" if anchor == "start" else anchor,
            "font-weight:": "bold" if hand.bold else "",
            "fill:": "" if hand.colour == INK else hand.colour,
            "stroke:": "" if hand.halo else "none",
        }
        rules = ";".join(name + value for name, value in style.items() if value)
        turned = f"rotate(-90 {x} {y})" if hand.upright else None
        placed = attributes({"x": x, "y": y, "transform": turned})
        written = escape(harmless(text), quote=False)
        self._drawn.append(Line(self._named(rules), placed, written, alone=not hand.halo))

    def paragraph(
        self, text: str, top: float, *, bold: bool = False, left: float = MARGIN
    ) -> float:
        """Write a text in as many lines as it takes; where the next may begin comes back."""
        room = self._width - MARGIN - left
        for line in wrapped(text, room, bold=bold):
            for piece in in_pieces(line, room, bold=bold):
                self.text(piece, (left, top + ASCENT * LETTER), hand=Hand(bold=bold))
                top += LINE
        return top

    def paragraphs(self, texts: Iterable[str], top: float, gap: float = 0.0) -> float:
        """Write texts one below the other; where the next may begin comes back."""
        for text in texts:
            top = self.paragraph(text, top + gap)
        return top

    def picture(self, title: str, description: str, height: float, of: str = "") -> Picture:
        """The whole sheet as an SVG picture for a page, with its name and description in words.

        Its name is the title, and what it is a picture `of`, such as a hive by its name.
        """
        title = f"{title}: {of}" if of else title
        least = self._width * LEAST_LETTER / LETTER
        wide = f"width:100%;min-width:{least:.0f}px;max-width:{MOST_WIDTH:.0f}px"
        shown = attributes({"style": f"display:block;{wide};height:auto"})
        size = {"width": self._width, "height": float(height)}
        rules = [
            f"#{ID} path{{fill:none}}",
            f"#{ID} text{{stroke:{PAPER};stroke-width:3;paint-order:stroke}}",
            *(f"#{ID} .{name}{{{style}}}" for style, name in self._classes.items()),
        ]
        named = (
            element("title", escape(harmless(title), quote=False), id=f"{ID}-t")
            + element("desc", escape(harmless(description), quote=False), id=f"{ID}-d")
            + element("style", "".join(rules))
            + element("defs", "".join([*map(_pattern, self._hatches), *self._windows]))
            + element("rect", **size, rx=3, fill=PAPER, stroke="none")
            + "".join(joined(self._drawn))
        )
        frame = attributes({**_FRAME, "viewBox": f"0 0 {short(self._width)} {short(height)}"})
        frame += f"{shown}{DATA}{noted({'scale': self._scale})}{DATA}"
        mark = f"d{next(_NUMBERS)}-{sha256(named.encode()).hexdigest()[:6]}"
        whole = f"<svg{frame}>{named}</svg>".replace(ID, mark)
        name, words = harmless(title), harmless(description)
        return Picture.of(whole, name, words, shown, (self._width, float(height)))


_FRAME: dict[str, object] = {
    "xmlns": "http://www.w3.org/2000/svg", "role": "img", "id": ID,
    "aria_labelledby": f"{ID}-t", "aria_describedby": f"{ID}-d",
    "font_family": "Helvetica, Arial, sans-serif", "font_size": LETTER, "fill": INK,
    "stroke": THIN.colour, "stroke_width": THIN.thickness, "stroke_linecap": "round",
    "stroke_linejoin": "round",
}  # fmt: skip


def _pattern(hatch: str) -> str:
    width, height, path, pen = _HATCHES[hatch]
    drawn = element("path", d=path, style=_outlined(pen) or None)
    size = {"patternUnits": "userSpaceOnUse", "width": width, "height": height}
    return element("pattern", drawn, id=f"{ID}-{hatch}", **size)


# ── a page of words ───────────────────────────────────────────────────────────────────────────

PAGE_WIDE: Final = 744.0


def page_of_words(heading: str, paragraphs: Sequence[str]) -> Picture:
    """A page of paragraphs below a heading, which its description says all again.

    >>> page_of_words("Boards", ["Two boards."]).count("Two boards.")
    2
    """
    canvas = Canvas(PAGE_WIDE)
    bottom = canvas.paragraphs(paragraphs, canvas.paragraph(heading, MARGIN, bold=True))
    return canvas.picture(heading, " ".join([f"{heading}.", *paragraphs]), bottom + MARGIN)
