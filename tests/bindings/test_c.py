"""The C interface: its promises, its structs against the plan document, its vectors."""

import hashlib
import json
import subprocess

import pytest
from test_same_bytes import ROOT, conformance, examples

DEMO = ROOT / "docs/examples/demo.toml"
CALIBRATED = ROOT / "docs/examples/calibrated.toml"


def run(*command, **more) -> str:
    done = subprocess.run(command, capture_output=True, text=True, **more)
    assert done.returncode == 0, done.stderr or done.stdout
    return done.stdout


@pytest.fixture(scope="session")
def stopped(c_programs):
    """A job whose plan has a stop: the demo's, at a dose over its maximum."""
    path = c_programs / "stopped.toml"
    assert path.read_text(encoding="utf-8") != DEMO.read_text(encoding="utf-8")
    return path


def test_the_border_keeps_its_promises(c_programs, stopped):
    assert run(c_programs / "border", DEMO, stopped, CALIBRATED) == "all promises hold\n"


# What the structs do not say: the document does. Of a calibration the handle of its own says more.
UNSAID = ("end", "format", "job", "calibration", "start", "at_start")


def without(value):
    """A view without the keys that only end its lists, and a plan document without what the structs do not say."""
    if isinstance(value, dict):
        return {key: without(inner) for key, inner in value.items() if key not in UNSAID}
    return [without(inner) for inner in value] if isinstance(value, list) else value


@pytest.mark.parametrize("job", [*examples(), *conformance("plan.json", "job")])
def test_the_structs_say_what_the_plan_document_says_to_the_last_bit(job, c_plan, tmp_path):
    (tmp_path / "job").write_bytes(job)
    document, view = (json.loads(run(c_plan, *how, tmp_path / "job")) for how in ([], ["--view"]))
    assert without(view) == without(document)


def pages(c_plan, job) -> dict:
    """Per page, its status and its text."""
    found = {}
    for page in run(c_plan, "--pages", job).removeprefix("=== ").split("\n=== "):
        head, text = page.split("\n", 1)
        name, status = head.rsplit(" ", 1)
        found[name] = int(status), text
    return found


def test_pages_and_documents_of_a_plan(c_plan, rust_examples):
    found = pages(c_plan, DEMO)
    assert [status for status, _ in found.values()] == [0] * 5
    sheet = run(rust_examples / "plan", DEMO)
    assert found["sheet"][1].strip() == sheet.strip()
    assert found["sheet with working"][1].startswith(found["sheet"][1].rstrip("\n"))
    assert found["findings page"][1] and len(json.loads(found["working"][1])) > 100
    assert json.loads(found["job"][1]) == json.loads(run(c_plan, DEMO))["job"]


def test_a_stopped_plan_has_no_sheet_and_says_why(c_plan, stopped):
    found = pages(c_plan, stopped)
    message = json.loads(run(c_plan, stopped))["findings"][0]["message"]
    for page in ("sheet", "sheet with working"):
        status, text = found[page]
        assert status == 116 and message in text
    assert found["findings page"][0] == found["working"][0] == found["job"][0] == 0


def test_vectors_through_c_are_those_of_rust_to_the_last_bit(c_programs, rust_examples):
    """The tolerance is the vectors'; between the languages there is none."""
    *lines, ran = run(c_programs / "vectors").splitlines()
    names = ("quantity.json", "sums.json", "calibration.json")
    files = [json.loads((ROOT / "tests/conformance" / name).read_text(encoding="utf-8")) for name in names]
    unsayable = [case["id"] for case in files[0]["cases"] if "\0" in case["text"]]
    assert ran == f"{sum(file['count'] for file in files) - len(unsayable)} cases ran"
    cases = {case["id"]: case for case in files[0]["cases"] if "value" in case and case["id"] not in unsayable}
    asked = [{key: case.get(key) for key in ("text", "claim", "unit")} for case in cases.values()]
    rust = run(rust_examples / "quantity_lines", input="".join(json.dumps(line) + "\n" for line in asked)).splitlines()
    assert [float(line.split()[1]) for line in lines] == [float(line) for line in rust]
    assert [line.split()[0] for line in lines] == list(cases)


def test_columns_through_c_are_those_of_rust_to_the_last_bit(c_programs, rust_examples):
    """Hostile rows among them, on one thread and on two; the program looks at what the header promises besides."""
    expected = run(rust_examples / "column_hash", "100000").split()
    for threads in "12":
        done = subprocess.run([c_programs / "columns", "100000", threads], capture_output=True)
        assert done.returncode == 0, done.stderr
        assert [hashlib.sha256(done.stdout).hexdigest()] * 2 == expected
