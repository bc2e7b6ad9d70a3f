"""The dimension that a word from the shell means."""

from collections.abc import Collection, Iterable

from hivecalc.components import DIMENSIONS, built, values
from hivecalc.derivation import nearest_names, title
from hivecalc.hive import MEASUREMENTS, Fault, Hive, HiveFaults
from hivecalc.length import LONGEST

_A_BOX = "give a box or frames, in the hive file or with --set frames=10"
_WAYS_TO_HAVE = {"inner_cover": 'give inner_cover = "yes" in the hive file'}


def plain(name: str) -> str:
    """Return a name as it is known, from one in words."""
    return name.strip().lower().replace(" ", "_").replace("-", "_")


def dimension_name(text: str, hive: Hive) -> str:
    """Return the full name of a dimension or measurement of this hive."""
    name, known = plain(text), _known(hive)
    same = [name] if name in known else _named_so({name}, known)
    if not same:
        raise HiveFaults([_unknown_name(name, hive)])
    if len(same) > 1:
        found = f"{len(same)} dimensions have this name"
        raise HiveFaults([Fault(name, found, f"write {' or '.join(same)}")])
    return same[0]


def _known(hive: Hive) -> list[str]:
    """Return the names of what is built for a hive: a formula may count with what it has not."""
    components, known = {"", *built(hive)}, {**DIMENSIONS.dimensions, **MEASUREMENTS}
    return [n for n in values(hive) if n in known and n.rpartition(".")[0] in components]


def _named_so(names: Collection[str], known: Iterable[str]) -> list[str]:
    """Return the full names among the known ones that are these names without a component."""
    return [n for n in known if n.rpartition(".")[2] in names]


def _unknown_name(name: str, hive: Hive) -> Fault:
    known = {**DIMENSIONS.dimensions, **MEASUREMENTS}
    for unbuilt in [name] if name in known else _named_so({name}, known):
        component = unbuilt.rpartition(".")[0]
        found = f"this hive has no {title(component or name)}"
        return Fault(name, found, _WAYS_TO_HAVE.get(component, _A_BOX))
    here = _known(hive)
    short = nearest_names(name, {n.rpartition(".")[2] for n in here})
    near = nearest_names(name, here) if "." in name else _named_so(short, here)
    accepted = f"did you mean {' or '.join(near)}" if near else "hivecalc parts lists the parts"
    return Fault(name[:LONGEST], "there is no dimension of this name", accepted)


def derived_name(text: str, hive: Hive) -> str:
    """Return the full name of a dimension of this hive that can be worked out."""
    name = dimension_name(text, hive)
    if name not in DIMENSIONS.dimensions:
        found = "it is measured, so there is nothing to work out"
        raise HiveFaults([Fault(name, found, "name a dimension, like bottom_board.panel_width")])
    return name
