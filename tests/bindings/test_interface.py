"""What the two bindings offer is what they say they offer."""

import re
import subprocess
import sys
import threading
import time
from importlib.metadata import version
from importlib.resources import files
from pathlib import Path

import mixcalc

ROOT = Path(__file__).parents[2]


def test_public_names():
    assert mixcalc.__all__ == sorted(mixcalc.__all__)
    # Modules that are imported by themselves are there once somebody has.
    public = {name for name in vars(mixcalc) if not name.startswith("_")} - {"errors", "applied", "dask", "streams"}
    assert public <= {*mixcalc.__all__} <= {*vars(mixcalc)}, "what is imported is offered"
    assert all(getattr(mixcalc, name).__doc__ for name in mixcalc.__all__)
    assert mixcalc.UnitError.__module__ == "mixcalc.errors"


def test_version_is_that_of_the_wheel_and_of_c(header):
    assert mixcalc.__version__ == version("mixcalc") == re.search(r'MIXCALC_VERSION "(.*)"', header)[1]


def test_the_package_is_typed_and_installed():
    package = files("mixcalc")
    assert (package / "py.typed").is_file() and (package / "_mixcalc.pyi").is_file()
    assert ROOT / "mixcalc-py" not in Path(mixcalc.__file__).parents, "test the wheel, not the sources"


def test_other_threads_run_while_a_job_is_planned():
    """Nobody is made to give way, so another thread gets on only if the call lets it."""
    counted, stop = 0, False

    def count():
        nonlocal counted
        while not stop:
            counted += 1
            time.sleep(0)  # gives way itself

    job = (ROOT / "docs/examples/demo.toml").read_bytes()
    interval = sys.getswitchinterval()
    sys.setswitchinterval(60)
    thread = threading.Thread(target=count)
    try:
        thread.start()
        before, patience = counted, time.monotonic() + 20
        while counted == before and time.monotonic() < patience:
            mixcalc.plan_json(job)
        assert counted > before
    finally:
        stop = True
        sys.setswitchinterval(interval)
        thread.join()


def test_exported_symbols_are_those_of_the_header(header, c_library):
    declared = set(re.findall(r"\b(mixcalc_\w+)\(", re.sub(r"/\*.*?\*/", "", header, flags=re.S)))
    listed = subprocess.run(["nm", "-D", "--defined-only", c_library], capture_output=True, text=True, check=True).stdout
    exported = {name.split("@")[0] for name in re.findall(r" [A-Z] (\S+)", listed)}
    assert declared and exported == declared
