"""What can be chosen from about heat and wood: each option computed, with what to say to it."""

from collections.abc import Iterator
from typing import Final

from hivecalc.exercise.record import Exercise, Numbers

WAYS: Final = {
    "tangential": "Most round the rings, hardly any along the grain",
    "radial": "Most across the rings, as much along the grain",
    "along": "Most along the grain, since that is the longest way",
}
"""How a board may be thought to move, the right one by the direction that moves most."""


def in_a_row(_exercise: Exercise, numbers: Numbers) -> Iterator[tuple[str, bool, str]]:
    """R of a wall of board, foam and skin, among what slips would give.

    Yields the text, whether it is right, and what to say to it.
    """
    from hivecalc.warmth.chain import chain_slips, links  # noqa: PLC0415 - slow to load
    from hivecalc.warmth.chain import in_a_row as together  # noqa: PLC0415 - as above
    from hivecalc.warmth.layers import (  # noqa: PLC0415 - as above
        FOAM,
        PLYWOOD,
        SOFTWOOD,
        Element,
        Path,
        layer,
    )

    made_of = {"board": SOFTWOOD, "foam": FOAM, "skin": PLYWOOD}
    layers = tuple(
        layer(made_of[name], float(size) * 0.0254, name) for name, size in numbers.sizes.items()
    )
    chain = links(Element((Path(1, layers),), "level"))
    row = " + ".join(f"{r:.1f}" for _, r in chain)
    yield f"R {together(chain):.1f}", True, f"{row}: films and layers, one after another."
    wanted = {s.name: s for s in reversed(chain_slips(chain))}
    for slip in wanted.values():
        yield f"R {slip.value:.2g}", False, slip.sentence


def side_by_side(_exercise: Exercise, numbers: Numbers) -> Iterator[tuple[str, bool, str]]:
    """R of foam with a strip of wood beside it, among what slips would give."""
    from hivecalc.warmth.chain import beside_slips  # noqa: PLC0415 - slow to load
    from hivecalc.warmth.chain import side_by_side as together  # noqa: PLC0415 - as above

    foam, strip = (float(numbers.sizes[n]) for n in ("foam_height", "strip_height"))
    parts = [(foam / (foam + strip), 5.0), (strip / (foam + strip), 1.0)]
    said = "Each way takes its share of the area, and the flows are added."
    yield f"R {together(parts):.1f}", True, said
    for slip in beside_slips(parts):
        yield f"R {slip.value:.2g}", False, slip.sentence


def grain(_exercise: Exercise, numbers: Numbers) -> Iterator[tuple[str, bool, str]]:
    """Which way a board moves most, with how much it is for a white fir from 12 to 8 %."""
    from hivecalc.wood import SPECIES, USUAL_SPECIES, Grain, change  # noqa: PLC0415 - slow to load

    board = float(numbers.sizes["board"])
    grains: tuple[Grain, ...] = ("tangential", "radial", "along")
    moves = {g: abs(change(board, SPECIES[USUAL_SPECIES], g, 12, 8)) for g in grains}
    most = max(moves, key=lambda g: moves[g])
    for name, text in WAYS.items():
        times = moves[most] / moves["along"]
        said = f"Round the rings it moves about {times:.0f} times as much as along the grain."
        yield text, name == most, said


MAKERS: Final = {"row": in_a_row, "beside": side_by_side, "grain": grain}
"""What makes the options, by what stands in an exercise's `by`."""
