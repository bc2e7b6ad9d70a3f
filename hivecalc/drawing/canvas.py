"""A sheet of paper to draw on: shapes, hatching and texts, told as the text of an SVG picture.

Colours are Okabe and Ito's, which stay apart for colour-blind eyes (Color Universal Design, 2008):
one for "this is what changed", one for "this does not go". Neither is ever told by colour alone.
"""

import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from hashlib import sha256
from html import escape
from itertools import count, groupby, pairwise
from string import ascii_lowercase
from typing import Final, NamedTuple

from hivecalc.drawing.layout import ASCENT, LETTER, LINE, Box, Point, in_pieces, wrapped
from hivecalc.length import SIXTY_FOURTH, Units, limit_text, mixed

WIDTH = 360.0
"""Width of a sheet that stands in a page, in its own units."""

MARGIN = 8.0
LEAST_LETTER = 12.0  # px at the size shown, however narrow the page is
MOST_WIDTH = 600.0  # px, however wide the page is

PAPER, INK, PENCIL = "#fffdf8", "#262626", "#6a6a6a"
CHANGED, WRONG = "#0072B2", "#D55E00"
WOOD, FOAM, METAL = "#f8efdf", "#eef3f6", "#e8e8e8"

Data = Mapping[str, object]


@dataclass(frozen=True)
class Pen:
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


BOLD = Hand(bold=True)
OUTLINE = Pen(INK, 1.1)
THIN = Pen(PENCIL, 0.6)
HIDDEN = Pen(PENCIL, 0.8, "4 3")
CHANGED_LINE = Pen(CHANGED, 2.6)
WRONG_LINE = Pen(WRONG, 2.2)
NO_LINE = Pen("none", 0)
LIT = Pen(CHANGED, 3)
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
_ID = "\0"  # stands for the picture's own mark until that is known; `harmless` lets none through
_DATA = "\1"  # stands before and behind what only whoever measures a picture is told
_TRACE: Final = re.compile(f"{_DATA}[^{_DATA}]*{_DATA}")
_NUMBERS = count(1)
_NUMBERED: Final = re.compile(r"\bd\d+-(?=[0-9a-f]{6}\b)")


def figure(length: Fraction, units: Units) -> str:
    """A length as it stands on a drawing, with its unit.

    >>> [figure(Fraction(f), "inch") for f in ("173/8", "0.034", "0.2785")]
    ['21 5/8 in', '0.034 in', '≈ 9/32 in']

    A length that a tape can show has no decimals in inches; a wire or a sheet of mesh is gauged.
    """
    if units == "inch" and length >= TAPED and SIXTY_FOURTH.step.denominator % length.denominator:
        return f"{mixed(length, SIXTY_FOURTH)} in"
    return limit_text(length, units)


# ── elements ──────────────────────────────────────────────────────────────────────────────────


def harmless(text: str) -> str:
    r"""A text with odd signs as �, which an SVG file can't hold.

    >>> harmless("Bees\x07")
    'Bees�'
    """
    if text.isprintable():
        return text
    return "".join(s if s.isprintable() else "\N{REPLACEMENT CHARACTER}" for s in text)


def element(tag: str, inner: str | None = None, /, **attributes: object) -> str:
    """An element as text: numbers are rounded, texts escaped; None is left out.

    >>> print(element("line", x1=0.5, y2=2.0, data_name="<b>"))
    <line x1='0.5' y2='2' data-name='&lt;b&gt;'/>

    What is `inner` goes in as it stands. A page is sent it as JSON, where a double quote is two
    signs.
    """
    written = f"{tag}{_attributes(attributes)}"
    return f"<{written}/>" if inner is None else f"<{written}>{inner}</{tag}>"


def _attributes(named: Data) -> str:
    return "".join(
        f" {name.replace('_', '-')}='{_attribute(value)}'"
        for name, value in named.items()
        if value is not None
    )


def _attribute(value: object) -> str:
    return _short(value) if isinstance(value, float) else escape(str(value))


def _short(number: float) -> str:
    """A number to a tenth of a unit: finer than a pixel, or a printer's dot, can show."""
    return _tenths(round(number * 10))


