"""The whole hive as a plain stack of boxes, written apart from the library's room of space.

Worked out from the measurements by the words of the course's design alone: for each piece from
where to where it reaches across (x), along (y) and up (z), and what the whole stack shows.
Fractions, but floats for what lies on a slope.
"""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import cos, hypot, radians, sin

import pytest

from hivecalc.space import Solid

Span = tuple[Fraction | float, Fraction | float]
Reach = tuple[Span, Span, Span]
NONE = Fraction(0)
CLOSE = 1e-4  # inches: the library's cosines are fractions near them
SLOPING = {"landing_board", "deck", "cover", "roof_panel", "roof_retainer"}


class PlainStack:
    """Where each piece reaches by its name, and the figures of the whole.

    From the measurements of a hive, its box built or not, sleeved or not.
    """

    def __init__(self, m: Mapping[str, Fraction], *, box: bool, sleeve: bool) -> None:
        self.m, self.box, self.sleeve = m, box, sleeve
        self.pieces: dict[str, Reach] = {}
        self.upper: dict[str, Fraction] = {}
        self.t, self.w = m["stud_thickness"], m["stud_width"]
        self.n, self.b = m["strip_narrow"], m["strip_wide"]
        self.sill = self.w - m["entrance_height"]
        self.sizes()
        self.frame()
        self.slides(m.get("panel_foam_thickness", m["foam_thickness"]))
        foot = self.w
        for tier in range(1, int(m["boxes"]) + 1):
            self.one_box(f" {tier}" if tier > 1 else "", foot)
            foot += self.box_h
        self.box_top = foot
        if m["inner_cover"]:
            foot = self.lid(foot)
        self.rim(foot)
        self.on_the_slope(float(foot))

    def assert_it_is(self, stack: Sequence[Solid]) -> None:
        """Each piece is there once, and reaches from where to where it does here."""
        assert sorted(s.name for s in stack) == sorted(self.pieces)
        for s in stack:
            reach = self.pieces[s.name]
            if s.part in SLOPING:
                for found, expected in zip(s.extents, reach, strict=True):
                    assert [float(e) for e in found] == pytest.approx(expected, abs=CLOSE), s.name
            else:
                assert s.extents == reach, s.name

    def mirrored(self, name: str, left: str, x: Span, y: Span, z: Span) -> None:
        """Put a piece at the left and its twin at the right."""
        right = (self.wide - x[1], self.wide - x[0])
        self.pieces[f"{name}, {left}"] = (x, y, z)
        self.pieces[f"{name}, {left.replace('left', 'right')}"] = (right, y, z)

    def sizes(self) -> None:
        """The box from the frames outwards or measured, and the hive round it."""
        m, plank = self.m, self.m["board_thickness"]
        frames = m["frames"] * m["frame_spacing"] + m["frame_play"]
        over = m["rest_depth"] - m["lug_thickness"]
        bar = m["top_bar"] - 2 * m["rest_overlap"] + m["rest_ease"]
        box_l, box_w = m.get("box_length", bar + 2 * plank), m.get("box_width", frames + 2 * plank)
        self.box_h = m.get("box_height", over + m["frame_depth"] + m["space_below"])
        self.foam = m.get("sleeve_foam_thickness", m["foam_thickness"])
        self.wall = self.foam + m["skin_thickness"]
        self.long = m.get("hive_length", box_l + 2 * self.wall)
        self.wide = m.get("hive_width", box_w + 2 * self.wall)
        inside = self.box or self.sleeve
        self.x0 = (self.wide - box_w) / 2 if inside else NONE
        self.y0 = (self.long - box_l) / 2 if inside else NONE

    # ── bottom board ──────────────────────────────────────────────────────────────────────────

    def frame(self) -> None:
        m, p, t, long, wide = self.m, self.pieces, self.t, self.long, self.wide
        self.mirrored("bottom board: side rail", "left", (0, t), (0, long - t), (0, self.w))
        p["bottom board: front rail"] = ((t, wide - t), (0, t), (0, self.sill))
        p["bottom board: back rail"] = ((0, wide), (long - t, long), (0, self.w))
        board, deep = float(m["landing_width"]), float(m["landing_thickness"])
        lean, sill = radians(30), float(self.sill)
        low = sill - board * sin(lean) - deep * cos(lean)
        p["bottom board: landing board"] = ((0, wide), (-board * cos(lean), 0), (low, sill))

    def slides(self, panel: Fraction) -> None:
        """Runners, panel and screen, one on the other."""
        m, p, t, n, b = self.m, self.pieces, self.t, self.n, self.b
        slot_top = b + panel + m["slot_ease"]
        screen = slot_top + n
        short, loose = m["runner_gap"] / 2, m["panel_gap"] / 2
        along = (t + short, self.long - t - short)
        for layer, deep, z in (("lower", n, (NONE, b)), ("upper", b, (slot_top, screen))):
            name = f"bottom board: {layer}"
            self.mirrored(f"{name} side runner", "left", (t, t + deep), along, z)
            x = (t + deep + short, self.wide - t - deep - short)
            p[f"{name} front runner"] = (x, (t, t + deep), z)
        x, y = (t + loose, self.wide - t - loose), (t + loose, self.long - t - loose)
        p["bottom board: panel"] = (x, y, (b, b + panel))
        self.screen(screen, screen + n, screen + n + m["mesh_thickness"])

    def screen(self, foot: Fraction, mesh: Fraction, top: Fraction) -> None:
        m, p, n, b, wide, long = self.m, self.pieces, self.n, self.b, self.wide, self.long
        e = self.t + m["screen_gap"] / 2
        x, i = (e + b, wide - e - b), e + m["mesh_margin"]
        for layer, z in (("lower", (foot, mesh)), ("upper", (top, top + n))):
            name = "bottom board: screen side strip"
            self.mirrored(name, f"{layer} left", (e, e + b), (e, long - e), z)
            p[f"bottom board: screen end strip, {layer} back"] = (x, (long - e - b, long - e), z)
        p["bottom board: screen end strip, lower front"] = (x, (e, e + b), (foot, mesh))
        stop = m.get("front_stop_height", self.w - top - m["bee_way"])
        p["bottom board: screen front stop"] = (x, (e, e + b), (top, top + stop))
        p["bottom board: mesh"] = ((i, wide - i), (i, long - i), (mesh, top))
        self.way_in = min(self.w - self.sill, self.w - top - stop)

    # ── box, sleeve, inner cover ──────────────────────────────────────────────────────────────

    def one_box(self, nth: str, foot: Fraction) -> None:
        p, plank, x0, y0 = self.pieces, self.m["board_thickness"], self.x0, self.y0
        x1, y1, z = self.wide - x0, self.long - y0, (foot, foot + self.box_h)
        side, end = ("side", "end") if self.box else ("wall", "wall")
        self.mirrored(f"box{nth}: {side}", "left", (x0, x0 + plank), (y0, y1), z)
        into = plank - (self.m["joint_depth"] if self.box else 0)
        p[f"box{nth}: {end}, front"] = ((x0 + into, x1 - into), (y0, y0 + plank), z)
        p[f"box{nth}: {end}, back"] = ((x0 + into, x1 - into), (y1 - plank, y1), z)
        if not self.sleeve:
            return
        edge, top = self.m["edge_strip_height"], foot + self.box_h
        self.ring(f"sleeve{nth}: foam", "", (NONE, self.foam), (foot + edge, top - edge))
        self.ring(f"sleeve{nth}: edge strip", "lower ", (NONE, self.foam), (foot, foot + edge))
        self.ring(f"sleeve{nth}: edge strip", "upper ", (NONE, self.foam), (top - edge, top))
        self.ring(f"sleeve{nth}: skin", "", (self.foam, self.wall), z)

    def ring(self, name: str, layer: str, wall: tuple[Fraction, Fraction], z: Span) -> None:
        """A layer round the box: sides as long as what is inside it, ends that cover them."""
        (inner, outer), x0, y0 = wall, self.x0, self.y0
        x1, y1 = self.wide - x0, self.long - y0
        along, across = (y0 - inner, y1 + inner), (x0 - outer, x1 + outer)
        self.mirrored(f"{name} side", f"{layer}left", (x0 - outer, x0 - inner), along, z)
        self.pieces[f"{name} end, {layer}front"] = (across, (y0 - outer, y0 - inner), z)
        self.pieces[f"{name} end, {layer}back"] = (across, (y1 + inner, y1 + outer), z)

    def lid(self, foot: Fraction) -> Fraction:
        """The inner cover; its top comes back."""
        m, p, t, wide, long = self.m, self.pieces, self.t, self.wide, self.long
        ply, rim = m["sheet_thickness"], m["inner_rim_height"]
        z, whole = (foot + ply, foot + ply + rim), ((NONE, wide), (NONE, long))
        p["inner cover: sheet, lower"] = (*whole, (foot, z[0]))
        p["inner cover: sheet, upper"] = (*whole, (z[1], z[1] + ply))
        self.mirrored("inner cover: rim side", "left", (0, t), (0, long), z)
        p["inner cover: rim back"] = ((t, wide - t), (long - t, long), z)
        if m["inner_notch"]:
            self.channel((wide - m["inner_notch"]) / 2, z)
        else:
            p["inner cover: rim front"] = ((t, wide - t), (0, t), z)
        return z[1] + ply

    def channel(self, left: Fraction, z: Span) -> None:
        """The front in two pieces, the channel behind it, and how high or wide each of them is."""
        m, t, n = self.m, self.t, self.n
        inner = t + m["inner_channel_depth"]
        self.mirrored("inner cover: rim front", "left", (t, left), (0, t), z)
        self.mirrored("inner cover: channel side", "left", (left - n, left), (t, inner), z)
        x = (left - n, self.wide - left + n)
        self.pieces["inner cover: channel back"] = (x, (inner, inner + n), z)
        # the box's wall under the slot: the whole of its top, or what its rest leaves of it
        covered = self.y0 + m["board_thickness"] - (m["rest_overlap"] if self.box else 0)
        self.upper = {
            "slot": min(m["bee_way"], max(NONE, inner - covered)),
            "channel": m["inner_rim_height"],
            "notch": m["inner_rim_height"],
            "behind the skirt": m["cap_clearance"] / 2,
        }

    # ── roof ──────────────────────────────────────────────────────────────────────────────────

    def rim(self, foot: Fraction) -> None:
        """Rim and skirt, which stand upright."""
        m, p, t, w, wide, long = self.m, self.pieces, self.t, self.w, self.wide, self.long
        gap, low, thin = m["cap_clearance"] / 2, m["rim_low_height"], m["rim_back_thickness"]
        ply, x = m["skirt_thickness"], (t - gap, wide - t + gap)
        self.fall = (w - low) / (long + 2 * gap)
        self.mirrored(
            "roof: rim side", "left", (-gap, t - gap), (-gap, long + gap), (foot, foot + w)
        )
        p["roof: rim front"] = (x, (-gap, t - gap), (foot, foot + w))
        back = (long + gap - thin, long + gap)
        p["roof: rim back"] = (x, back, (foot, foot + low + self.fall * thin))
        tall = m.get("skirt_width", low + foot - self.box_top + m["roof_lap"])
        z, whole = (foot + low - tall, foot + low), (-gap, wide + gap)
        p["roof: skirt end, front"] = (whole, (-gap - ply, -gap), z)
        p["roof: skirt end, back"] = (whole, (long + gap, long + gap + ply), z)
        along = (-gap - ply, long + gap + ply)
        self.mirrored("roof: skirt side", "left", (-gap - ply, -gap), along, z)
        self.lap = self.box_top - z[0]

    def line(self, y: float, foot: float) -> float:
        """How high the deck's lower face lies."""
        return foot + float(self.w) - float(self.fall) * (y + float(self.m["cap_clearance"] / 2))

    def on_the_slope(self, foot: float) -> None:
        m, p, wide, s = self.m, self.pieces, self.wide, float(self.fall)
        c, gap, out, lip = 1 / hypot(1, s), m["cap_clearance"] / 2, m["overhang"], m["cover_lip"]
        mid, deck = float(self.long / 2), float(m["deck_thickness"])
        middle = (mid, self.line(mid, foot))
        self.lies("roof: deck", (-out, wide + out), middle, (float(self.long + 2 * out), deck))
        above = (mid + s * c * deck, middle[1] + c * deck)
        size = float(self.long + 2 * (out + lip)), float(m["cover_thickness"])
        self.lies("roof: cover", (-out - lip, wide + out + lip), above, size)
        thick, n, b = float(m.get("roof_foam_thickness", m["foam_thickness"])), self.n, self.b
        x = (self.t - gap, wide - self.t + gap)
        front, back = float(self.t - gap), float(self.long + gap - m["rim_back_thickness"])
        z = (self.line(back, foot) - thick, self.line(front, foot))
        p["roof: roof panel"] = (x, (front, back), z)
        centre = (front + back) / 2
        hung = centre - s * c * float(n), self.line(centre, foot) - thick - c * float(n)
        size = back - front - float(m["runner_gap"]), float(n)
        self.lies("roof: roof retainer, left", (x[0], x[0] + b), hung, size)
        self.lies("roof: roof retainer, right", (x[1] - b, x[1]), hung, size)
        self.height = float(p["roof: cover"][2][1])

    def lies(
        self, name: str, x: Span, middle: tuple[float, float], size: tuple[float, float]
    ) -> None:
        """Put a square-edged board on the slope, over the middle of its lower face."""
        (y, z), (length, thick), s = middle, size, float(self.fall)
        c = 1 / hypot(1, s)
        self.pieces[name] = (
            x,
            (y - c * length / 2, y + c * length / 2 + s * c * thick),
            (z - s * c * length / 2, z + s * c * length / 2 + c * thick),
        )
