"""The learner's hive and the file it is kept in, for everything on one page to share."""

import os
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Final, TypeAlias

from hivecalc.answers import Answers, answers_path
from hivecalc.components import DIMENSIONS, PRACTICE, built, checked, worked_out_on
from hivecalc.course_folder import FOLDERS, HIVE_FILE, HIVE_VARIABLE
from hivecalc.hive import (
    BOX_SIZES,
    HIVE_SIZES,
    OPENINGS,
    SIZED_BY,
    Fault,
    Hive,
    HiveFaults,
    changed,
    demo_hive,
    hive_from_file,
    hive_from_text,
    hive_text,
    locked,
    save,
    with_reading,
)
from hivecalc.hive.hive import line_of
from hivecalc.length import Units
from hivecalc.support.files import stamp
from hivecalc.workshop import turn_yard

FRAMES: Final = 10
"""Frames of a box that a page makes where the learner's hive has none: the usual number."""


def hive_path(hive_file: str = "") -> Path:
    """Where the learner's hive is kept: as given, as the environment says, or in the course folder.

    `hive_file` wins, then the variable HIVECALC_HIVE, then my-hive.toml beside the lessons' folder.
    """
    given = hive_file or os.environ.get(HIVE_VARIABLE, "")
    if given:
        return Path(given)
    here = Path.cwd()
    return (here.parent if here.name in FOLDERS else here) / HIVE_FILE


class PageHive:
    """The one place on a page that knows the hive: it reads it, saves it and tells every panel.

    A file that can't be read is left alone, and the demo hive stands in for it. A change that can't
    be made raises HiveFaults, and then nothing has changed. What another window has saved is seen
    at the next look.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self.faults: tuple[str, ...] = ()
        self._watchers: list[Callable[[], None]] = []
        self._hive, self._stamp = demo_hive(), stamp(path)
        try:
            self._hive = self._on_disk()
        except HiveFaults as error:
            self.faults = tuple(str(f) for f in error.faults)
        self.answers = Answers(answers_path(path), self._hive.name)

    @property
    def hive(self) -> Hive:
        """The hive as the file has it now; where that can't be read, as it was before."""
        now = stamp(self.path)
        if now != self._stamp:
            self._stamp = now
            with suppress(HiveFaults):
                self._take(self._on_disk())
        return self._hive

    def _take(self, hive: Hive) -> None:
        self._hive, self.faults, self.answers.hive = hive, (), hive.name
        for watcher in self._watchers:
            watcher()

    def _on_disk(self) -> Hive:
        """The hive as it stands in the file now; the demo hive where there is no file."""
        return checked(hive_from_file(self.path)) if self.path.exists() else demo_hive()

    @property
    def demo(self) -> bool:
        """Whether this is the demo hive still: nothing of the learner's own was saved."""
        return _is_demo(self.hive)

    def watch(self, watcher: Callable[[], None]) -> None:
        """Call this whenever the hive has changed."""
        self._watchers.append(watcher)

    def keep(self, name: str, text: str) -> Hive:
        """Read a measurement, save it in the file as that stands now, and tell the panels.

        An empty text takes the measurement out again. Another window's changes are not lost: the
        file is read anew, and only this name is changed.
        """
        return self._change(lambda now: _with(now, name, text))

    def keep_reading(self, name: str, place: int, text: str) -> Hive:
        """Keep one reading of a size in the file, or take it out where the text is empty."""
        return self._change(lambda now: with_reading(now, name, place, text))

    def keep_box(self, texts: Mapping[str, str]) -> Hive:
        """Make the hive of a box and its sleeve; the size it had before is set aside."""
        return self._change(lambda now: of_box(now, texts))

    def go_back(self) -> Hive:
        """Give the hive the size that was set aside, and set aside the one that it has now."""
        return self._change(_with_sizes_before)

    def rename(self, name: str) -> Hive:
        """Give the hive another name."""
        named = line_of(name, "the name")
        return self._change(lambda now: self._read_back(replace(now, name=named)))

    def count_in(self, units: Units) -> Hive:
        """Keep the same sizes, read and written in this unit from now on.

        The demo hive, which nobody has measured, is one of whole millimetres then, or of inches.
        A yard file beside it that is still as it was given is then one in this unit, too.
        """

        def turned(now: Hive) -> Hive:
            if _is_demo(now):
                return demo_hive(units)
            return self._read_back(replace(now, units=units))

        hive = self._change(turned)
        turn_yard(self.path, units)
        return hive

    def _read_back(self, hive: Hive) -> Hive:
        return hive_from_text(hive_text(hive), place=str(self.path))

    def _change(self, made: Callable[[Hive], Hive]) -> Hive:
        """Save what is made of the hive in the file, and tell the panels.

        The file is held from reading to writing, so that no other window's change is lost.
        """
        with locked(self.path):
            hive = made(self._on_disk())
            save(self.path, checked(hive))
            self._stamp = stamp(self.path)
        self._take(hive)
        return hive


