"""A sheet of paper to draw on: shapes, hatching and texts, written as an SVG picture.

Colours are Okabe and Ito's, which stay apart for colour-blind eyes (Color Universal Design, 2008):
one for "this is what changed", one for "this does not go". Neither is ever shown by colour alone.
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
from typing import Final, NamedTuple, TypeAlias

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
_ID = "\0"  # stands for the picture's own mark until that is known; `harmless` lets none through
_DATA = "\1"  # stands before and behind what is only for whoever measures a picture
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


def _element(tag: str, inner: str | None = None, /, **attributes: object) -> str:
    """An element as text: numbers are rounded, texts escaped; None is left out.

    >>> print(_element("line", x1=0.5, y2=2.0, data_name="<b>"))
    <line x1='.5' y2='2' data-name='&lt;b&gt;'/>

    What is `inner` goes in as it stands. A page is sent it as JSON, where a double quote is two
    signs.
    """
    written = f"{tag}{_attributes(attributes)}"
    return f"<{written}/>" if inner is None else f"<{written}>{inner}</{tag}>"


def _attributes(named: Data) -> str:
    given = ((name, at) for name, at in named.items() if at is not None)
    values = ((n, _short(at) if isinstance(at, float) else escape(str(at))) for n, at in given)
    return "".join(f" {name.replace('_', '-')}='{value}'" for name, value in values)


def _short(number: float) -> str:
    """A number to a tenth of a unit: finer than a pixel, or a printer's dot, can show."""
    return _tenths(round(number * 10))


@lru_cache(maxsize=8192)
def _tenths(count: int) -> str:
    whole, tenth = divmod(abs(count), 10)
    text = f"{whole or ''}.{tenth}" if tenth else str(whole)
    return f"-{text}" if count < 0 else text


class _Way(NamedTuple):
    """A line, or the outline of a shape: the class of its style, and the places that it passes.

    One that stands `alone` may hide what was drawn before it, so no other shares its path.
    """

    style: str
    points: list[Point]
    closed: bool = False
    alone: bool = False
    noted: str = ""


class _Line(NamedTuple):
    """A line of text: the class of its style, where it stands, and what it says.

    One that stands `alone` is not as the sheet's own texts are, so no group can say its style.
    """

    style: str
    placed: str
    text: str
    alone: bool = False


def _path_data(way: _Way) -> str:
    """A way as a path tells it: where it begins, then each step from there.

    >>> _path_data(_Way("", [(0, 0), (4.04, 0), (4, 2), (1, 1), (0.5, 3)]))
    'M0 0h4v2l-3-1-.5 2'
    """
    places = [(round(x * 10), round(y * 10)) for x, y in way.points]
    text, before = f"M{_pair(*places[0])}", "M"
    for (x0, y0), (x, y) in pairwise(places):
        across, down = x - x0, y - y0
        letter = "l" if across and down else "h" if across else "v"
        step = _pair(across, down) if letter == "l" else _tenths(across or down)
        text += _parted(text, step) if letter == before else letter + step
        before = letter
    return f"{text}Z" if way.closed else text


def _pair(x: int, y: int) -> str:
    across = _tenths(x)
    return across + _parted(across, _tenths(y))


def _parted(before: str, number: str) -> str:
    """A number behind another, with a space where neither a sign nor a second point parts them.

    >>> _parted("l3.5", ".5"), _parted("l3", ".5")
    ('.5', ' .5')
    """
    parted = number[0] == "-" or (number[0] == "." and before[-2:-1] == ".")
    return number if parted else f" {number}"


def _path(style: str, ways: Sequence[_Way]) -> str:
    """Ways of one style as one path, which ends behind each that has a note."""
    begin = f"<path{_class(style)} d='"
    text = begin + _path_data(ways[0])
    for before, way in pairwise(ways):
        if before.noted or way.noted:
            text += f"{_DATA}'{before.noted}/>{begin}{_DATA}"
        text += _path_data(way)
    return f"{text}'{_DATA}{ways[-1].noted}{_DATA}/>"


