"""Jobs and plans as Python objects: the same answers as documents, in the manners of Python."""

import concurrent.futures
import copy
import datetime
import inspect
import json
import multiprocessing
import pickle
import tomllib
from pathlib import Path

import numpy
import pandas
import pint
import polars
import pytest
from hypothesis import given, settings, strategies as st

from conftest import document_of

import mixcalc
from mixcalc import (
    InputError, Job, Label, LastStrip, LiquidDose, Loading, Measure, Product, Quantity, Residual, Sprayer, Tank, UnitError, VolumeRate, plans,
)

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "docs/examples/demo.toml"
CASES = json.loads((ROOT / "tests/conformance/plan.json").read_text(encoding="utf-8"))["cases"]
REFUSED = json.loads((ROOT / "tests/conformance/refused.json").read_text(encoding="utf-8"))["cases"]
PARTS = [mixcalc.ActiveSubstance, Job, Label, mixcalc.LabelOrder, LastStrip, Loading, Measure, mixcalc.Mixing, Product, Residual, Sprayer, Tank]


def job(**changes) -> Job:
    fields = {
        "area": "1.2 ha",
        "volume_rate": "200 L/ha",
        "products": [Product(name="example product A", dose="1.5 L/ha")],
        "measures": [Measure(kind="vessel", capacity="1 L", graduation="10 mL")],
        "sprayer": Sprayer(kind="boom"),
        "tank": Tank(nominal="100 L"),
    }
    return Job(**{**fields, **changes})


def stopped() -> mixcalc.Plan:
    return mixcalc.plan(job(products=[Product(name="example product A", dose="1 mL/ha")]))


# ---------------------------------------------------------------------------------------- the same answer as documents


@pytest.mark.parametrize("case", CASES, ids=[case["id"] for case in CASES])
def test_objects_give_what_documents_give(case):
    """A dict, the objects made from it, and their pickles plan to the bytes of the document, or to its error."""
    document = case["job"] if isinstance(case["job"], dict) else json.loads(case["job"])
    try:
        expected = mixcalc.plan_json(json.dumps(document))
    except InputError as error:
        with pytest.raises(InputError) as caught:
            mixcalc.plan(document)
        assert (caught.value.code, caught.value.path, str(caught.value)) == (error.code, error.path, str(error))
        return
    made = Job.from_dict(document)
    for again in (made, eval(repr(made), {**vars(mixcalc), "datetime": datetime}), pickle.loads(pickle.dumps(made)), made.replace(), Job.from_json(made.to_json())):
        assert again == made and hash(again) == hash(made)
        assert mixcalc.plan(again).to_json() == expected
    assert mixcalc.plan(document).to_dict() == json.loads(expected)


def held_by_a_dict():
    """The refused documents whose fault a dict can have, each with that dict: not those of text, as a key that stands twice."""
    for case in REFUSED:
        try:
            held = json.loads(document_of(case))
        except (ValueError, RecursionError):
            continue
        if isinstance(held, dict) and case["error"]["name"] not in ("duplicate-key", "too-large", "unreadable-document") and "format" in held:
            yield pytest.param(held, case["error"], id=case["id"])


HELD = list(held_by_a_dict())


@pytest.mark.parametrize("held, error", HELD)
def test_a_dict_is_refused_as_its_document_is(held, error):
    with pytest.raises(InputError) as caught:
        mixcalc.plan(held)
    assert (caught.value.code, caught.value.path) == (error["code"], error["path"])


def test_most_refused_documents_can_be_held_by_a_dict():
    assert len(HELD) > 250


