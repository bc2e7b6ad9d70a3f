"""HiGHS in a process of its own: it reads a task, writes what it found, and reads the next one.

It is started by `highs.py`, as a file by its path, and knows nothing of hives. Ctrl-C is not for
it; what HiGHS says aloud goes nowhere; and when nobody sends tasks any more, it ends.
"""

import os
import pickle
import signal
import sys
from typing import Any

OPTIMAL, INFEASIBLE = 0, 2


def solved(task: dict[str, Any]) -> dict[str, Any] | None:
    """What HiGHS finds for a task: the unknowns from 0 up that keep all rows at the least cost.

    >>> row = {"entries": [(0, 0, 4.0), (0, 1, 7.0)], "low": [14.0], "high": [float("inf")]}
    >>> task = {"costs": [2.0, 3.0], "most": float("inf"), "seconds": 1.0, **row}
    >>> solved({**task, "whole": False})["cost"], solved({**task, "whole": True})["values"]
    (6.0, [0, 2])

    An entry is a row, a column and a number. None if HiGHS gives it up.
    """
    from scipy.sparse import csc_array  # noqa: PLC0415 - heavy, so loaded where it is used

    at, columns, numbers = zip(*task["entries"], strict=True)
    shape = (len(task["low"]), len(task["costs"]))
    rows = csc_array((numbers, (at, columns)), shape=shape, dtype=float)
    return _in_whole_numbers(task, rows) if task["whole"] else _in_fractions(task, rows)


def _in_fractions(task: dict[str, Any], rows: Any) -> dict[str, Any] | None:  # noqa: ANN401
    """Only `low` counts here."""
    import numpy as np  # noqa: PLC0415
    from scipy.optimize import linprog  # noqa: PLC0415

    options: Any = {"time_limit": task["seconds"]}
    low = -np.array(task["low"])
    found: Any = linprog(task["costs"], -rows, low, method="highs-ds", options=options)
    if found.status != OPTIMAL:
        return None
    worth = [-float(value) for value in found.ineqlin.marginals]
    return {"values": found.x.tolist(), "cost": float(found.fun), "worth": worth}


def _in_whole_numbers(task: dict[str, Any], rows: Any) -> dict[str, Any]:  # noqa: ANN401
    """Nothing is prepared ("presolve"): on such tasks that took ten times as long as it saved."""
    from scipy.optimize import Bounds, milp  # noqa: PLC0415

    options: Any = {"time_limit": task["seconds"], "mip_rel_gap": 0, "presolve": False}
    found: Any = milp(
        task["costs"],
        integrality=[1] * len(task["costs"]),
        bounds=Bounds(0, task["most"]),
        constraints=_scaled(rows, task["low"], task["high"]),
        options=options,
    )
    least = float("inf") if found.status == INFEASIBLE else found.mip_dual_bound or 0.0
    values = None if found.x is None else [round(value) for value in found.x]
    done = found.status in {OPTIMAL, INFEASIBLE}
    return {"values": values, "bound": max(0.0, float(least)), "done": done}


def _scaled(rows: Any, low: list[float], high: list[float]) -> Any:  # noqa: ANN401
    """The rows with numbers about 1: with others HiGHS finds what it has to mend afterwards."""
    import numpy as np  # noqa: PLC0415
    from scipy.optimize import LinearConstraint  # noqa: PLC0415
    from scipy.sparse import diags_array  # noqa: PLC0415

    by_row = rows.tocsr()
    sizes = np.array([_middle(abs(by_row[[i]].data)) for i in range(rows.shape[0])])
    return LinearConstraint(
        diags_array(1 / sizes) @ rows, np.array(low) / sizes, np.array(high) / sizes
    )


def _middle(numbers: Any) -> float:  # noqa: ANN401
    some = numbers[numbers > 0]
    return float((some.min() * some.max()) ** 0.5) if len(some) else 1.0


def main() -> None:
    """Read tasks from standard input and write what is found to standard output, until it ends."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    with os.fdopen(os.dup(sys.stdout.fileno()), "wb") as out:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        while True:
            try:
                task = pickle.load(sys.stdin.buffer)  # noqa: S301 - from the process that started it
            except EOFError:
                return
            pickle.dump(solved(task), out)
            out.flush()


if __name__ == "__main__":
    main()
