"""What the rules find on a hive as it comes together: which hold, by how much, what helps."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal, TypeAlias

from hivecalc.built import BUILT, EACH_PIECE, as_cut
from hivecalc.components import built
from hivecalc.derivation import Kind, collected
from hivecalc.fit import bottom_board, box, inner_cover, roof, sleeve
from hivecalc.fit.box import FRAME_LUG
from hivecalc.fit.rule import Level, Rule, rule_of
from hivecalc.hive import Hive
from hivecalc.length import length_json
from hivecalc.part import COMMON, SHEETS, Figure

Json: TypeAlias = dict[str, object]
Outcome: TypeAlias = Literal["holds", "at the edge", "fails"]

_WHOLE_SHEETS: Final = {
    "plywood_sheet": "sheet of plywood",
    "foam_board": "foam board",
    "plastic_sheet": "sheet of corrugated plastic",
}
FIGURES: Final[Mapping[str, Figure]] = {
    **{
        f"{name}_{side}": Figure(getattr(SHEETS[name], side), f"The {side} of a {what}.", COMMON)
        for name, what in _WHOLE_SHEETS.items()
        for side in ("width", "length")
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
            why=FIT.dimension(name).why,
            mend=rule.mend(values[name]),
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

    def told(value: Fraction | None) -> dict[str, str | float] | float | None:
        if value is None:
            return None
        return float(value) if found.kind == "ratio" else length_json(value)

    said: Json = {n: getattr(found, n) for n in ("rule", "level", "holds", "at_edge")}
    limits = {n: told(getattr(found, n)) for n in ("value", "low", "high")}
    return {**said, **limits, **{n: getattr(found, n) for n in ("why", "mend", "source")}}


def fit_json(hive: Hive) -> Json:
    """Every rule on one hive for other programs, and whether all that matters holds."""
    found = findings(hive)
    rules = [finding_json(f) for f in found]
    return {"schema": "hivecalc/1", "holds": holds(found), "rules": rules}
