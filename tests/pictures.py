"""What is read back from a picture, and what every picture must be.

Label boxes are measured with the glyph widths of the DejaVu Sans font files that matplotlib brings:
a second way beside the drawing's own table of widths, and one of the widest fonts a browser takes.
"""

import re
import xml.etree.ElementTree as ET
from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction
from functools import cache, lru_cache
from itertools import combinations, pairwise
from math import hypot
from pathlib import Path
from typing import TypeAlias

import matplotlib as mpl
from hypothesis import strategies as st
from matplotlib.ft2font import FT2Font

from hivecalc.components import checked, values
from hivecalc.drawing import Picture, Subject
from hivecalc.drawing.layout import Box
from hivecalc.hive import MEASUREMENTS, Hive, HiveFaults, changed, demo_hive, hive_from_text
from hivecalc.length import MM
from tests.hives import HIVES

NS = "{http://www.w3.org/2000/svg}"
Sizes: TypeAlias = dict[str, Fraction]
View: TypeAlias = Callable[[Subject], Picture]
PX = 0.15  # both ends of a line stand in a picture to a tenth of a unit, along each axis


def trio(view: View) -> tuple[Callable[..., Picture], ...]:
    """A view as it is or with a wrong cut, after a change, and with what is to be worked out."""

    def drawn(now: Sizes, cut: Sizes | None = None, **more: object) -> Picture:
        if cut is None:
            return view(Subject(now, **more))  # type: ignore[arg-type]
        return view(Subject(cut, now, wrong=True, **more))  # type: ignore[arg-type]

    def after(before: Sizes, now: Sizes, **more: object) -> Picture:
        return view(Subject(now, before, **more))  # type: ignore[arg-type]

    def asking(now: Sizes, cut: Sizes | None = None, **more: object) -> Picture:
        return drawn(now, cut, asked=True, **more)

    return drawn, after, asking


# ── hives ──────────────────────────────────────────────────────────────────────────────────────


def hive_of(length: str, width: str, **more: str) -> Hive:
    return changed(demo_hive(), {"hive_length": length, "hive_width": width, **more})


def true_values(length: str = "23 1/8", width: str = "17 3/8", **more: str) -> Sizes:
    return values(hive_of(length, width, **more))


