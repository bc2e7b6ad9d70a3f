"""A sheet of paper to draw on: shapes, hatching and labels, told as the text of an SVG picture.

Colours are Okabe and Ito's, which stay apart for colour-blind eyes (Color Universal Design, 2008):
one for "this is what changed", one for "this does not go". Neither is ever told by colour alone.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from fractions import Fraction
from hashlib import sha256
from html import escape, unescape
from itertools import count, groupby
from typing import Final, NamedTuple

from hivecalc.drawing.layout import ASCENT, LETTER, LINE, Point, in_pieces, wrapped
from hivecalc.length import SIXTY_FOURTH, Units, mixed, with_unit

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


BOLD = Hand(bold=True)
OUTLINE = Pen(INK, 1.1)
THIN = Pen(PENCIL, 0.6)
HIDDEN = Pen(PENCIL, 0.8, "4 3")
CHANGED_LINE = Pen(CHANGED, 2.6)
WRONG_LINE = Pen(WRONG, 2.2)

_GRAIN = f'fill="none" stroke="{PENCIL}" stroke-width=".45"'
# Hatching after the habits of ISO 128: what is cut is hatched, and neighbours lean opposite ways.
# For each: the width and height of a tile, and what is drawn in it.
_HATCHES: dict[str, tuple[float, float, str]] = {
    "stud": (7, 7, f'<path d="M-1 8 8 -1" stroke="{PENCIL}" stroke-width=".6"/>'),
    "strip": (4, 4, f'<path d="M-1 -1 5 5" stroke="{PENCIL}" stroke-width=".6"/>'),
    "board": (9, 9, f'<path d="M-1 10 10 -1M2 10 10 2" stroke="{PENCIL}" stroke-width=".5"/>'),
    "foam": (
        10,
        8,
        f'<path d="M0 4 2.5 6.5 7.5 1.5 10 4" fill="none" stroke="{PENCIL}" stroke-width=".5"/>',
    ),
    "grain": (
        97,
        12,
        f'<path d="M0 2c20 1 34-1 52 0M60 5.5c12-1 24 1 34 0M14 9c22 1 30-.5 44 0" {_GRAIN}/>',
    ),
    "grain_across": (
        12,
        97,
        f'<path d="M2 0c1 20-1 34 0 52M5.5 60c-1 12 1 24 0 34M9 14c1 22-.5 30 0 44" {_GRAIN}/>',
    ),
    "wrong": (5, 5, f'<path d="M0 0 5 5M5 0 0 5" stroke="{WRONG}" stroke-width=".9"/>'),
}
_HALO = f'<g stroke="{PAPER}" stroke-width="3" paint-order="stroke">'  # lines keep off a text
_ID = "\0"  # stands for the picture's own mark until that is known; `seen` lets none through
_NUMBERS = count(1)
_PICTURE = re.compile(
    r'<svg[^>]* viewBox="0 0 \S+ ([\d.]+)"[^>]*>'
    r'<title id="([^"]+)-title">([^<]*)</title><desc[^>]*>([^<]*)</desc>(.*)</svg>',
    re.DOTALL,
)  # its height, its mark, its name and description, and what is drawn


TAPED: Final = Fraction(1, 8)  # what is thinner is gauged, not read off a tape


def figure(length: Fraction, units: Units) -> str:
    """A length as it stands on a drawing, with its unit.

    >>> [figure(Fraction(f), "inch") for f in ("173/8", "0.034", "0.2785")]
    ['21 5/8 in', '0.034 in', '≈ 9/32 in']

    A length that a tape can show has no decimals in inches; a wire or a sheet of mesh is gauged.
    """
    if units == "inch" and length >= TAPED and SIXTY_FOURTH.step.denominator % length.denominator:
        return f"{mixed(length, SIXTY_FOURTH)} in"
    return with_unit(units, length)


def seen(text: str) -> str:
    r"""A text that does no harm in a picture: markup is shown as it stands, odd signs as �.

    >>> seen("<b>&\x07")
    '&lt;b&gt;&amp;�'
    """
    signs = (sign if sign.isprintable() else "\N{REPLACEMENT CHARACTER}" for sign in text)
    return escape("".join(signs))


def _number(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".")


def _places(points: Iterable[Point]) -> str:
    return " ".join(f"{_number(x)},{_number(y)}" for x, y in points)


def _data(data: Data) -> str:
    return "".join(f' data-{name}="{seen(str(value))}"' for name, value in data.items())


def _stroke(pen: Pen) -> str:
    dashes = f' stroke-dasharray="{pen.dashes}"' if pen.dashes else ""
    return f' stroke="{pen.colour}" stroke-width="{_number(pen.thickness)}"{dashes}'


class Pasted(NamedTuple):
    """A picture that was pasted on a sheet: where it ends there, its name and description."""

    bottom: float
    title: str
    description: str


class Sheet:
    """A sheet of paper that is drawn on from the top; x runs right, y down."""

    def __init__(self, width: float = WIDTH) -> None:
        self._width = width
        self._drawn: list[str] = []
        self._hatches: dict[str, None] = {}
        self._pasted = count(1)

    @contextmanager
    def view(self, name: str, scale: float) -> Iterator[None]:
        """A part of the sheet that is drawn true to one scale, in units for one inch."""
        self._drawn.append(f'<g data-view="{name}" data-scale="{scale!r}">')
        yield
        self._drawn.append("</g>")

    @contextmanager
    def group(self, pen: Pen, data: Data) -> Iterator[None]:
        """Shapes that belong together, outlined by one pen where they bring none of their own."""
        self._drawn.append(f"<g{_stroke(pen)}{_data(data)}>")
        yield
        self._drawn.append("</g>")

    def face(self, points: Sequence[Point], fill: str, hatch: str | None, pen: Pen | None) -> None:
        """Draw a closed shape of a group, filled and hatched, by the group's pen or its own."""
        shape = "M" + " ".join(f"{x:.2f},{y:.2f}" for x, y in points) + "Z"
        stroke = _stroke(pen) if pen else ""
        self._drawn.append(f'<path d="{shape}" fill="{fill}"{stroke}/>')
        if hatch:
            self._hatches[hatch] = None
            self._drawn.append(f'<path d="{shape}" fill="url(#{_ID}-{hatch})"{stroke}/>')

    def lines(self, ends: Iterable[tuple[Point, Point]], pen: Pen) -> None:
        """Draw several straight lines with one pen."""
        drawn = "".join(f"M{_places([start])}L{_places([end])}" for start, end in ends)
        self._drawn.append(f'<path d="{drawn}" fill="none"{_stroke(pen)}/>')

    def line(self, start: Point, end: Point, pen: Pen = THIN, data: Data | None = None) -> None:
        """Draw a straight line."""
        (x1, y1), (x2, y2) = start, end
        ends = f'x1="{_number(x1)}" y1="{_number(y1)}" x2="{_number(x2)}" y2="{_number(y2)}"'
        self._drawn.append(f"<line {ends}{_stroke(pen)}{_data(data or {})}/>")

    def path(self, points: Sequence[Point], pen: Pen = THIN) -> None:
        """Draw a line through several points."""
        self._drawn.append(f'<polyline points="{_places(points)}" fill="none"{_stroke(pen)}/>')

    def polygon(
        self,
        points: Sequence[Point],
        pen: Pen | None = OUTLINE,
        fill: str = "none",
        hatch: str | None = None,
        data: Data | None = None,
    ) -> None:
        """Draw a closed shape, filled first, then hatched, then outlined."""
        places, marks = _places(points), _data(data or {})
        stroke = _stroke(pen) if pen else ""
        if hatch is None:
            self._drawn.append(f'<polygon points="{places}" fill="{fill}"{stroke}{marks}/>')
            return
        self._hatches[hatch] = None
        if fill != "none":
            self._drawn.append(f'<polygon points="{places}" fill="{fill}"/>')
        paint = f"url(#{_ID}-{hatch})"
        self._drawn.append(f'<polygon points="{places}" fill="{paint}"{stroke}{marks}/>')

    def circle(
        self, centre: Point, radius: float, pen: Pen | None = OUTLINE, fill: str = "none"
    ) -> None:
        """Draw a circle."""
        place = f'cx="{_number(centre[0])}" cy="{_number(centre[1])}" r="{_number(radius)}"'
        self._drawn.append(f'<circle {place} fill="{fill}"{_stroke(pen) if pen else ""}/>')

    def text(
        self, text: str, place: Point, anchor: str = "start", hand: Hand | None = None
    ) -> None:
        """Write one line whose letters stand on y; upright, it is read from the right."""
        (x, y), hand = place, hand or Hand()
        marks = "" if anchor == "start" else f' text-anchor="{anchor}"'
        marks += ' font-weight="bold"' if hand.bold else ""
        marks += f' fill="{hand.colour}"' if hand.colour != INK else ""
        marks += f' transform="rotate(-90 {_number(x)} {_number(y)})"' if hand.upright else ""
        self._drawn.append(f'<text x="{_number(x)}" y="{_number(y)}"{marks}>{seen(text)}</text>')

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

    def paste(self, picture: str, left: float, top: float) -> Pasted:
        """Paste a whole picture, made by a sheet, on this one, without its name."""
        found = _PICTURE.fullmatch(picture)
        if found is None:
            raise ValueError("what is pasted is no picture of a sheet")
        height, mark, title, description, drawn = found.groups()
        drawn = drawn.replace(mark, f"{_ID}-{next(self._pasted)}")
        moved = f"translate({_number(left)} {_number(top)})"
        self._drawn.append(f'<g transform="{moved}">{drawn}</g>')
        return Pasted(top + float(height), unescape(title), unescape(description))

    def picture(self, title: str, description: str, height: float, scale: float) -> str:
        """The whole sheet as the text of an SVG picture, with its name and description in words."""
        least = self._width * LEAST_LETTER / LETTER
        style = (
            f"display:block;width:100%;min-width:{least:.0f}px;max-width:{MOST_WIDTH:.0f}px;"
            "height:auto"
        )
        shown = f'data-scale="{scale!r}" style="{style}"'
        return self._told(title, description, height, shown, str(next(_NUMBERS)))

    def file(self, title: str, description: str, height: float) -> str:
        """The whole sheet as the text of an SVG file that is opened by itself, at its own size."""
        shown = f'width="{_number(self._width)}" height="{_number(height)}"'
        return self._told(title, description, height, shown)

    def _told(
        self, title: str, description: str, height: float, shown: str, number: str = ""
    ) -> str:
        box = f'width="{_number(self._width)}" height="{_number(height)}"'
        inner = (
            f'<title id="{_ID}-title">{seen(title)}</title>'
            f'<desc id="{_ID}-desc">{seen(description)}</desc>'
            f"<defs>{''.join(map(_pattern, self._hatches))}</defs>"
            f'<rect {box} rx="3" fill="{PAPER}"/>{"".join(_with_halos(self._drawn))}'
        )
        view = f'viewBox="0 0 {_number(self._width)} {_number(height)}"'
        mark = f"drawing{number}-{sha256(inner.encode()).hexdigest()[:10]}"
        return f"<svg {_FRAME} {view} {shown}>{inner}</svg>".replace(_ID, mark)


