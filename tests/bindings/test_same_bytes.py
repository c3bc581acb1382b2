"""One answer: the same job document gives the same plan, or the same error, in Rust, C and Python."""

import json
import subprocess
from pathlib import Path

import pytest

import mixcalc

from conftest import document_of

ROOT = Path(__file__).parents[2]


def examples():
    for path in sorted((ROOT / "docs/examples").glob("*.toml")) + sorted((ROOT / "docs/examples").glob("*.json")):
        yield pytest.param(path.read_bytes(), id=path.name)


def conformance(name: str, key: str):
    """The jobs of a conformance file; a file of another shape has none and fails here."""
    cases = json.loads((ROOT / "tests/conformance" / name).read_text(encoding="utf-8"))["cases"]
    for case in cases:
        job = document_of(case) if key == "document" else json.dumps(case[key]).encode()
        yield pytest.param(job, id=case["id"])


# Not one of these can be planned either.
BAD = {
    "empty": b"",
    "blank": b" \t ",
    "not a document": b"what shall it be",
    "not UTF-8": b'{"format": "\xff"}',
    "zero byte": b'{"format": "mixcalc-job/1"\0}',
    "cut short": b'{"format": "mixcalc-job/1", "area":',
    "nothing in it": b"{}",
    "other format": b'{"format": "mixcalc-job/0"}',
    "wrong type": b'{"format": 1}',
    "unknown key": 'fläche = "1 ha"'.encode(),
    "duplicate key": b'{"format": "mixcalc-job/1", "format": "mixcalc-job/1"}',
    "deep": b"[" * 100_000,
    "deep within": b'{"format": ' + b"[" * 100_000,
    "long word": b'{"format": "' + "é".encode() * 100_000 + b'"}',
}


def in_rust(examples: Path, job: bytes, path: Path):
    """The plan as bytes, or code, path and message."""
    path.write_bytes(job)
    done = subprocess.run([examples / "plan", "--json", path], capture_output=True)
    if done.returncode in (0, 1):
        return done.stdout.removesuffix(b"\n")
    assert done.returncode == 2 and done.stdout == b"", done
    try:
        line = json.dumps(job.decode()).encode()
    except UnicodeDecodeError:
        line = job
    lines = subprocess.run([examples / "plan_lines"], input=line + b"\n", capture_output=True, check=True)
    error = json.loads(lines.stdout)["error"]
    return error["code"], error["path"], error["message"]


def in_c(program: Path, job: bytes, path: Path):
    path.write_bytes(job)
    done = subprocess.run([program, path], capture_output=True)
    if done.returncode == 0:
        return done.stdout.removesuffix(b"\n")
    assert done.returncode == 2, done
    code, field, message = done.stdout.decode().removesuffix("\n").split("\n", 2)
    return int(code), field, message


def in_python(job: bytes):
    try:
        return mixcalc.plan_json(job).encode().removesuffix(b"\n")
    except mixcalc.InputError as error:
        return error.code, error.path, str(error)


def same_in_all(job, rust_examples, c_plan, path):
    python, rust, c = in_python(job), in_rust(rust_examples, job, path), in_c(c_plan, job, path)
    assert rust == python
    if isinstance(python, tuple):  # C has a fixed room for each text and cuts what is longer.
        code, field, message = python
        python = code, cut(field, 256), cut(message, 512)
    assert c == python
    return rust


def cut(text: str, room: int) -> str:
    return text.encode()[: room - 1].decode(errors="ignore")


@pytest.mark.parametrize("job", [*examples(), *conformance("plan.json", "job")])
def test_a_job_has_one_answer(job, rust_examples, c_plan, tmp_path):
    answer = same_in_all(job, rust_examples, c_plan, tmp_path / "job")
    if isinstance(answer, bytes):
        assert json.loads(answer)["format"] == "mixcalc-plan/1"


@pytest.mark.parametrize("job", [*conformance("refused.json", "document"), *(pytest.param(BAD[id], id=id) for id in BAD)])
def test_a_bad_job_has_one_error(job, rust_examples, c_plan, tmp_path):
    code, _, message = same_in_all(job, rust_examples, c_plan, tmp_path / "job")
    assert code >= 100 and message


def test_the_demo_is_planned():
    """So that the tests above cannot pass by refusing everything."""
    plan = json.loads(mixcalc.plan_json((ROOT / "docs/examples/demo.toml").read_text(encoding="utf-8")))
    assert plan["usable"] is True and plan["loads"]
