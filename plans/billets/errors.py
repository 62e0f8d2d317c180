"""The error for a billet that can't be, which the smith can mend."""

from __future__ import annotations

from plans.errors import PlansError


class BilletError(PlansError):
    """What was given makes no billet; its text says what is wrong with it, and what would be right.

    Args:
        given: name of what is at fault, as it is asked for: "core", "drawn-to"
        why: what is wrong with it, and what would be right
    """

    def __init__(self, given: str, why: str) -> None:
        super().__init__(f"{given}: {why}")
        self.given = given
        """Name of what is at fault."""
        self.why = why
        """What is wrong with it, and what would be right."""


def above_zero(**lengths: float) -> None:
    """Make sure that lengths are ones that steel can have.

    Args:
        **lengths: each under its name [m]

    Raises:
        BilletError: one is not from a thousandth of a millimetre to 100 m.
    """
    for given, length in lengths.items():
        if not 1e-6 <= length <= 100.0:
            raise BilletError(given.replace("_", "-"), "give one from 0.001 mm to 100 m")
