"""What to know at the bench about a piece that its sizes do not say, with this hive's figures."""

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Final, TypeAlias

from hivecalc.derivation import Values
from hivecalc.length import Units, shown

_Sentence: TypeAlias = Callable[[Values, Units], str]


def at_the_bench(component: str, part: str, found: Values, units: Units) -> str:
    """What the maker of a piece has to know on this hive; empty where its sizes say it all.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> print(at_the_bench("roof", "rim_side", values(demo_hive()), "inch"))
    Taper it: 3 1/2 in high in front, 1 1/2 in at the back.

    Common practice, no published source.
    """
    sentence = _SENTENCES.get((component, part))
    return sentence(found, units) if sentence else ""


def _rim_side(found: Values, units: Units) -> str:
    if not found["roof.slope"]:
        return "It is as high at the back as in front: tilt the stand, so that rain runs off."
    front, back = shown(found["stud_width"], units), shown(found["rim_low_height"], units)
    return f"Taper it: {front} high in front, {back} at the back."


def _rim_front(found: Values, units: Units) -> str:
    inner = shown(found["roof.rim_front_inner_height"], units)
    return _planed(found, f"Its top is planed to the slope: {inner} high at its inner face.")


def _rim_back(found: Values, units: Units) -> str:
    outer = shown(found["rim_low_height"], units)
    return _planed(found, f"Its top is planed to the slope: {outer} high at its outer face.")


def _skirt_end(found: Values, _: Units) -> str:
    return _planed(found, "The top edge of the one at the back is planed to the slope.")


def _skirt_side(found: Values, _: Units) -> str:
    return _planed(found, "Where it passes the rim's back, its tail is planed to the slope.")


def _planed(found: Values, sentence: str) -> str:
    return sentence if found["roof.slope"] else ""


def _sheet(found: Values, units: Units) -> str:
    if not found["inner_notch"]:
        return ""
    long, wide, front = (
        shown(found[f"inner_cover.{n}"], units)
        for n in ("slot_length", "slot_width", "slot_from_front")
    )
    return (
        f"Cut a slot through the lower one, at the channel's back end: {long} long across the "
        f"hive, {wide} wide, in the middle, {front} from the front edge."
    )


def _sleeve_foam(found: Values, units: Units) -> str:
    board, foam = found["foam_thickness"], found["sleeve_foam_thickness"]
    layers = foam / board
    if layers == 1 or layers.denominator > 1:
        return ""
    return f"It takes {layers} layers of the {shown(board, units)} board, one on the other."


def _edge_strip(found: Values, _: Units) -> str:
    if found["sleeve.bearing"] >= LEAST_BEARING:
        return ""
    return "The lower ones carry the box: glue and screw them."


LEAST_BEARING: Final = Fraction(1, 4)
"""Less than this of a box's foot on the rails, and the lower edge strips carry the box.

Common practice, no published source.
"""

_SENTENCES: Final[Mapping[tuple[str, str], _Sentence]] = {
    ("roof", "rim_side"): _rim_side,
    ("roof", "rim_front"): _rim_front,
    ("roof", "rim_back"): _rim_back,
    ("roof", "skirt_end"): _skirt_end,
    ("roof", "skirt_side"): _skirt_side,
    ("inner_cover", "sheet"): _sheet,
    ("sleeve", "foam_side"): _sleeve_foam,
    ("sleeve", "foam_end"): _sleeve_foam,
    ("sleeve", "edge_strip_side"): _edge_strip,
    ("sleeve", "edge_strip_end"): _edge_strip,
}