def _texts(style: str, lines: Sequence[_Line]) -> str:
    """Lines of text in one style, several as a group that says it once."""
    group, own = (_class(style), "") if len(lines) > 1 else ("", _class(style))
    words = "".join(f"<text{own}{line.placed}>{line.text}</text>" for line in lines)
    return f"<g{group}>{words}</g>" if group else words


def _class(style: str) -> str:
    return f" class='{style}'" if style else ""


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


def _noted(data: Data | None) -> str:
    if not data:
        return ""
    return _attributes({f"data_{name}": harmless(str(at)) for name, at in data.items()})


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
    def of(cls, svg: str, name: str, words: str, shown: str, size: Point) -> "Picture":
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
        self._width, self._lit, self._scale = width, lit, 0.0
        self._drawn: list[str | _Way | _Line] = []
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
        return self._group(f"{_DATA}<g{_noted(data)}>{_DATA}", f"{_DATA}</g>{_DATA}")

    def view(self, name: str, scale: float) -> AbstractContextManager[None]:
        """A part of the sheet that is drawn true to one scale, in units for one inch."""
        self._scale = self._scale or scale
        return self.noted({"view": name, "scale": repr(scale)})

    def window(self, box: Box) -> AbstractContextManager[None]:
        """A part of the sheet beyond whose border nothing shows of what is drawn in it."""
        mark = f"{_ID}-{len(self._windows)}"
        border = _element("path", d=_path_data(_Way("", corners(*box), closed=True)))
        self._windows.append(_element("clipPath", border, id=mark))
        return self._group(f"<g clip-path='url(#{mark})'>", "</g>")

    # Lines and shapes

    def _named(self, *styles: str) -> str:
        """The classes of some styles: a, b, c and so on."""
        names = (self._classes.setdefault(s, _letters(len(self._classes))) for s in styles if s)
        return " ".join(names)

    def _style(self, fill: str | None, pen: Pen) -> str:
        return self._named(f"fill:{fill}" if fill else "", _outlined(pen))

    def line(self, start: Point, end: Point, pen: Pen = THIN, data: Data | None = None) -> None:
        """Draw a straight line."""
        self.path((start, end), pen, data)

    def path(self, points: Sequence[Point], pen: Pen = THIN, data: Data | None = None) -> None:
        """Draw a line through several points; one that goes on where the last ended prolongs it."""
        way = _Way(self._style(None, pen), [*points], noted=_noted(data))
        last = self._drawn[-1] if self._drawn else None
        if (
            isinstance(last, _Way)
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
    ) -> Iterator[tuple[float, _Way]]:
        """The ways by which a shape is drawn, each with how late it comes among others."""
        way, fill = _Way("", [*points], closed=True), finish.fill
        if finish.hatch:
            if fill:
                yield -1, way._replace(style=self._style(fill, NO_LINE))
            self._hatches[finish.hatch] = None
            fill = f"url(#{_ID}-{finish.hatch})"
        style, late = self._style(fill, finish.pen), finish.pen.thickness
        yield late, way._replace(style=style, noted=_noted(data))
        if data and data.get("part") in self._lit:
            lit = self._named(f"fill:{CHANGED};fill-opacity:.3", _outlined(LIT))
            yield LIT.thickness, way._replace(style=lit)

    def frame(self, box: Box) -> None:
        """Draw a thin frame round a window."""
        self.polygon(corners(*box), Finish(THIN))

    def circle(self, centre: Point, radius: float, pen: Pen, fill: str = "none") -> None:
        """Draw a circle."""
        place = {"cx": float(centre[0]), "cy": float(centre[1]), "r": float(radius)}
        style = _class(self._style(fill, pen))
        self._drawn.append(f"<circle{style}{_attributes(place)}/>")

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
        hand, (x, y) = hand or Hand(), map(_short, place)
        style = {
            "text-anchor:": "" if anchor == "start" else anchor,
            "font-weight:": "bold" if hand.bold else "",
            "fill:": "" if hand.colour == INK else hand.colour,
            "stroke:": "" if hand.halo else "none",
        }
        rules = ";".join(name + value for name, value in style.items() if value)
        turned = f"rotate(-90 {x} {y})" if hand.upright else None
        placed = _attributes({"x": x, "y": y, "transform": turned})
        written = escape(harmless(text), quote=False)
        self._drawn.append(_Line(self._named(rules), placed, written, alone=not hand.halo))

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
        shown = _attributes({"style": f"display:block;{wide};height:auto"})
        size = {"width": self._width, "height": float(height)}
        named = (
            _element("title", escape(harmless(title), quote=False), id=f"{_ID}-t")
            + _element("desc", escape(harmless(description), quote=False), id=f"{_ID}-d")
            + _element("style", "".join(self._rules()))
            + _element("defs", "".join([*map(_pattern, self._hatches), *self._windows]))
            + _element("rect", **size, rx=3, fill=PAPER, stroke="none")
            + "".join(self._joined())
        )
        frame = _attributes({**_FRAME, "viewBox": f"0 0 {_short(self._width)} {_short(height)}"})
        frame += f"{shown}{_DATA}{_noted({'scale': self._scale})}{_DATA}"
        mark = f"d{next(_NUMBERS)}-{sha256(named.encode()).hexdigest()[:6]}"
        whole = f"<svg{frame}>{named}</svg>".replace(_ID, mark)
        name, words = harmless(title), harmless(description)
        return Picture.of(whole, name, words, shown, (self._width, float(height)))

    def _joined(self) -> Iterator[str]:
        """What is drawn: paths that follow one another in one style as one, texts in one group."""
        for (style, _), some in groupby(self._drawn, _likeness):
            run = list(some)
            ways = [each for each in run if isinstance(each, _Way)]
            lines = [each for each in run if isinstance(each, _Line)]
            if ways:
                yield _path(style or "", ways)
            elif lines:
                yield _texts(style or "", lines)
            else:
                yield from map(str, run)

    def _rules(self) -> Iterator[str]:
        yield f"#{_ID} path{{fill:none}}"
        yield f"#{_ID} text{{stroke:{PAPER};stroke-width:3;paint-order:stroke}}"
        for style, name in self._classes.items():
            yield f"#{_ID} .{name}{{{style}}}"


