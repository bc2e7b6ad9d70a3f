"""The plan at the saw, as text, as rows and for other programs."""

from collections.abc import Iterable, Iterator

from hivecalc.cutting.strips import Blanks, blanks_told
from hivecalc.hive.texts import seen
from hivecalc.length import MM, Grid, Units, length_json, shown
from hivecalc.saw import CAUTIONS, Caution, Kind, SawPlan, Step
from hivecalc.saw.plan import KINDS
from hivecalc.saw.telling import HEADINGS, WHY, setting_told, work_told
from hivecalc.stock import COMMON
from hivecalc.tables.numbers import usual_grid
from hivecalc.tables.texts import SCHEMA, Cell, Json, Table, wrapped

SETTINGS = {
    "crosscut": "the stop block for crosscuts",
    "rip": "the fence for rips",
    "to_length": "the stop block for strips",
    "bevel": "fence and tilt",
    "taper": "the taper jig",
}
BEFORE, AFTER = "Before the first cut", "After the saw"
FIRST = (
    "The saw's manual, local codes and trained people go before all that stands here. Where no "
    f"source is named, it is {COMMON}."
)


def saw_json(plan: SawPlan, grid: Grid | None = None) -> Json:
    """A plan at the saw for other programs.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.saw import saw_plan
    >>> from hivecalc.stock import demo_yard
    >>> found = saw_json(saw_plan([demo_hive()], demo_yard()))
    >>> list(found)
    ['schema', 'kerf', 'steps', 'settings', 'blanks', 'ripped_off', 'labels', 'unplanned']
    >>> found["steps"][0]["kind"], found["steps"][0]["setting"]["inches"]
    ('crosscut', '39 3/8')
    """
    marks = grid or usual_grid(plan.units)
    return {
        "schema": SCHEMA,
        "kerf": length_json(plan.kerf, marks),
        "steps": [_step_json(number, step, plan.units, marks) for number, step in _numbered(plan)],
        "settings": {
            kind: {"count": plan.settings[kind], "fewest": plan.fewest[kind]} for kind in KINDS
        },
        "blanks": [_blanks_json(blanks, plan.units, marks) for blanks in plan.blanks],
        "ripped_off": [
            {"hive": name, "thickness": length_json(off.thickness, marks), "told": off.sentence}
            for name, off in plan.ripped_off
        ],
        "labels": [{"label": label, "count": count} for label, count in plan.labels],
        "unplanned": [
            {"label": left.label, "count": left.count, "why": left.why} for left in plan.unplanned
        ],
    }


def _numbered(plan: SawPlan) -> Iterable[tuple[int, Step]]:
    return enumerate(plan.steps, 1)


def _step_json(number: int, step: Step, units: Units, grid: Grid) -> Json:
    return {
        "number": number,
        "kind": step.kind,
        "what": setting_told(step, units),
        "setting": length_json(step.setting, grid),
        "tilt": step.tilt,
        "pieces": [{"label": work.label, "count": work.count} for work in step.work],
        "how": list(work_told(step, units)),
        "why": WHY[step.kind],
        "cautions": [{"text": c.text, "source": c.source} for c in step.cautions],
    }


def _blanks_json(blanks: Blanks, units: Units, grid: Grid) -> Json:
    section = blanks.section
    return {
        "label": blanks.label,
        "rest_of": blanks.rest_of or None,
        "length": length_json(blanks.length, grid),
        "count": blanks.count,
        "strips_each": section.count,
        "strips_needed": blanks.needed,
        "thickness": length_json(section.piece_thickness, grid),
        "width": length_json(section.piece_width, grid),
        "rests": [
            {"width": length_json(rest.wide, grid), "height": length_json(rest.high, grid)}
            for rest in section.rests
        ],
        "strips": [
            {
                "count": strip.count,
                "pieces": [
                    {"label": label, "length": length_json(length, grid)}
                    for label, length in strip.pieces
                ],
            }
            for strip in blanks.strips
        ],
        "told": list(blanks_told(blanks, units)),
    }


def saw_table(plan: SawPlan, grid: Grid | None = None) -> Table:
    """A plan at the saw as rows for a spreadsheet, a row for each kind of piece at each setting.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.saw import saw_plan
    >>> from hivecalc.stock import demo_yard
    >>> saw_table(saw_plan([demo_hive()], demo_yard())).rows[1][:6]
    [2, 'crosscut', '23 5/8 in', 600.075, None, 'roof rim side']
    """
    marks = grid or usual_grid(plan.units)
    columns = ("step", "kind", "setting", "setting_mm", "tilt", "piece", "count", "how", "why")
    rows = (row for numbered in _numbered(plan) for row in _rows(*numbered, plan.units, marks))
    return Table(columns, list(rows))


