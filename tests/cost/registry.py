"""What the small definition file saves: our registry of units beside pint's own."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from time import process_time

import pint

from plans.quantities import registry
from tests.cost.row import Row, Timed, by_turns


def rows() -> Iterator[Row]:
    """Building our registry."""
    ours, theirs = by_turns(7, _building(registry.__wrapped__), _building(pint.UnitRegistry))
    yield Row("registry of units, built", ours, "pint's own registry", theirs, 0.25)


def _building(build: Callable[[], object]) -> Timed:
    def once(_: int) -> float:
        begun = process_time()
        build()
        return process_time() - begun

    return once
