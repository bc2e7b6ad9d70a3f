"""The commands, by what they are about: showing, judging, beginning, and the way to the saw.

Exit status: 0 done; 1 the answer is no; 2 the input is at fault, with one sentence a fault on
standard error and nothing written; 130 stopped by Ctrl-C.
"""

from hivecalc.cli.ending import exit_status, main
from hivecalc.cli.shared import commands

__all__ = ["commands", "exit_status", "main"]