def _rows(number: int, step: Step, units: Units, grid: Grid) -> Iterator[list[Cell]]:
    for work, how in zip(step.work, work_told(step, units), strict=False):
        yield [
            number,
            step.kind,
            shown(step.setting, grid=grid),
            float(step.setting / MM),
            round(step.tilt, 3) or None,
            work.label,
            work.count,
            how,
            WHY[step.kind],
        ]


def saw_text(plan: SawPlan) -> str:
    """A plan at the saw to read: cautions first, then every setting with what is cut at it.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.saw import saw_plan
    >>> from hivecalc.stock import demo_yard
    >>> text = saw_text(saw_plan([demo_hive()], demo_yard()))
    >>> [line for line in text.splitlines() if line.startswith(" 2. ")]
    [' 2. stop block 23 5/8 in from the blade']
    """
    number, sections = 0, [_cautions_text(BEFORE, CAUTIONS["before"])]
    for kind in KINDS:
        steps = plan.of(kind)
        if steps:
            sections.append(_section(plan, steps, number))
            number += len(steps)
    told = (_strips_text, _left_text, _labels_text)
    sections += [text for text in (part(plan) for part in told) if text]
    return "\n".join((*sections, _cautions_text(AFTER, CAUTIONS["after"])))


def _cautions_text(heading: str, cautions: Iterable[Caution]) -> str:
    return "".join(f"{line}\n" for line in (heading, wrapped(FIRST, "  "), *_told(cautions)))


def _told(cautions: Iterable[Caution]) -> Iterator[str]:
    for caution in cautions:
        yield wrapped(f"! {caution_told(caution)}", "  ", "    ")


def caution_told(caution: Caution) -> str:
    """A caution, and where it is written down if it is.

    >>> caution_told(Caution("Stand aside.", "a law"))
    'Stand aside. (a law)'
    """
    source = "" if caution.source == COMMON else f" ({caution.source})"
    return f"{caution.text}{source}"


def settings_told(plan: SawPlan, kind: Kind) -> str:
    """How many settings one kind of step takes, and whether fewer would do.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.saw import saw_plan
    >>> from hivecalc.stock import demo_yard
    >>> print(settings_told(saw_plan([demo_hive()], demo_yard()), "taper"))
    1 setting of the taper jig: fewer can't do.
    """
    taken, fewest = plan.settings[kind], plan.fewest[kind]
    least = "fewer can't do" if taken == fewest else f"{fewest} or more are needed"
    return f"{taken} setting{'s' * (taken != 1)} of {SETTINGS[kind]}: {least}."


def _section(plan: SawPlan, steps: tuple[Step, ...], before: int) -> str:
    kind = steps[0].kind
    lines = [HEADINGS[kind], wrapped(WHY[kind], "  ")]
    lines += _told(steps[0].cautions)
    for number, step in enumerate(steps, before + 1):
        lines.append(f"{number:2}. {setting_told(step, plan.units)}")
        lines += [wrapped(seen(line), "    ", "      ") for line in work_told(step, plan.units)]
    lines.append(wrapped(settings_told(plan, kind), "  "))
    return "".join(f"{line}\n" for line in lines)


def _strips_text(plan: SawPlan) -> str:
    lines = ["How each blank is ripped"]
    for blanks in plan.blanks:
        lines.append(wrapped(f"{seen(blanks.label)}:", "  "))
        lines += [wrapped(seen(told), "    ") for told in blanks_told(blanks, plan.units)]
    for name, off in plan.ripped_off:
        lines.append(wrapped(f"{seen(name)}: {off.sentence}" if name else off.sentence, "  "))
    return "".join(f"{line}\n" for line in lines)


def _left_text(plan: SawPlan) -> str:
    if not plan.unplanned:
        return ""
    lines = (
        wrapped(f"{left.count} × {seen(left.label)}: {left.why}", "  ") for left in plan.unplanned
    )
    return "".join(f"{line}\n" for line in ("Not planned", *lines))


def _labels_text(plan: SawPlan) -> str:
    lines = (wrapped(f"{count} × {seen(label)}", "  ") for label, count in plan.labels)
    heading = "Write on each piece as it comes off the saw"
    return "".join(f"{line}\n" for line in (heading, *lines))
