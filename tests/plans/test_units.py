"""Quantities as they are printed in the units that are set."""

from __future__ import annotations

from plans.units import in_both, kelvin


def test_both_scales() -> None:
    assert in_both(kelvin(900)) == "900 degC (1652 degF)"
