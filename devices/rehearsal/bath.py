"""What the work is quenched in, in the rehearsal: by the plan's own words for it."""

from __future__ import annotations

import re
from contextlib import suppress

from plans.record import record

_BRACES = re.compile(r"\{([^{}]*)\}")


@record
class Bath:
    """A bath that is stirred: a coat of vapour, then boiling, then only the liquid."""

    kelvin: float
    """Its temperature [K]."""
    vapour: float
    """Conductance between it and a skin hotter than 1000 K [W/(m2 K)]."""
    boiling: float
    """Conductance where the skin is hotter than 650 K [W/(m2 K)]."""
    liquid: float
    """Conductance below that [W/(m2 K)]."""

    def conductance(self, skin: float) -> float:
        """Conductance between it and a skin [W/(m2 K)]."""
        return self.vapour if skin > 1000.0 else self.boiling if skin > 650.0 else self.liquid


_OIL = Bath(328.0, 800.0, 3000.0, 500.0)
_KNOWN = (
    (("brine", "salt water"), Bath(295.0, 6000.0, 12000.0, 2500.0)),
    (("salt",), Bath(470.0, 1200.0, 1200.0, 1000.0)),
    (("water",), Bath(295.0, 1500.0, 9000.0, 2500.0)),
    (("plate",), Bath(300.0, 900.0, 900.0, 900.0)),
    (("air",), Bath(293.0, 110.0, 80.0, 60.0)),
)
"""Words for baths, the first that is found counts; round figures from memory."""


def bath_of(medium: str) -> Bath:
    """The bath that a plan's words mean: "water at {40 degC}"; oil where no word of it is known.

    Args:
        medium: the words; a temperature in braces is that of the bath
    """
    said = medium.lower()
    bath = next((bath for words, bath in _KNOWN if any(word in said for word in words)), _OIL)
    if found := _BRACES.search(medium):
        from plans.quantities import QuantityError, parse

        with suppress(QuantityError):
            return Bath(parse(found[1], "temperature"), bath.vapour, bath.boiling, bath.liquid)
    return bath
