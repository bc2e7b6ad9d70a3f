"""What a kernel of the course does as it starts, while JupyterLab is still on its way."""

import contextlib

with contextlib.suppress(ImportError, KeyboardInterrupt):  # a lesson says so; it is ended
    import hivecalc.widgets  # noqa: F401
del contextlib
