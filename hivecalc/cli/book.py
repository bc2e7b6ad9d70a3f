"""The command `book`: all of a hive, to print."""

from datetime import date
from pathlib import Path
from typing import get_args

import click

from hivecalc.cli.planning import yard_for
from hivecalc.cli.shared import DONE, FILE, OUT, SET, Call, command, misused, path_option, write
from hivecalc.document import Paper
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.reports.book import book, book_paths, written_book
from hivecalc.reports.sizes import usual_paper
from hivecalc.workshop import Plan, changes_since, plan_from_file


@command(
    "book",
    FILE,
    SET,
    path_option(
        "--yard", "yard_file",
        said="Your yard file; if not given, my-yard.toml beside FILE, or the invented yard.",
    ),
    path_option(
        "--plan", "plan_file",
        said="Show this plan, which the command plan wrote for this one hive.",
    ),
    OUT,
    click.option(
        "--paper", "sheet", type=click.Choice(get_args(Paper)),
        help="Paper to print on; letter for a hive in inches, a4 for one in mm, if not given.",
    ),
    calls=(
        "hivecalc book my-hive.toml",
        "hivecalc book my-hive.toml --out book.pdf --paper letter",
        "hivecalc book my-hive.toml --yard my-yard.toml --out book.html",
        "hivecalc book my-hive.toml --plan plan.json",
    ),
)  # fmt: skip
def book_command(
    call: Call, yard_file: Path | None, plan_file: Path | None, sheet: Paper | None
) -> int:
    """Write the hive book: a page to pin over the bench, drawings, workings, plan, checks.

    Without --out it is written beside FILE, as a page of HTML and as a PDF; else as the one that
    the end of PATH says, .html or .pdf.
    """
    hive, file = call.hive, call.file
    paths = [call.out] if call.out else book_paths(file or Path("demo-hive.toml"))
    if any(path.suffix.lower() not in {".html", ".pdf"} for path in paths):
        raise misused("--out names a file that ends with .html or .pdf")
    made = _plan_of_one(plan_file, hive) if plan_file else None
    yard = yard_for(yard_file, file, hive.units)
    made_book = book(hive, date.today().isoformat(), yard, made=made)  # noqa: DTZ011 - the reader's day
    for path in paths:
        write(path, written_book(made_book, path, sheet or usual_paper(hive.units)))
    return DONE


def _plan_of_one(file: Path, hive: Hive) -> Plan:
    """A plan that was kept, if it is for this one hive as it is now."""
    found = plan_from_file(file)
    changes = changes_since(found, [hive])
    if changes:
        accepted = "make it again with `hivecalc plan FILE --out PLAN.json`"
        raise HiveFaults([Fault("--plan", sentence.rstrip("."), accepted) for sentence in changes])
    return found
