"""Fisher's exact test held against scipy.stats.fisher_exact, in tables of up to 12 cases and some larger."""

from __future__ import annotations

from itertools import product

import pytest
from scipy.stats import fisher_exact as by_scipy

from plans.logbook.comparing import fisher_exact

SMALL = [
    table for table in product(range(7), repeat=4) if sum(table) <= 12 and table[0] + table[1] >= table[2] + table[3]
]
LARGE = [(40, 3, 17, 20), (300, 200, 240, 260), (1, 99, 9, 91), (0, 500, 12, 488)]


def test_the_chance_is_that_of_scipy() -> None:
    for table in SMALL[::2] + LARGE:
        a, b, c, d = table
        # scipy's own is reckoned in floats, from logarithms of factorials.
        assert fisher_exact(*table) == pytest.approx(by_scipy([[a, b], [c, d]]).pvalue, rel=1e-9), table
