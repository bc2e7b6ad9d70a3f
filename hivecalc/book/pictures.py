"""The drawings of a hive book: the whole hive, and those of each component."""

import re
from collections.abc import Callable
from html import unescape

from hivecalc.book.content import Chapter, Paragraph, Picture, PictureSize
from hivecalc.components import built, values
from hivecalc.drawing import plan, section, stack
from hivecalc.drawing.exploded import exploded_hive, exploded_inner_cover, standing_hive
from hivecalc.drawing.nested import nested
from hivecalc.drawing.roof import roof_from_above, roof_section
from hivecalc.hive import Hive

FROM_INSIDE = {"From above, from the inside outwards": nested}
DRAWN: dict[str, dict[str, Callable[..., str]]] = {
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
    standing, apart = (
        draw(values(hive), built(hive), units=hive.units, name=hive.name)
        for draw in (standing_hive, exploded_hive)
    )
    return Chapter("The whole hive", (picture(standing, STANDS), picture(apart, NUMBERS, "large")))


def drawings(hive: Hive, component: str) -> tuple[Picture | Paragraph, ...]:
    """The drawings of one component of a hive, or where to find them.

    >>> from hivecalc.hive import demo_hive
    >>> drawings(demo_hive(), "bottom_board")[0].caption
    'The frame from above'
    """
    if component == "sleeve" and "box" in built(hive):
        return (WITH_THE_BOX,)
    sizes = values(hive)
    drawn = DRAWN[component].items()
    return tuple(
        picture(draw(sizes, units=hive.units, name=hive.name), caption) for caption, draw in drawn
    )


def picture(svg: str, caption: str, size: PictureSize = "usual") -> Picture:
    """A drawing with its caption, and with its own description for those who can't see it.

    >>> svg = "<svg><title>A rail</title><desc>It is 5 in &lt; 6 in.</desc></svg>"
    >>> picture(svg, "The rail").words
    'A rail. It is 5 in < 6 in.'
    """
    told = (re.search(f"<{tag}[^>]*>([^<]*)</{tag}>", svg) for tag in ("title", "desc"))
    title, description = (unescape(found[1]) if found else "" for found in told)
    return Picture(_without_count(svg), caption, f"{title}. {description}", size)


def _without_count(svg: str) -> str:
    """Return a drawing whose marks do not tell how many were drawn before it."""
    return _MARK.sub("drawing-", svg)