@lru_cache(maxsize=8192)
def _tenths(count: int) -> str:
    return f"{count / 10:g}"


class _Way(NamedTuple):
    """A line that is drawn: the class of its style, and the places that it passes."""

    style: str
    points: list[Point]


def _way(points: Iterable[Point]) -> str:
    """The way from point to point as a path tells it.

    >>> _way([(0, 0), (4.04, 0), (4, 2), (1, 1)])
    'M0 0h4v2l-3 -1'
    """
    places = [(round(x * 10), round(y * 10)) for x, y in points]
    told = [f"M{_tenths(places[0][0])} {_tenths(places[0][1])}"]
    for (x0, y0), (x, y) in pairwise(places):
        across, down = _tenths(x - x0), _tenths(y - y0)
        told.append(f"v{down}" if x == x0 else f"h{across}" if y == y0 else f"l{across} {down}")
    return "".join(told)


def _chained(drawn: Iterable[str | _Way]) -> list[list[Point]]:
    """The ways of some lines, those as one that go on where the one before ends."""
    ways: list[list[Point]] = []
    for each in drawn:
        if isinstance(each, _Way):
            if ways and ways[-1][-1] == each.points[0]:
                ways[-1] += each.points[1:]
            else:
                ways.append([*each.points])
    return ways


def _style(fill: str | None, pen: Pen | None = None) -> str:
    """How a shape is filled and outlined, as CSS."""
    told = [f"fill:{fill}"] if fill else []
    if pen:
        told.append(f"stroke:{pen.colour};stroke-width:{pen.thickness:g}")
        told += [f"stroke-dasharray:{pen.dashes}"] if pen.dashes else []
    return ";".join(told)


def _traced(data: Data | None) -> str:
    """What is noted of something that is drawn, as attributes."""
    named = {f"data_{name}": harmless(str(value)) for name, value in (data or {}).items()}
    return f"{_DATA}{_attributes(named)}{_DATA}" if named else ""


def corners(left: float, top: float, right: float, bottom: float) -> list[Point]:
    """The corners of a rectangle on a sheet."""
    return [(left, top), (right, top), (right, bottom), (left, bottom)]


# ── pictures ──────────────────────────────────────────────────────────────────────────────────


class Picture(str):
    """The text of an SVG picture, with its name and what it shows in words."""

    __slots__ = ("name", "noted", "shown", "size", "words")
    name: str
    words: str
    noted: str
    shown: str
    size: Point

    @classmethod
    def told(cls, svg: str, name: str, words: str, shown: str, size: Point) -> "Picture":
        """A picture of this text, with what it shows, and how it is shown in it and how large."""
        picture = cls(_TRACE.sub("", svg))
        picture.name, picture.words, picture.shown, picture.size = name, words, shown, size
        picture.noted = svg
        return picture

    @property
    def traced(self) -> str:
        """The same picture for whoever measures it: each thing with its name and exact length.

        No page needs them, and they would give away what a lesson asks.
        """
        return self.noted.replace(_DATA, "")

    def file(self, width: float | None = None) -> str:
        """The same as a file that is opened by itself, at its own width or another.

        Its marks do not tell how many pictures were drawn before, so it is the same each time.
        """
        wide, high = self.size
        scale = (width or wide) / wide
        size = _attributes({"width": wide * scale, "height": high * scale})
        return unnumbered(self.replace(self.shown, size, 1))


def unnumbered(svg: str) -> str:
    """A picture whose marks do not tell how many pictures were drawn before it.

    >>> unnumbered("<title id='d12-ab34ef-title'>")
    "<title id='d-ab34ef-title'>"

    So it is the same each time it is stored; on one page two alike would share their marks.
    """
    return _NUMBERED.sub("d-", svg)


