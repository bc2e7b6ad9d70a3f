"""One test over many cases: it runs them all, and says which of them failed."""

from collections.abc import Callable, Iterable
from typing import Any


def each(cases: Iterable[Any] | Callable[[], Iterable[Any]]) -> Callable[..., Callable[[], None]]:
    """Make a test of one case into a test of all of these, which a function may make in time."""

    def over_all(test: Callable[[Any], None]) -> Callable[[], None]:
        def looped() -> None:
            listed = list(cases() if callable(cases) else cases)
            assert listed
            failed = {}
            for case in listed:
                try:
                    test(case)
                except AssertionError as error:
                    failed[str(case)] = error
            for case, error in failed.items():
                error.add_note(f"in {case}; {len(failed)} of {len(listed)} fail")
                raise error

        looped.__name__, looped.__doc__ = test.__name__, test.__doc__
        return looped

    return over_all
