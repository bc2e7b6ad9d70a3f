"""A hive file written: new, with a note on each line, or the builder's own with new values."""

import json
from collections.abc import Iterator, Mapping, MutableMapping
from contextlib import suppress
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Final, TypeAlias

from hivecalc.hive.hive import UNNAMED, Given, Hive, answer_text, value_of
from hivecalc.hive.measurements import MEASUREMENTS, Group, Measurement, in_section
from hivecalc.hive.reading import faults_beside, hive_from_text
from hivecalc.length import LONGEST, Units, decimal_inches, millimetres, written
from hivecalc.support.faults import Fault, HiveFaults, RefusedError, escaped
from hivecalc.support.files import (
    A_TARGET,
    data_in,
    file_faults,
    system_faults,
    text_of,
    toml_table,
    write_whole,
)

if TYPE_CHECKING:
    from tomlkit import TOMLDocument
    from tomlkit.items import Table

# ── a new file ────────────────────────────────────────────────────────────────────────────────

_HEAD: Final = """\
# A hive file: what you measured and what you chose. A line that begins with # is a note.
# Every line below that begins with # and a name shows the value that is used as long as you
# give none: take the # away and write your own. Measure your own wood: no two yards sell alike.
#
# Lengths: {lengths}.
"""
_LENGTHS: Final[Mapping[Units, str]] = {
    "inch": '"23 1/8", "23.125", "1 ft 11 1/8 in", "587.4 mm", "58.7 cm"',
    "mm": '"587", "587.4", "58.7 cm", "23 1/8 in"',
}

_HEADINGS: Final[dict[Group, str]] = {
    "measured": (
        "# What the tape says. Give hive_length and hive_width; or box_length, box_width and\n"
        "# box_height of a box to be sleeved; or, further below, frames.\n"
    ),
    "chosen": "# What you decide.\n",
}

_NOTES: Final = {
    "readings": 'What the tape read, place by place; "" where it was not read yet.',
    "set_aside": "The size of the hive before this one: kept for the way back, not used.",
}
_Entry: TypeAlias = str | int | list[str]


def hive_text(hive: Hive) -> str:
    """Text of a new hive file, with a note on each line for a beginner.

    Raises HiveFaults for a length that cannot be written exactly.
    """
    top = f'name = {_toml(hive.name)}\nunits = "{hive.units}"    # of a number without a unit:'
    text = [_HEAD.format(lengths=_LENGTHS[hive.units]), f'{top} "inch" or "mm"\n']
    for group, given in _sections(hive).items():
        lines = (_line(known, given.get(known.name), hive.units) for known in in_section(group))
        text.append(f"[{group}]\n{_HEADINGS[group]}" + "".join(lines))
    for section, entries in _beside(hive).items():
        lines = (f"{name} = {_toml(value)}\n" for name, value in entries.items())
        text += [f"[{section}]\n# {_NOTES[section]}\n{''.join(lines)}"] if entries else []
    return "\n".join(text)


def _sections(hive: Hive) -> dict[Group, Mapping[str, Fraction]]:
    return {"measured": hive.measured, "chosen": hive.chosen}


def _beside(hive: Hive) -> dict[str, dict[str, _Entry]]:
    """What stands in the sections that nothing is built from, as a hive file holds it."""
    readings: dict[str, _Entry] = {
        name: ["" if one is None else exact_text(name, one, hive.units) for one in found]
        for name, found in hive.readings.items()
    }
    aside: dict[str, _Entry] = {
        name: _literal(MEASUREMENTS[name], value, hive.units)
        for name, value in hive.set_aside.items()
    }
    return {"readings": readings, "set_aside": aside}


def _line(known: Measurement, given: Fraction | None, units: Units) -> str:
    value = known.defaults[units] if given is None else given
    shown = _toml("" if value is None else _literal(known, value, units))
    line = f"{'# ' if given is None else ''}{known.name} = {shown}"
    return f"{line:<34}  # {known.meaning}\n"


def _literal(known: Measurement, value: Fraction, units: Units) -> str | int:
    if known.kind == "answer":
        return answer_text(value)
    return int(value) if known.kind == "count" else exact_text(known.name, value, units)


def exact_text(name: str, length: Fraction, units: Units) -> str:
    """Plainest text that reads back as exactly this length.

    >>> exact_text("hive_length", Fraction(185, 8), "mm")
    '587.375'
    >>> exact_text("foam_thickness", Fraction(125, 127), "inch")
    '25 mm'

    Raises HiveFaults, for this `name`, where no text of at most 60 characters is exact.
    """
    for text in _spellings(length, units):
        if len(text) <= LONGEST and not text.startswith("≈"):
            return text
    found = f"this length has no exact text of {LONGEST} characters"
    raise HiveFaults([Fault(name, found, "give one with fewer digits")])


def _spellings(length: Fraction, units: Units) -> Iterator[str]:
    """Yield ways to write a length, the plainest first; one with ≈ in front is not exact."""
    decimal = {"inch": decimal_inches(length, LONGEST), "mm": millimetres(length, LONGEST)}
    yield written(length, units)
    yield decimal[units]
    yield f"{written(length)} in" if units == "mm" else f"{written(length, 'mm')} mm"
    yield f"{decimal['inch']} in" if units == "mm" else f"{decimal['mm']} mm"
    whole, top = divmod(length.numerator, length.denominator)
    yield f"{whole} {top}/{length.denominator} in".removeprefix("0 ")


