"""The search for the cheapest cutting, from what is quick to what proves."""

from collections.abc import Callable
from itertools import islice
from typing import Final

from hivecalc.cutting.boards.columns import choose, narrow
from hivecalc.cutting.boards.few import TooManyError, few
from hivecalc.cutting.boards.filling import LOOKED_AT, filled
from hivecalc.cutting.boards.first_fit import first_fit
from hivecalc.cutting.boards.record import Record
from hivecalc.cutting.boards.widening import widen

MOST_MIXES: Final = 12
FEW: Final = 40


def start(record: Record) -> None:
    """Put down what a careful person would cut, so that there is always a best so far."""
    record.improve(first_fit(record.problem))


def search(record: Record) -> None:
    """Look for cheaper cuttings and higher bounds until they meet or the time is over."""
    for stage in STAGES:
        if record.open:
            record.doing = DOING[stage]
            stage(record)


def fill(record: Record) -> None:
    """Fill boards of the stock as it is, then exactly the boards of the cheapest mixes."""
    for looked_at in LOOKED_AT:
        if record.open:
            record.improve(filled(record.problem, looked_at))
    for mix in islice(record.dearer_mixes(), MOST_MIXES):
        if record.open:
            record.improve(filled(record.problem.limited_to(mix.boards)))


def try_all(record: Record) -> None:
    """Try all ways to cut a few pieces."""
    if record.problem.pieces > FEW:
        return
    try:
        best = few(record.problem, record.cost)
    except TooManyError:
        return
    if best is not None:
        record.improve(best)
    record.prove_best()


STAGES: Final = (fill, try_all, narrow, choose, widen)
DOING: Final[dict[Callable[[Record], None], str]] = {
    fill: "filling boards",
    try_all: "trying all ways",
    narrow: "comparing patterns",
    choose: "choosing patterns",
    widen: "proving",
}