def test_what_a_plan_holds_is_what_its_document_says():
    """Every field of the named tuples, by way of the names that document and tuples share."""

    def told(value):
        if isinstance(value, Quantity):
            unit = {"volume": "L", "mass": "kg", "area": "ha"}.get(value.kind, value.unit)
            return {"value": value.to(unit), "unit": unit}
        if isinstance(value, tuple) and hasattr(value, "_fields"):
            return {name: told(field) for name, field in value._asdict().items()}
        return [told(item) for item in value] if isinstance(value, tuple) else value

    def same(told, document, path):
        if isinstance(document, dict):
            for key, value in document.items():
                same(told["action" if key == "do" else key], value, f"{path}.{key}")
        elif isinstance(document, list):
            assert len(told) == len(document), path
            for index, (a, b) in enumerate(zip(told, document)):
                same(a, b, f"{path}[{index}]")
        else:
            assert told == document, path

    for case in CASES:
        try:
            plan = mixcalc.plan(case["job"] if isinstance(case["job"], dict) else json.loads(case["job"]))
        except InputError:
            continue
        document = plan.to_dict()
        for key in ("usable", "safe_fill", "area", "volume_rate", "carrier_rate", "last_strip", "totals", "loads", "ledger", "findings", "cautions"):
            value = plan.job.area if key == "area" else getattr(plan, key)
            same(told(value), document[key], f"{case['id']}: {key}")
        assert (plan.mixing is None) == ("mixing" not in document)
        if plan.mixing:
            same(told(plan.mixing), document["mixing"], f"{case['id']}: mixing")
        for key in ("field_list", "water"):
            assert (getattr(plan, key) is None) == (key not in document)
            same(told(getattr(plan, key)), document.get(key), f"{case['id']}: {key}")
        assert not plan.load_sizes() or any(finding.help for finding in plan.findings)
        same([told(one) for one in plan.working], json.loads(plan.working_json()), f"{case['id']}: working")
        assert plan.steps == tuple(step for load in plan.loads for step in load.steps)


def test_the_demo_is_planned_and_its_sheet_is_that_of_rust(rust_examples):
    import subprocess

    plan = mixcalc.plan(Job.read(DEMO))
    sheet = subprocess.run([rust_examples / "plan", DEMO], capture_output=True, text=True, check=True).stdout
    assert plan.usable and plan.sheet() == sheet == str(plan)
    assert plan.sheet(working=True).startswith(sheet.rstrip("\n")[:200]) and len(plan.sheet(working=True)) > len(sheet)
    assert mixcalc.plan(Job.from_json(DEMO.read_text(encoding="utf-8"))) == plan == mixcalc.plan(tomllib.loads(DEMO.read_text(encoding="utf-8")))


# ------------------------------------------------------------------------------------------------------------- objects


def test_a_quantity_may_be_stated_in_any_way():
    ureg = pint.UnitRegistry()
    stated = ["16 L", Quantity("16 L"), Quantity(16, "L"), {"value": 16, "unit": "L"}, 16 * ureg.liter, mixcalc.Volume("16000 mL")]
    assert {Tank(nominal=nominal) for nominal in stated} == {Tank(nominal="16 L")}
    assert Tank(nominal="16 L", headspace=0.1) == Tank(nominal="16 L", headspace="10 %") == Tank(nominal="16 L", headspace=Quantity("10 %"))
    assert Loading(max_fillings=numpy.int64(3)).max_fillings == 3
    assert Product(name="A", dose="1 L/ha", viscous=numpy.bool_(True)).viscous


def test_a_scale_keeps_the_unit_that_it_was_stated_in():
    measure = Measure(kind="vessel", capacity="16 US fl oz", graduation=Quantity("0.5 US fl oz"))
    assert measure.marked_in == "US fl oz" and str(measure.graduation) == "0.5 US fl oz"
    assert measure == Measure(kind="vessel", capacity="16 US fl oz", graduation="0.5 US fl oz")


