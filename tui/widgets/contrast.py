"""Colours that can be told apart: contrast as the Web Content Accessibility Guidelines (WCAG 2.2) define it."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from rich.color import Color, ColorSystem

if TYPE_CHECKING:
    from textual.app import App

RGB = tuple[int, int, int]

BLACK: RGB = (0, 0, 0)
WHITE: RGB = (255, 255, 255)


def _linear(channel: int) -> float:
    share = channel / 255
    return share / 12.92 if share <= 0.04045 else float(((share + 0.055) / 1.055) ** 2.4)


def luminance(colour: RGB) -> float:
    """Relative luminance of an sRGB colour, 0 (black) to 1 (white); WCAG 2.2, definition of relative luminance."""
    red, green, blue = map(_linear, colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: RGB, other: RGB) -> float:
    """Contrast ratio of two colours, 1 to 21; WCAG 2.2, definition of contrast ratio."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def ink_on(field: RGB) -> RGB:
    """Black or white, whichever stands out more on `field`: at least 4.58 to 1 whatever the field."""
    return BLACK if contrast(field, BLACK) >= contrast(field, WHITE) else WHITE


def rgb_of(colour: Color | None) -> RGB:
    """A terminal colour as RGB; none at all counts as black."""
    if colour is None:
        return BLACK
    red, green, blue = colour.get_truecolor()
    return red, green, blue


@lru_cache(maxsize=256)
def in_256(colour: RGB) -> RGB:
    """The colour that a terminal of 256 colours shows in place of `colour`."""
    return rgb_of(Color.from_rgb(*colour).downgrade(ColorSystem.EIGHT_BIT))


def glow_shown(glow: RGB | None, app: App[object]) -> RGB | None:
    """The colour in which a glow comes out on the terminal of `app`; None where it would say nothing.

    Without colours its grey could hide what is drawn on it, and of 16 colours nobody knows what they look like.
    """
    if glow is None or app.no_color:
        return None
    system = "truecolor" if app.is_headless else app.console.color_system
    return {"truecolor": glow, "256": in_256(glow)}.get(system or "")


def between(one: RGB, other: RGB) -> RGB:
    """The colour half-way between two."""
    red, green, blue = ((a + b) // 2 for a, b in zip(one, other, strict=True))
    return red, green, blue
