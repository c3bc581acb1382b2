"""Seed corpora and words for the fuzz targets, from the examples and the conformance vectors: python3 fuzz/seeds.py"""

from __future__ import annotations

import json
import re
from pathlib import Path

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent


def cases() -> list[dict]:
    """All cases of all vectors."""
    vectors = (json.loads(path.read_text("utf-8")) for path in sorted((ROOT / "tests/conformance").glob("*.json")))
    return [case for vector in vectors if isinstance(vector, dict) for case in vector.get("cases", [])]


def document_of(case: dict) -> bytes | None:
    """The job of a case, stated as text or as JSON."""
    job = case.get("document", case.get("job"))
    if job is None:
        return None
    return (job if isinstance(job, str) else json.dumps(job)).encode("utf-8", "surrogatepass")


def words(schema: object) -> set[str]:
    """The keys and choices of a JSON schema."""
    if isinstance(schema, list):
        return set().union(*map(words, schema))
    if not isinstance(schema, dict):
        return set()
    own = [*schema.get("properties", {}), *schema.get("enum", []), schema.get("const")]
    return {word for word in own if isinstance(word, str)}.union(*map(words, schema.values()))


def write(target: str, seeds: list[bytes]) -> None:
    folder = HERE / "corpus" / target
    folder.mkdir(parents=True, exist_ok=True)
    for number, seed in enumerate(seeds):
        (folder / f"seed-{number:04}").write_bytes(seed)


def main() -> None:
    texts = [case["text"] for case in cases() if "text" in case]
    units = {unit for text in texts for unit in re.split(r"[ /]", text)[1:] if unit}
    examples = [path.read_bytes() for path in sorted((ROOT / "docs/examples").iterdir()) if path.suffix in (".toml", ".json")]
    documents = examples + [document for case in cases() if (document := document_of(case)) is not None]
    keys = words(json.loads((ROOT / "mixcalc/schema/job.schema.json").read_text("utf-8")))
    write("quantity_text", [text.encode("utf-8", "surrogatepass") for text in texts])
    write("job_document", documents)
    # Any bytes decide on the pieces of a job; these are long enough to decide on all of them.
    write("plan_of_job", documents)
    lines = ("".join(f"\\x{byte:02x}" for byte in word.encode()) for word in sorted(keys | units))
    (HERE / "corpus/words.dict").write_text("".join(f'"{line}"\n' for line in lines))


if __name__ == "__main__":
    main()