@pytest.mark.parametrize(
    "made, code, path, says",
    [
        (lambda: Tank(nominal=16.0), 205, "nominal", ["16 has no unit", '"16 L"']),
        (lambda: Tank(nominal="2,5 L"), 206, "nominal", ["2.5"]),
        (lambda: Tank(nominal="10 gal"), 204, "nominal", ["US gal or imp gal"]),
        (lambda: Tank(nominal=VolumeRate("16 L/ha")), 202, "nominal", ["16 L/ha, a volume rate"]),
        (lambda: Tank(brm="16 L"), 502, "brm", ["write brim"]),
        (lambda: Tank(nominal="16 L", brm=None), 502, "brm", ["write brim"]),
        (lambda: Tank(nominal="16 L").replace(brm=None), 502, "brm", ["write brim"]),
        (lambda: Tank(), 105, "nominal", ["brim"]),
        (lambda: Tank(nominal=[16]), 504, "nominal", ["a list"]),
        (lambda: Tank(nominal=object()), 504, "nominal", ["object of type object"]),
        (lambda: Tank(nominal=numpy.array([1.0, 2.0])), 504, "nominal", ["ndarray"]),
        (lambda: Tank(nominal={"value": 10**400, "unit": "L"}), 101, "nominal.value", []),
        (lambda: Tank(nominal=2j), 504, "nominal", ["complex"]),
        (lambda: Sprayer(kind="bom"), 113, "kind", ["boom"]),
        (lambda: Product(name="A", dose=VolumeRate("2 L/ha")), 202, "dose", ["2 L/ha, a volume rate", "2.5 L/ha"]),
        (lambda: job(volume_rate=LiquidDose("200 L/ha")), 202, "volume_rate", ["liquid dose"]),
        (lambda: job(carrier_rate="200 L/ha"), 106, "volume_rate", ["both"]),
        (lambda: job(products=[{"name": "A", "dose": "1 L/ha", "label": {"max_dose": "1"}}]), 205, "products[0].label.max_dose", []),
        (lambda: job(title="\ud800"), 504, "title", ["surrogate"]),
        (lambda: job(products=[job()]), 502, "products[0].area", []),
        (lambda: Label(first_carrier=75), 103, "first_carrier", []),
        (lambda: Label(min_volume_rate="400 L/ha", max_volume_rate="200 L/ha"), 103, "min_volume_rate", []),
        (lambda: mixcalc.plan({"area": "1 ha"}), 105, "sprayer", []),
    ],
)
def test_errors_name_field_given_and_allowed(made, code, path, says):
    with pytest.raises(InputError) as caught:
        made()
    error = caught.value
    assert error.code == code and isinstance(error, UnitError) == (200 <= code < 300)
    assert error.path == path and all(words in str(error) for words in says), error
    assert pickle.loads(pickle.dumps(error)).path == path


def test_a_dict_that_holds_itself_is_refused():
    table, items = {}, []
    table["products"] = [table]
    items.append(items)
    for endless in (table, {"products": items}, {"title": items}):
        with pytest.raises(InputError):
            mixcalc.plan(endless)


@pytest.mark.parametrize("wrong", [None, "area = 1", b"{}", 3, [], DEMO])
def test_a_plan_is_made_of_a_job_or_a_dict(wrong):
    with pytest.raises(TypeError, match="Job.read"):
        mixcalc.plan(wrong)


def test_one_field_is_changed_in_one_expression():
    before = job()
    after = before.replace(volume_rate="150 L/ha")
    assert (before.volume_rate, after.volume_rate) == (VolumeRate("200 L/ha"), VolumeRate("150 L/ha"))
    assert after.replace(volume_rate="200 L/ha") == before and after.replace(volume_rate=None, carrier_rate="150 L/ha").volume_rate is None
    nested = before.replace(tank=before.tank.replace(brim="104 L"), products=[before.products[0].replace(dose="2 L/ha")])
    assert nested.tank.brim == Quantity("104 L") and nested.products[0].dose == LiquidDose("2 L/ha")
    if hasattr(copy, "replace"):
        assert copy.replace(before, area="3 ha").area == Quantity("3 ha")
    assert before.__replace__(area="3 ha") == before.replace(area="3 ha")


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.__name__)
def test_parts_are_frozen_and_say_what_they_take(part):
    parameters = inspect.signature(part).parameters
    assert parameters and all(parameter.kind is inspect.Parameter.KEYWORD_ONLY for parameter in parameters.values())
    assert all(hasattr(part, name) for name in parameters), "each field can be read"
    with pytest.raises(TypeError):
        part("1 ha")
    whole = job(loading=Loading(last_strip=LastStrip(area="60 m2")))
    for one in (whole, whole.tank, whole.products[0], whole.loading):
        with pytest.raises(AttributeError):
            one.name = "other"


