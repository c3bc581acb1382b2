"""python -m mixcalc, as a shell sees it."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

import mixcalc

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "docs/examples/demo.toml"
STOPPED = {
    "format": "mixcalc-job/1", "area": "1 ha", "volume_rate": "200 L/ha", "sprayer": {"kind": "knapsack"}, "tank": {"nominal": "16 L"},
    "products": [{"name": "example product A", "dose": "1 mL/ha"}],
    "measures": [{"kind": "vessel", "capacity": "250 mL", "graduation": "2 mL"}],
}
USABLE = {**STOPPED, "products": [{"name": "example product A", "dose": "1.5 L/ha"}]}


def run(*arguments, stdin: str | bytes = "", **environment):
    given = stdin if isinstance(stdin, bytes) else stdin.encode()
    command = [sys.executable, "-m", "mixcalc", *map(str, arguments)]
    done = subprocess.run(command, input=given, capture_output=True, env={**os.environ, **environment})
    return done.returncode, done.stdout.decode(), done.stderr.decode()


@pytest.fixture
def job(tmp_path):
    def written(fields, name="job.json"):
        path = tmp_path / name
        path.write_text(json.dumps(fields), encoding="utf-8")
        return path

    return written


def test_plan_prints_the_load_sheet():
    status, out, err = run("plan", DEMO)
    assert (status, err) == (0, "") and out == mixcalc.plan(mixcalc.Job.read(DEMO)).sheet()
    assert run("plan", "-", stdin=DEMO.read_bytes()) == (0, out, "")
    status, with_working, _ = run("plan", "--working", DEMO)
    assert status == 0 and len(with_working) > len(out)


def test_plan_json_is_the_plan_document():
    assert run("plan", "--json", DEMO) == (0, mixcalc.plan_json(DEMO.read_bytes()) + "\n", "")


def test_a_stop_ends_with_1_and_prints_no_amounts(job):
    status, out, err = run("plan", job(STOPPED))
    assert (status, out) == (1, "") and "do not mix" in err.lower() and "less than one graduation" in err
    status, out, _ = run("plan", "--json", job(STOPPED))
    assert status == 1 and json.loads(out)["usable"] is False


def test_an_error_ends_with_2_and_names_file_and_field(job):
    path = job({**STOPPED, "area": "1 acre-ish"})
    status, out, err = run("plan", path)
    assert (status, out) == (2, "") and err.startswith(f"{path}: area: ") and err.count("\n") == 1
    status, out, err = run("plan", "nowhere.toml")
    assert (status, out) == (2, "") and "nowhere.toml" in err and "Traceback" not in err
    status, out, err = run("plan", "-", stdin=b"\xff")
    assert status == 2 and err.startswith("-: ")


def test_several_jobs_in_one_call(job):
    usable, stopped = job(USABLE, "usable.json"), job(STOPPED, "stopped.json")
    status, out, err = run("plan", "--json", usable, stopped, usable)
    assert status == 1 and [json.loads(line)["usable"] for line in out.splitlines()] == [True, False, True]
    status, out, err = run("plan", "--json", usable, "nowhere.json", usable)
    assert status == 2 and len(out.splitlines()) == 2 and "nowhere.json" in err


def test_lines_are_answered_in_place_and_a_bad_one_stops_nothing(job, tmp_path):
    lines = [json.dumps(USABLE), "{", json.dumps(STOPPED), "", json.dumps({**USABLE, "area": 3}), json.dumps(USABLE)]
    status, out, err = run("plan", "--lines", "-", stdin="\n".join(lines))
    results = [json.loads(line) for line in out.splitlines()]
    assert status == 2 and len(results) == 5, "a blank line is no job"
    assert [result.get("usable") for result in results] == [True, None, False, None, True]
    assert results[1]["error"]["code"] == 501 and results[3]["error"]["path"] == "area" and "has no unit" in results[3]["error"]["message"]
    assert err.splitlines()[0].startswith("-:2: ") and err.splitlines()[1].startswith("-:5: area: ")
    path = tmp_path / "jobs.jsonl"
    path.write_text("\n".join(lines), encoding="utf-8")
    status, out, _ = run("check", "--lines", path)
    results = [json.loads(line) for line in out.splitlines()]
    assert status == 2 and [finding["severity"] for finding in results[2]["findings"]].count("stop") >= 1
    assert results[2]["findings"][0]["load"] == 1 and results[2]["findings"][0]["code"] == "amount-below-graduation"


def test_check_prints_what_is_found(job):
    status, out, err = run("check", job(USABLE))
    assert (status, err) == (0, "") and "Measure " not in out
    status, out, _ = run("check", job(STOPPED))
    assert status == 1 and "do not mix" in out.lower()


@pytest.mark.parametrize("document", ["job", "plan"])
def test_schema_prints_the_schema(document):
    status, out, _ = run("schema", document)
    assert status == 0 and json.loads(out)["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_output_is_utf_8_whatever_the_locale(job):
    path = job({**USABLE, "title": "Fläche Łąka"})
    for encoding in ("cp1252", "ascii"):
        assert run("plan", "--json", path, PYTHONIOENCODING=encoding)[1] == mixcalc.plan_json(path.read_bytes()) + "\n"
        assert "Fläche Łąka" in run("plan", path, PYTHONIOENCODING=encoding)[1]


def test_a_fault_of_the_program_ends_with_3(tmp_path, job):
    (tmp_path / "sitecustomize.py").write_text("import mixcalc\nmixcalc.plan = lambda job: 1 / 0\n", encoding="utf-8")
    status, out, err = run("plan", job(USABLE), PYTHONPATH=str(tmp_path))
    assert status == 3 and out == "" and "ZeroDivisionError" in err


def test_several_files_are_named_in_a_check(job):
    usable, stopped = job(USABLE, "usable.json"), job(STOPPED, "stopped.json")
    status, out, _ = run("check", usable, stopped)
    assert status == 1 and f"{usable}:\n" in out and f"{stopped}:\n" in out


def test_wrong_use_ends_with_2_and_says_how():
    for arguments in ([], ["plan"], ["plan", "-", "-"], ["plan", "--lines", "--working", "x"], ["plan", "--json", "--working", "x"], ["schema", "tank"], ["mend", "x"]):
        status, out, err = run(*arguments)
        assert status == 2 and out == "" and "usage: python -m mixcalc" in err
    status, out, _ = run("--help")
    assert status == 0 and "plan" in out and "label" in out
    assert run("--version") == (0, mixcalc.__version__ + "\n", "")


def test_a_reader_that_goes_away_is_no_error(job):
    jobs = [job(USABLE)] * 200
    program = subprocess.Popen([sys.executable, "-m", "mixcalc", "plan", "--json", *map(str, jobs)], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    program.stdout.readline()
    program.stdout.close()
    assert b"Traceback" not in program.stderr.read()
    program.stderr.close()
    program.wait()
