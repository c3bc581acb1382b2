"""Documents and vectors hold to their schemas, and the schema of jobs refuses what the library refuses for its shape."""

import json
import tomllib
from pathlib import Path

import jsonschema
import pytest

import mixcalc

ROOT = Path(__file__).parents[2]
CONFORMANCE = ROOT / "tests/conformance"


def read(path: Path):
    return json.loads(path.read_text(encoding="utf-8"))


def validator(path: Path) -> jsonschema.Draft202012Validator:
    schema = read(path)
    assert schema["$schema"] == jsonschema.Draft202012Validator.META_SCHEMA["$id"]
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


VECTORS = validator(CONFORMANCE / "schema.json")
JOB, PLAN = (validator(ROOT / f"mixcalc/schema/{name}.schema.json") for name in ("job", "plan"))


def jobs():
    for path in sorted((ROOT / "docs/examples").glob("*.toml")):
        # A date of TOML is the text of one in JSON.
        job = json.loads(json.dumps(tomllib.loads(path.read_text(encoding="utf-8")), default=str))
        yield pytest.param(job, id=path.name)
    for case in read(CONFORMANCE / "plan.json")["cases"]:
        yield pytest.param(case["job"], id=case["id"])


@pytest.mark.parametrize("path", sorted(set(CONFORMANCE.glob("*.json")) - {CONFORMANCE / "schema.json"}), ids=lambda path: path.name)
def test_vectors_hold_to_their_schema(path):
    VECTORS.validate(read(path))


@pytest.mark.parametrize("job", list(jobs()))
def test_a_job_its_plan_and_the_job_in_it_hold_to_their_schemas(job):
    JOB.validate(job)
    plan = json.loads(mixcalc.plan_json(json.dumps(job)))
    PLAN.validate(plan)
    JOB.validate(plan["job"])


# Shape: a missing key, two for one, a word that is no choice, an unknown key, a wrong type.
SHAPE = {105, 106, 113, 502, 504}
# What is needed because of a value elsewhere, a blank text, and words of a list that the schema leaves to the library.
BEYOND_A_SCHEMA = {
    "start-of-an-unknown-product", "start-of-water-with-products", "scale-check-without-a-point", "scale-check-of-a-tank-without-marks",
    "protection-of-nothing",
    "class-of-a-scale-on-a-vessel", "class-and-tolerance", "containers-beside-a-stock", "containers-rinsed-of-unknown-size",
    "mass-limit-without-empty-mass", "mass-limit-without-mix-density",
    "mass-fraction-without-mix-density", "max-dose-mass-fraction-without-mix-density",
    "name-empty", "name-blank", "measure-name-empty", "substance-name-blank",
    "formulation-unknown", "formulation-of-another-case", "formulation-by-other-letters", "sealed-bags-without-a-pack",
    "order-without-formulation", "order-of-a-label-without-mixing", "order-before-nobody",
    "pack-in-the-list",
    "treatment-with-a-substance-in-capitals", "bands-without-rows", "crop-bands-and-spots", "crop-plants-twice", "crop-sides-not-said", "crop-missing-for-a-row-dose",
    "area-null", "dose-of-an-unknown-substance", "dose-of-nothing", "dose-of-a-substance-on-mix", "season-without-its-start",
    "treatment-with-an-unknown-product", "treatment-without-a-product", "treatment-on-an-unknown-parcel",
    "cap-on-a-substance-that-is-not-there", "cap-without-a-window",
    # What each method takes is the record's to know.
    "calibration-without-its-area", "calibration-with-another-method-s-input", "calibration-by-weight-without-density",
    "calibration-with-an-unknown-instrument", "calibration-of-flow-and-catch", "calibration-in-alleys-unsaid",
}


def misshapen():
    for case in read(CONFORMANCE / "refused.json")["cases"]:
        if case["error"]["code"] in SHAPE and isinstance(case["document"], str) and case["id"] not in BEYOND_A_SCHEMA:
            try:
                yield pytest.param(json.loads(case["document"]), id=case["id"])
            except json.JSONDecodeError:
                pass  # TOML


@pytest.mark.parametrize("job", list(misshapen()))
def test_what_is_misshapen_is_refused_by_the_schema_too(job):
    assert not JOB.is_valid(job)