class Canvas:
    """A sheet of paper that is drawn on from the top; x runs right, y down.

    Pieces whose labels are `lit` get a thick outline and a tint.
    """

    def __init__(self, width: float = WIDTH, lit: Collection[str] = ()) -> None:
        self._width, self._lit = width, lit
        self._drawn: list[str | _Way] = []
        self._classes: dict[str, str] = {}
        self._hatches: dict[str, None] = {}

    def _add(
        self, tag: str, style: str = "", data: Data | None = None, /, **attributes: object
    ) -> None:
        """Add an element without content, with what is noted of it."""
        named = {"class": self._class(style)} if style else {}
        self._drawn.append(f"<{tag}{_attributes({**named, **attributes})}{_traced(data)}/>")

    def _class(self, style: str) -> str:
        """The class of a style: a, b, c and so on."""
        return self._classes.setdefault(style, _letters(len(self._classes)))

    @contextmanager
    def _group(self, style: str, data: Data) -> Iterator[None]:
        self._add("g", style, data)
        self._drawn.append(str(self._drawn.pop()).removesuffix("/>") + ">")
        yield
        self._drawn.append("</g>")

    def view(self, name: str, scale: float) -> AbstractContextManager[None]:
        """A part of the sheet that is drawn true to one scale, in units for one inch."""
        return self._group("", {"view": name, "scale": repr(scale)})

    def group(self, pen: Pen, data: Data) -> AbstractContextManager[None]:
        """Faces that belong together, outlined by one pen where they bring none of their own."""
        return self._group(_style(None, pen), data)

    def face(self, points: Sequence[Point], fill: str, hatch: str | None, pen: Pen | None) -> None:
        """Draw a closed shape of a group, filled and hatched, by the group's pen or its own."""
        for paint in (fill, self._paint(hatch)) if hatch else (fill,):
            self._add("path", _style(paint, pen), d=f"{_way(points)}Z")

    def line(self, start: Point, end: Point, pen: Pen = THIN, data: Data | None = None) -> None:
        """Draw a straight line."""
        self.path((start, end), pen, data)

    def path(self, points: Sequence[Point], pen: Pen = THIN, data: Data | None = None) -> None:
        """Draw a line through several points; lines by one pen go into one element."""
        style = _style("none", pen)
        if data:
            self._add("path", style, data, d=_way(points))
        else:
            self._drawn.append(_Way(self._class(style), list(points)))

    def dot(self, place: Point, colour: str = INK) -> None:
        """Draw a dot, as at the end of a leader."""
        self.path((place, place), Pen(colour, 3.4))

    def polygon(
        self,
        points: Sequence[Point],
        pen: Pen | None = OUTLINE,
        fill: str = "none",
        hatch: str | None = None,
        data: Data | None = None,
    ) -> None:
        """Draw a closed shape, filled first, then hatched, then outlined."""
        shape = f"{_way(points)}Z"
        if hatch and fill != "none":
            self._add("path", _style(fill), d=shape)
        paint = self._paint(hatch) if hatch else fill
        self._add("path", _style(paint, pen), data, d=shape)
        if data and data.get("part") in self._lit:
            self._add("path", f"{_style(CHANGED, LIT)};fill-opacity:.3", d=shape)

    def frame(self, box: Box) -> None:
        """Draw a thin frame round a window."""
        self.polygon(corners(*box), THIN)

    def _paint(self, hatch: str) -> str:
        self._hatches[hatch] = None
        return f"url(#{_ID}-{hatch})"

    def circle(
        self, centre: Point, radius: float, pen: Pen | None = OUTLINE, fill: str = "none"
    ) -> None:
        """Draw a circle."""
        place = {"cx": float(centre[0]), "cy": float(centre[1]), "r": float(radius)}
        self._add("circle", _style(fill, pen), **place)

    def number(self, number: int, centre: Point, radius: float, pen: Pen, *, bold: bool) -> None:
        """Write a number in a circle; it has no halo, which would cut the circle."""
        self.circle(centre, radius, pen, PAPER)
        place = centre[0], centre[1] + 0.36 * LETTER
        self.text(str(number), place, "middle", Hand(bold=bold, halo=False))

    def text(
        self, text: str, place: Point, anchor: str = "start", hand: Hand | None = None
    ) -> None:
        """Write one line whose letters stand on y; upright, it is read from the right."""
        hand, (x, y) = hand or Hand(), map(_short, place)
        style = {
            "text-anchor:": "" if anchor == "start" else anchor,
            "font-weight:": "bold" if hand.bold else "",
            "fill:": "" if hand.colour == INK else hand.colour,
            "stroke:": "" if hand.halo else "none",
        }
        told = ";".join(name + value for name, value in style.items() if value)
        attributes = {
            "class": self._class(told) if told else None,
            "x": x,
            "y": y,
            "transform": f"rotate(-90 {x} {y})" if hand.upright else None,
        }
        self._drawn.append(element("text", escape(harmless(text), quote=False), **attributes))

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

    def picture(self, title: str, description: str, height: float, scale: float) -> Picture:
        """The whole sheet as an SVG picture for a page, with its name and description in words."""
        least = self._width * LEAST_LETTER / LETTER
        style = (
            f"display:block;width:100%;min-width:{least:.0f}px;max-width:{MOST_WIDTH:.0f}px;"
            "height:auto"
        )
        shown = _attributes({"style": style})
        size = {"width": self._width, "height": float(height)}
        named = (
            element("title", escape(harmless(title), quote=False), id=f"{_ID}-title")
            + element("desc", escape(harmless(description), quote=False), id=f"{_ID}-desc")
            + element("style", "".join(self._rules()))
            + element("defs", "".join(map(_pattern, self._hatches)))
            + element("rect", **size, rx=3, fill=PAPER)
            + "".join(self._joined())
        )
        view = f"0 0 {_attribute(self._width)} {_attribute(float(height))}"
        frame = f"{_attributes({**_FRAME, 'viewBox': view})}{shown}{_traced({'scale': scale})}"
        mark = f"d{next(_NUMBERS)}-{sha256(named.encode()).hexdigest()[:6]}"
        whole = f"<svg{frame}>{named}</svg>".replace(_ID, mark)
        name, words = harmless(title), harmless(description)
        return Picture.told(whole, name, words, shown, (self._width, float(height)))

    def _joined(self) -> Iterator[str]:
        """What is drawn, with lines that follow one another by one pen as one path."""
        for style, some in groupby(self._drawn, lambda each: getattr(each, "style", "")):
            if style:
                yield element("path", **{"class": style}, d="".join(map(_way, _chained(some))))
            else:
                yield from map(str, some)

    def _rules(self) -> Iterator[str]:
        """The style of each class, for this picture alone, and a halo of paper round texts."""
        yield f"#{_ID} text{{stroke:{PAPER};stroke-width:3;paint-order:stroke}}"
        for style, name in self._classes.items():
            yield f"#{_ID} .{name}{{{style}}}"


