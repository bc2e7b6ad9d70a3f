"""Running a command in this process, and what it told."""

import csv
import io
import json
from pathlib import Path
from typing import NamedTuple

import pytest

from hivecalc.cli import exit_status


class Told(NamedTuple):
    """What a command did: its exit status, standard output and standard error."""

    status: int
    out: str
    err: str

    @property
    def document(self) -> dict:
        return json.loads(self.out)

    @property
    def rows(self) -> list[dict[str, str]]:
        return list(csv.DictReader(io.StringIO(self.out)))


def called(capfd: pytest.CaptureFixture[str], *arguments: str | Path) -> Told:
    """Run a command."""
    capfd.readouterr()
    status = exit_status([str(argument) for argument in arguments])
    return Told(status, *capfd.readouterr())
