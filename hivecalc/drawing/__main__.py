"""Writes the pictures of the demo hive into a folder: `python -m hivecalc.drawing FOLDER`."""

import sys
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

from hivecalc import drawing
from hivecalc.components import values
from hivecalc.hive import demo_hive, write_whole


def pictures() -> Iterator[tuple[str, str]]:
    """A name and a picture for everything that is drawn of the demo hive."""
    hive = demo_hive()
    true, length = values(hive), hive.measured["hive_length"]
    long_rail = values(hive, {"bottom_board.side_rail_length": Fraction(347, 16)})
    turned = values(hive, {"bottom_board.upper_runner_height": true["strip_wide"]})
    yield "plan", drawing.plan(true, name=hive.name)
    yield "plan-long-rail", drawing.plan(true, long_rail, name=hive.name)
    yield "section", drawing.section(true, name=hive.name)
    yield "stack", drawing.stack(true, name=hive.name)
    yield "stack-turned-runner", drawing.stack(true, turned, name=hive.name)
    yield "tape", drawing.tape(length)
    yield "tape-burnt-inch", drawing.burnt_inch_tape(length)
    yield "tape-hook", drawing.hooked_tape(length)


if __name__ == "__main__":
    folder = Path(sys.argv[1] if len(sys.argv) > 1 else "drawings")
    folder.mkdir(parents=True, exist_ok=True)
    for name, picture in pictures():
        write_whole(folder / f"{name}.svg", picture)
