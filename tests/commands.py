"""Running a command in this process, or some code in one of its own, and what it told."""

import csv
import io
import json
import shlex
import subprocess
import sys
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


def called(capfd: pytest.CaptureFixture[str], line: str = "", *more: str | Path) -> Told:
    """Run a command as one writes it in a shell, with more words behind it."""
    capfd.readouterr()
    status = exit_status([*shlex.split(line), *map(str, more)])
    return Told(status, *capfd.readouterr())


MEASURED = """
import sys
from pathlib import Path
from hivecalc.cli import exit_status
{}
[peak] = [n.split()[1] for n in Path("/proc/self/status").read_text().splitlines() if "VmHWM" in n]
print(int(peak) // 1024, *sys.modules, file=sys.stderr)
"""


def in_a_process(code: str, *arguments: str | Path) -> tuple[int, set[str], list[str]]:
    """Run some code alone: its memory at most in MB, the modules it loaded, the lines it told."""
    command = [sys.executable, "-c", MEASURED.format(code), *arguments]
    done = subprocess.run(command, check=True, capture_output=True, text=True)
    peak, *modules = done.stderr.splitlines()[-1].split()
    return int(peak), set(modules), done.stdout.splitlines()
