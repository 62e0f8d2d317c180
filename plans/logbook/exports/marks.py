"""The marks of calls on a page."""

from __future__ import annotations

from plans.sitting import Call, Shape

_SHAPES = {
    Shape.DIAMOND: '<path class="prompt" d="M0-5 5 0 0 5-5 0Z"/>',
    Shape.DOWN: '<path class="alarm cold" d="M-6-5H6L0 6Z"/>',
    Shape.UP: '<path class="alarm burn" d="M-6 5H6L0-6Z"/>',
    Shape.SQUARE: '<path class="alarm burn" d="M-5-5H5V5H-5Z"/>',
    Shape.WAVE: '<path class="probe" fill="none" d="M-6 2C-4-4-2-4 0 0S4 4 6-2"/>',
    Shape.ARROW: '<path class="probe" fill="none" d="M0-6V5M-4 1 0 5 4 1"/>',
    Shape.CROSS: '<path class="probe" d="M-4-4 4 4M-4 4 4-4"/>',
    Shape.PLUS: '<path class="probe" d="M-5 0H5M0-5V5"/>',
}


def call_mark(call: Call) -> str:
    """The mark of a call on the page, as an SVG element around the origin."""
    return _SHAPES[call.row.shape]
