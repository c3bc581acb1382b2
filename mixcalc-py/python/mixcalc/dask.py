"""Sums over columns of a Dask frame, larger than the memory of a machine, on as many workers as there are. Needs the extra `dask`.

Each partition is worked out as `mixcalc.columns` works out a frame, so that a row is the same to the last bit wherever it is worked out:

>>> import dask.dataframe, pandas
>>> import mixcalc.dask
>>> fields = dask.dataframe.from_pandas(pandas.DataFrame({"area_ha": [1.2, -1.0, 0.4]}), npartitions=2)
>>> mixcalc.dask.run("mix", fields, volume_rate_l_per_ha=200.0).compute()["status"].tolist()
[0, 103, 0]
"""

from collections.abc import Iterator
from typing import Any

from mixcalc import streams

__all__ = ["completed", "run"]


def run(calculation: str, frame: Any, /, **given: Any) -> Any:
    """A calculation over a Dask frame: the frame with outputs and `status` beside its columns. Nothing is worked out yet.

    A partition whose columns cannot be taken, such as text in place of numbers, has no outputs, and the code of its error as the status of
    each row; the others are worked out.

    Parameters
    ----------
    calculation
        name of a function of `mixcalc.columns`.
    frame
        a Dask frame.
    given
        as for that function: one number for all rows or the name of a column; one left out is the column of its own name.

    Returns
    -------
    dask.dataframe.DataFrame
        With as many partitions and rows, and the same index.

    Raises
    ------
    InputError
        For a calculation that there is not.
    """
    function = streams.named(calculation)
    meta = streams.partition(function, frame._meta, 1, given)
    return frame.map_partitions(_partition, calculation, given, meta=meta)


def _partition(frame: Any, calculation: str, given: dict[str, Any]) -> Any:
    return streams.partition(streams.named(calculation), frame, 1, given)


def completed(frame: Any, client: Any) -> Iterator[tuple[int, Any]]:
    """The partitions of a Dask frame as they are done, so that one that fails, such as one that cannot be read, does not take the others with it.

    A worker that dies is the scheduler's to replace: its partitions are worked out again.

    Parameters
    ----------
    frame
        a Dask frame, such as `run` hands back.
    client
        of the cluster.

    Yields
    ------
    tuple
        The number of a partition, from 0, and its pandas frame, or the exception that it failed with.
    """
    from distributed import as_completed

    futures = client.compute(frame.to_delayed())
    numbers = {future.key: number for number, future in enumerate(futures)}
    for future in as_completed(futures):
        yield numbers[future.key], future.result() if future.status == "finished" else future.exception()
