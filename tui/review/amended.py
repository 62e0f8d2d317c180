"""A sitting before and after something was said of it in the review, so that it can be taken back."""

from __future__ import annotations

from collections.abc import Callable

from plans.logbook import KeptSitting, Logbook
from plans.record import record


@record
class Amended:
    """What was said once."""

    before: KeptSitting
    """The sitting as it was kept before."""
    after: KeptSitting
    """As it was kept then."""


def amended(logbook: Logbook, name: str, change: Callable[[KeptSitting], KeptSitting]) -> Amended:
    """Change what is said of a sitting that is over.

    Args:
        logbook: has it
        name: its id
        change: makes the sitting as it is to be of the one that is kept

    Raises:
        LogbookError: as `Logbook.amend`.
    """
    before: list[KeptSitting] = []

    def changed(kept: KeptSitting) -> KeptSitting:
        before.append(kept)
        return change(kept)

    after = logbook.amend(name, changed)
    return Amended(before[-1], after)