_FRAME: dict[str, object] = {
    "xmlns": "http://www.w3.org/2000/svg",
    "role": "img",
    "id": _ID,
    "aria_labelledby": f"{_ID}-title",
    "aria_describedby": f"{_ID}-desc",
    "font_family": "Helvetica, Arial, sans-serif",
    "font_size": LETTER,
    "fill": INK,
    "stroke_linecap": "round",
    "stroke_linejoin": "round",
}


def _letters(number: int) -> str:
    """A short name for each number: a, b, …, z, ba, bb and so on."""
    more, last = divmod(number, 26)
    return (_letters(more) if more else "") + ascii_lowercase[last]


def _pattern(hatch: str) -> str:
    width, height, path, pen = _HATCHES[hatch]
    drawn = element("path", d=path, style=_style("none", pen))
    size = {"patternUnits": "userSpaceOnUse", "width": width, "height": height}
    return element("pattern", drawn, id=f"{_ID}-{hatch}", **size)


# ── a page of words ───────────────────────────────────────────────────────────────────────────

PAGE_WIDE: Final = 744.0


def page_of_words(heading: str, paragraphs: Sequence[str]) -> Picture:
    """A page of paragraphs below a heading, which its description says all again.

    >>> page_of_words("Boards", ["Two boards."]).count("Two boards.")
    2
    """
    canvas = Canvas(PAGE_WIDE)
    bottom = canvas.paragraph(heading, MARGIN, bold=True)
    for text in paragraphs:
        bottom = canvas.paragraph(text, bottom)
    return canvas.picture(heading, " ".join([f"{heading}.", *paragraphs]), bottom + MARGIN, 1)
