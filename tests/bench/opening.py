"""How soon a lesson is there, beside a bare JupyterLab with an empty notebook in the same run.

Run:  python -m tests.bench.opening

Each of them has a server that runs already, a fresh browser and a cold page. By turns: the bare one
until its kernel is idle; lesson 02 until its still picture is seen, and until its fields are alive;
lesson 03 by a click, once somebody has looked at lesson 02 for a while. Then ten lessons are opened
one after the other, and the kernels that are alive are counted.
"""

import json
import os
import secrets
import statistics
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from playwright.sync_api import Browser, Page
from rich.console import Console
from rich.table import Table

from tests.browser import KERNEL, PATIENCE, Lab, free_port, running_browser, running_lab
from tests.chromium import HOW_TO_GET_ONE, chromium
from tests.jupyter_rig import make_jupyter_home, notebook_text

ROUNDS = 5
READING = 8000  # ms: nobody reads a lesson faster
FRAME, NEXT = (
    "workbook/02-the-frame-of-the-bottom-board.ipynb",
    "workbook/03-runners-slot-and-panel.ipynb",
)
LIMITS = {"still picture": 0.25, "alive": 1.4, "second lesson": 0.7}
IDLE = f"{KERNEL}?.status === 'idle'"
STILL = "document.querySelector('#hivecalc-first img')?.naturalWidth > 0"
ALIVE = "[data-hivecalc=alive]:not(.lm-mod-hidden)"


@contextmanager
def bare_lab(place: Path) -> Iterator[Lab]:
    """JupyterLab as it is installed, on a folder with an empty notebook."""
    home = make_jupyter_home(place / "bare-home")
    lab = Lab(free_port(), secrets.token_hex(16), place / "bare", place)
    lab.folder.mkdir()
    (lab.folder / "empty.ipynb").write_text(notebook_text())
    log = place / "bare.log"
    with log.open("wb") as out:
        command = [sys.executable, "-m", "jupyterlab", "--no-browser", "--allow-root"]
        own = [f"--ServerApp.port={lab.port}", f"--ServerApp.root_dir={lab.folder}"]
        key = f"--IdentityProvider.token={lab.token}"
        server = subprocess.Popen(
            [*command, *own, key, "--expose-app-in-browser"],
            env={**os.environ, **home},
            stdout=out,
            stderr=out,
        )
        try:
            lab.wait_until_up(server, log)
            yield lab
        finally:
            server.terminate()
            server.wait(15)


def bare(lab: Lab, browser: Browser) -> dict[str, float]:
    """Seconds until the kernel of an empty notebook is idle."""
    with opened(browser) as page:
        start = time.perf_counter()
        page.goto(f"http://127.0.0.1:{lab.port}/lab/tree/empty.ipynb?token={lab.token}")
        page.wait_for_function(IDLE)
        found = time.perf_counter() - start
    lab.close_sessions()
    return {"bare": found}


def lessons(lab: Lab, browser: Browser) -> dict[str, float]:
    """Seconds until a lesson's still picture, until it is alive, and for the next one."""
    found = {}
    with opened(browser) as page:
        start = time.perf_counter()
        page.goto(address(lab, FRAME), wait_until="commit")
        page.wait_for_function(STILL)
        found["still picture"] = time.perf_counter() - start
        page.wait_for_selector(ALIVE)
        found["alive"] = time.perf_counter() - start
        page.wait_for_timeout(READING)
        start = time.perf_counter()
        page.get_by_role("link", name="03 · Runners, slot and panel").click()
        page.wait_for_function("document.querySelectorAll('[data-hivecalc=alive]').length === 2")
        found["second lesson"] = time.perf_counter() - start
    lab.close_sessions()
    return found


@contextmanager
def opened(browser: Browser) -> Iterator[Page]:
    """A page that knows nothing of the pages before it."""
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    page = context.new_page()
    page.set_default_timeout(2 * PATIENCE)
    yield page
    context.close()


def address(lab: Lab, lesson: str) -> str:
    """The address that `hivecalc open` tells."""
    return f"http://127.0.0.1:{lab.port}/doc/tree/{lesson}?token={lab.token}"


def kernels_after_ten(lab: Lab, browser: Browser) -> int:
    """How many kernels are alive after ten lessons were opened one after the other."""
    with opened(browser) as page:
        for lesson in sorted((lab.folder / "workbook").glob("*.ipynb"))[:10]:
            page.goto(address(lab, f"workbook/{lesson.name}"))
            page.wait_for_selector(ALIVE)
        page.wait_for_timeout(3000)
        return len(json.loads(lab.answer("api/sessions")))


def main() -> None:
    """Print the times, and each one over the bare JupyterLab's."""
    executable = chromium() or sys.exit(HOW_TO_GET_ONE)
    console, rounds = Console(width=120), []
    console.print("load before:", *(f"{load:.2f}" for load in os.getloadavg()))
    with TemporaryDirectory() as place, running_lab(Path(place)) as ours:
        with bare_lab(Path(place)) as theirs:
            for _ in range(ROUNDS):
                with running_browser(executable) as browser:
                    rounds.append(bare(theirs, browser))
                with running_browser(executable) as browser:
                    rounds[-1] |= lessons(ours, browser)
        with running_browser(executable) as browser:
            alive = kernels_after_ten(ours, browser)
    table = Table("seconds", *map(str, range(1, ROUNDS + 1)), "median", "over the bare one's")
    middle = {name: statistics.median(r[name] for r in rounds) for name in rounds[0]}
    for name, median in middle.items():
        times = (f"{r[name]:.2f}" for r in rounds)
        over, limit = median / middle["bare"], LIMITS.get(name)
        told = f"× {over:.2f} {'' if limit is None else 'held' if over <= limit else 'MISSED'}"
        table.add_row(name, *times, f"{median:.2f}", f"{told} ({limit})" if limit else "")
    console.print(table)
    console.print(f"kernels alive after ten lessons: {alive} (at most 3)")
    console.print("load after:", *(f"{load:.2f}" for load in os.getloadavg()))


if __name__ == "__main__":
    main()
