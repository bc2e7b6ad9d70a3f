"""What is wrong with names and readings that were given."""

from collections.abc import Iterable, Iterator

from hivecalc.as_built.sizes import LONGEST, Readings, cut_sizes, listed, stock_of
from hivecalc.derivation import nearest_names
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.length import Length, Units, with_unit
from hivecalc.tolerance.sizes import PIECE_SIZES


def refuse(faults: Iterable[Fault]) -> None:
    """Raise HiveFaults if there is any fault."""
    found = [*faults]
    if found:
        raise HiveFaults(found)


def faults_of_readings(hive: Hive, measured: Readings) -> Iterator[Fault]:
    """What is wrong with the names of sizes, and with what was read for them."""
    sizes = {s.name: s for s in cut_sizes(hive)}
    for name, value in measured.items():
        readings = listed(value)
        if name not in sizes:
            yield _fault_of_name(name, sizes)
        elif len(readings) > sizes[name].part.quantity:
            most = sizes[name].part.quantity
            yield Fault(name, f"{len(readings)} readings", f"of this piece there are {most}")
        yield from faults_of_lengths(name, readings, hive.units)


def _fault_of_name(name: str, sizes: Iterable[str]) -> Fault:
    stock = stock_of(name) if name in PIECE_SIZES else None
    if stock:
        return Fault(name, "that is the stock's own size", f"change {stock} in your hive")
    known = list(sizes)
    near = ", ".join(nearest_names(name, known) or known[:1])
    found = "no piece of this hive is cut to a size of this name"
    return Fault(f"{name[:60]!a}", found, f"one that is: {near}")


def faults_of_lengths(place: str, lengths: Iterable[Length], units: Units) -> Iterator[Fault]:
    """The lengths that no piece of a hive can have."""
    for length in lengths:
        if not 0 < length <= LONGEST:
            accepted = f"more than 0 and at most {with_unit(units, LONGEST)} is accepted"
            yield Fault(place, with_unit(units, length), accepted)
