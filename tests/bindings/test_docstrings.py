"""The documentation of the package: it is there, and its examples run."""

import doctest
import inspect

import pytest

import mixcalc
import mixcalc.applied
import mixcalc.streams
import mixcalc.dask


def documented():
    """Every public object and its public members, with the module to run examples in."""
    yield "mixcalc", mixcalc
    for name in mixcalc.__all__:
        item = getattr(mixcalc, name)
        if isinstance(item, (str, type(mixcalc))):
            continue
        yield name, item
        if isinstance(item, type) and item.__module__.startswith("mixcalc"):
            for member, value in vars(item).items():
                if not member.startswith("_") and (callable(value) or inspect.isdatadescriptor(value) or isinstance(value, staticmethod)):
                    yield f"{name}.{member}", value
    for module in (mixcalc.applied, mixcalc.streams, mixcalc.dask):
        yield module.__name__, module
        for name in module.__all__:
            yield f"{module.__name__}.{name}", getattr(module, name)
    for name in mixcalc.plans.__all__:
        yield f"plans.{name}", getattr(mixcalc.plans, name)


OBJECTS = dict(documented())


def test_there_is_something_to_test():
    assert len(OBJECTS) > 150
    assert sum(">>>" in (inspect.getdoc(item) or "") for item in OBJECTS.values()) >= 8


@pytest.mark.parametrize("name", OBJECTS)
def test_every_public_name_is_documented(name):
    assert len(inspect.getdoc(OBJECTS[name]) or "") > 5


@pytest.mark.parametrize("name", [name for name, item in OBJECTS.items() if ">>>" in (inspect.getdoc(item) or "")])
def test_examples_give_what_they_say(name):
    parsed = doctest.DocTestParser().get_doctest(inspect.getdoc(OBJECTS[name]), {}, name, None, 0)
    told = []
    runner = doctest.DocTestRunner()
    result = runner.run(parsed, out=told.append)
    assert result.attempted and not result.failed, "".join(told)


@pytest.mark.parametrize("name", ["Job", "Product", "Tank", "Measure", "Label", "LabelOrder", "Sprayer", "Loading", "Mixing", "LastStrip", "Residual", "ActiveSubstance"])
def test_each_parameter_is_described(name):
    item = getattr(mixcalc, name)
    text = inspect.getdoc(item)
    section = text.split("Parameters\n----------\n")[1].split("\n\n")[0]
    described = {word.strip() for line in section.splitlines() if not line.startswith(" ") for word in line.split(":")[0].split(",")}
    assert described == set(inspect.signature(item).parameters)


def test_every_field_of_a_plan_is_described():
    """A string stands below each field of the named tuples."""
    lines = inspect.getsource(mixcalc.plans).splitlines()
    fields = [(line, after) for line, after in zip(lines, lines[1:]) if line.startswith("    ") and ": " in line and not line.strip().startswith('"')]
    assert len(fields) > 80
    assert all(after.strip().startswith('"""') for _, after in fields), [line for line, after in fields if not after.strip().startswith('"""')]