def test_copies_and_hashes():
    first = job(title="field by the river")
    assert copy.deepcopy(first) is first and {first: 1}[job(title="field by the river")] == 1
    assert first != job() and first != "job"
    assert mixcalc.plan(first) == mixcalc.plan(first) and hash(mixcalc.plan(first)) == hash(mixcalc.plan(job(title="field by the river")))
    assert pickle.loads(pickle.dumps(mixcalc.plan(first))) == mixcalc.plan(first)
    assert pickle.loads(pickle.dumps(mixcalc.plan(first).loads)) == mixcalc.plan(first).loads


# ------------------------------------------------------------------------------------------------------- stopped plans


def test_a_stopped_plan_has_no_amounts_no_steps_no_sheet_and_says_why():
    plan = stopped()
    assert not plan.usable and plan.steps == () and plan.ledger is None
    for load in plan.loads:
        assert load.steps == ()
        for portion in load.products:
            assert {portion.measured, portion.gap, portion.measure, portion.shown, portion.graduations, portion.fillings} == {None}
    assert all(total.measured is None and total.drawn is None for total in plan.totals.products)
    with pytest.raises(InputError, match="must not be mixed.*less than one graduation") as caught:
        plan.sheet()
    assert caught.value.code == 116
    assert plan.findings[0].severity == "stop" and plan.findings[0].message in str(caught.value)
    assert "do not mix" in str(plan).lower() and "Do not mix" in plan._repr_html_()
    frame = plan.to_pandas()
    assert frame["measured"].isna().all() and frame["shown"].isna().all() and plan.to_polars()["graduations"].null_count() == len(frame)


# ---------------------------------------------------------------------------------------------------- tables, notebook


US = ROOT / "docs/examples/demo-us.toml"


def rows_of(document: dict) -> list[dict]:
    """The table of a plan, made from its document alone."""
    rows = []
    for load in document["loads"]:
        assert {load["mix"]["unit"], load["carrier"]["unit"]} == {"L"} and load["area"]["unit"] == "ha"
        for portion in load["products"]:
            measured, gap, fillings = portion["measured"], portion["gap"], portion["fillings"]
            poured = fillings and sum(filling["count"] * filling["amount"]["value"] for filling in fillings)
            rows.append(
                {
                    "first_load": load["first"], "last_load": load["last"], "count": load["count"], "mix_l": load["mix"]["value"],
                    "carrier_l": load["carrier"]["value"], "area_ha": load["area"]["value"], "product": portion["name"],
                    "exact": portion["exact"]["value"], "measured": measured and measured["value"], "unit": portion["exact"]["unit"],
                    "gap_percent": gap and gap["percent"], "measure": portion["measure"], "graduations": portion["graduations"],
                    "poured": poured and (poured, fillings[0]["amount"]["unit"]),
                }
            )
    return rows


@pytest.mark.parametrize("path", [DEMO, US], ids=["metric", "US"])
def test_tables_are_the_plan_document(path):
    plan = mixcalc.plan(Job.read(path))
    frame, other, rows = plan.to_pandas(), plan.to_polars(), plan.rows()
    assert isinstance(frame, pandas.DataFrame) and isinstance(other, polars.DataFrame)
    assert list(frame.columns) == other.columns == list(rows[0])
    assert frame.to_dict("records") == other.to_dicts() == rows
    expected = rows_of(plan.to_dict())
    assert len(rows) == len(expected) > 2 and len({row["mix_l"] for row in rows}) > 1, "loads that differ"
    for row, wanted in zip(rows, expected):
        amount, unit = wanted.pop("poured")
        shown = Quantity(row.pop("shown"), row.pop("shown_unit"))
        assert row == wanted
        assert shown.is_close(Quantity(amount, unit))
        assert len(f"{shown.value!r}") < 9, "as the scale reads, without noise"


