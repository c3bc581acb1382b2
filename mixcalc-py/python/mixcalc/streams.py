"""Sums over columns that come a record batch at a time: larger than memory, or on an engine that hands batches to its workers.

    >>> import pyarrow
    >>> from mixcalc import streams
    >>> fields = pyarrow.record_batch({"area_ha": [1.0, -1.0, 0.4]})
    >>> (done,) = streams.run("mix", [fields], volume_rate_l_per_ha=200.0)
    >>> done["mix_l"].to_pylist()[::2], done["status"].to_pylist()
    ([200.0, 80.0], [0, 103, 0])

`functools.partial(streams.run, "mix", volume_rate_l_per_ha=200.0)` is a function from an iterator to an iterator that can be sent to other
processes.
"""

import inspect
from collections.abc import Iterable, Iterator
from typing import Any

from mixcalc import _columns, columns
from mixcalc.errors import InputError

__all__ = ["run"]


def run(calculation: str, batches: Iterable[Any], /, *, threads: int = 1, **given: Any) -> Iterator[Any]:
    """A calculation over batches: each comes back with the outputs and the status of each row beside its columns.

    What a row is given does not depend on the batch that it stands in. A batch whose columns cannot be taken, such as text in place of
    numbers, has no outputs, and the code of its error as the status of each row; those before and after it are worked out.

    Parameters
    ----------
    calculation
        name of a function of `mixcalc.columns`.
    batches
        record batches of pyarrow, or tables.
    threads
        for each batch.
    given
        as for that function: one number for all rows or the name of a column; one left out is the column of its own name.

    Returns
    -------
    Iterator
        Of as many batches of as many rows, one at a time.

    Raises
    ------
    InputError
        For a calculation that there is not.
    """
    function = named(calculation)
    return (partition(function, batch, threads, given) for batch in batches)


def named(calculation: str) -> Any:
    """The function of a name."""
    if calculation not in columns.__all__:
        allowed = ", ".join(columns.__all__)
        message = f"calculation: must be one of {allowed}, got {calculation}"
        raise InputError(message, code=113, name="unknown-choice", path="calculation", given=calculation, allowed=allowed)
    return getattr(columns, calculation)


def partition(function: Any, frame: Any, threads: int, given: dict[str, Any]) -> Any:
    """A frame worked out; one whose columns cannot be taken says why in the status of each row."""
    try:
        return function(frame, **given, on_error="status", threads=threads)
    except InputError as error:
        inputs = [name for name in inspect.signature(function).parameters if name not in _columns.WAYS]
        outputs = [name for name in function(**dict.fromkeys(inputs, ()), on_error="status") if name != "status"]
        return _columns.unanswered(frame, outputs, error.code)
