"""An answer of the reckoner: the same for a command line, which prints it, and for a screen, which draws it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from plans.reckoner.asked import answer_of
from plans.reckoner.figures import Fact, Figure, Given
from plans.record import record
from plans.units import Units

if TYPE_CHECKING:
    from plans.drawing import Drawing


class CurvePoint(NamedTuple):
    """One point of the curve by which a bar warms or cools, for a picture."""

    seconds: float
    """Time since the beginning [s]."""
    skin: float
    """Temperature of the bar's skin [K]."""
    middle: float
    """Temperature of the bar's middle [K]."""


@record
class Reckoning:
    """An answer of the reckoner: what was given, and what it comes to."""

    name: str
    """Which reckoning it is: "cooling", "soak", "steel" ..."""
    given: tuple[Given, ...]
    """What was given, and what was taken for want of it, in the order in which it is shown."""
    found: tuple[Figure | Fact, ...]
    """What was found, in the order in which it is shown."""
    curve: tuple[CurvePoint, ...] = ()
    """How the bar warms or cools, from the beginning to the end of the time that was found; empty where the reckoning
    is of no such time."""
    profile: tuple[tuple[float, float], ...] = ()
    """Depths below a face [m] and the carbon there [% by mass], from the face inwards; empty where none was asked."""
    drawing: Drawing | None = None
    """The piece drawn to scale; None where the reckoning is of none."""

    @property
    def answer(self) -> tuple[Figure | Fact, ...]:
        """What was asked for, three at most, the most important first."""
        return answer_of(self.name, [one.key for one in self.given], self.found)

    @property
    def besides(self) -> tuple[Figure | Fact, ...]:
        """What else was found, in the order in which it is shown."""
        answer = self.answer
        return tuple(one for one in self.found if one not in answer)

    @property
    def record(self) -> dict[str, Any]:
        """The reckoning for JSON: under `answer` the keys of what was asked for, each figure under its key, those asked
        for first, and under `about` what to think of it."""
        ordered = (*self.answer, *self.besides)
        return {
            "reckoning": self.name,
            "answer": [one.key for one in self.answer],
            **{one.key: one.kept for one in ordered},
            "given": {one.key: one.kept for one in self.given},
            "about": {one.key: one.about for one in ordered},
        }

    def brief(self, units: Units = Units.METRIC) -> list[str]:
        """What was asked for and nothing else, one figure a line: label, figure, range and basis in columns."""
        return columns([_row(one, units) for one in self.answer])

    def lines(self, units: Units = Units.METRIC) -> list[str]:
        """The whole reckoning for people: the answer, what was given, the other figures, then what each stands on."""
        besides = columns([_row(one, units) for one in self.besides])
        parts = [self.brief(units), [self.asked(units)], besides, list(self.notes(units))]
        return [line for part in parts if part for line in ("", *part)][1:]

    def asked(self, units: Units = Units.METRIC) -> str:
        """What was given, or taken for want of it, in one line."""
        return "; ".join(one.text(units) for one in self.given)

    def notes(self, units: Units = Units.METRIC) -> Iterator[str]:
        """The footnotes: validity, once for all figures that share it, with its source's number; then the sources."""
        labels: dict[tuple[str, str], list[str]] = {}
        for one in (*self.answer, *self.besides):
            if any(notes := one.notes(units)):
                labels.setdefault(notes, []).append(one.label)
        sources = list(dict.fromkeys(source for _, source in labels if source))
        for (validity, source), names in labels.items():
            number = f" [{sources.index(source) + 1}]" if source else ""
            yield f"{', '.join(names)}: {validity.rstrip('.')}{number}."
        yield from (f"[{number}] {source}" for number, source in enumerate(sources, 1))


def _row(one: Figure | Fact, units: Units) -> tuple[str, str, str, str]:
    return one.label, one.text(units), one.range_text(units), one.stands_on


_WIDEST = 28
"""A cell that is longer, such as a list of wires, does not push the next column out [characters]."""


def columns(rows: Sequence[tuple[str, str, str, str]]) -> list[str]:
    """Rows of four cells as lines of text with their cells lined up; a column that is empty throughout is left out.

    Args:
        rows: label, figure, range and basis of each row
    """
    widths = [max((len(row[i]) for row in rows if len(row[i]) <= _WIDEST), default=0) for i in range(3)]
    lines = []
    for label, *rest in rows:
        first = label.ljust(widths[0])
        if len(rest[0]) > _WIDEST:  # nothing lines up behind it
            cells = [first, *filter(None, rest)]
        else:
            cells = [
                first,
                *(cell.ljust(width) for cell, width in zip(rest, widths[1:], strict=False) if width),
                rest[2],
            ]
        lines.append("  ".join(cells).rstrip())
    return lines
