"""A learner at a real browser: JupyterLab on a course folder, a page in Chromium, what it shows."""

import json
import os
import secrets
import socket
import subprocess
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass, field
from http.client import HTTPConnection
from itertools import combinations
from math import inf
from pathlib import Path
from typing import NamedTuple
from urllib.parse import quote

from playwright.sync_api import Browser, BrowserContext, Page, Playwright, expect, sync_playwright

from hivecalc.course_folder.copying import prepare
from hivecalc.course_folder.serving import hand_over, lab_command, lab_environment
from tests.jupyter_rig import make_jupyter_home

FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",  # without a network
]
PATIENCE = 30_000  # ms before a wait in the browser counts as failed
NOTEBOOK = "window.jupyterapp?.shell.currentWidget"
KERNEL = f"{NOTEBOOK}?.sessionContext?.session?.kernel"

# How many cells of code ended in an error.
FAILED_CELLS = f"""{NOTEBOOK}.content.widgets.filter(cell => cell.model.type === 'code'
    && cell.model.outputs.toJSON().some(output => output.output_type === 'error')).length"""

# True once the lesson in front is alive: every cell was run on this page.
IS_ALIVE = f"{NOTEBOOK}?.node.dataset.hivecalc === 'alive'"

# Opens another notebook, as a link in the one in front does.
OPEN = "path => { window.jupyterapp.commands.execute('docmanager:open', {path}); }"

# Hands every error of the kernel to the function of that name that the test put into the page.
TELL_ERRORS = f"""{KERNEL}.iopubMessage.connect((_, {{header, content}}) => {{
    if (header.msg_type === 'error') window.tellError(content.ename + ': ' + content.evalue);
}})"""

# True once the kernel has answered a question put now and the page then stands still for 250 ms.
SETTLED = f"""async () => {{
    await {KERNEL}.requestKernelInfo();
    let changed = performance.now();
    const watcher = new MutationObserver(() => {{ changed = performance.now(); }});
    watcher.observe(document.body, {{subtree: true, childList: true, characterData: true}});
    const end = performance.now() + {PATIENCE};
    while (performance.now() < end) {{
        await new Promise(resolve => setTimeout(resolve, 50));
        const quiet = performance.now() - changed > 250;
        if (quiet && {KERNEL}.status === 'idle') {{ watcher.disconnect(); return true; }}
    }}
    return false;
}}"""

# One record for each text that is shown in a drawing: its box and its drawing's, in page pixels.
LABELS = """() => {
    const sides = ({left, top, right, bottom}) => [left, top, right, bottom];
    const seen = text => text.checkVisibility({visibilityProperty: true});
    const shown = text => seen(text) && text.textContent.trim() !== '';
    const letters = (text, {a, b, c, d}) =>
        parseFloat(getComputedStyle(text).fontSize) * Math.sqrt(Math.abs(a * d - b * c));
    const label = (text, drawing, edge) => [
        drawing, text.textContent.trim(), sides(text.getBoundingClientRect()), edge,
        letters(text, text.getScreenCTM()),
    ];
    const drawings = [...document.querySelectorAll('.jp-OutputArea-output svg:not(svg svg)')];
    return drawings.flatMap((svg, drawing) => [...svg.querySelectorAll('text')].filter(shown)
        .map(text => label(text, drawing, sides(svg.getBoundingClientRect()))));
}"""


class Box(NamedTuple):
    """A rectangle on the page, in CSS pixels."""

    left: float
    top: float
    right: float
    bottom: float


@dataclass(frozen=True)
class Label:
    """One text in a drawing: which drawing of the page, its box, the drawing's box, letter size."""

    drawing: int
    text: str
    box: Box
    edge: Box
    letter_px: float


def labels(page: Page) -> list[Label]:
    """Every text shown in a drawing of the page."""
    return [
        Label(drawing, text, Box(*box), Box(*edge), letter_px)
        for drawing, text, box, edge, letter_px in page.evaluate(LABELS)
    ]


def label_faults(page: Page, by: float = 1, least: float = 12) -> list[str]:
    """A sentence for each label that overlaps another, is cut off, or has too small letters.

    An overlap or overhang counts from more than `by` pixels, letters below `least` pixels.
    """
    shown = labels(page)
    pairs = [(one, other) for one, other in combinations(shown, 2) if overlap(one, other) > by]
    return [
        *(f"“{one.text}” and “{other.text}” overlap" for one, other in pairs),
        *(f"“{label.text}” is cut off" for label in shown if overhang(label) > by),
        *(f"“{label.text}” is small" for label in shown if label.letter_px < least - 0.05),
    ]


def overlap(one: Label, other: Label) -> float:
    """How far two labels of one drawing lie over one another, both ways; below 0 if apart."""
    if one.drawing != other.drawing:
        return -inf
    across = min(one.box.right, other.box.right) - max(one.box.left, other.box.left)
    return min(across, min(one.box.bottom, other.box.bottom) - max(one.box.top, other.box.top))


def overhang(label: Label) -> float:
    """How far a label stands out of its drawing, at most; below 0 if it is inside."""
    box, edge = label.box, label.edge
    beyond_start = max(edge.left - box.left, edge.top - box.top)
    return max(beyond_start, box.right - edge.right, box.bottom - edge.bottom)


