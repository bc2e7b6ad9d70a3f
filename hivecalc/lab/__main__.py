"""JupyterLab as `hivecalc open` runs it: never without a key, and no longer than its parent.

The first line of standard input is the key, so it stands in no list of processes, and no setting
of the user's own takes it away. Standard input ends when the parent does, and then this ends, too.

Its page is JupyterLab's own, with a lesson's first picture in it: that is seen long before
JupyterLab has started in the browser.
"""

import json
import logging
import os
import re
import signal
import sys
import threading
from pathlib import Path
from tempfile import TemporaryDirectory

from hivecalc.course_folder import course_files, originals

FIRST_PICTURE = Path(__file__).with_name("first_picture.html")
MODULES = Path(__file__).parent / "labextensions" / "hivecalc-lessons" / "page" / "src"


def main() -> None:
    """Run JupyterLab with the options of the command line until it is stopped."""
    from jupyterlab.commands import get_app_dir  # noqa: PLC0415 - slow to load
    from jupyterlab.labapp import LabApp  # noqa: PLC0415 - as above

    key = sys.stdin.readline().strip()
    if not key:
        sys.exit("The first line of standard input must be the key.")
    logging.getLogger("ServerApp").addFilter(_is_news)
    threading.Thread(target=_end_with_parent, daemon=True).start()
    with TemporaryDirectory(prefix="hivecalc-page-") as place:
        original = Path(get_app_dir(), "static", "index.html").read_text(encoding="utf-8")
        Path(place, "index.html").write_text(page_with_first_picture(original), encoding="utf-8")
        own = [f"--LabApp.templates_dir={place}", f"--PasswordIdentityProvider.token={key}"]
        LabApp.launch_instance([*sys.argv[1:], *own])


def page_with_first_picture(original: str) -> str:
    """The template of JupyterLab's page, with a lesson's first picture at the top of its body."""
    modules = sorted(path.name for path in MODULES.glob("*.js"))
    known = f"{{% set modules = {modules} %}}{{% set titles = {_titles()} %}}"
    first = known + FIRST_PICTURE.read_text(encoding="utf-8")
    return re.sub(r"<body[^>]*>", lambda body: body[0] + first, original, count=1)


def _titles() -> dict[str, str]:
    """Return what each notebook of the course calls itself, by its name in the course folder."""
    notebooks = course_files(originals())
    return {name: _title(path) for name, path in notebooks.items() if path.suffix == ".ipynb"}


def _title(notebook: Path) -> str:
    heading, *_ = json.loads(notebook.read_bytes())["cells"][0]["source"]
    return str(heading).lstrip("# ").rstrip()


def _is_news(record: logging.LogRecord) -> bool:
    """Return whether something is said that nobody asked for: not that it stops when told to."""
    return not str(record.msg).startswith("received signal")


def _end_with_parent() -> None:
    while os.read(0, 1):  # sys.stdin could not be closed while a thread waits for it
        pass
    os.kill(os.getpid(), signal.SIGTERM)


if __name__ == "__main__":
    main()
