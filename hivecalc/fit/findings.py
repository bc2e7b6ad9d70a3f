"""What the rules find on a hive as it comes together, and what may be cut instead of exact values.

A verdict, the cutting list, the check of what was cut and the solutions all ask here, so they say
the same. A length is allowed where no rule that blocks or harms fails with it that holds without
it. What the cutting list has is stricter: the exact value, or the mark next to it.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from typing import Final, Literal, TypeAlias

from hivecalc.built import BUILT, EACH_PIECE, PIECES, as_cut, each_piece
from hivecalc.components import DIMENSIONS, built, values
from hivecalc.derivation import Kind, collected
from hivecalc.fit import bottom_board, box, inner_cover, roof, sleeve
from hivecalc.fit.box import FRAME_LUG
from hivecalc.fit.rule import Level, Rule, rule_of
from hivecalc.hive import Hive
from hivecalc.length import MARKS, Grid, Length, Rounding, in_units, length_json, rounded
from hivecalc.part import COMMON, SIZES, WHOLE_SHEET, Size, SizedPart, TradeSize

Json: TypeAlias = dict[str, object]
Outcome: TypeAlias = Literal["holds", "at the edge", "fails"]

FIGURES: Final[Mapping[str, TradeSize]] = {
    **{
        f"{name}_{side}": TradeSize(size, f"The {side} of a {what}.", COMMON)
        for name, what in (
            ("plywood_sheet", "sheet of plywood"),
            ("foam_board", "foam board"),
            ("plastic_sheet", "sheet of corrugated plastic"),
        )
        for side, size in WHOLE_SHEET.items()
    },
    "frame_lug": FRAME_LUG,
}
"""Sizes that nobody measures on the hive, by the name that a rule has for them."""

FIT: Final = collected(
    bottom_board, roof, inner_cover, box, sleeve, base=BUILT, leaves=FIGURES, pieces=EACH_PIECE
)
"""The graph of all that comes together, figures and rules: it gives a rule's worked steps too."""

RULES: Final[Mapping[str, Rule]] = {
    name: rule_of(rated.function)
    for name, rated in FIT.dimensions.items()
    if name not in BUILT.dimensions and name not in FIGURES
}
"""Every rule by its full name, such as "bottom_board.room_above_stack", from the bottom up."""


@dataclass(frozen=True)
class Finding:
    """What one rule finds on one hive: its value, its limits, why it matters, what helps.

    The name is the rule's in FIT, such as "roof.fall". A length is in inches, a ratio a number; a
    limit that is None does not exist. A value at the edge holds by the widest source, but not by
    the strict one. `mend` is empty where nothing needs mending.
    """

    rule: str
    level: Level
    holds: bool
    at_edge: bool
    value: Fraction
    low: Fraction | None
    high: Fraction | None
    kind: Kind
    why: str
    mend: str
    source: str

    @property
    def outcome(self) -> Outcome:
        """Whether it holds, is at the edge or fails."""
        if not self.holds:
            return "fails"
        return "at the edge" if self.at_edge else "holds"


def findings(hive: Hive, cut: Mapping[str, Fraction] | None = None) -> list[Finding]:
    """What each rule finds on what is built of this hive, from the bottom board up.

    >>> from hivecalc.hive import demo_hive
    >>> long = {"bottom_board.panel_length": Fraction(20)}
    >>> [f.rule for f in findings(demo_hive(), long) if f.value == Fraction(1, 8)][0]
    'bottom_board.panel_play_along'

    `cut` gives pieces as they were cut, as for `built.as_cut`. Raises UnknownNameError for a name
    that there isn't.
    """
    components = built(hive)
    values = FIT.values(as_cut(hive, cut), components=(*components, "stack"))
    return [
        Finding(
            rule=name,
            level=rule.level,
            holds=rule.allows(values[name]),
            at_edge=rule.at_edge(values[name]),
            value=values[name],
            low=rule.low,
            high=rule.high,
            kind=FIT.dimension(name).kind,
            why=in_units(FIT.dimension(name).why, hive.units),
            mend=in_units(rule.mend(values[name]), hive.units),
            source=rule.source,
        )
        for name, rule in RULES.items()
        if rule.applies(components, values)
    ]


def rules_of(hive: Hive) -> dict[str, Rule]:
    """The rules that apply to what is built of this hive, by name."""
    components, values = built(hive), as_cut(hive)
    return {n: r for n, r in RULES.items() if r.applies(components, values)}


def holds(found: Iterable[Finding]) -> bool:
    """Whether nothing fails that blocks or harms; a note stops nothing."""
    return all(f.holds or f.level == "note" for f in found)


