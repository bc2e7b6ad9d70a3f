"""Charts by matplotlib in the course's own look: heat as bars, a line through a wall, a year.

Each is the text of an SVG picture with a title and a description in words; its letters stay
letters. Blue and orange are Okabe and Ito's, and nothing is shown by colour alone: bars are hatched
and lines dashed, so that a grey printer and a dark page show the same.
"""

import io
import re
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import lru_cache
from hashlib import sha256
from html import escape
from math import ceil
from typing import TYPE_CHECKING, Final

from hivecalc.drawing.canvas import (
    CHANGED,
    FOAM,
    INK,
    LEAST_LETTER,
    MOST_WIDTH,
    PAPER,
    PENCIL,
    WIDTH,
    WOOD,
    WRONG,
)
from hivecalc.drawing.layout import LETTER

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from hivecalc.warmth.sections import Temperatures

SIZE: Final = (5.0, 3.4)
"""Inches: 360 points wide, as wide as a sheet of the other pictures."""
STYLE: Final = {
    "svg.fonttype": "none", "svg.hashsalt": "hivecalc", "font.size": LETTER,
    "font.family": "sans-serif", "axes.spines.top": False, "axes.spines.right": False,
    "axes.edgecolor": PENCIL, "axes.labelcolor": INK, "text.color": INK, "xtick.color": INK,
    "ytick.color": INK, "hatch.linewidth": 0.5, "axes.facecolor": PAPER,
}  # fmt: skip
GROUND: Final = {"wood": WOOD, "foam": FOAM, "air": PAPER}
"""What stands behind a line through a wall, by the kind of each layer."""


@contextmanager
def _axes(title: str, height: float = SIZE[1]) -> "Iterator[tuple[Axes, Callable[[str], str]]]":
    """Axes with a title in the course's look, and what makes a described picture of them."""
    import matplotlib as mpl  # noqa: PLC0415 - slow to load
    from matplotlib.figure import Figure  # noqa: PLC0415 - as above

    with mpl.rc_context(STYLE):  # type: ignore[arg-type]  # its keys are a long literal
        figure = Figure(figsize=(SIZE[0], height), facecolor=PAPER, layout="constrained")
        axes = figure.add_subplot()
        axes.set_title(title, fontsize=LETTER, loc="left")

        def drawn(described: str) -> str:
            file = io.StringIO()
            figure.savefig(file, format="svg", metadata={"Date": None, "Creator": None})
            return _named(file.getvalue(), title, described)

        yield axes, drawn


def _named(svg: str, title: str, described: str) -> str:
    """The picture alone, with its title and description for those who do not see it.

    Names that matplotlib gives to groups go, since two pictures on a page would share them.
    """
    inner = re.sub(r"<metadata>.*?</metadata>", "", svg, flags=re.DOTALL)
    inner = inner[inner.index(">", inner.index("<svg")) + 1 :]
    inner = re.sub(r'<g id="[A-Za-z.]+_\d+"', "<g", inner)
    mark = f"chart-{sha256(inner.encode()).hexdigest()[:10]}"
    (view,) = re.findall(r'viewBox="[^"]+"', svg)[:1]
    least = ceil(WIDTH * LEAST_LETTER / LETTER)
    style = f"width:100%;min-width:{least}px;max-width:{MOST_WIDTH:.0f}px;height:auto"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
        f'role="img" aria-labelledby="{mark}-title" aria-describedby="{mark}-desc" {view} '
        f'style="{style}"><title id="{mark}-title">{escape(title)}</title>'
        f'<desc id="{mark}-desc">{escape(described)}</desc>{inner.rstrip()}'
    )


def bars(
    title: str, rows: Sequence[tuple[str, float, float, float]], unit: str,
    mark: tuple[str, float] | None = None,
) -> str:  # fmt: skip
    """Bars, one under the other, each with its least and most, and perhaps a mark to compare with.

    >>> "walls 5 W, from 4 to 6" in bars("Heat", [("walls", 4, 5, 6)], "W")
    True

    A row: name, least, likely, most.
    """
    described = "; ".join(f"{n} {b:.3g} {unit}, from {a:.3g} to {c:.3g}" for n, a, b, c in rows)
    with _axes(title, 1.1 + 0.42 * len(rows)) as (axes, drawn):
        places = range(len(rows))
        widths = [likely for _, _, likely, _ in rows]
        below, above = [r[2] - r[1] for r in rows], [r[3] - r[2] for r in rows]
        axes.barh(places, widths, color="#bcd8ea", edgecolor=CHANGED, hatch="//", height=0.6)
        axes.errorbar(widths, places, xerr=[below, above], fmt="none", ecolor=INK, capsize=4)
        axes.set_yticks(places, [row[0] for row in rows])
        axes.invert_yaxis()
        axes.set_xlim(0, max(*(row[3] for row in rows), 1e-9) * 1.15)
        axes.set_xlabel(unit)
        if mark and mark[1] <= axes.get_xlim()[1]:
            axes.axvline(mark[1], color=WRONG, linestyle="--")
            axes.annotate(mark[0], (mark[1], -0.5), xytext=(0, 4), textcoords="offset points",
                          color=WRONG, ha="center")  # fmt: skip
            described += f"; {mark[0]} at {mark[1]:.3g} {unit}"
        return drawn(described)


