"""Why a question could not be answered.

An error is not a finding: a plan that breaks a limit is a plan, with a finding that says so.
"""


class MixcalcError(Exception):
    """Base of all errors of mixcalc; its text says what is wrong, what was given, what is allowed and how to mend it."""

    # All but the message have defaults, so that pickle can make the error anew and then hand it its attributes.
    def __init__(
        self, message: str, *, code: int = 0, name: str = "", path: str = "", given: str = "", allowed: str = ""
    ) -> None:
        super().__init__(message)
        self.code = code
        """Stable number, the same in Rust and C."""
        self.name = name
        """Name of the code in documents, such as ``not-positive``."""
        self.path = path
        """The field that the error is about, such as ``products[1].label.max_dose``; empty where there is none."""
        self.given = given
        """What was given."""
        self.allowed = allowed
        """What would be allowed instead."""


class InputError(MixcalcError, ValueError):
    """The input cannot be answered."""


class UnitError(InputError):
    """A quantity has no unit, a wrong one, or one with more than one meaning. Its codes are 200 to 299."""


class NoNumberError(UnitError, TypeError):
    """``float(quantity)`` of what is no pure number; a ``TypeError`` too, as Python has it for what is no number."""


class InternalError(MixcalcError):
    """A fault of the library, not of the input."""
