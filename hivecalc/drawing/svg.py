"""What is drawn as the text of an SVG picture, in as few signs as it needs.

Places stand to a tenth of a unit: finer than a pixel, or a printer's dot, can show.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from html import escape
from itertools import groupby, pairwise
from string import ascii_lowercase
from typing import Final, NamedTuple, Self

from hivecalc.drawing.layout import Point

Data = Mapping[str, object]

ID: Final = "\0"  # stands for the picture's own mark; `harmless` lets none through
DATA: Final = "\1"  # stands before and behind what is only for whoever measures a picture
_TRACE: Final = re.compile(f"{DATA}[^{DATA}]*{DATA}")
_NUMBERED: Final = re.compile(r"\bd\d+-(?=[0-9a-f]{6}\b)")


# ── elements ──────────────────────────────────────────────────────────────────────────────────


def harmless(text: str) -> str:
    r"""A text with odd signs as �, which an SVG file can't hold.

    >>> harmless("Bees\x07")
    'Bees�'
    """
    if text.isprintable():
        return text
    return "".join(s if s.isprintable() else "\N{REPLACEMENT CHARACTER}" for s in text)


def element(tag: str, inner: str | None = None, /, **named: object) -> str:
    """An element as text: numbers are rounded, texts escaped; None is left out.

    >>> print(element("line", x1=0.5, y2=2.0, data_name="<b>"))
    <line x1='.5' y2='2' data-name='&lt;b&gt;'/>

    What is `inner` goes in as it stands. A page is sent it as JSON, where a double quote is two
    signs.
    """
    written = f"{tag}{attributes(named)}"
    return f"<{written}/>" if inner is None else f"<{written}>{inner}</{tag}>"


def attributes(named: Data) -> str:
    """Attributes as text, each with a space before it."""
    given = ((name, at) for name, at in named.items() if at is not None)
    values = ((n, short(at) if isinstance(at, float) else escape(str(at))) for n, at in given)
    return "".join(f" {name.replace('_', '-')}='{value}'" for name, value in values)


def noted(data: Data | None) -> str:
    """What is noted of a thing, as attributes."""
    if not data:
        return ""
    return attributes({f"data_{name}": harmless(str(at)) for name, at in data.items()})


def styled(style: str) -> str:
    """The attribute that gives an element its classes, if it has any."""
    return f" class='{style}'" if style else ""


def short(number: float) -> str:
    """A number to a tenth of a unit."""
    return _tenths(round(number * 10))


@lru_cache(maxsize=8192)
def _tenths(count: int) -> str:
    whole, tenth = divmod(abs(count), 10)
    text = f"{whole or ''}.{tenth}" if tenth else str(whole)
    return f"-{text}" if count < 0 else text


def letters(number: int) -> str:
    """A short name for each number: a, b, …, z, ba, bb and so on."""
    more, last = divmod(number, 26)
    return (letters(more) if more else "") + ascii_lowercase[last]


# ── lines, shapes and texts ───────────────────────────────────────────────────────────────────


class Way(NamedTuple):
    """A line, or the outline of a shape: the class of its style, and the places that it passes.

    One that stands `alone` may hide what was drawn before it, so no other shares its path.
    """

    style: str
    points: list[Point]
    closed: bool = False
    alone: bool = False
    noted: str = ""


class Line(NamedTuple):
    """A line of text: the class of its style, where it stands, and what it says.

    One that stands `alone` is not as the sheet's own texts are, so no group can say its style.
    """

    style: str
    placed: str
    text: str
    alone: bool = False


def joined(drawn: Iterable[str | Way | Line]) -> Iterator[str]:
    """What is drawn, as text: what follows one another in one style is one path, or one group."""
    for (style, _), some in groupby(drawn, _likeness):
        run = list(some)
        ways = [each for each in run if isinstance(each, Way)]
        lines = [each for each in run if isinstance(each, Line)]
        if ways:
            yield _path(style, ways)
        elif lines:
            own, group = ("", styled(style)) if len(lines) > 1 else (styled(style), "")
            words = "".join(f"<text{own}{line.placed}>{line.text}</text>" for line in lines)
            yield f"<g{group}>{words}</g>" if group else words
        else:
            yield from map(str, run)


def _likeness(drawn: str | Way | Line) -> tuple[str, int]:
    """What is the same for those that are written together."""
    if isinstance(drawn, str):
        return "", -1
    return drawn.style, id(drawn) if drawn.alone else isinstance(drawn, Line)


def _path(style: str, ways: Sequence[Way]) -> str:
    """Ways of one style as one path, which ends behind each that has a note."""
    begin = f"<path{styled(style)} d='"
    text = begin + path_data(ways[0])
    for before, way in pairwise(ways):
        if before.noted or way.noted:
            text += f"{DATA}'{before.noted}/>{begin}{DATA}"
        text += path_data(way)
    return f"{text}'{DATA}{ways[-1].noted}{DATA}/>"


def path_data(way: Way) -> str:
    """A way as a path tells it: where it begins, then each step from there.

    >>> path_data(Way("", [(0, 0), (4.04, 0), (4, 2), (1, 1), (0.5, 3)]))
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


# ── the whole ─────────────────────────────────────────────────────────────────────────────────


class Picture(str):
    """The text of an SVG picture, with its name and what it shows in words."""

    __slots__ = ("name", "noted", "shown", "size", "words")
    name: str
    words: str
    noted: str
    shown: str
    size: Point

    @classmethod
    def of(cls, svg: str, name: str, words: str, shown: str, size: Point) -> Self:
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
        return self.noted.replace(DATA, "")

    def file(self, width: float | None = None) -> str:
        """The same as a file that is opened by itself, at its own width or another.

        Its marks do not tell how many pictures were drawn before, so it is the same each time.
        """
        wide, high = self.size
        scale = (width or wide) / wide
        size = attributes({"width": wide * scale, "height": high * scale})
        return unnumbered(self.replace(self.shown, size, 1))


def unnumbered(svg: str) -> str:
    """A picture whose marks do not tell how many pictures were drawn before it.

    >>> unnumbered("<title id='d12-ab34ef-title'>")
    "<title id='d-ab34ef-title'>"

    So it is the same each time it is stored; on one page two alike would share their marks.
    """
    return _NUMBERED.sub("d-", svg)
