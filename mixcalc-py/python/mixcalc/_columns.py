"""What every function of `mixcalc.columns` does around the call of the core: arrays and frames in, the same kind out. No arithmetic."""

import importlib
import math
import sys

from mixcalc import _mixcalc
from mixcalc.errors import InputError

# Parameters of every function that are no inputs.
WAYS = ("frame", "out", "on_error", "threads", "progress")

# Rows between two reports of progress.
_CHUNK = 1 << 20


def _refused(path, given, allowed):
    message = f"{path}: must be {allowed}, got {given}"
    return InputError(message, code=504, name="wrong-type", path=path, given=given, allowed=allowed)


def _array(path, value):
    """A value as an array of doubles: itself where it is one."""
    import numpy

    if isinstance(value, numpy.ma.MaskedArray):
        raise _refused(path, "a masked array", "an array without a mask: fill it, or hand over a frame, where missing stays missing")
    array = numpy.asarray(value)
    if array.dtype.kind not in "fiu":
        raise _refused(path, f"{array.dtype}", "real numbers")
    return array.astype(numpy.float64, copy=False)


def _side_by_side(array, shape):
    """An array as rows: as it lies where its rows follow each other in steps, one number where it is one, else as a copy."""
    import numpy

    if array.size == 1:
        return array.reshape(())
    if array.ndim != 1 or array.shape != shape:
        array = numpy.broadcast_to(array, shape).reshape(-1)
    (stride,) = array.strides
    fits = stride > 0 and stride % array.itemsize == 0 and array.flags.aligned and array.dtype.isnative
    return array if fits else array.copy()


def _shape(name, arrays):
    """The shape of the rows."""
    import numpy

    try:
        return numpy.broadcast_shapes(*(array.shape for array in arrays.values()))
    except ValueError:
        shapes = ", ".join(f"{path} {array.shape}" for path, array in arrays.items())
        raise _refused(name, shapes, "columns of as many rows, or one number for all rows") from None


def _reporter(progress):
    """What is told of rows done and all rows: the caller's function, or a line on stderr."""
    if callable(progress):
        return progress

    def line(done, rows):
        end = "\n" if done == rows else ""
        print(f"\r{done} of {rows} rows", end=end, file=sys.stderr, flush=True)

    return line


def _into(outputs, out, shape, columns):
    """Where the outputs go, as rows: new memory, or the caller's."""
    import numpy

    if out is None:
        return [numpy.empty(shape) for _ in outputs]
    if set(out) != set(outputs):
        raise _refused("out", ", ".join(out), "arrays by the names " + ", ".join(outputs))
    others = list(columns)
    for name in outputs:
        array = out[name]
        fits = type(array) is numpy.ndarray and array.dtype == numpy.float64 and array.dtype.isnative and array.shape == shape
        if not (fits and array.flags.carray) or any(numpy.may_share_memory(array, other) for other in others):
            raise _refused(f"out.{name}", type(array).__name__, f"a writeable array of doubles of the shape {shape} of its own memory")
        others.append(array)
    return [out[name] for name in outputs]


def _worked_out(name, outputs, given, missing, out, on_error, threads, progress):
    """Arrays by name, and the status of each row where it is asked for."""
    import numpy

    if on_error not in ("raise", "status"):
        raise _refused("on_error", repr(on_error), '"raise" or "status"')
    arrays = {path: _array(path, value) for path, value in given.items()}
    shape = _shape(name, arrays)
    rows = math.prod(shape)
    columns = [_side_by_side(array, shape) for array in arrays.values()]
    answers = _into(outputs, out, shape, columns)
    into = [array.reshape(-1) for array in answers]
    status = numpy.empty(rows, numpy.uint16)
    step = _CHUNK * max(threads, 1) if progress else max(rows, 1)
    for start in range(0, rows, step):
        part = slice(start, min(start + step, rows))
        chunk = [column[part] if column.ndim else column for column in columns]
        _mixcalc._columns(name, chunk, [array[part] for array in into], status[part], threads)
        if progress:
            _reporter(progress)(part.stop, rows)
    if missing is not None:
        status[missing] = 0
    if on_error == "raise" and status.any():
        _mixcalc._columns_explained(name, columns, int(numpy.flatnonzero(status)[0]))
    answer = dict(zip(outputs, answers))
    return answer | {"status": status.reshape(shape)} if on_error == "status" else answer


def _numbers(frame, path, column, is_number, isna, values):
    """A column of a frame as doubles, and which of them are missing."""
    if not is_number:
        raise _refused(path, f"{column!r} of {type(frame).__name__}, which holds other things", "a column of real numbers")
    missing = isna()
    return values(), missing if missing.any() else None


