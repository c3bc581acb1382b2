"""mixcalc.hpp: its promises, what it refuses to compile, and that it covers the C interface."""

import os
import re
import subprocess
from pathlib import Path

import pytest

HERE = Path(__file__).parent
INCLUDE = HERE.parents[2] / "mixcalc-ffi/include"
CXX = [*os.environ.get("CXX", "c++").split(), "-std=c++17", "-Wall", "-Wextra", "-Wpedantic", "-Wshadow", "-Wconversion", "-Werror"]


def compiled(path: Path, *more: str) -> subprocess.CompletedProcess:
    return subprocess.run([*CXX, f"-I{INCLUDE}", *more, path], capture_output=True, text=True, env={**os.environ, "LC_ALL": "C"})


def test_promises_of_cpp_hold(c_programs, c_package, tmp_path):
    link = [f"-L{c_package / 'lib'}", f"-Wl,-rpath,{c_package / 'lib'}", "-o", tmp_path / "quantities"]
    done = subprocess.run(
        [*CXX, f"-I{c_package / 'include'}", HERE / "quantities.cpp", "-lmixcalc", *link], capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr
    job = HERE.parents[2] / "docs/examples/demo.toml"
    done = subprocess.run([tmp_path / "quantities", job, c_programs / "stopped.toml"], capture_output=True, text=True)
    assert (done.returncode, done.stdout) == (0, "all promises hold\n"), done.stderr


@pytest.mark.parametrize("path", sorted((HERE / "refused").glob("*.cpp")), ids=lambda path: path.stem)
def test_what_mixes_up_units_does_not_compile(path):
    """The right way compiles, so that the wrong way fails for the reason that its file says."""
    right, wrong = compiled(path, "-fsyntax-only"), compiled(path, "-fsyntax-only", "-DWRONG")
    assert right.returncode == 0, right.stderr
    assert wrong.returncode != 0
    says = re.search(r"// says: (.*)", path.read_text(encoding="utf-8"))[1]
    if "Free Software Foundation" in subprocess.run([CXX[0], "--version"], capture_output=True, text=True).stdout:
        assert any(re.search(says, line) for line in wrong.stderr.splitlines() if "error:" in line), wrong.stderr


def test_there_are_cases_that_do_not_compile():
    assert len(list((HERE / "refused").glob("*.cpp"))) == 10


def test_every_function_of_c_is_called(header):
    declared = set(re.findall(r"\b(mixcalc_\w+)\(", re.sub(r"/\*.*?\*/", "", header, flags=re.S)))
    called = set(re.findall(r"\bmixcalc_\w+", (INCLUDE / "mixcalc.hpp").read_text(encoding="utf-8")))
    assert declared and declared <= called, declared - called


@pytest.mark.parametrize("standard", ["c++17", "c++20"])
def test_each_header_compiles_alone(standard, tmp_path):
    for header in ("mixcalc.h", "mixcalc.hpp"):
        (tmp_path / "alone.cpp").write_text(f'#include "{header}"\n#include "{header}"\n', encoding="utf-8")
        done = compiled(tmp_path / "alone.cpp", "-fsyntax-only", f"-std={standard}")
        assert done.returncode == 0, done.stderr