def _toml(value: _Entry) -> str:
    return json.dumps(value, ensure_ascii=False)  # what JSON has of these, TOML has alike


# ── the builder's own file ────────────────────────────────────────────────────────────────────


def save(path: str | Path, hive: Hive) -> None:
    """Write a hive to its file; the notes, the order and the spelling in it stay as they are.

    A missing file is written new. Raises HiveFaults where the file cannot be read as a hive file or
    not be written, and then leaves it as it was.
    """
    data = b""
    with system_faults(path, A_TARGET), suppress(FileNotFoundError):
        data = data_in(path)
    text = text_of(path, data)
    edited = _text_with(text, hive, escaped(str(path))) if text.strip() else hive_text(hive)
    if edited is None or hive_from_text(edited, str(path)) != hive:
        found = "this hive cannot be written into this file"
        raise file_faults(path, found, "save it as a new file")
    write_whole(path, edited)


def _text_with(text: str, hive: Hive, file: str) -> str | None:
    """Return the text of a file with this hive's values in it, and all else as it was.

    None where the values do not go in, because something else stands in their place.
    """
    import tomlkit  # noqa: PLC0415 - slow to load, and only saving needs it
    from tomlkit.exceptions import TOMLKitError  # noqa: PLC0415 - as above

    old = toml_table(text, file)
    with suppress(TOMLKitError, RecursionError, TypeError, LookupError):
        document = tomlkit.parse(text)
        _edit(document, old, hive)
        return tomlkit.dumps(document)
    return None


def _edit(document: "TOMLDocument", old: Mapping[str, object], hive: Hive) -> None:
    for key, value, unsaid in (("name", hive.name, UNNAMED), ("units", hive.units, "inch")):
        if old.get(key, unsaid) != value:
            document[key] = value
    for group, given in _sections(hive).items():
        if given:
            document.setdefault(group, {})
        if group in document:
            _edit_section(document[group], old.get(group, {}), given, hive.units)
    for section, entries in _beside(hive).items():
        if section in document or entries:
            _edit_beside(document, old.get(section, {}), section, hive)


def _edit_beside(document: "TOMLDocument", old: object, section: str, hive: Hive) -> None:
    """Make a section that nothing is built from say what is kept; its notes stay."""
    entries, said = _beside(hive)[section], Given(str, hive.units)
    if not isinstance(old, dict) or section not in document:
        document.pop(section, None)
        document.add(section, _table(section, entries))
    else:
        list(faults_beside(said, section, old))
        kept, now = getattr(hive, section), getattr(said, section)
        for name, entry in entries.items():
            if now.get(name) != kept[name]:
                document[section][name] = entry
        for name in old.keys() - entries.keys():
            del document[section][name]


def _table(section: str, entries: Mapping[str, _Entry]) -> "Table":
    import tomlkit  # noqa: PLC0415 - as above

    table = tomlkit.table()
    table.add(tomlkit.comment(_NOTES[section]))
    for name, value in entries.items():
        table.add(name, value)
    return table


def _edit_section(
    section: MutableMapping[str, object], old: object, given: Mapping[str, Fraction], units: Units
) -> None:
    """Change a section's entries to what is given; those that say it already stay as they are."""
    was = old if isinstance(old, dict) else {}
    for name, value in given.items():
        known = MEASUREMENTS[name]
        if name not in was:
            _insert(section, name, _literal(known, value, units))
        elif not _says(known, was[name], value, units):
            section[name] = _literal(known, value, units)
    for name in was.keys() - given.keys() & MEASUREMENTS.keys():
        del section[name]


def _insert(section: MutableMapping[str, object], name: str, value: str | int) -> None:
    """Add an entry to a section, below the line that gave it as a note or below the last entry.

    tomlkit would put it below the notes of the next section, so what comes after is put back.
    """
    from tomlkit.items import Table  # noqa: PLC0415 - loaded by the caller

    if not isinstance(section, Table) or section.is_super_table():
        section[name] = value
        return
    body = section.value.body
    noted = (n for n, (_, item) in enumerate(body, 1) if _is_note_of(name, item))
    entries = [n for n, (key, _) in enumerate(body, 1) if key]
    place = next(noted, max(entries, default=0))
    after = body[place:]
    for key, _ in after:
        if key:
            section.remove(key)
    del body[place:]
    section.add(name, value)
    for key, item in after:
        section.append(key, item)


def _is_note_of(name: str, item: object) -> bool:
    """Whether it is a line like `# name = "1"`."""
    from tomlkit.items import Comment  # noqa: PLC0415 - loaded by the caller

    note = item.as_string() if isinstance(item, Comment) else ""
    return note.partition("=")[0].strip(" #\r\n\t") == name


def _says(known: Measurement, written_so: object, value: Fraction, units: Units) -> bool:
    try:
        return value_of(known, written_so, units) == value
    except RefusedError:
        return False
