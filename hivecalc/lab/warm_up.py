"""What a kernel of the course does as it starts, while JupyterLab is still on its way."""

import contextlib
import gc

with contextlib.suppress(ImportError, KeyboardInterrupt):  # a lesson says so; it is ended
    import hivecalc.widgets  # noqa: F401
gc.freeze()  # what is loaded stays: looking through it for rubbish would hold up a slider
del contextlib, gc