def broken(before: Iterable[Finding], after: Iterable[Finding]) -> list[Finding]:
    """The findings that fail after a change, of rules that held before it."""
    held = {f.rule for f in before if f.holds}
    return [f for f in after if f.rule in held and not f.holds]


def finding_json(found: Finding) -> Json:
    """One finding for other programs: lengths exact, in inches and in mm; a ratio as a number."""

    def as_json(value: Fraction | None) -> dict[str, str | float] | float | None:
        if value is None:
            return None
        return float(value) if found.kind == "ratio" else length_json(value)

    said: Json = {n: getattr(found, n) for n in ("rule", "level", "holds", "at_edge")}
    limits = {n: as_json(getattr(found, n)) for n in ("value", "low", "high")}
    return {**said, **limits, **{n: getattr(found, n) for n in ("why", "mend", "source")}}


def fit_json(hive: Hive) -> Json:
    """Every rule on one hive for other programs, and whether all that matters holds."""
    found = findings(hive)
    rules = [finding_json(f) for f in found]
    return {"schema": "hivecalc/1", "holds": holds(found), "rules": rules}


# ── what may be cut ───────────────────────────────────────────────────────────────────────────────

_OTHER_WAYS: Final = {
    Rounding.NEAREST: (Rounding.NEAREST, Rounding.DOWN, Rounding.UP),
    Rounding.DOWN: (Rounding.DOWN, Rounding.UP),
    Rounding.UP: (Rounding.UP, Rounding.DOWN),
}


def newly_failing(hive: Hive, cut: Mapping[str, Fraction]) -> list[str]:
    """The rules that block or harm, and fail with these pieces but hold without them.

    `cut` as for `built.as_cut`.
    """
    components, planned, pieces = built(hive), as_cut(hive), each_piece(hive, cut)
    reached = {rule for name in pieces for rule in _rules_reached(name)}
    asked = tuple(name for name in RULES if name in reached)
    before = FIT.values(planned, names=asked)
    changed = FIT.values({**planned, **pieces}, names=asked)
    return [
        name
        for name in asked
        if RULES[name].level != "note"
        and RULES[name].applies(components, changed)
        and not RULES[name].allows(changed[name])
        and RULES[name].allows(before[name])
    ]


@cache
def _rules_reached(name: str) -> tuple[str, ...]:
    return tuple(rule for rule in FIT.reached_by(name) if rule in RULES)


def is_allowed(hive: Hive, name: str, value: Length) -> bool:
    """Whether this may be cut for that dimension: no rule fails with it that holds without it.

    A dimension that no piece has, such as the slope, is allowed as it is and no other.
    """
    if not is_cut(name):
        return value == values(hive)[name]
    return value > 0 and not newly_failing(hive, {name: value})


_CUT: Final = frozenset({*PIECES, *(s.planned for s in PIECES.values())})


def is_cut(name: str) -> bool:
    """Whether a piece has this size; else it only comes out, as the slope does."""
    return name in _CUT


def mark(hive: Hive, name: str, grid: Grid | None = None) -> Length:
    """What the cutting list has for a dimension of this hive, in inches.

    Raises KeyError for a dimension that this hive does not have.
    """
    return _mark(hive, name, values(hive)[name], grid)[0]


def _mark(hive: Hive, name: str, exact: Length, grid: Grid | None) -> tuple[Length, Rounding]:
    """The mark of a dimension of this value, and the way to it; the value where none is allowed."""
    ways = _OTHER_WAYS[DIMENSIONS.dimension(name).rule.rounding]
    marks = [(rounded(exact, grid or MARKS[hive.units], way), way) for way in ways]
    if marks[0][0] == exact or name not in _CUT:
        return marks[0]
    allowed = (found for found in marks if is_allowed(hive, name, found[0]))
    return next(allowed, (exact, ways[0]))


def rounding_to_mark(hive: Hive, name: str, exact: Length, grid: Grid | None = None) -> Rounding:
    """The way to round a dimension of this value to its mark, for a table that shows "≈" before it.

    Where the grid has the exact value, or no mark is allowed, it is the way of the dimension.
    """
    return _mark(hive, name, exact, grid)[1]


def marked(hive: Hive, piece: SizedPart, grid: Grid | None = None) -> SizedPart:
    """The piece with each size rounded to its mark, as the cutting list has it."""

    def size(found: Size | None, name: str) -> Size | None:
        full = f"{piece.component}.{piece.part}_{name}"
        return found and Size(found.value, rounding_to_mark(hive, full, found.value, grid))

    thickness, width, length = (size(getattr(piece, name), name) for name in SIZES)
    return replace(piece, thickness=thickness, width=width, length=length)
