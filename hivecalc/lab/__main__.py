"""JupyterLab as `hivecalc open` runs it: never without a key, and no longer than its parent.

The first line of standard input is the key, so it stands in no list of processes, and no setting
of the user's own takes it away. Standard input ends when the parent does, and then this ends, too.
"""

import os
import signal
import sys
import threading

from jupyterlab.labapp import LabApp


def main() -> None:
    """Run JupyterLab with the options of the command line until it is stopped."""
    key = sys.stdin.readline().strip()
    if not key:
        sys.exit("The first line of standard input must be the key.")
    threading.Thread(target=_end_with_parent, daemon=True).start()
    LabApp.launch_instance([*sys.argv[1:], f"--PasswordIdentityProvider.token={key}"])


def _end_with_parent() -> None:
    while os.read(0, 1):  # sys.stdin could not be closed while a thread waits for it
        pass
    os.kill(os.getpid(), signal.SIGTERM)


if __name__ == "__main__":
    main()
