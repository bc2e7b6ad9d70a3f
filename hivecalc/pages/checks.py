"""What lesson 08 says: the rules of a hive, pieces as they were cut, a frame, and tolerances."""

from collections.abc import Sequence

from hivecalc.as_built import AsBuilt, Frame, FrameCheck, Repair, as_built, frame_check
from hivecalc.components import values
from hivecalc.derivation import title
from hivecalc.drawing.out_of_square import out_of_square
from hivecalc.fit import Finding, findings
from hivecalc.hive import Hive
from hivecalc.length import Units, length_from_text
from hivecalc.measuring import Squareness
from hivecalc.pages.messages import Tone, message, table
from hivecalc.pages.outcomes import Outcome
from hivecalc.pages.views import VIEWS
from hivecalc.tables.fit import accepted_text
from hivecalc.tables.numbers import exactly
from hivecalc.tolerance import Care, stack

HELD = {True: "✓ holds", False: "✗ fails"}
LEFT_AS_IT_IS = frozenset({"good", "usable"})  # verdicts on a piece that needs no work


def rule_table(hive: Hive) -> str:
    """Every rule of what is built for this hive: whether it holds, its value, its limits, why.

    >>> from hivecalc.hive import demo_hive
    >>> "✓ holds" in rule_table(demo_hive())
    True
    """
    rows = [_rule_row(f, hive.units) for f in findings(hive)]
    return table(["rule", "", "value", "allowed", "why it matters"], rows)


def _rule_row(found: Finding, units: Units) -> list[str]:
    component, _, name = found.rule.partition(".")
    where = f"{component}: {name}".replace("_", " ")
    return [
        where,
        HELD[found.holds],
        exactly(found.value, found.kind, units),
        accepted_text(found, units),
        found.why,
    ]


def pieces_as_cut(hive: Hive, names: Sequence[str], *texts: str, view: str = "plan") -> Outcome:
    """The outcome of pieces as they were cut: which are good, and what can be saved of the others.

    >>> from hivecalc.hive import demo_hive
    >>> front = ["bottom_board.front_rail_length"]
    >>> "Crosscut" in pieces_as_cut(demo_hive(), front, "14 5/8").follows
    True

    An empty text is a piece that was not measured yet.
    """
    given = {
        n: length_from_text(t, hive.units) for n, t in zip(names, texts, strict=True) if t.strip()
    }
    if not given:
        said = message("note", "Type what you measured on the pieces that you cut.")
        return Outcome(said, VIEWS[view].of(hive))
    found = as_built(hive, given)
    return Outcome(_whole(found), VIEWS[view].with_cut(hive, given), _advice(found.repairs))


def _whole(found: AsBuilt) -> str:
    if found.fits:
        return message("right", "All this goes together.")
    harmless = {
        c.sentence for r in found.repairs if r.verdict in LEFT_AS_IT_IS for c in r.consequences
    }
    harmful = dict.fromkeys(c.sentence for c in found.consequences if c.sentence not in harmless)
    rules = [f"{title(f.rule).capitalize()}: {f.why}" for f in found.broken]
    return message("wrong", *harmful, *rules)


def _advice(repairs: Sequence[Repair]) -> str:
    """What to do with each piece, then each caution once."""
    told = [message(_tone(repair), repair.sentence) for repair in repairs]
    cautions = dict.fromkeys(r.caution for r in repairs if r.caution)
    return "".join([*told, message("note", *cautions) if cautions else ""])


def _tone(repair: Repair) -> Tone:
    return "right" if repair.verdict in LEFT_AS_IT_IS else "wrong"


def frame_as_made(hive: Hive, *texts: str) -> Outcome:
    """The outcome of a frame's three widths and two diagonals: its shape, and what to do.

    >>> from hivecalc.hive import demo_hive
    >>> "Type" in frame_as_made(demo_hive(), "17 3/8", "", "", "", "").message
    True
    """
    if not all(t.strip() for t in texts):
        return Outcome(message("note", "Type three widths and both diagonals of your frame."), "")
    *widths, rising, falling = (length_from_text(t, hive.units) for t in texts)
    found = frame_check(hive, Frame(widths, rising, falling))
    return Outcome(_frame_told(found), _frame_drawn(hive, found.squareness))


def _frame_told(found: FrameCheck) -> str:
    """Each finding about a frame with the sign that it deserves."""
    straight, square = found.shapes == ("straight",), found.squareness.square
    fine = {found.sentences[0]: straight, found.squareness.sentence: square}
    return "".join(message("right" if fine.get(s) else "wrong", s) for s in found.sentences)


def _frame_drawn(hive: Hive, square: Squareness) -> str:
    """How a frame leans; nothing where a reading is wrong, for then nobody knows how it leans."""
    if square.misread:
        return ""
    sizes = values(hive)
    return out_of_square(sizes["hive_length"], sizes["hive_width"], square.lean, units=hive.units)


def tolerance_of(rule: str, hive: Hive, cut: str) -> Outcome:
    """The outcome of cutting to within a tolerance: worst case, by chance, and simulated.

    >>> from hivecalc.hive import demo_hive
    >>> found = tolerance_of("bottom_board.panel_play_along", demo_hive(), "1/16")
    >>> "10,000 hives" in found.message
    True
    """
    care = Care(cut=length_from_text(cut, hive.units))
    found = stack(hive, rule, care)
    rows = [
        [c.title, f"± {exactly(c.tolerance, 'length', hive.units)}", f"{100 * c.share:.0f} in 100"]
        for c in found.contributors
    ]
    told = message("right" if found.holds_at_worst else "note", *found.sentences(hive.units))
    return Outcome(told, "", table(["what can be off", "by", "its share of the chance"], rows))
