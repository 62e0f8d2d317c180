"""What the small definition file saves: our registry of units beside pint's own, built in the same run."""

from __future__ import annotations

from collections.abc import Callable
from time import process_time

import pint

from plans.quantities import registry


def quickest(build: Callable[[], object], times: int = 3) -> float:
    spent = []
    for _ in range(times):
        begun = process_time()
        build()
        spent.append(process_time() - begun)
    return min(spent)


def test_our_registry_is_built_in_a_fraction_of_the_time_of_pints_own() -> None:
    # measured: 6 ms and 130 to 190 ms
    assert quickest(registry.__wrapped__) < quickest(pint.UnitRegistry) / 4
