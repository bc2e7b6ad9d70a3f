"""A sheet of paper to draw on: shapes, hatching and texts, told as the text of an SVG picture.

Colours are Okabe and Ito's, which stay apart for colour-blind eyes (Color Universal Design, 2008):
one for "this is what changed", one for "this does not go". Neither is ever told by colour alone.
"""

import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass
from fractions import Fraction
from hashlib import sha256
from html import escape
from itertools import count, groupby
from typing import Final

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
TAPED: Final = Fraction(1, 8)  # what is thinner is gauged, not read off a tape

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
_NUMBERS = count(1)
_NUMBERED: Final = re.compile(r"\bdrawing\d+-")


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
    """An element as text: numbers are rounded, places joined, texts escaped; None is left out.

    >>> element("line", x1=0.5, y2=2.0, data_name="<b>")
    '<line x1="0.5" y2="2" data-name="&lt;b&gt;"/>'

    What is `inner` goes in as it stands.
    """
    written = "".join(
        f' {name.replace("_", "-")}="{_attribute(value)}"'
        for name, value in attributes.items()
        if value is not None
    )
    return f"<{tag}{written}/>" if inner is None else f"<{tag}{written}>{inner}</{tag}>"


def _attribute(value: object) -> str:
    if isinstance(value, float):
        return f"{value:.3f}".rstrip("0").rstrip(".")
    if isinstance(value, list | tuple):
        return " ".join(f"{_attribute(x)},{_attribute(y)}" for x, y in value)
    return escape(str(value))


def _stroke(pen: Pen | None) -> dict[str, object]:
    if pen is None:
        return {}
    return {
        "stroke": pen.colour,
        "stroke_width": float(pen.thickness),
        "stroke_dasharray": pen.dashes or None,
    }


def _data(data: Data | None) -> dict[str, object]:
    return {f"data_{name}": harmless(str(value)) for name, value in (data or {}).items()}


def corners(left: float, top: float, right: float, bottom: float) -> list[Point]:
    """The corners of a rectangle on a sheet."""
    return [(left, top), (right, top), (right, bottom), (left, bottom)]


# ── pictures ──────────────────────────────────────────────────────────────────────────────────


class Picture(str):
    """The text of an SVG picture, with its name and what it shows in words."""

    __slots__ = ("name", "words")
    name: str
    words: str

    @classmethod
    def told(cls, svg: str, name: str, words: str) -> "Picture":
        """A picture of this text, with its name and what it shows."""
        picture = cls(svg)
        picture.name, picture.words = name, words
        return picture


def unnumbered(svg: str) -> str:
    """A picture whose marks do not tell how many pictures were drawn before it.

    >>> unnumbered('<g id="drawing12-ab">')
    '<g id="drawing-ab">'

    So it is the same each time it is stored; on one page two alike would share their marks.
    """
    return _NUMBERED.sub("drawing-", svg)


