"""Fixtures for all tests: steady hypothesis settings and a learner at a real browser."""

import gc
import os
import shutil
import signal
import sys
from collections.abc import Generator, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from hypothesis import settings
from playwright.sync_api import BrowserContext
from xdist.plugin import pytest_xdist_auto_num_workers as usual_workers
from xdist.scheduler import LoadScopeScheduling

from hivecalc.course_folder.copying import prepare
from hivecalc.widgets import Bench
from tests.browser import PATIENCE, Lab, Learner, running_lab, running_window
from tests.chromium import HOW_TO_GET_ONE, chromium
from tests.jupyter_rig import ON_CI

# What a hundred kernels and commands import is compiled once, whatever this shell has set.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
sys.dont_write_bytecode = False

# Each run tries the same examples on CI, and a slow moment of the machine is no failure anywhere.
settings.register_profile("steady", deadline=None, derandomize=ON_CI, print_blob=True)
settings.load_profile("steady")

# A shell lets what it runs in the background ignore Ctrl-C; here it is tested, and handed on.
signal.signal(signal.SIGINT, signal.default_int_handler)


def pytest_xdist_auto_num_workers(config: pytest.Config) -> int:
    """One worker more than there are cores where browsers are driven: what waits, waits beside."""
    cores = usual_workers(config)
    return cores if "not browser" in config.option.markexpr else cores + 1


class Shares(LoadScopeScheduling):
    """A file's tests together, which share what they make, but each of the slow ones by itself.

    Marks could say so (loadgroup), but what xdist 3.8 makes of them pytest 9.2 does not see.
    """

    def _split_scope(self, nodeid: str) -> str:
        file = nodeid.partition("::")[0]
        return nodeid if "browser" in file or "notebooks" in file else file


def pytest_xdist_make_scheduler(config: pytest.Config, log: object) -> Shares:
    """Hand out the work like this, whatever the command says."""
    return Shares(config, log)


@pytest.hookimpl(wrapper=True)
def pytest_collection() -> Generator[None, object, object]:
    """What is collected stays: to look through it for garbage so often took a tenth of the time."""
    gc.disable()
    try:
        return (yield)
    finally:
        gc.freeze()
        gc.set_threshold(10_000)
        gc.enable()


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """Where a learner's hive file will be, once something is kept."""
    return tmp_path / "my-hive.toml"


@pytest.fixture
def bench(file: Path) -> Bench:
    """The panels of a page on that file."""
    return Bench(str(file))


@pytest.fixture(scope="session")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Lab]:
    """One JupyterLab for all browser tests."""
    with running_lab(tmp_path_factory.mktemp("lab")) as running:
        yield running


@pytest.fixture(scope="session")
def profile(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the browser keeps what it has loaded, for its next window, too."""
    return tmp_path_factory.mktemp("profile")


@pytest.fixture(scope="module")
def window(profile: Path) -> Iterator[BrowserContext]:
    """A window of this machine's browser; without one the test is skipped, but fails on CI."""
    executable = chromium()
    if executable is None:
        (pytest.fail if ON_CI else pytest.skip)(HOW_TO_GET_ONE)
    with running_window(executable, profile) as running:
        yield running


@pytest.fixture
def learner(window: BrowserContext, lab: Lab) -> Iterator[Learner]:
    """A learner with a fresh course folder and page."""
    with somebody(window, lab) as someone:
        yield someone


@pytest.fixture(scope="module")
def reader(window: BrowserContext, lab: Lab) -> Iterator[Learner]:
    """A learner who goes from lesson to lesson on one page, which asks nobody else for ours."""
    asked: list[str] = []
    with somebody(window, lab) as someone:
        someone.page.on("request", lambda request: asked.append(request.url))
        yield someone
    own = f"http://127.0.0.1:{lab.port}/"
    assert [url for url in asked if "hivecalc" in url and not url.startswith(own)] == []


@contextmanager
def somebody(window: BrowserContext, lab: Lab) -> Iterator[Learner]:
    """A learner with a fresh course folder and page, who must not run into a hidden error."""
    for path in lab.folder.rglob("*"):  # the folders stay: a kernel may just be starting in one
        if path.is_file() or path.is_symlink():
            path.unlink()
    shutil.rmtree(lab.settings, ignore_errors=True)  # the theme that a learner before chose
    prepare(lab.folder)
    page = window.new_page()
    page.set_default_timeout(PATIENCE)
    someone = Learner(page, lab)
    page.on("pageerror", someone.note_error)
    page.expose_function("tellError", someone.note_error)
    try:
        yield someone
    finally:
        forget = {"origin": f"http://127.0.0.1:{lab.port}", "storageTypes": "local_storage,cookies"}
        window.new_cdp_session(page).send("Storage.clearDataForOrigin", forget)
        page.close()
        lab.close_sessions()
    assert someone.errors == []
