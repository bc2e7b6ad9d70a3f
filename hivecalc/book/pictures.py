"""The drawings of a hive book: the whole hive, and those of each component."""

import re
from collections.abc import Callable

from hivecalc.book.content import Chapter, Paragraph, Picture, PictureSize
from hivecalc.components import built, values
from hivecalc.drawing import Picture as Drawn
from hivecalc.drawing import Subject, plan, section, stack
from hivecalc.drawing.inner_cover import exploded_inner_cover
from hivecalc.drawing.nested import nested
from hivecalc.drawing.roof_screws import roof_from_above
from hivecalc.drawing.roof_section import roof_section
from hivecalc.drawing.whole_hive import exploded_hive, standing_hive
from hivecalc.hive import Hive

FROM_INSIDE: dict[str, Callable[[Subject], Drawn]] = {
    "From above, from the inside outwards": nested
}
DRAWN: dict[str, dict[str, Callable[[Subject], Drawn]]] = {
    "bottom_board": {
        "The frame from above": plan,
        "The stack against the rail": stack,
        "The side, cut open": section,
    },
    "roof": {
        "The roof, cut open from front to back": roof_section,
        "Where its screws stand": roof_from_above,
    },
    "inner_cover": {"The layers of the inner cover": exploded_inner_cover},
    "box": FROM_INSIDE,
    "sleeve": FROM_INSIDE,
}
WITH_THE_BOX = Paragraph("It is drawn together with the box, in the chapter before this one.")
STANDS = "As it stands in the field; weights are estimates."
NUMBERS = "Write its number on each piece with a pencil as you cut."
_MARK = re.compile(r"\bdrawing\d+-")


def whole_hive(hive: Hive) -> Chapter:
    """Chapter with the whole hive as it stands, and taken apart, each part with its number."""
    subject = Subject(values(hive), units=hive.units, name=hive.name)
    standing, apart = (draw(subject, built(hive)) for draw in (standing_hive, exploded_hive))
    return Chapter("The whole hive", (picture(standing, STANDS), picture(apart, NUMBERS, "large")))


def drawings(hive: Hive, component: str) -> tuple[Picture | Paragraph, ...]:
    """The drawings of one component of a hive, or where to find them.

    >>> from hivecalc.hive import demo_hive
    >>> drawings(demo_hive(), "bottom_board")[0].caption
    'The frame from above'
    """
    if component == "sleeve" and "box" in built(hive):
        return (WITH_THE_BOX,)
    subject = Subject(values(hive), units=hive.units, name=hive.name)
    return tuple(picture(draw(subject), caption) for caption, draw in DRAWN[component].items())


def picture(drawn: Drawn, caption: str, size: PictureSize = "usual") -> Picture:
    """A drawing with its caption, and with its own description for those who can't see it."""
    return Picture(_without_count(drawn), caption, f"{drawn.name}. {drawn.words}", size)


def _without_count(svg: str) -> str:
    """Return a drawing whose marks do not tell how many were drawn before it."""
    return _MARK.sub("drawing-", svg)
