"""Where the programs under test are; `make test-bindings` builds them and says so in the environment."""

import os
from pathlib import Path

import pytest
from hypothesis import settings

ROOT = Path(__file__).parents[2]

# The same examples in every run: a failure is the change's, and a new one is found where somebody looks for it.
settings.register_profile("mixcalc", derandomize=True, database=None, deadline=None)
settings.load_profile("mixcalc")


def document_of(case: dict) -> bytes:
    """The document of a case of refused.json: text, hexadecimal digits of bytes, or a piece many times over, ``{n}`` its number."""
    document = case["document"]
    if isinstance(document, str):
        return document.encode()
    if "hex" in document:
        return bytes.fromhex(document["hex"])
    piece, times = document["repeat"], document["times"]
    pieces = "".join(piece.replace("{n}", str(n)) for n in range(times)) if "{n}" in piece else piece * times
    return (document.get("before", "") + pieces + document.get("after", "")).encode()


def built(variable: str) -> Path:
    """What `variable` points at; a test that cannot find it fails, since one that is skipped proves nothing."""
    path = Path(os.environ.get(variable, ""))
    if not os.environ.get(variable) or not path.exists():
        pytest.fail(f"{variable} must name what is to be tested: run `make test-bindings`", pytrace=False)
    return path


@pytest.fixture(scope="session")
def c_programs() -> Path:
    """The folder of the programs in C and C++ of this folder, compiled."""
    return built("MIXCALC_C_PROGRAMS")


@pytest.fixture(scope="session")
def c_plan(c_programs) -> Path:
    """tests/bindings/plan.c, compiled."""
    return c_programs / "plan"


@pytest.fixture(scope="session")
def c_package() -> Path:
    """What `make install` puts in place."""
    return built("MIXCALC_C_PACKAGE")


@pytest.fixture(scope="session")
def c_library(c_package) -> Path:
    """The shared library as it is installed."""
    return c_package / "lib/libmixcalc.so"


@pytest.fixture(scope="session")
def rust_examples() -> Path:
    """The folder of the core crate's examples, compiled."""
    return built("MIXCALC_RUST_EXAMPLES")


@pytest.fixture(scope="session")
def header() -> str:
    """The C header."""
    return (ROOT / "mixcalc-ffi/include/mixcalc.h").read_text(encoding="utf-8")
