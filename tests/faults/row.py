"""One kind of fault that was done to the program, how often, and what came of it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Row:
    """How often a fault was done, and where the program did not stand up to it."""

    what: str
    """What was done."""
    cases: int
    """How often."""
    failed: tuple[str, ...]
    """A line for each case that went wrong: which case, and what was found."""
    allowed: float = 0.0
    """The share of the cases that may go wrong; above zero only where the probe is noisy and chance decides."""

    @property
    def survived(self) -> int:
        """How many cases went well: nothing was lost, and the program did as it should."""
        return self.cases - len(self.failed)

    @property
    def stood(self) -> bool:
        """Whether no more cases went wrong than may."""
        return len(self.failed) <= self.allowed * self.cases
