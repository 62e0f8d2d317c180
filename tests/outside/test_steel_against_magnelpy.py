"""Specific heat and density of steel beside magnelpy (PyPI, MIT), a university's library for fire engineering."""

from __future__ import annotations

from importlib.metadata import files
from importlib.util import module_from_spec, spec_from_file_location
from types import ModuleType

import numpy as np
import pytest

from plans.warmth.steel import DENSITY, enthalpy, specific_heat


@pytest.fixture(scope="module")
def theirs() -> ModuleType:
    """Its module of steel alone: the package around it wants pandas, which it does not say."""
    path = next(file for file in files("magnelpy") or () if str(file).endswith("MaterialProperties/Steel.py"))
    spec = spec_from_file_location("magnelpy_steel", str(path.locate()))
    assert spec
    assert spec.loader
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_density(theirs: ModuleType) -> None:
    assert theirs.density_EC3() == DENSITY


def test_specific_heat_from_cold_to_1200(theirs: ModuleType) -> None:
    # EN 1993-1-2:2005 3.4.1.2; they hold 650 above 1200 degC as we do. At every half degree but the joins.
    celsius = np.arange(20.25, 1500, 0.5)
    ours = [specific_heat(degrees + 273.15) for degrees in celsius]
    assert ours == pytest.approx(list(theirs.cp_EC3(celsius)), rel=1e-9)


@pytest.mark.parametrize(("cold", "hot"), [(20, 1200), (20, 700), (700, 800), (900, 1300)])
def test_heat_is_the_integral_of_their_specific_heat(theirs: ModuleType, cold: float, hot: float) -> None:
    middles = np.linspace(cold, hot, 400_001)[:-1] + (hot - cold) / 800_000
    expected = float(theirs.cp_EC3(middles).mean()) * (hot - cold)
    assert enthalpy(hot + 273.15) - enthalpy(cold + 273.15) == pytest.approx(expected, rel=1e-5)
