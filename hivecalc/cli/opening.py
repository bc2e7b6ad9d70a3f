"""The command `open`: the lessons, in a browser."""

from pathlib import Path

import click

from hivecalc.cli.shared import DONE, FILE, Call, command, path_option
from hivecalc.components import opened_hive
from hivecalc.course_folder import copying, serving
from hivecalc.hive import Fault, HiveFaults
from hivecalc.support.faults import escaped


@command(
    "open",
    FILE,
    path_option(
        "--folder",
        said="Your course folder; hivecalc-course in your home folder if not given here or by the "
        "environment variable HIVECALC_COURSE.",
    ),
    click.option("--no-browser", is_flag=True, help="Only say the address, and open no browser."),
    click.option(
        "--stop", is_flag=True, help="Stop what runs on the course folder, and open nothing."
    ),
    calls=(
        "hivecalc open",
        "hivecalc open my-hive.toml",
        "hivecalc open --folder saturday-course",
        "hivecalc open --no-browser",
        "hivecalc open --stop",
    ),
)
def open_command(call: Call, folder: Path | None, no_browser: bool, stop: bool) -> int:  # noqa: FBT001 - click hands it so
    """Open the lessons in your browser.

    The first time, your course folder is made, with copies of lessons, exercises and a hive file.
    Later, you go on where you left off; what is new is added, and what you have changed stays as
    you left it. FILE becomes the course's hive file my-hive.toml if there is none yet. Ctrl-C stops
    it.
    """
    file, place = call.file, folder or copying.usual_folder()
    if stop:
        stopped = serving.stop_lab(copying.Course(place.expanduser().resolve(), ""))
        click.echo("Stopped." if stopped else f"Nothing runs on {escaped(str(place))}.")
        return DONE
    if file is not None:
        opened_hive(file)
    course = copying.prepare(place, file)
    click.echo("\n".join(map(escaped, copying.report(course, file))))
    browser = not no_browser and serving.shows_browser()
    status = serving.run_lab(course, click.echo, browser=browser)
    if status:
        found = f"it ended with status {status}"
        raise HiveFaults([Fault("JupyterLab", found, "what it said stands above")])
    return DONE
