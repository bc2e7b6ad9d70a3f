"""The TOML of a hive file, in which a decimal number stays exactly as it is written."""

from collections.abc import Iterator
from typing import Final

from hivecalc.hive.faults import Fault, HiveFaults, refuse
from hivecalc.hive.texts import seen

LONGEST_LINE: Final = 1_000

_TOML_FORM: Final = (
    'a line is a [section], a # note, or a name with its value in quotes, like units = "inch"'
)


class Number(str):
    """A decimal number as it stands in the file, so that it stays exact."""

    __slots__ = ()


def toml_table(text: str, file: str) -> dict[str, object]:
    """Tables and values of a TOML text, its decimals as text.

    file is what faults call the text. Raises HiveFaults with the line and column of a slip.
    """
    import tomllib  # noqa: PLC0415 - the demo hive needs none of it

    refuse(_long_lines(text, file), file)
    try:
        return tomllib.loads(f"{text}\n", parse_float=Number)  # so that each fault has its line
    except tomllib.TOMLDecodeError as error:
        fault = _fault_of_slip(str(error), file)
    except RecursionError:
        fault = Fault(file, "lists or tables are nested too deeply in it", _TOML_FORM)
    raise HiveFaults([fault])


def _fault_of_slip(error: str, file: str) -> Fault:
    message, _, where = error.rstrip(")").rpartition(" (at ")
    return Fault(f"{file}, {where}", f"this cannot be read as TOML ({seen(message)})", _TOML_FORM)


def _long_lines(text: str, file: str) -> Iterator[Fault]:
    """Yield a fault for each line that no person wrote; reading names of that length takes ages."""
    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > LONGEST_LINE:
            found = f"this line has {len(line)} characters"
            yield Fault(f"{file}, line {number}", found, f"{LONGEST_LINE} are enough")
