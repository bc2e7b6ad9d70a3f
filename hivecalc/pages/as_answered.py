"""The piece as it was answered, built into the hive: at first without words, then with them."""

from typing import Final

from hivecalc.components import values
from hivecalc.hive import Hive
from hivecalc.judging import Verdict, is_sane
from hivecalc.pages.messages import message
from hivecalc.pages.outcomes import what_no_longer_fits
from hivecalc.pages.views import VIEWS
from hivecalc.space import NoPieceError

TRIES_BEFORE_AMOUNTS: Final = 2
NOT_SEEN: Final = frozenset(
    f"roof.{name}"
    for name in ("rim_front_length", "rim_back_length", "skirt_end_length", "roof_panel_width",
                 "deck_width", "cover_width")
)  # fmt: skip
"""What runs across the roof: its section from front to back can't show how long that is."""
STACK_SIZES: Final = ("height", "top", "headroom", "way_in", "front_rail_width")
INSIDE: Final = ("panel", "screen", "runner", "strip")
LOOK: Final = (
    "Your answer, built in: your piece has the thick blue line. Where does it end, and what does "
    "it meet there?"
)


def as_answered(hive: Hive, dimension: str, found: Verdict, tries: int) -> str:
    """The piece as it was answered, built in: after the second wrong try with what it does there.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.judging import verdict
    >>> rail = "bottom_board.front_rail_length"
    >>> found = verdict(demo_hive(), rail, "15 7/8")
    >>> told = [as_answered(demo_hive(), rail, found, tries) for tries in (1, 2)]
    >>> ["1 1/2 in too long" in each for each in told], ["overlap ?" in each for each in told]
    ([False, True], [True, True])

    Nothing for a right answer, for what nobody cuts, or for a size that makes no sense there. The
    picture says neither the right figure nor that of any other piece, which may be asked next.
    """
    if found.right or found.value is None or not _is_seen(hive, dimension, found):
        return ""
    view, answered = _view(dimension), {dimension: found.value}
    try:
        drawn = VIEWS[view].as_answered(hive, answered)
    except NoPieceError:
        return ""
    early = tries < TRIES_BEFORE_AMOUNTS
    said = message("note", LOOK) if early else what_no_longer_fits(hive, answered, view)
    return f"<figure>{drawn}</figure>{said}"


def _is_seen(hive: Hive, dimension: str, found: Verdict) -> bool:
    """Whether this is a piece that is seen in a picture, of a size that makes sense there."""
    view = _view(dimension)
    seen = view in VIEWS and VIEWS[view].cuts(dimension) and dimension not in NOT_SEEN
    return seen and found.value is not None and is_sane(found.value, values(hive)[dimension])


def _view(dimension: str) -> str:
    """The picture in which a piece is best seen."""
    component, _, size = dimension.partition(".")
    if component != "bottom_board":
        return component.replace("_", " ")
    if size.endswith(STACK_SIZES):
        return "stack"
    return "section" if any(word in size for word in INSIDE) else "plan"
