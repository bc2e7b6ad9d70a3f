"""The end of a command: its exit status, and faults as sentences."""

import os
import sys
from collections.abc import Sequence
from io import TextIOWrapper
from typing import NoReturn

import click

from hivecalc.cli import (  # noqa: F401 - each adds its commands
    begin,
    checking,
    judge,
    physics,
    showing,
    workshop,
)
from hivecalc.cli.shared import DONE, INPUT_AT_FAULT, INTERRUPTED, commands
from hivecalc.derivation import UnknownNameError
from hivecalc.hive import HiveFaults
from hivecalc.tables import harmless


def main() -> NoReturn:
    r"""Run the command that the shell gave, and leave with its exit status.

    A name that the terminal has no signs for is shown with \u escapes.
    """
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")
    sys.exit(exit_status(sys.argv[1:]))


def exit_status(arguments: Sequence[str]) -> int:
    """Run a command: its exit status, when all that it tells has been written."""
    try:
        with commands.make_context("hivecalc", list(arguments) or ["--help"]) as context:
            return int(commands.invoke(context))
    except click.exceptions.Exit as ending:  # help or the version was asked for
        return ending.exit_code
    except KeyboardInterrupt:
        click.echo("Stopped; nothing is half written.", err=True)
        return INTERRUPTED
    except OSError as error:
        return _told_output_fault(error)
    except (HiveFaults, UnknownNameError, click.ClickException) as error:
        for sentence in _sentences(error):
            click.echo(harmless(sentence), err=True)
        return INPUT_AT_FAULT


def _sentences(error: Exception) -> list[str]:
    if isinstance(error, HiveFaults):
        return [str(fault) for fault in error.faults]
    return [_sentence(error) if isinstance(error, click.ClickException) else str(error)]


def _sentence(error: click.ClickException) -> str:
    """Return one sentence for a call that click refused."""
    near = getattr(error, "possibilities", None)
    found = (error.message if near else error.format_message()).strip().rstrip(".")
    context = getattr(error, "ctx", None)
    command = context.command_path if context else "hivecalc"
    hint = f"did you mean {' or '.join(near)}?" if near else f"see {command} --help."
    return f"{' '.join(found.split())}; {hint}"


def _told_output_fault(error: OSError) -> int:
    """Tell that standard output broke; a reader that closed it has had enough."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    if isinstance(error, BrokenPipeError):
        return DONE
    reason = (error.strerror or str(error)).lower()
    click.echo(f"The answer could not be written: {reason}.", err=True)
    return INPUT_AT_FAULT
