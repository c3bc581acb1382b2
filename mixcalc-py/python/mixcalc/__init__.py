"""Unit-safe arithmetic of mixing, loading and calibrating crop sprayers."""

from mixcalc._mixcalc import plan_json, version as __version__
from mixcalc.errors import InputError, InternalError, MixcalcError, UnitError

__all__ = ["InputError", "InternalError", "MixcalcError", "UnitError", "__version__", "plan_json"]
