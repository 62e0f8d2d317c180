"""Glow beside colour-science (PyPI, BSD), which has its own observer at every nanometre, Planck's law and sRGB."""

from __future__ import annotations

import warnings
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from plans.warmth import glow

Reckon = Callable[..., dict[str, Any]]

with warnings.catch_warnings():
    # It warns on import that it was installed without matplotlib.
    warnings.simplefilter("ignore")
    import colour

HEATS = range(600, 1501, 50)  # degC


def tristimulus(kelvin: float) -> np.ndarray:
    """X, Y and Z in cd/m2: 683 lm/W times the integrals over the CIE 1931 2 degree observer, 360 to 830 nm by 1 nm."""
    observer = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"]
    radiance = colour.colorimetry.planck_law(observer.wavelengths * 1e-9, kelvin)
    return np.asarray(683.002 * (radiance[:, np.newaxis] * observer.values).sum(axis=0) * 1e-9)


@pytest.mark.parametrize("celsius", HEATS)
def test_luminance(reckon: Reckon, celsius: int) -> None:
    expected = tristimulus(celsius + 273.15)[1]
    assert reckon("glow", "--at", f"{celsius} degC")["luminance_cd_m2"] == pytest.approx(expected, rel=0.001)


@pytest.mark.parametrize("celsius", HEATS)
def test_hue(reckon: Reckon, celsius: int) -> None:
    linear = np.maximum(colour.XYZ_to_RGB(tristimulus(celsius + 273.15), "sRGB", apply_cctf_encoding=False), 0.0)
    expected = 255 * colour.cctf_encoding(linear / linear.max(), function="sRGB")
    assert reckon("glow", "--at", f"{celsius} degC")["srgb"] == pytest.approx(list(expected), abs=1)


@pytest.mark.parametrize("celsius", HEATS)
def test_chromaticity(celsius: int) -> None:
    expected = colour.XYZ_to_xy(tristimulus(celsius + 273.15))
    x, y, z = glow.tristimulus(celsius + 273.15)
    assert (x / (x + y + z), y / (x + y + z)) == pytest.approx(tuple(expected), abs=1e-4)
