"""What a kernel of the course does as it starts, while JupyterLab is still on its way."""

import contextlib

with contextlib.suppress(ImportError):  # a lesson says so itself
    import hivecalc.widgets  # noqa: F401
del contextlib