_FRAME = (
    'xmlns="http://www.w3.org/2000/svg" role="img" '
    f'aria-labelledby="{_ID}-title" aria-describedby="{_ID}-desc" '
    f'font-family="Helvetica, Arial, sans-serif" font-size="{_number(LETTER)}" fill="{INK}" '
    'stroke-linecap="round" stroke-linejoin="round"'
)


def _with_halos(drawn: Iterable[str]) -> Iterator[str]:
    """What is drawn, with a halo of paper round the texts that follow one another."""
    for is_text, some in groupby(drawn, lambda each: each.startswith("<text")):
        together = "".join(some)
        yield f"{_HALO}{together}</g>" if is_text else together


def _pattern(hatch: str) -> str:
    width, height, drawn = _HATCHES[hatch]
    size = f'width="{_number(width)}" height="{_number(height)}"'
    return f'<pattern id="{_ID}-{hatch}" patternUnits="userSpaceOnUse" {size}>{drawn}</pattern>'


_PIECE = re.compile(r'<polygon points="([^"]+)"[^>]* data-part="([^"]*)"/>')


def lit(picture: str, parts: Iterable[str]) -> str:
    """The same picture with these pieces lit: a thick outline, and tinted.

    >>> sheet = Sheet()
    >>> sheet.polygon([(0, 0), (9, 0), (9, 9)], data={"part": "front rail"})
    >>> drawn = sheet.picture("Frame", "A rail.", 20, 1.0)
    >>> lit(drawn, ["front rail"]).count("<polygon"), lit(drawn, ["side rail"]) == drawn
    (2, True)
    """
    named = {seen(part) for part in parts}
    tint = f'fill="{CHANGED}" fill-opacity=".3" stroke="{CHANGED}" stroke-width="3"'

    def with_light(piece: re.Match[str]) -> str:
        light = f'<polygon points="{piece[1]}" {tint}/>' if piece[2] in named else ""
        return piece[0] + light

    return _PIECE.sub(with_light, picture)