@dataclass(frozen=True)
class Lab:
    """A running JupyterLab: its port, its key, the course folder, the learner's settings."""

    port: int
    token: str
    folder: Path
    settings: Path

    def answer(self, path: str, method: str = "GET") -> bytes:
        """What the server says to one request."""
        with closing(HTTPConnection("127.0.0.1", self.port, timeout=10)) as line:
            line.request(method, f"/{path}", headers={"Authorization": f"token {self.token}"})
            return line.getresponse().read()

    def close_sessions(self) -> None:
        """End every kernel, since a session outlives its page."""
        for session in json.loads(self.answer("api/sessions")):
            self.answer(f"api/sessions/{session['id']}", "DELETE")

    def wait_until_up(self, server: subprocess.Popen[bytes], log: Path) -> None:
        """Wait until the server answers; its log is the message where it does not."""
        end = time.monotonic() + 60
        while time.monotonic() < end and server.poll() is None:
            with suppress(OSError):
                self.answer("api/status")
                return
            time.sleep(0.1)
        raise RuntimeError(f"JupyterLab did not start:\n{log.read_text()}")


@contextmanager
def running_lab(place: Path) -> Iterator[Lab]:
    """A JupyterLab that runs until the block ends: on `place`/course, as `hivecalc open` runs it.

    It has a home of its own, a fixed port and key, and lets a test watch it in the page.
    """
    home = make_jupyter_home(place / "home")
    course = prepare(place / "course")
    environment = lab_environment(course, {**os.environ, **home})
    settings = Path(environment["JUPYTERLAB_SETTINGS_DIR"])
    lab = Lab(free_port(), secrets.token_hex(16), course.folder, settings)
    port = [f"--ServerApp.port={lab.port}", "--ServerApp.port_retries=0"]
    log = place / "lab.log"
    with log.open("wb") as out:
        server = subprocess.Popen(
            [*lab_command(course), *port, "--expose-app-in-browser"],
            env=environment,
            bufsize=0,
            stdin=subprocess.PIPE,
            stdout=out,
            stderr=out,
        )
        try:
            hand_over(server, lab.token)
            lab.wait_until_up(server, log)
            yield lab
        finally:
            server.terminate()
            server.communicate(timeout=15)


def free_port() -> int:
    """A port of this machine that nothing uses at the moment."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@contextmanager
def running_browser(executable: str) -> Iterator[Browser]:
    """The browser until the block ends; each of its pages knows nothing of the ones before."""
    with patient_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=executable, args=FLAGS)
        try:
            yield browser
        finally:
            browser.close()


@contextmanager
def running_window(executable: str, profile: Path) -> Iterator[BrowserContext]:
    """A window of the browser that keeps what it has loaded, as people's do, for its next pages."""
    with patient_playwright() as playwright:
        window = playwright.chromium.launch_persistent_context(
            profile, executable_path=executable, args=FLAGS, viewport={"width": 1366, "height": 768}
        )
        try:
            yield window
        finally:
            window.close()


@contextmanager
def patient_playwright() -> Iterator[Playwright]:
    """Playwright, with waits of ours."""
    expect.set_options(timeout=PATIENCE)
    with sync_playwright() as playwright:
        yield playwright


@dataclass
class Learner:
    """Somebody who works through a course folder in the browser.

    `errors` gathers what a learner would not see: errors of the page, and errors of the kernel,
    among them those of a widget's callback, which JupyterLab shows nowhere.
    """

    page: Page
    lab: Lab
    errors: list[str] = field(default_factory=list)

    def note_error(self, error: object) -> None:
        self.errors.append(str(error))

    def address(self, name: str) -> str:
        """The address of a notebook, with the key."""
        lesson = f"http://127.0.0.1:{self.lab.port}/doc/tree/{quote(name)}"
        return f"{lesson}?token={self.lab.token}"

    def open_lesson(self, name: str, *, press: bool = False) -> None:
        """Open a notebook by its path in the course folder, and wait until it has run.

        One that is not the course's own needs a press first.
        """
        self.page.goto(self.address(name))
        expect(self.page.locator(".jp-Notebook:visible")).to_have_count(1)
        self.wait_for(f"Boolean({KERNEL})")
        self.page.evaluate(TELL_ERRORS)
        if press:
            self.page.get_by_role("button", name="Run it", exact=True).click()
        self.wait_until_run()

    def wait_for(self, true: str, arg: str | None = None) -> None:
        """Wait until this holds on the page: asked ten times a second, not at every frame."""
        self.page.wait_for_function(true, arg=arg, polling=100)

    def go_on_to(self, name: str) -> None:
        """Open another notebook from the one in front, as a link in it does."""
        self.page.evaluate(OPEN, name)
        self.wait_until_run(name)

    def wait_until_run(self, name: str = "") -> None:
        """Wait until the lesson in front, or the one with this name, has run without a fault."""
        if name:
            self.wait_for(f"name => {NOTEBOOK}?.context?.path === name", name)
            self.wait_for(f"Boolean({KERNEL})")
            self.page.evaluate(TELL_ERRORS)
        self.wait_for(IS_ALIVE)
        self.wait_idle()
        assert self.page.evaluate(FAILED_CELLS) == 0, "a cell of the lesson failed"

    def wait_idle(self) -> None:
        """Wait until the kernel has done what was asked and the page stands still."""
        assert self.page.evaluate(SETTLED), "the page did not come to rest"

    def enter(self, label: str, text: str) -> None:
        """Type into the field with this label and press Enter."""
        box = self.page.get_by_label(label, exact=True)
        box.fill(text)
        box.press("Enter")
        self.wait_idle()

    def view(self, width: int, height: int, zoom: float = 1) -> None:
        """Give the window the room it has on a screen of this size at this zoom (1.5 is 150 %)."""
        self.page.set_viewport_size({"width": round(width / zoom), "height": round(height / zoom)})
        self.wait_idle()

    def choose_theme(self, name: str) -> None:
        """Change JupyterLab's theme: "JupyterLab Light", "JupyterLab Dark"."""
        self.page.evaluate(
            "theme => window.jupyterapp.commands.execute('apputils:change-theme', {theme})", name
        )
        expect(self.page.locator("body")).to_have_attribute("data-jp-theme-name", name)
        self.wait_idle()
