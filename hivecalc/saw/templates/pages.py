"""A template on several sheets of paper: which part stands on which, joint marks, control ruler.

Every length on paper is in inches, from the upper left corner of the sheet, y down.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import Final

from hivecalc.length import MM, Length
from hivecalc.paper import Paper
from hivecalc.saw.templates.sheet import Page, Stroke, Window, Words, ruler_strokes, ruler_words
from hivecalc.saw.templates.template import Line, Template, cross

PAPERS: Final[Mapping[Paper, tuple[Length, Length]]] = {
    "a4": (297 * MM, 210 * MM),
    "letter": (Fraction(11), Fraction(17, 2)),
}
"""Width and height of each paper, lying: ISO 216 and ANSI Y14.1, from memory."""

MARGIN: Final = 12 * MM
HEADER: Final = 18 * MM
RULERS: Final = 24 * MM
OVERLAP: Final = 15 * MM
JOINED: Final = "lay crosses with the same numbers on one another"
CROSS: Final = 5 * MM
"""Half the size of a joint mark."""


def pages(template: Template, paper: Paper, name: str = "") -> tuple[Page, ...]:
    """The sheets that a template takes at full size, from the lower left on, row by row.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.saw.templates import taper_template
    >>> [len(pages(taper_template(demo_hive()), paper)) for paper in ("a4", "letter")]
    [3, 3]

    Neighbours share a band of 15 mm with marks in it, which are laid one on the other. Each sheet
    has a control ruler of 100 mm and one of 4 in. `name` is the hive's, in the head of each sheet.
    """
    return tuple(_Layout(template, paper, name).pages())


def windows(template: Template, paper: Paper) -> tuple[Window, ...]:
    """The part of a template that each of its sheets shows, from the lower left on.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.saw.templates import taper_template
    >>> first, second, third = windows(taper_template(demo_hive()), "a4")
    >>> first.high[0] - second.low[0] == OVERLAP
    True
    """
    return tuple(window for _, _, window in _Layout(template, paper, "").windows())


@dataclass(frozen=True)
class _Layout:
    template: Template
    paper: Paper
    name: str

    @property
    def _sizes(self) -> tuple[Length, Length]:
        return self.template.width, self.template.height

    @property
    def _room(self) -> tuple[Length, Length]:
        """How much of a template one sheet shows."""
        wide, high = PAPERS[self.paper]
        return wide - 2 * MARGIN, high - 2 * MARGIN - HEADER - RULERS

    @property
    def _counts(self) -> tuple[int, int]:
        """How many sheets lie side by side, and how many rows of them."""
        across, up = (
            max(1, ceil((size - OVERLAP) / (room - OVERLAP)))
            for size, room in zip(self._sizes, self._room, strict=True)
        )
        return across, up

    def windows(self) -> Iterator[tuple[int, int, Window]]:
        """Column, row and window of each sheet; the template stands in the middle of them all."""
        (wide, high), (across, up) = self._room, self._counts
        left, foot = (
            (size - count * room + (count - 1) * OVERLAP) / 2
            for size, count, room in zip(self._sizes, self._counts, self._room, strict=True)
        )
        for row in range(up):
            for column in range(across):
                x, y = left + column * (wide - OVERLAP), foot + row * (high - OVERLAP)
                yield column, row, Window((x, y), (x + wide, y + high))

    def pages(self) -> Iterator[Page]:
        """Each sheet with all that stands on it."""
        shown = list(self.windows())
        joints = [line for place in self._joints() for line in place]
        for number, (_, _, window) in enumerate(shown, 1):
            yield self._page(window, number, len(shown), joints)

    def _page(self, window: Window, number: int, count: int, joints: list[Line]) -> Page:
        wide, high = PAPERS[self.paper]
        corner = MARGIN, MARGIN + HEADER
        strokes, words = list[Stroke](), list[Words]()
        for line in (*self.template.lines, *joints):
            part = window.part(line)
            if part:
                strokes.append(part.moved(window, corner))
                words += part.words(window, corner)
        foot = high - MARGIN
        strokes += ruler_strokes((MARGIN, foot))
        words += ruler_words((MARGIN, foot))
        words += self._head(number, count)
        return Page(number, wide, high, window, tuple(strokes), tuple(words))

    def _head(self, number: int, count: int) -> Iterator[Words]:
        of = f", sheet {number} of {count}: {JOINED}" if count > 1 else ""
        lines = (self.name, f"{self.template.title}{of}", self.template.told)
        for i, line in enumerate(lines, 1):
            if line:
                yield Words(line, (MARGIN, MARGIN + i * HEADER / 4), "start")

    def _joints(self) -> Iterator[tuple[Line, Line]]:
        """The marks that two neighbouring sheets share, with the sheets' numbers."""
        across, up = self._counts
        near, far = 2 * CROSS, OVERLAP + 2 * CROSS
        for number, (column, row, (low, high)) in enumerate(self.windows(), 1):
            if column + 1 < across:
                x = high[0] - OVERLAP / 2
                foot, head = (near if row == end else far for end in (0, up - 1))
                for y in (low[1] + foot, high[1] - head):
                    yield cross((x, y), CROSS, f"{number}/{number + 1}")
            if row + 1 < up:
                y = high[1] - OVERLAP / 2
                left, right = (near if column == end else far for end in (0, across - 1))
                for x in (low[0] + left, high[0] - right):
                    yield cross((x, y), CROSS, f"{number}/{number + across}")