@cache
def sizes_within(name: str) -> st.SearchStrategy[Fraction]:
    """Sizes in a measurement's range: its ends, sixteenths, and the odd thousandths of an mm."""
    low, high = MEASUREMENTS[name].low, MEASUREMENTS[name].high
    sixteenths = st.integers(-(-low * 16 // 1), high * 16 // 1).map(lambda n: Fraction(n, 16))
    metric = st.integers(-(-low / MM // 1), high / MM // 1).map(lambda n: n * MM + MM / 7)
    return st.one_of(
        st.sampled_from([low, high]), sixteenths, metric.filter(lambda v: low <= v <= high)
    )


STEEP = changed(
    demo_hive(),
    {"hive_length": "8", "stud_width": "7 1/4", "rim_low_height": "1/2", "overhang": "6"},
)
FLAT = changed(demo_hive(), {"rim_low_height": "3 1/2"})
BARE = changed(demo_hive(), {"inner_cover": "no"})
KINDS = {
    **{name: hive_from_text(text) for name, text in HIVES.items()},
    "long": hive_of("48", "8"),
    "wide": hive_of("8", "48"),
    "steep": STEEP,
    "flat": FLAT,
    "bare": BARE,
    "closed": changed(demo_hive(), {"inner_notch": "0"}),
    "proud": changed(demo_hive(), {"foam_thickness": "1 1/2", "front_stop_height": "1/4"}),
    "short skirt": changed(demo_hive(), {"skirt_width": "2"}),
    "three boxes": changed(hive_from_text(HIVES["sleeved"]), {"boxes": "3"}),
}
"""Hives that lead a picture to the ends of what is allowed."""

NAMES = (
    "stud_thickness", "stud_width", "strip_narrow", "strip_wide", "foam_thickness",
    "mesh_thickness", "board_thickness", "slot_ease", "panel_gap", "screen_gap", "runner_gap",
    "entrance_height", "front_stop_height", "roof_foam_thickness", "deck_thickness",
    "skirt_thickness", "cover_thickness", "overhang", "cap_clearance", "rim_low_height",
    "rim_back_thickness", "skirt_width", "cover_lip", "roof_lap", "inner_rim_height", "deck_screw",
    "sheet_thickness", "inner_notch", "skin_thickness", "edge_strip_height", "bee_way",
)  # fmt: skip

SOME = st.sets(st.sampled_from(NAMES), max_size=6)
FRAMED = st.one_of(st.none(), st.integers(2, 30))


@st.composite
def hives(draw: st.DrawFn) -> Hive:
    """Allowed hives of every shape, some with a box of any number of frames in a sleeve."""
    sizes = {n: draw(sizes_within(n)) for n in draw(SOME)}
    framed = draw(FRAMED)
    if framed is None:
        start = demo_hive()
        sizes |= {n: draw(sizes_within(n)) for n in ("hive_length", "hive_width")}
    else:
        start = hive_from_text(f"[chosen]\nframes = {framed}")
    try:
        return checked(changed(start, sizes))
    except HiveFaults:
        return draw(st.nothing())


# ── what is read back from a picture ───────────────────────────────────────────────────────────


def parsed(svg: str) -> ET.Element:
    """A picture with every style at its element, and every path as the lines and shapes it is."""
    return _parsed(getattr(svg, "traced", svg))


@lru_cache(maxsize=64)
def _parsed(text: str) -> ET.Element:
    root = ET.fromstring(text)
    rules = dict(re.findall(r"\.(\w+)\{([^}]*)\}", root.findtext(f"{NS}style") or ""))
    line = {"fill": "none", **{name: root.attrib[name] for name in ("stroke", "stroke-width")}}
    styles = {
        name: dict(rule.split(":", 1) for rule in told.split(";")) for name, told in rules.items()
    }
    _style(root, {}, line, styles)
    return root


Style: TypeAlias = dict[str, str]


def _style(parent: ET.Element, given: Style, line: Style, styles: dict[str, Style]) -> None:
    """Write what is given by a group, and by its own class, to each element of a parent."""
    children = list(parent)
    parent[:] = []
    for child in children:
        own = dict(given)
        for name in child.attrib.pop("class", "").split():
            own |= styles[name]
        if child.tag == f"{NS}g":
            _style(child, own, line, styles)
        if child.tag == f"{NS}path":
            ways = child.attrib.pop("d").split("M")[1:]
            parent.extend(_shape(way, line | own | child.attrib) for way in ways)
        else:
            child.attrib.update(own)
            parent.append(child)


_STEPS = re.compile(r"[lhv]|-?(?:\d+\.?\d*|\.\d+)")


def _shape(way: str, attributes: Style) -> ET.Element:
    """What a path draws from one place on: a polygon, a line, a line with bends, or a dot."""
    x, y, step, across, places = 0.0, 0.0, "l", "", list[tuple[str, str]]()
    for told in _STEPS.findall(way):
        if told in "lhv":
            step = told
        elif step == "l" and not across:
            across = told
        else:
            x = round(x + float(across or told), 1) if step != "v" else x
            y = round(y + float(told), 1) if step != "h" else y
            across = ""
            places.append((f"{x:.9g}", f"{y:.9g}"))
    points = {"points": " ".join(map(",".join, places))}
    if way.endswith("Z"):
        return ET.Element(f"{NS}polygon", attributes | points)
    (x1, y1), (x2, y2) = places[0], places[-1]
    if places[0] == places[-1]:
        dot = {"cx": x1, "cy": y1, "r": "1.7", "fill": attributes["stroke"]}
        return ET.Element(f"{NS}circle", dot)
    if len(places) > 2:
        return ET.Element(f"{NS}polyline", attributes | points)
    return ET.Element(f"{NS}line", attributes | {"x1": x1, "y1": y1, "x2": x2, "y2": y2})


def views(root: ET.Element) -> Iterator[ET.Element]:
    """The parts of a picture that are drawn to one scale each."""
    return (g for g in root.iter(f"{NS}g") if "data-view" in g.attrib)


def scaled(root: ET.Element) -> Iterator[tuple[ET.Element, float]]:
    """Each element that is drawn in a view, with the view's scale."""
    for view in views(root):
        yield from ((element, float(view.attrib["data-scale"])) for element in view.iter())


def corners(element: ET.Element) -> list[tuple[float, float]]:
    if element.tag == f"{NS}line":
        x1, y1, x2, y2 = (float(element.attrib[n]) for n in ("x1", "y1", "x2", "y2"))
        return [(x1, y1), (x2, y2)]
    return [
        (float(x), float(y))
        for x, _, y in (p.partition(",") for p in element.attrib["points"].split())
    ]


def extent(element: ET.Element) -> tuple[float, float]:
    xs, ys = zip(*corners(element), strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)


def box_of(element: ET.Element) -> Box:
    xs, ys = zip(*corners(element), strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def parts(root: ET.Element) -> dict[str, ET.Element]:
    """What is drawn of each piece, in a picture or a view, by its name; of several the last."""
    return {e.attrib["data-part"]: e for e in root.iter() if "data-part" in e.attrib}


def words(root: ET.Element) -> str:
    return " ".join(text.text or "" for text in root.iter(f"{NS}text"))


def in_bold(root: ET.Element) -> str:
    found = (text for text in root.iter(f"{NS}text") if "font-weight" in text.attrib)
    return " ".join(text.text or "" for text in found)


def described(root: ET.Element) -> str:
    return root.findtext(f"{NS}desc") or ""


def missing(texts: Iterable[str], told: str) -> list[str]:
    """Those of some texts that are not in what is told."""
    return [text for text in texts if text not in told]


@cache
def font(*, bold: bool = False) -> FT2Font:
    file = "DejaVuSans-Bold.ttf" if bold else "DejaVuSans.ttf"
    return FT2Font(str(Path(mpl.get_data_path()) / "fonts" / "ttf" / file))


@cache
def advance(sign: str, *, bold: bool) -> float:
    """Width of one sign for a letter size of 1, from the font file."""
    face = font(bold=bold)
    face.set_size(100, 72)
    return float(face.load_char(ord(sign)).linearHoriAdvance) / 65536 / 100


@lru_cache(maxsize=8192)
def real_width(text: str, *, bold: bool) -> float:
    return sum(advance(sign, bold=bold) for sign in text)


def label_box(text: ET.Element, size: float) -> Box:
    """The box that a browser gives a text in DejaVu Sans: its width, ascent and descent."""
    x, y = float(text.attrib["x"]), float(text.attrib["y"])
    face = font()
    above, below = (n / face.units_per_EM * size for n in (face.ascender, -face.descender))
    wide = real_width(text.text or "", bold="font-weight" in text.attrib) * size
    before = {"start": 0.0, "middle": wide / 2, "end": wide}[text.get("text-anchor", "start")]
    if "transform" in text.attrib:
        return Box(x - above, y + before - wide, x + below, y + before)
    return Box(x - before, y - above, x - before + wide, y + below)


def assert_sound(svg: str) -> ET.Element:
    """One SVG with role, name, description and unique ids that are all found."""
    root = parsed(svg)
    assert root.tag == f"{NS}svg"
    assert root.attrib["role"] == "img"
    ids = {e.attrib["id"]: e for e in root.iter() if "id" in e.attrib}
    assert len(ids) == sum("id" in e.attrib for e in root.iter())
    for by, tag in (("aria-labelledby", "title"), ("aria-describedby", "desc")):
        assert ids[root.attrib[by]].tag == f"{NS}{tag}"
        assert ids[root.attrib[by]].text
    assert set(re.findall(r"url\(#([^)]+)\)", svg)) <= ids.keys()
    return root


def assert_clear(svg: str) -> ET.Element:
    """It is sound, and no label overlaps another or is clipped; the picture as it was read."""
    root = assert_sound(svg)
    _, _, wide, high = (float(n) for n in root.attrib["viewBox"].split())
    size = float(root.attrib["font-size"])
    boxes = [(t.text, label_box(t, size)) for t in root.iter(f"{NS}text")]
    assert boxes
    for text, box in boxes:
        assert min(box.left, box.top) >= 0, text
        assert box.right <= wide, text
        assert box.bottom <= high, text
    for (one, box), (other, other_box) in combinations(boxes, 2):
        across = min(box.right, other_box.right) - max(box.left, other_box.left)
        down = min(box.bottom, other_box.bottom) - max(box.top, other_box.top)
        assert min(across, down) <= PX, (one, other)
    return root


def assert_true(svg: str, now: Mapping[str, Fraction] | None = None) -> dict[str, Fraction]:
    """Each named length is drawn as long as it says, and as is known of it; all of them."""
    found = dict[str, Fraction]()
    for element, scale in scaled(parsed(svg)):
        if {"data-name", "data-exact"} <= element.attrib.keys():
            exact, name = Fraction(element.attrib["data-exact"]), element.attrib["data-name"]
            assert (now or {}).get(name, exact) == exact, name
            sizes = (*extent(element), *edges(element))
            assert any(abs(size - float(exact) * scale) < PX for size in sizes), name
            found[name] = exact
    return found


def edges(element: ET.Element) -> list[float]:
    places = corners(element)
    ring = [*places, places[0]] if element.tag == f"{NS}polygon" else places
    return [hypot(x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in pairwise(ring)]


def contrast(one: str, other: str) -> float:
    """Contrast of two colours by the formula of WCAG 2.1."""

    def luminance(colour: str) -> float:
        parts = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
        linear = [p / 12.92 if p <= 0.03928 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
        return sum(w * p for w, p in zip((0.2126, 0.7152, 0.0722), linear, strict=True))

    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def faces(root: ET.Element) -> list[tuple[str, list[tuple[float, float]]]]:
    """The faces of a picture in space, each with its piece, in the order of painting."""
    return [
        (group.attrib["data-part"], corners(shape))
        for group in next(views(root)).iter(f"{NS}g")
        if "data-part" in group.attrib
        for shape in group.findall(f"{NS}polygon")
        if "url" not in shape.attrib["fill"]
    ]
