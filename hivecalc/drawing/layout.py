"""Where labels go: how wide a text is, and how texts keep clear of one another.

Lengths in here are units of a sheet, not inches: floats, as nothing is derived from them.
"""

import re
from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import accumulate
from typing import Literal, NamedTuple, Self, TypeAlias
from unicodedata import east_asian_width

LETTER = 14.0
"""Size of every text on a sheet."""

LINE = 17.0
"""Distance from one line of text to the next."""

ASCENT, DESCENT = 0.93, 0.24
"""How far letters reach above and below the line they stand on, for a letter size of 1."""

BOLDER = 1.2
"""How much wider a bold text is, at most."""

# Advance widths for a letter size of 1, rounded up: those of DejaVu Sans, one of the widest fonts
# that a browser falls back on. A sign that is not listed counts as wide as the widest, and one of
# those that Unicode calls wide, such as an emoji, wider still.
_WIDTHS = {
    0.38: " ′'ijlIJ,.·/:;\\|f-″",
    0.42: "t()[]!r",
    0.54: '"*_`–°sz?',
    0.61: "“”cLkFvxy",
    0.65: "PaoTYebdghnpquES0123456789${}",
    0.71: "KAVBRXZC",
    0.8: "UHNDG&OQ",
    0.88: "w#+<=>^~×−≈→M",
}
_WIDTH = {sign: width for width, signs in _WIDTHS.items() for sign in signs}
_WIDEST, _WIDE = 1.0, 1.3

_BREAK = re.compile(r"(?<!≈) (?!(?<=\d )(?:in\b|mm\b|\d+/\d))")

Point: TypeAlias = tuple[float, float]
Side: TypeAlias = Literal["top", "bottom", "left", "right"]


class Box(NamedTuple):
    """A rectangle on a sheet."""

    left: float
    top: float
    right: float
    bottom: float

    @classmethod
    def around(cls, points: Iterable[Point]) -> Self:
        """The rectangle that holds some places."""
        xs, ys = zip(*points, strict=True)
        return cls(min(xs), min(ys), max(xs), max(ys))

    def meets(self, other: "Box") -> bool:
        """Whether the two rectangles share any area.

        >>> Box(0, 0, 2, 2).meets(Box(1, 1, 3, 3)), Box(0, 0, 2, 2).meets(Box(2, 0, 3, 2))
        (True, False)
        """
        across = min(self.right, other.right) - max(self.left, other.left)
        return across > 0 and min(self.bottom, other.bottom) > max(self.top, other.top)

    def grown(self, by: float) -> "Box":
        """A rectangle that reaches so much farther on every side."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)


@lru_cache(maxsize=8192)
def text_width(text: str, *, bold: bool = False) -> float:
    """Width of a text on a sheet, on the safe side."""
    widths = (
        _WIDTH.get(sign) or (_WIDE if east_asian_width(sign) in "WF" else _WIDEST) for sign in text
    )
    return sum(widths) * LETTER * (BOLDER if bold else 1)


def widest(lines: Iterable[str], *, bold: bool = False) -> float:
    """Width of the widest of some lines of text."""
    return max(text_width(line, bold=bold) for line in lines)


def wrapped(text: str, width: float, *, bold: bool = False) -> list[str]:
    """A text in lines no wider than this, broken at spaces, but never within a length.

    >>> wrapped("the side rail is 21 5/8 in long", 120)
    ['the side rail is', '21 5/8 in long']

    A single word or length may be wider.
    """
    lines = [""]
    for word in _BREAK.split(text):
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and text_width(longer, bold=bold) > width:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def counted(name: str, count: int, width: float, *, always: bool = False) -> list[str]:
    """A name with its count, a single one only if `always`, in lines no wider than this.

    >>> counted("roof retainer", 2, 110), counted("mesh", 1, 110)
    (['roof retainer', '× 2'], ['mesh'])
    """
    *before, last = wrapped(name, width)
    if count == 1 and not always:
        return [*before, last]
    whole = f"{last} × {count}"
    return [*before, whole] if text_width(whole) <= width else [*before, last, f"× {count}"]


def in_pieces(line: str, width: float, *, bold: bool = False) -> list[str]:
    """A line in pieces no wider than this, broken between any two signs.

    >>> in_pieces("Beeeees", 40), in_pieces("Bees", 40)
    (['Beee', 'ees'], ['Bees'])

    For a single word that is too wide, as a name may be.
    """
    pieces = [""]
    for sign in line:
        if pieces[-1] and text_width(pieces[-1] + sign, bold=bold) > width:
            pieces.append("")
        pieces[-1] += sign
    return pieces


def spread(
    centres: Sequence[float], sizes: Sequence[float], low: float, high: float
) -> list[float]:
    """Centres as near to these as can be, so that neighbours of these sizes do not overlap.

    >>> spread([10, 12, 50], [10, 10, 10], 0, 100)
    [6.0, 16.0, 50.0]

    The order stays as it is. All keep between low and high if they go in there at all; else they
    begin at low and reach beyond high.
    """
    *before, total = accumulate(sizes, initial=0.0)
    wished = [c - s / 2 - b for c, s, b in zip(centres, sizes, before, strict=True)]
    starts = [max(low, min(level, high - total)) for level in _rising(wished)]
    return [start + b + s / 2 for start, s, b in zip(starts, sizes, before, strict=True)]


def _rising(wished: Sequence[float]) -> list[float]:
    """The never falling numbers that are nearest to these: falling neighbours share their mean."""
    pools: list[tuple[float, int]] = []
    for wish in wished:
        mean, count = wish, 1
        while pools and pools[-1][0] > mean:
            other, others = pools.pop()
            mean = (mean * count + other * others) / (count + others)
            count += others
        pools.append((mean, count))
    return [mean for mean, count in pools for _ in range(count)]
