from typing import Final

__all__ = ["_panic", "plan_json", "version"]

version: Final[str]

def plan_json(job: str | bytes, /) -> str: ...
def _panic() -> None: ...
