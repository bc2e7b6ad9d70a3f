"""Acting as a user who owns nothing, for root may do everything."""

import os
from collections.abc import Iterator
from contextlib import contextmanager

NOBODY = 65534


@contextmanager
def as_nobody() -> Iterator[None]:
    """Act as a user who owns nothing, until the block ends; as oneself where that is no root."""
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)