def through_wall(
    title: str, layers: Sequence[tuple[str, str, float]], points: Sequence[float], unit: str
) -> str:
    """The temperature on its way through the layers of a wall, from inside to outside.

    >>> wall = through_wall("Wall", [("board", "wood", 0.75)], [68, 60, 20, 14], "°F")
    >>> "inside air 68 °F, face 60 °F, after the board 20 °F, outside air 14 °F" in wall
    True

    A layer: its name, kind and thickness. Points are air, each face, air.
    """
    names = ["inside air", "face", *(f"after the {layer[0]}" for layer in layers), "outside air"]
    described = ", ".join(f"{n} {p:.0f} {unit}" for n, p in zip(names, points, strict=True))
    with _axes(title) as (axes, drawn):
        whole = sum(layer[2] for layer in layers) or 1.0
        margin, at = whole * 0.22, 0.0
        places = [-margin, 0.0]
        half = (min(points) + max(points)) / 2
        for n, (name, kind, thickness) in enumerate(layers):
            axes.axvspan(at, at + thickness, facecolor=GROUND[kind], edgecolor=PENCIL)
            under = (points[n + 1] + points[n + 2]) / 2 > half  # where the line leaves room
            axes.text(at + thickness / 2, 0.04 if under else 0.96, name, ha="center",
                      va="bottom" if under else "top", rotation=90,
                      transform=axes.get_xaxis_transform())  # fmt: skip
            at += thickness
            places.append(at)
        axes.plot([*places, at + margin], points, color=CHANGED, linewidth=2.6, marker="o")
        for place, point, beside in (
            (-margin, points[0], "left"),
            (at + margin, points[-1], "right"),
        ):
            axes.annotate(f"{_whole(point)} {unit}", (place, point), xytext=(0, 8), ha=beside,
                          textcoords="offset points")  # fmt: skip
        axes.set_xlim(-margin * 1.1, at + margin * 1.1)
        span = max(points) - min(points)
        axes.set_ylim(min(points) - span / 9, max(points) + span / 4.5)
        axes.set_xticks([])
        axes.set_ylabel(unit)
        axes.set_xlabel("inside → outside")
        return drawn(described)


def _whole(degrees: float) -> str:
    return f"{degrees:.0f}".replace("-", "−")


@lru_cache(maxsize=8)
def isotherms(
    title: str, described: str, field: "Temperatures", ends: tuple[float, float],
    places: tuple[tuple[str, tuple[float, float, float, float]], ...],
) -> str:  # fmt: skip
    """Lines of equal temperature in a section, over the outlines of its pieces; thicker is warmer.

    `ends` are the temperatures outside and inside; a place is a piece's kind with left,
    right, low and high in m. Kept, since it is drawn from many points.
    """
    low, high = ends
    with _axes(title, SIZE[1] + 0.8) as (axes, drawn):
        from matplotlib.patches import Rectangle  # noqa: PLC0415 - slow to load

        for kind, (left, right, bottom, top) in places:
            axes.add_patch(Rectangle((left, bottom), right - left, top - bottom,
                           facecolor=GROUND[kind], edgecolor=PENCIL, linewidth=0.6))  # fmt: skip
        warm = low + (high - low) * field.temperatures
        levels = [low + (high - low) * part / 6 for part in range(1, 6)]
        thick = [0.7 + 0.6 * n for n in range(5)]
        axes.contour(field.x, field.z, warm.T, levels, colors=CHANGED, linewidths=thick,
                     linestyles="solid")  # fmt: skip
        for level, wide in zip(levels, thick, strict=True):
            axes.plot([], [], color=CHANGED, linewidth=wide, label=_whole(level))
        axes.legend(ncols=len(levels), loc="upper center", bbox_to_anchor=(0.5, 0), frameon=False,
                    handlelength=1.2, columnspacing=1.0)  # fmt: skip
        axes.set_aspect("equal")
        axes.set_axis_off()
        return drawn(described)


def year(
    title: str,
    months: Sequence[str],
    ends: Sequence[tuple[float, float]],
    planned: float,
    unit: str,
) -> str:
    """A gap through the year, between its least and its most, and as it was planned.

    >>> ends = [(0.2, 0.3), (0.1, 0.2)]
    >>> "Narrowest in Feb, widest in Jan" in year("Gap", ["Jan", "Feb"], ends, 0.25, "in")
    True
    """
    by_month = list(zip(months, ends, strict=True))
    narrow, wide = (pick(by_month, key=lambda e: e[1][i])[0] for pick, i in ((min, 0), (max, 1)))
    described = f"Narrowest in {narrow}, widest in {wide}; the table below has the figures."
    with _axes(title) as (axes, drawn):
        at = range(len(months))
        low, high = ([end[i] for end in ends] for i in (0, 1))
        axes.fill_between(at, low, high, facecolor="#bcd8ea", edgecolor=CHANGED, hatch="//")
        axes.axhline(planned, color=INK, linestyle="--")
        axes.annotate("planned", (0, planned), xytext=(0, 4), textcoords="offset points")
        axes.set_xticks(at, [month[0] for month in months])
        axes.set_ylim(min(0.0, *low), max(*high, planned) * 1.3)
        axes.set_ylabel(unit)
        return drawn(described)
