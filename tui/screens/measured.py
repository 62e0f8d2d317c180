"""The line in which a smith says what was measured by hand."""

from __future__ import annotations

from collections.abc import Callable

from plans.measured import MeasuredError
from plans.sitting import measured_text
from plans.units import Units
from tui.screens.line import LineScreen

_LEGEND = "w width, t thick, l length, m weight, hrc, file skates/bites, bevel, decarb"


def measured_line(
    units: Units,
    below: int = 0,
    *,
    title: str = "Measured",
    value: str = "",
    otherwise: str = "",
    read: Callable[[str, int], str] | None = None,
    doubt: Callable[[str], str] | None = None,
) -> LineScreen:
    """Asks for what was measured; the answer is as the log keeps it, each figure with its unit.

    Args:
        units: those that are set, of which a bare number is
        below: how many rows of what it stands over are left to be seen below it
        title: what is asked for
        otherwise: what to write where it is of something else than the title says; empty where nothing can be
        value: what was measured before, which stands there to be mended; left empty, it is an empty text
        read: the answer, of what was typed, where it is another; see `LineScreen`
        doubt: why an answer can hardly be meant, which is asked about once; empty where it can
    """
    take = read or (lambda text, _: measured_text(text, units))
    asked: set[str] = set()

    def taken(text: str, left_out: int) -> str:
        answer = take(text, left_out)
        why = "" if doubt is None or text in asked else doubt(answer)
        if why:
            asked.add(text)
            raise MeasuredError(f"{why}? enter once more if it is so")
        return answer

    return LineScreen(
        title,
        value,
        below=below,
        hint="empty takes it back, " if value else "",
        may_be_empty=bool(value),
        legend=f"{otherwise}\n{_LEGEND}" if otherwise else _LEGEND,
        example="w 1 1/4 t 3/4" if units.inches else "w 31.5 t 18",
        read=taken,
    )
