"""The notebooks run from end to end, and what they hold in the repository is their input alone."""

from pathlib import Path

import nbformat
import pytest
from nbclient import NotebookClient

FOLDER = Path(__file__).parents[2] / "mixcalc-py/notebooks"
NOTEBOOKS = sorted(FOLDER.glob("**/*.ipynb"))


def test_there_are_notebooks() -> None:
    # Without one, the tests below would be none, and pass.
    assert NOTEBOOKS


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_runs(path: Path, tmp_path: Path) -> None:
    notebook = nbformat.read(path, as_version=4)
    # An error ends it, but in a cell that is tagged raises-exception.
    NotebookClient(notebook, timeout=120, resources={"metadata": {"path": str(tmp_path)}}).execute()
    cells = [cell for cell in notebook.cells if cell.cell_type == "code"]
    assert cells
    assert [cell.execution_count for cell in cells] == list(range(1, len(cells) + 1))
    for cell in cells:
        raised = any(output.output_type == "error" for output in cell.outputs)
        assert raised == ("raises-exception" in cell.metadata.get("tags", [])), cell.source


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_has_no_outputs_in_the_repository(path: Path) -> None:
    cells = [cell for cell in nbformat.read(path, as_version=4).cells if cell.cell_type == "code"]
    assert cells
    assert not [cell.source for cell in cells if cell.outputs or cell.execution_count is not None]
