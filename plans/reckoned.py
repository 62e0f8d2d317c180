"""One reckoned figure and what to think of it, for a command line and a screen alike."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from plans.record import record
from plans.units import Shown


@record
class Reckoned:
    """A figure with its error, and how far it can be trusted."""

    value: float
    """In SI, or in the unit that the function names (HRC, % by mass, a share)."""
    basis: Literal["modelled", "published", "from memory", "common practice", "arithmetic"]
    """Worked out by a formula of physics, read from a published table, remembered of one, as the trade has it without a
    source, or geometry and counting alone."""
    validity: Shown
    """Where it holds and what it leaves out, in words for the smith; says so where this figure lies outside."""
    source: Shown
    """The paper, book or standard; "from memory" where none was to be had."""
    least: float | None = None
    """The low end of what it may be in truth, in the unit of `value`; None where the error is not known."""
    most: float | None = None
    """The high end."""
    outside: bool = False
    """Beyond the range in which the formula was found: a hint at best."""

    def times(self, factor: float, validity: Shown) -> Reckoned:
        """It, with its range, times what is known exactly, such as a density times a volume.

        Args:
            factor: above 0
            validity: of the product
        """
        least, most = (None if end is None else end * factor for end in (self.least, self.most))
        return replace(self, value=self.value * factor, least=least, most=most, validity=validity)