class Canvas:
    """A sheet of paper that is drawn on from the top; x runs right, y down.

    Pieces whose labels are `lit` get a thick outline and a tint.
    """

    def __init__(self, width: float = WIDTH, lit: Collection[str] = ()) -> None:
        self._width, self._lit = width, lit
        self._drawn: list[str] = []
        self._hatches: dict[str, None] = {}

    def _add(self, tag: str, inner: str | None = None, /, **attributes: object) -> None:
        self._drawn.append(element(tag, inner, **attributes))

    @contextmanager
    def _group(self, **attributes: object) -> Iterator[None]:
        self._drawn.append(element("g", **attributes).replace("/>", ">"))
        yield
        self._drawn.append("</g>")

    def view(self, name: str, scale: float) -> AbstractContextManager[None]:
        """A part of the sheet that is drawn true to one scale, in units for one inch."""
        return self._group(data_view=name, data_scale=repr(scale))

    def group(self, pen: Pen, data: Data) -> AbstractContextManager[None]:
        """Faces that belong together, outlined by one pen where they bring none of their own."""
        return self._group(**_stroke(pen), **_data(data))

    def face(self, points: Sequence[Point], fill: str, hatch: str | None, pen: Pen | None) -> None:
        """Draw a closed shape of a group, filled and hatched, by the group's pen or its own."""
        shape = "M" + " ".join(f"{x:.2f},{y:.2f}" for x, y in points) + "Z"
        for paint in (fill, self._paint(hatch)) if hatch else (fill,):
            self._add("path", d=shape, fill=paint, **_stroke(pen))

    def line(self, start: Point, end: Point, pen: Pen = THIN, data: Data | None = None) -> None:
        """Draw a straight line."""
        (x1, y1), (x2, y2) = start, end
        ends = {"x1": float(x1), "y1": float(y1), "x2": float(x2), "y2": float(y2)}
        self._add("line", **ends, **_stroke(pen), **_data(data))

    def lines(self, ends: Iterable[tuple[Point, Point]], pen: Pen) -> None:
        """Draw several straight lines with one pen."""
        drawn = "".join(f"M{_attribute([start])}L{_attribute([end])}" for start, end in ends)
        self._add("path", d=drawn, fill="none", **_stroke(pen))

    def path(self, points: Sequence[Point], pen: Pen = THIN) -> None:
        """Draw a line through several points."""
        self._add("polyline", points=list(points), fill="none", **_stroke(pen))

    def polygon(
        self,
        points: Sequence[Point],
        pen: Pen | None = OUTLINE,
        fill: str = "none",
        hatch: str | None = None,
        data: Data | None = None,
    ) -> None:
        """Draw a closed shape, filled first, then hatched, then outlined."""
        places = list(points)
        if hatch and fill != "none":
            self._add("polygon", points=places, fill=fill)
        paint = self._paint(hatch) if hatch else fill
        self._add("polygon", points=places, fill=paint, **_stroke(pen), **_data(data))
        if data and data.get("part") in self._lit:
            light = {"fill": CHANGED, "fill_opacity": ".3"}
            self._add("polygon", points=places, **light, **_stroke(LIT))

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
        self._add("circle", **place, fill=fill, **_stroke(pen))

    def number(self, number: int, centre: Point, radius: float, pen: Pen, *, bold: bool) -> None:
        """Write a number in a circle; it has no halo, which would cut the circle."""
        self.circle(centre, radius, pen, PAPER)
        place = centre[0], centre[1] + 0.36 * LETTER
        self.text(str(number), place, "middle", Hand(bold=bold, halo=False))

    def text(
        self, text: str, place: Point, anchor: str = "start", hand: Hand | None = None
    ) -> None:
        """Write one line whose letters stand on y; upright, it is read from the right."""
        (x, y), hand = place, hand or Hand()
        turned = f"rotate(-90 {_attribute(float(x))} {_attribute(float(y))})"
        self._add(
            "text",
            escape(harmless(text)),
            x=float(x),
            y=float(y),
            text_anchor=None if anchor == "start" else anchor,
            font_weight="bold" if hand.bold else None,
            fill=None if hand.colour == INK else hand.colour,
            stroke=None if hand.halo else "none",
            transform=turned if hand.upright else None,
        )

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
        shown = {"data_scale": repr(scale), "style": style}
        return self._told(title, description, height, shown, str(next(_NUMBERS)))

    def file(self, title: str, description: str, height: float) -> Picture:
        """The whole sheet as the text of an SVG file that is opened by itself, at its own size."""
        return self._told(title, description, height, {"width": self._width, "height": height})

    def _told(
        self, title: str, description: str, height: float, shown: Data, number: str = ""
    ) -> Picture:
        size = {"width": self._width, "height": float(height)}
        drawn = (
            element("defs", "".join(map(_pattern, self._hatches)))
            + element("rect", **size, rx=3, fill=PAPER)
            + "".join(_with_halos(self._drawn))
        )
        named = (
            element("title", escape(harmless(title)), id=f"{_ID}-title")
            + element("desc", escape(harmless(description)), id=f"{_ID}-desc")
            + drawn
        )
        view = f"0 0 {_attribute(self._width)} {_attribute(float(height))}"
        whole = element("svg", named, **_FRAME, viewBox=view, **shown)
        mark = f"drawing{number}-{sha256(named.encode()).hexdigest()[:10]}"
        return Picture.told(whole.replace(_ID, mark), harmless(title), harmless(description))


_FRAME: dict[str, object] = {
    "xmlns": "http://www.w3.org/2000/svg",
    "role": "img",
    "aria_labelledby": f"{_ID}-title",
    "aria_describedby": f"{_ID}-desc",
    "font_family": "Helvetica, Arial, sans-serif",
    "font_size": LETTER,
    "fill": INK,
    "stroke_linecap": "round",
    "stroke_linejoin": "round",
}


def _with_halos(drawn: Iterable[str]) -> Iterator[str]:
    """What is drawn, with a halo of paper round texts, so that lines keep off them."""
    for is_text, some in groupby(drawn, lambda each: each.startswith("<text")):
        together = "".join(some)
        halo = {"stroke": PAPER, "stroke_width": 3, "paint_order": "stroke"}
        yield element("g", together, **halo) if is_text else together


def _pattern(hatch: str) -> str:
    width, height, path, pen = _HATCHES[hatch]
    drawn = element("path", d=path, fill="none", **_stroke(pen))
    size = {"patternUnits": "userSpaceOnUse", "width": width, "height": height}
    return element("pattern", drawn, id=f"{_ID}-{hatch}", **size)


# ── a page of words ───────────────────────────────────────────────────────────────────────────

PAGE_WIDE: Final = 744.0


def page_of_words(heading: str, paragraphs: Sequence[str]) -> Picture:
    """A page of paragraphs below a heading, as the text of an SVG file that says them all again.

    >>> page_of_words("Boards", ["Two boards."]).count("Two boards.")
    2
    """
    canvas = Canvas(PAGE_WIDE)
    bottom = canvas.paragraph(heading, MARGIN, bold=True)
    for text in paragraphs:
        bottom = canvas.paragraph(text, bottom)
    return canvas.file(heading, " ".join([f"{heading}.", *paragraphs]), bottom + MARGIN)
