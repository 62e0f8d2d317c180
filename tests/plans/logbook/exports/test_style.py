"""The colours of a page, and the size of its text on paper."""

from __future__ import annotations

import re

import pytest

from plans.logbook.exports import overlay, picture
from plans.logbook.exports.style import DARK, LIGHT, PRINT, STYLE


def _luminance(colour: str) -> float:
    channels = [int(colour[index : index + 2], 16) / 255 for index in (1, 3, 5)]
    linear = [share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4 for share in channels]
    return sum(weight * share for weight, share in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


@pytest.mark.parametrize("colours", [LIGHT, DARK, PRINT], ids=["light", "dark", "print"])
def test_all_that_is_written_is_legible(colours: dict[str, str]) -> None:
    """WCAG 2.2, success criterion 1.4.3: 4.5 to 1."""
    for paper in ("paper", "heat"):
        for ink in ("ink", "quiet", "ember", "cold", "burn", *(f"of-{letter}" for letter in "abcde")):
            dark, light = sorted((_luminance(colours[paper]), _luminance(colours[ink])))
            assert (light + 0.05) / (dark + 0.05) >= 4.5, (paper, ink)


def test_text_of_pictures_is_seven_points_on_either_paper() -> None:
    """A4 is 210 mm wide (ISO 216), Letter 8.5 inch; a point is 1/72 inch."""
    (margin,) = re.findall(r"@page\{margin:\d+mm (\d+)mm\}", STYLE)
    (gap,) = re.findall(r"1fr 1fr;gap:0 (\d+)mm", STYLE)
    sizes = [float(size) for rule, size in re.findall(r"(svg [^{}]*)\{[^}]*font-size:([\d.]+)px", STYLE)]
    assert sizes
    for paper in (210.0, 8.5 * 25.4):
        points = (paper - 2 * float(margin)) / 25.4 * 72
        assert min(sizes) * points / picture.WIDTH >= 7
        assert min(sizes) * (points - float(gap) / 25.4 * 72) / 2 / overlay.WIDTH >= 7