def _is_demo(hive: Hive) -> bool:
    """Whether it is the demo hive of its own tape, as it is given."""
    return hive == demo_hive(hive.units)


def _with(hive: Hive, name: str, text: str) -> Hive:
    """Return the hive with a measurement as this text gives it, or without it."""
    if name in HIVE_SIZES and name not in hive.measured:
        raise HiveFaults([Fault(name, "it is worked out from your box", "change that instead")])
    return changed(hive, {name: text}) if text.strip() else _without(hive, name)


def _with_sizes_before(hive: Hive) -> Hive:
    if not hive.set_aside:
        raise HiveFaults([Fault("back", "no size is set aside", "this one stays")])
    before = sizes_given(hive)
    return replace(changed(_without(hive, *before), hive.set_aside), set_aside=before)


def sizes_given(hive: Hive) -> dict[str, Fraction]:
    """The sizes from which the hive comes: its own, those of its box, or its frames."""
    given = {**hive.measured, **hive.chosen}
    return {n: given[n] for n in SIZED_BY if n in given}


def of_box(hive: Hive, texts: Mapping[str, str]) -> Hive:
    """The hive made of a box with these sizes or frames; what gave its size before is set aside.

    Raises HiveFaults.
    """
    before = sizes_given(hive)
    new = changed(_without(hive, *before), texts)
    return checked(new if before.keys() <= texts.keys() else replace(new, set_aside=before))


def _without(hive: Hive, *names: str) -> Hive:
    return replace(
        hive,
        measured={n: v for n, v in hive.measured.items() if n not in names},
        chosen={n: v for n, v in hive.chosen.items() if n not in names},
    )


class Made:
    """The page's hive made over, for panels that need another: looked at, never kept."""

    def __init__(self, shared: "SharedHive", made: Callable[[Hive], Hive]) -> None:
        self.path: Path = shared.path
        self.answers: Answers = shared.answers
        self.watch: Callable[[Callable[[], None]], None] = shared.watch
        self._shared, self._made = shared, made
        self._of, self._is = shared.hive, made(shared.hive)

    @property
    def hive(self) -> Hive:
        """The hive as these panels see it now."""
        if self._of is not self._shared.hive:
            self._of = self._shared.hive
            self._is = self._made(self._of)
        return self._is


SharedHive: TypeAlias = PageHive | Made
"""A page's hive as a panel looks at it: what it is now, and word of each change."""


def made_from_frames(hive: Hive) -> Hive:
    """The same stock and choices, with the box made from the usual frames, and its sleeve."""
    sizeless = _without(hive, *HIVE_SIZES, *BOX_SIZES, *OPENINGS)
    return checked(replace(sizeless, chosen={**hive.chosen, "frames": Fraction(FRAMES)}))


def with_a_box(hive: Hive) -> Hive:
    """The learner's hive where it is a box in a sleeve, else one made from frames."""
    return hive if "sleeve" in built(hive) else made_from_frames(hive)


def to_ask_on(hive: Hive, name: str) -> Hive:
    """The hive that a size is asked for: the learner's, or one from frames if it has not that."""
    own = DIMENSIONS.dimension(name).component in (*built(hive), PRACTICE)
    known = worked_out_on(hive, name).measurements
    return hive if own and name not in known else made_from_frames(hive)
