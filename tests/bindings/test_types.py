"""What a type checker knows of quantities: a dose is no volume rate before the program runs."""

import re
import subprocess
import sys
from importlib.resources import files
from pathlib import Path

import pytest

import mixcalc

HERE = Path(__file__).parent / "typed"
STUB = (files("mixcalc") / "_mixcalc.pyi").read_text(encoding="utf-8")


def found(name: str, tmp_path: Path) -> dict[int, str]:
    """The complaints of mypy about a file, by line."""
    command = [sys.executable, "-m", "mypy", "--strict", "--ignore-missing-imports", "--no-error-summary", f"--cache-dir={tmp_path}", name]
    done = subprocess.run(command, cwd=HERE, capture_output=True, text=True)
    lines = [line for line in done.stdout.splitlines() if line.startswith(f"{name}:")]
    assert done.returncode in (0, 1) and not done.stderr, done
    return {int(line.split(":")[1]): line for line in lines if ": error:" in line}


def test_right_use_is_accepted(tmp_path):
    assert found("good.py", tmp_path) == {}


def test_each_mistake_is_found(tmp_path):
    lines = (HERE / "bad.py").read_text(encoding="utf-8").splitlines()
    mistakes = {number for number, line in enumerate(lines, 1) if line and not line.startswith(("#", "from", "import"))}
    assert len(mistakes) >= 6 and set(found("bad.py", tmp_path)) == mistakes


def identities():
    """The identities that the stub tells a type checker."""
    for kind, body in re.findall(r"^class (\w+)\(Quantity\):\n((?:    .*\n)*)", STUB, re.M):
        for operation, other, result in re.findall(r"def __(mul|truediv)__\(self, other: (\w+), /\) -> (\w+): \.\.\.", body):
            if other not in ("Quantity", "Never", "_Number"):
                yield kind, operation, other, result


@pytest.mark.parametrize("kind, operation, other, result", identities(), ids="-".join)
def test_the_stub_tells_what_comes_out(kind, operation, other, result):
    def sample(name):
        return getattr(mixcalc, name)(re.search(r'"([^"]+)"', getattr(mixcalc, name).__doc__)[1])

    made = getattr(sample(kind), f"__{operation}__")(sample(other))
    assert type(made) is getattr(mixcalc, result)


def test_there_are_as_many_identities_as_in_the_core():
    source = (Path(__file__).parents[2] / "mixcalc/src/quantity/kind.rs").read_text(encoding="utf-8")
    products = re.findall(r"^    (\w+) \* (\w+) = \w+;", source, re.M)
    quotients = re.findall(r"^    \w+ / \w+ = \w+;", source, re.M)
    both_ways = sum(1 if a == b else 2 for a, b in products)
    of_one_kind = len(re.findall(r"def __truediv__\(self, other: (\w+), /\) -> Ratio", STUB))
    told = list(identities())
    assert len(told) == both_ways + len(quotients) + of_one_kind and of_one_kind == 28