def _of_pandas(frame):
    def taken(path, name):
        column = frame[name]
        kind = getattr(column.dtype, "kind", "O")
        return _numbers(
            frame, path, name, kind in "fiu", lambda: column.isna().to_numpy(),
            lambda: column.to_numpy(dtype="float64", na_value=float("nan")) if column.hasnans else column.to_numpy(),
        )

    return taken, lambda answer, _: frame.assign(**answer)


def _of_polars(frame):
    import polars

    def taken(path, name):
        column = frame[name]
        return _numbers(
            frame, path, name, column.dtype.is_numeric(), lambda: column.is_null().to_numpy(),
            lambda: column.cast(polars.Float64).to_numpy(),
        )

    def given_back(answer, missing):
        def series(name, values):
            column = polars.Series(name, values)
            return column if missing is None else column.zip_with(polars.Series(~missing), column.clear(len(column)))

        return frame.with_columns([series(name, values) for name, values in answer.items()])

    return taken, given_back


def _of_arrow(frame):
    pyarrow = importlib.import_module("pyarrow")

    def taken(path, name):
        column = frame.column(name)
        kind = pyarrow.types
        is_number = kind.is_floating(column.type) or kind.is_integer(column.type)
        return _numbers(
            frame, path, name, is_number, lambda: column.is_null().to_numpy(zero_copy_only=False) if isinstance(column, pyarrow.Array)
            else column.is_null().to_numpy(), lambda: column.cast("float64").to_numpy(zero_copy_only=False)
            if isinstance(column, pyarrow.Array) else column.cast("float64").to_numpy(),
        )

    def given_back(answer, missing):
        table = frame
        for name, values in answer.items():
            table = table.append_column(name, pyarrow.array(values, mask=missing))
        return table

    return taken, given_back


def _adapter(frame):
    """How columns are taken from a frame, and given back to its kind."""
    library = type(frame).__module__.split(".")[0]
    if library == "pandas" and hasattr(frame, "assign"):
        return _of_pandas(frame)
    if library == "polars" and hasattr(frame, "is_empty"):
        return _of_polars(frame)
    if library == "pyarrow" and hasattr(frame, "append_column"):
        return _of_arrow(frame)
    if hasattr(frame, "__arrow_c_stream__"):
        pyarrow = importlib.import_module("pyarrow")

        return _of_arrow(pyarrow.table(frame))
    allowed = "a data frame of pandas or polars, or a table with the Arrow stream interface; arrays go in by their names"
    raise _refused("frame", type(frame).__name__, allowed)


def applied(frame, given, overlap, tolerance_percent, standstill_m):
    """The body of `mixcalc.applied.add_up`."""
    import numpy

    if overlap not in ("once", "each-time"):
        raise _refused("overlap", repr(overlap), '"once" or "each-time"')
    given_back = None
    if frame is not None:
        taken, given_back = _adapter(frame)
        given = {
            path: taken(path, value or path)[0] if value is None or isinstance(value, str) else value for path, value in given.items()
        }
    absent = [path for path, value in given.items() if value is None]
    if absent:
        raise TypeError(f"add_up() needs {', '.join(absent)}")
    arrays = {path: _array(path, value) for path, value in given.items()}
    shape = _shape("add_up", arrays)
    columns = [_side_by_side(array, shape) for array in arrays.values()]
    marks = numpy.empty(math.prod(shape), numpy.uint16)
    answer = _mixcalc._applied(columns, overlap == "once", tolerance_percent, standstill_m, marks)
    return *answer, marks.reshape(shape) if given_back is None else given_back({"mark": marks}, None)


def run(name, outputs, frame, given, out, on_error, threads, progress):
    """The body of every function."""
    if frame is None:
        absent = [path for path, value in given.items() if value is None]
        if absent:
            raise TypeError(f"columns.{name}() needs {', '.join(absent)}")
        return _worked_out(name, outputs, given, None, out, on_error, threads, progress)
    taken, given_back = _adapter(frame)
    arrays, missing = {}, None
    for path, value in given.items():
        if value is None or isinstance(value, str):
            arrays[path], none = taken(path, value or path)
            if none is not None:
                missing = none if missing is None else missing | none
        else:
            arrays[path] = value
    answer = _worked_out(name, outputs, arrays, missing, out, on_error, threads, progress)
    return given_back(answer, missing)


def unanswered(frame, outputs, code):
    """A frame with outputs that are not a number, and a code as the status of each row."""
    import numpy

    _, given_back = _adapter(frame)
    answer = {name: numpy.full(len(frame), math.nan) for name in outputs}
    return given_back(answer | {"status": numpy.full(len(frame), code, numpy.uint16)}, None)
