"""The frame of lesson 02 by `interact` and pyplot in a notebook, to be measured beside ours."""

import inspect
import json
from collections.abc import Callable


def frame(stud: str, hatch: str) -> None:
    """Show four rails and their lengths, for studs of this thickness; nothing is decided."""
    from matplotlib import pyplot as plt
    from matplotlib.patches import Rectangle

    from hivecalc.components import values
    from hivecalc.hive import changed, demo_hive

    found = values(changed(demo_hive(), {"stud_thickness": stud}))
    thick, length, width = (
        float(found[name]) for name in ("stud_thickness", "hive_length", "hive_width")
    )
    _, axes = plt.subplots()
    for place, size in (
        ((0, 0), (length - thick, thick)),
        ((0, width - thick), (length - thick, thick)),
        ((0, thick), (thick, width - 2 * thick)),
        ((length - thick, 0), (thick, width)),
    ):
        axes.add_patch(Rectangle(place, *size, fill=False, hatch=hatch))
        axes.text(place[0] + size[0] / 2, place[1] + size[1] / 2, f"{max(size):.3f}")
    axes.set(xlim=(-1, length + 1), ylim=(-1, width + 1), aspect="equal")
    plt.show()


def whole_panel(stud: str) -> None:
    """Show all that our panel shows: its outlines, lines and texts by pyplot, what follows as HTML.

    They are read from our own picture, which takes some milliseconds that only this way pays.
    """
    from xml.etree.ElementTree import fromstring

    from IPython.display import HTML, display
    from matplotlib import pyplot as plt
    from matplotlib.patches import Polygon

    from hivecalc.hive import demo_hive
    from hivecalc.pages.outcomes import planned_anew

    found = planned_anew(demo_hive(), "stud_thickness", stud)
    _, axes = plt.subplots()
    for node in fromstring(found.picture).iter():
        kind, points = node.tag.split("}")[-1], node.get("points", "").split()
        corners = [tuple(map(float, point.split(","))) for point in points]
        if kind == "polygon":
            hatch = "//" if "url" in node.get("fill", "") else None
            axes.add_patch(Polygon(corners, fill=False, hatch=hatch))
        elif kind == "polyline":
            axes.plot(*zip(*corners, strict=True), color="black")
        elif kind == "line":
            ends = [[float(node.attrib[f"{side}{n}"]) for n in (1, 2)] for side in "xy"]
            axes.plot(*ends, color="black")
        elif kind == "text":
            axes.text(float(node.attrib["x"]), float(node.attrib["y"]), "".join(node.itertext()))
    axes.set(xlim=(0, 360), ylim=(550, 0), aspect="equal")
    plt.show()
    display(HTML(found.message + found.follows))  # type: ignore[no-untyped-call]


def notebook(shown: Callable[..., None], **fixed: str) -> str:
    """A notebook with one field, "stud", and under it what is shown for it, as its file has it."""
    texts = [
        "%matplotlib inline\nimport ipywidgets",
        inspect.getsource(shown),
        "field = ipywidgets.Text('1 1/2', continuous_update=False)",
        f"fixed = {{name: ipywidgets.fixed(value) for name, value in {fixed}.items()}}",
        f"ipywidgets.interact({shown.__name__}, stud=field, **fixed);",
    ]
    empty: dict[str, object] = {
        "cell_type": "code",
        "execution_count": None,
        "metadata": {},
        "outputs": [],
    }
    cells = [{**empty, "id": f"cell-{n}", "source": text} for n, text in enumerate(texts)]
    kernel = {"name": "python3", "display_name": "Python 3 (ipykernel)"}
    metadata = {"kernelspec": kernel}
    return json.dumps({"cells": cells, "metadata": metadata, "nbformat": 4, "nbformat_minor": 5})
