"""The commands: each reads what it is asked, works it out, and shows the report on it.

Exit status: 0 done; 1 the answer is no; 2 the input is at fault, with one sentence a fault on
standard error and nothing written; 130 stopped by Ctrl-C.
"""

import os
import re
import sys
from collections.abc import Sequence
from dataclasses import replace
from io import TextIOWrapper
from typing import Final, NoReturn

import click

from hivecalc.cli.shared import DONE, INPUT_AT_FAULT, INTERRUPTED, commands
from hivecalc.derivation import UnknownNameError
from hivecalc.hive import HiveFaults
from hivecalc.support.faults import escaped
from hivecalc.support.files import reason

__all__ = ["commands", "exit_status", "main"]

LONG: Final = 200
"""A place or a word with more characters is not repeated whole."""


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
    except OSError as error:  # standard output broke; a reader that closed it has had enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        if isinstance(error, BrokenPipeError):
            return DONE
        click.echo(f"The answer could not be written: {reason(error)}.", err=True)
        return INPUT_AT_FAULT
    except (HiveFaults, UnknownNameError, click.ClickException) as error:
        texts = [_sentence(error) if isinstance(error, click.ClickException) else str(error)]
        if isinstance(error, HiveFaults):
            texts = [str(replace(fault, place=_short(fault.place))) for fault in error.faults]
        for sentence in texts:
            said = re.sub(rf"\S{{{LONG},}}", lambda word: _short(word[0]), sentence)
            click.echo(escaped(said), err=True)
        return INPUT_AT_FAULT


def _short(text: str) -> str:
    return text if len(text) <= LONG else f"{text[:60]}…{text[-40:]}"


def _sentence(error: click.ClickException) -> str:
    """Return one sentence for a call that click refused."""
    near = getattr(error, "possibilities", None)
    context = getattr(error, "ctx", None)
    command = context.command_path if context else "hivecalc"
    hint = f"did you mean {' or '.join(near)}?" if near else f"see {command} --help."
    if isinstance(error, click.BadOptionUsage) and error.option_name:
        found = f"{error.option_name} needs a value after it"
    else:
        found = error.message if near else error.format_message()
    return f"{' '.join(found.split()).rstrip('.')}; {hint}"