def _likeness(drawn: str | _Way | _Line) -> tuple[str | None, int]:
    """What is the same for those that are written together."""
    if isinstance(drawn, str):
        return None, 0
    return drawn.style, id(drawn) if drawn.alone else isinstance(drawn, _Line)


_FRAME: dict[str, object] = {
    "xmlns": "http://www.w3.org/2000/svg", "role": "img", "id": _ID,
    "aria_labelledby": f"{_ID}-t", "aria_describedby": f"{_ID}-d",
    "font_family": "Helvetica, Arial, sans-serif", "font_size": LETTER, "fill": INK,
    "stroke": THIN.colour, "stroke_width": THIN.thickness, "stroke_linecap": "round",
    "stroke_linejoin": "round",
}  # fmt: skip


def _letters(number: int) -> str:
    """A short name for each number: a, b, …, z, ba, bb and so on."""
    more, last = divmod(number, 26)
    return (_letters(more) if more else "") + ascii_lowercase[last]


def _pattern(hatch: str) -> str:
    width, height, path, pen = _HATCHES[hatch]
    drawn = _element("path", d=path, style=_outlined(pen) or None)
    size = {"patternUnits": "userSpaceOnUse", "width": width, "height": height}
    return _element("pattern", drawn, id=f"{_ID}-{hatch}", **size)


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