def cells_of(html: str) -> list[list[list[str]]]:
    """The cells of each table."""
    from html.parser import HTMLParser

    tables: list[list[list[str]]] = []

    class Reader(HTMLParser):
        def handle_starttag(self, tag, attributes):
            assert not attributes, "no colours and no styles of its own"
            if tag == "table":
                tables.append([])
            elif tag == "tr":
                tables[-1].append([])
            elif tag in ("td", "th"):
                tables[-1][-1].append("")

        def handle_data(self, data):
            if tables and tables[-1] and tables[-1][-1] and self.get_starttag_text() in ("<td>", "<th>"):
                tables[-1][-1][-1] += data

    Reader().feed(html)
    return tables


@pytest.mark.parametrize("path", [DEMO, US], ids=["metric", "US"])
def test_a_notebook_shows_the_plan_as_the_load_sheet_does(path):
    plan = mixcalc.plan(Job.read(path))
    html, people = plan._repr_html_(), lambda quantity: quantity.to_people(plan.job.units)
    totals = plan.totals
    assert f"{totals.loads} loads, {people(totals.mix)} of mix for {people(totals.area)}; safe fill {people(plan.safe_fill)}" in html
    *found, loads = cells_of(html)
    if plan.findings:
        assert found[0][1:] == [[finding.severity, finding.message] for finding in plan.findings]
    head, *rows, last = loads
    assert head == ["load", "mix", "carrier", *(product.name for product in plan.job.products)]
    assert len(rows) == len(plan.loads)
    sheet = plan.sheet()
    for row, load in zip(rows, plan.loads):
        number = str(load.first) if load.count == 1 else f"{load.first} to {load.last}"
        assert row[:3] == [number, people(load.mix), people(load.carrier)]
        for cell, portion in zip(row[3:], load.products):
            assert cell == f"{portion.shown} ({portion.measure})" and str(portion.shown) in sheet
    assert last[:3] == ["all", people(totals.mix), people(totals.carrier)]
    for cell, total in zip(last[3:], totals.products):
        assert Quantity(cell).is_close(total.measured) and cell.split()[0] in sheet
    from html import escape

    assert all(escape(caution.text) in html for caution in plan.cautions)
    assert "what the measure shows" in html and "Do not mix" not in html


def test_a_notebook_shows_a_stopped_plan_as_what_it_is():
    html = stopped()._repr_html_()
    findings, loads = cells_of(html)
    assert findings[1][0] == "stop" and "what the doses ask for, not to be measured" in html and "what the measure shows" not in html
    assert all("(" not in cell for row in loads for cell in row)
    hostile = mixcalc.plan(job(title="<script>", products=[Product(name="<b>", dose="1.5 L/ha")]))._repr_html_()
    assert "<script>" not in hostile and "<b>" not in hostile
    assert "volume_rate" in Job.read(DEMO)._repr_html_()


def test_other_numbers_of_a_plan():
    plan = mixcalc.plan(Job.read(DEMO))
    document = plan.to_dict()
    assert plan.residual.to("L") == (document["residual"] or {"volume": {"value": 0}})["volume"]["value"]
    assert (plan.ground_short is None) == (document["residual"] is None or document["residual"]["ground_short"] is None or plan.last_strip is not None)
    sheet = " ".join(plan.sheet().split())
    for step in plan.steps:
        assert " ".join(step.text.split()[:4]) in sheet
        assert any(load.first == step.load and step in load.steps for load in plan.loads)
    working = plan.working_of("loads[0].mix")
    assert working in plan.working and working.text.startswith("loads[0].mix = ") and plan.working_of("nowhere") is None


# ---------------------------------------------------------------------------------------------------- many at a time


def planned(number: int) -> str:
    return mixcalc.plan(job(area=f"{1 + number} ha")).to_json()


def described(made: Job) -> str:
    return mixcalc.plan(made).to_json()


