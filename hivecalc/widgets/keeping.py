"""The learner's hive and the file it is kept in, for everything on one page to share."""

import os
from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

from hivecalc.answers import Answers, answers_path
from hivecalc.components import checked
from hivecalc.hive import (
    BOX_SIZES,
    HIVE_SIZES,
    Hive,
    HiveFaults,
    changed,
    demo_hive,
    hive_from_file,
    hive_from_text,
    hive_text,
    save,
)
from hivecalc.length import Units

FILE_NAME = "my-hive.toml"


def hive_path(hive_file: str = "", start: Path | None = None) -> Path:
    """Where the learner's hive is kept: as told, as the environment says, or in the course folder.

    >>> hive_path("/tmp/hive.toml")
    PosixPath('/tmp/hive.toml')

    `hive_file` wins, then the variable HIVECALC_HIVE, then my-hive.toml beside the lessons' folder.
    """
    told = hive_file or os.environ.get("HIVECALC_HIVE", "")
    if told:
        return Path(told)
    here = start or Path.cwd()
    folder = here.parent if here.name in {"workbook", "exercises", "solutions"} else here
    return folder / FILE_NAME


class Keeper:
    """The hive of one page: read at the start, saved as it changes, watched by the panels.

    A file that can't be read is left alone, and the demo hive stands in for it.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self.faults: tuple[str, ...] = ()
        self.hive = self._opened()
        self.answers = Answers(answers_path(path), self.hive.name)
        self._watchers: list[Callable[[], None]] = []

    def _opened(self) -> Hive:
        try:
            return self._on_disk()
        except HiveFaults as error:
            self.faults = tuple(str(f) for f in error.faults)
            return demo_hive()

    def _on_disk(self) -> Hive:
        """The hive as it stands in the file now; the demo hive where there is no file."""
        return checked(hive_from_file(self.path)) if self.path.exists() else demo_hive()

    @property
    def demo(self) -> bool:
        """Whether this is the demo hive still: nothing of the learner's own was saved."""
        return self.hive == demo_hive()

    def watch(self, watcher: Callable[[], None]) -> None:
        """Call this whenever the hive has changed."""
        self._watchers.append(watcher)

    def keep(self, name: str, text: str) -> Hive:
        """Read a measurement, save it in the file as that stands now, and tell the panels.

        An empty text takes the measurement out again. Another window's changes are not lost: the
        file is read anew, and only this name is changed. Raises HiveFaults, and then nothing has
        changed.
        """
        now = self._on_disk()
        return self._kept(changed(now, {name: text}) if text.strip() else _without(now, name))

    def keep_box(self, texts: Mapping[str, str]) -> Hive:
        """Make the hive of a measured box and its sleeve, in place of its own size or its frames.

        Raises HiveFaults, and then nothing has changed.
        """
        now = self._on_disk()
        for name in (*HIVE_SIZES, "frames"):
            now = _without(now, name)
        return self._kept(changed(now, texts))

    def rename(self, name: str) -> Hive:
        """Give the hive another name. Raises HiveFaults."""
        now = replace(self._on_disk(), name=name)
        return self._kept(hive_from_text(hive_text(now), place=str(self.path)))

    def count_in(self, units: Units) -> Hive:
        """Keep the same sizes, read and written in this unit from now on. Raises HiveFaults."""
        now = replace(self._on_disk(), units=units)
        return self._kept(hive_from_text(hive_text(now), place=str(self.path)))

    def _kept(self, hive: Hive) -> Hive:
        self._write(checked(hive))
        self.hive, self.faults, self.answers.hive = hive, (), hive.name
        for watcher in self._watchers:
            watcher()
        return hive

    def _write(self, hive: Hive) -> None:
        save(self.path, hive)


def _without(hive: Hive, name: str) -> Hive:
    return replace(
        hive,
        measured={n: v for n, v in hive.measured.items() if n != name},
        chosen={n: v for n, v in hive.chosen.items() if n != name},
    )


class OnThisPage(Keeper):
    """A hive that is looked at on this page only: whatever changes is not saved."""

    def __init__(self, hive: Hive, like: Keeper) -> None:
        super().__init__(like.path)
        self.hive, self.answers = hive, like.answers

    def _on_disk(self) -> Hive:
        return self.hive if hasattr(self, "hive") else super()._on_disk()

    def _write(self, hive: Hive) -> None:
        """Keep nothing."""


def made_from_frames(hive: Hive, frames: int) -> Hive:
    """The same stock and choices, with the box made from so many frames and the sleeve round it.

    >>> made_from_frames(demo_hive(), 8).chosen["frames"]
    Fraction(8, 1)
    """
    measured = {n: v for n, v in hive.measured.items() if n not in {*HIVE_SIZES, *BOX_SIZES}}
    return checked(
        replace(hive, measured=measured, chosen={**hive.chosen, "frames": Fraction(frames)})
    )
