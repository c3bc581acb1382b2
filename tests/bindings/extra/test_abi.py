"""docs/abi.md, held against the header by a tool that compares binary interfaces."""

import os
import re
import subprocess
from pathlib import Path

import pytest

INCLUDE = Path(__file__).parents[3] / "mixcalc-ffi/include"
CC = os.environ.get("CC", "cc").split()


def library(folder: Path, header: str) -> Path:
    """A library with the functions of a header and nothing in them, and what the compiler knows of their types."""
    folder.mkdir()
    (folder / "mixcalc.h").write_text(header, encoding="utf-8")
    bare = re.sub(r"#.*|//.*", "", re.sub(r"/\*.*?\*/", "", header, flags=re.S))
    functions = re.findall(r"^((?:uint32_t|void|const char \*) ?mixcalc_\w+\([^;]*\));", bare, flags=re.M)
    assert len(functions) == len(re.findall(r"\bmixcalc_\w+\(", bare))
    bodies = [f"{function} {{ {'' if function.startswith('void ') else 'return 0;'} }}\n" for function in functions]
    (folder / "mixcalc.c").write_text('#include "mixcalc.h"\n' + "".join(bodies), encoding="utf-8")
    command = [*CC, "-g", "-w", "-shared", "-fPIC", folder / "mixcalc.c", "-o", folder / "libmixcalc.so"]
    subprocess.run(command, check=True)
    return folder / "libmixcalc.so"


def differences(before: Path, after: Path) -> tuple[int, str]:
    done = subprocess.run(["abidiff", before, after], capture_output=True, text=True)
    return done.returncode, done.stdout


INCOMPATIBLE, CHANGED = 8, 4


def test_a_library_is_the_same_as_itself(header, tmp_path):
    assert differences(library(tmp_path / "a", header), library(tmp_path / "b", header)) == (0, "")


def test_a_field_that_is_appended_is_seen_and_moves_no_other(header, tmp_path):
    assert header.count("  size_t substances;\n") == 1
    grown = header.replace("  size_t substances;\n", "  size_t substances;\n  double more_l;\n")
    status, said = differences(library(tmp_path / "a", header), library(tmp_path / "b", grown))
    print(said)
    assert status & CHANGED and not status & INCOMPATIBLE
    assert "type size changed from 1472 to 1536 (in bits)" in said and "1 data member insertion" in said
    assert "offset changed" not in said


@pytest.mark.parametrize(
    ("before", "after", "what"),
    [
        ("  uint64_t load_count;\n", "", "data member deletion"),
        ("  uint64_t load_count;\n", "  uint32_t load_count;\n", "type of 'uint64_t load_count' changed"),
        ("  uint32_t usable;\n", "  double first_l;\n  uint32_t usable;\n", "offset changed"),
        ("uint32_t mixcalc_abi_version(void);", "", "Removed"),
        ("double area_ha,\n                       double *out_mix_l", "float area_ha,\n                       double *out_mix_l", "parameter 2"),
    ],
)
def test_what_breaks_a_program_is_seen(before, after, what, header, tmp_path):
    assert header.count(before) == 1
    status, said = differences(library(tmp_path / "a", header), library(tmp_path / "b", header.replace(before, after)))
    assert status & CHANGED and what in said, said