def test_eight_threads_and_a_spawned_process_give_the_same_bytes():
    expected = [planned(number) for number in range(40)]
    with concurrent.futures.ThreadPoolExecutor(8) as pool:
        assert list(pool.map(planned, list(range(40)) * 5)) == expected * 5
    with concurrent.futures.ProcessPoolExecutor(1, mp_context=multiprocessing.get_context("spawn")) as pool:
        jobs = [job(area=f"{1 + number} ha") for number in range(40)]
        assert list(pool.map(described, jobs)) == expected
    shared = mixcalc.plan(job())
    with concurrent.futures.ThreadPoolExecutor(8) as pool:
        assert len(set(map(id, pool.map(lambda _: shared.loads, range(100))))) == 1


@settings(max_examples=60)
@given(
    area=st.floats(0.01, 500), rate=st.floats(20, 800), dose=st.floats(0.05, 8), nominal=st.floats(5, 4000),
    split=st.sampled_from(["full-then-part", "even"]), rates=st.sampled_from(["volume_rate", "carrier_rate"]),
)
def test_round_trips_of_any_job(area, rate, dose, nominal, split, rates):
    made = Job(
        area=Quantity(area, "ha"), products=[Product(name="A", dose=Quantity(dose, "L/ha"))], sprayer={"kind": "boom"},
        measures=[{"kind": "vessel", "capacity": "2 L", "graduation": "10 mL"}], tank={"nominal": Quantity(nominal, "L")},
        loading={"split": split}, **{rates: Quantity(rate, "L/ha")},
    )
    for again in (eval(repr(made), {**vars(mixcalc), "datetime": datetime}), pickle.loads(pickle.dumps(made)), Job.from_dict(made.to_dict()), Job.from_json(made.to_json())):
        assert again == made
    plan = mixcalc.plan(made)
    assert all(load.mix <= plan.safe_fill for load in plan.loads)
    assert sum(load.count for load in plan.loads) == plan.totals.loads
    assert pickle.loads(pickle.dumps(plan)).to_json() == plan.to_json()


def test_a_season_by_objects_by_dicts_and_by_text_is_one():
    day = datetime.date(2026, 5, 31)
    season = mixcalc.Season(
        date=day, harvest="2026-09-01", season_start=datetime.date(2026, 1, 1), growth_stage=31, parcels=[mixcalc.Parcel(name="North", area="2 ha")],
        treatments=[
            mixcalc.Treatment(date=datetime.date(2026, 4, 20), product="A", dose="1 L/ha", parcel="North", treated_share="50 %"),
            {"date": "2025-05-10", "substances": [{"name": "copper", "dose": "2 kg/ha"}]},
        ],
    )
    assert season.date == day and season.harvest == datetime.date(2026, 9, 1) and season.growth_stage == 31
    first, second = season.treatments
    assert (first.product, first.dose, first.parcel, first.treated_share) == ("A", mixcalc.LiquidDose("1 L/ha"), "North", Quantity("50 %"))
    assert second.product is None and second.substances == ({"name": "copper", "dose": "2 kg/ha"},)
    assert season.parcels[0].area == Quantity("2 ha")
    scope = {**vars(mixcalc), "datetime": datetime}
    for again in (eval(repr(season), scope), pickle.loads(pickle.dumps(season)), mixcalc.Season.from_dict(season.to_dict())):
        assert again == season and hash(again) == hash(season)
    assert season.replace(harvest=None).harvest is None
    holder = dict(
        area="1 ha", volume_rate="200 L/ha", sprayer={"kind": "boom"}, tank={"nominal": "300 L"}, products=[{"name": "A", "dose": "1 L/ha"}],
        measures=[{"kind": "vessel", "capacity": "1 L", "graduation": "10 mL"}],
    )
    assert Job(**holder, season=season).season == Job(**holder, season=season.to_dict()).season == season
    with pytest.raises(mixcalc.InputError, match="2026-05-31T10:00:00"):
        mixcalc.Season(date=datetime.datetime(2026, 5, 31, 10))


def test_the_named_tuples_are_those_that_are_listed():
    shapes = {name for name, shape in vars(plans).items() if isinstance(shape, type) and issubclass(shape, tuple) and hasattr(shape, "_fields")}
    assert shapes == set(plans.__all__)
