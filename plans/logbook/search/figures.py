"""What a sitting can be found by: its texts and its figures, each under the name by which a search calls it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from plans.logbook.facts import Facts
from plans.logbook.summary import Summary
from plans.prose import in_units
from plans.quantity_grammar import EXAMPLES, Dimension
from plans.record import record
from plans.units import Units

_NOTHING: Final = Facts((), (), None, None, None, None, None, None, None)
"""Of a sitting that has not been put away."""


def _facts(summary: Summary) -> Facts:
    return _NOTHING if summary.facts is None else summary.facts


def _title(summary: Summary, units: Units) -> str:
    return f"{summary.label.title}\n{in_units(summary.title, units)}"


def _outcome(summary: Summary) -> str:
    return f"{summary.outcome}\n{summary.outcome_word}"


TEXTS: Final[Mapping[str, Callable[[Summary, Units], str]]] = {
    "plan": lambda summary, units: f"{summary.plan}\n{in_units(summary.title, units)}",
    "title": _title,
    "steel": lambda summary, _: "\n".join(_facts(summary).steels),
    "note": lambda summary, _: "\n".join(_facts(summary).notes),
    "mark": lambda summary, _: summary.label.mark,
    "outcome": lambda summary, _: _outcome(summary),
}
"""The texts of a sitting, in the units in which they are shown."""


@record
class SearchedFigure:
    """A figure that a sitting can be found by."""

    dimension: Dimension
    """What it is a quantity of."""
    of: Callable[[Summary], float | None]
    """The figure of a sitting in SI; None where that has none, or nobody knew it."""
    otherwise: SearchedFigure | None = None
    """What it is where it is no quantity of that dimension: fuel is weighed or metered."""
    typed: str = ""
    """How it is typed, where that is not as any quantity of its dimension."""

    @property
    def example(self) -> str:
        """What it may be held against, for the end of an error."""
        return self.typed or EXAMPLES[self.dimension]


FIGURES: Final[Mapping[str, SearchedFigure]] = {
    "heats": SearchedFigure("number", lambda summary: summary.heats, typed='"20"'),
    "calls": SearchedFigure("number", lambda summary: summary.calls, typed='"8"'),
    "reheats": SearchedFigure("number", lambda summary: _facts(summary).reheats, typed='"3"'),
    "took": SearchedFigure("time", lambda summary: summary.seconds),
    "peak": SearchedFigure("temperature", lambda summary: _facts(summary).peak),
    "in fire": SearchedFigure("time", lambda summary: _facts(summary).in_fire),
    "soaked": SearchedFigure("time", lambda summary: _facts(summary).soaked),
    "at welding heat": SearchedFigure("time", lambda summary: _facts(summary).at_welding_heat),
    "struck": SearchedFigure("time", lambda summary: _facts(summary).struck),
    "too cold": SearchedFigure("time", lambda summary: _facts(summary).too_cold),
    "decarb": SearchedFigure("length", lambda summary: _facts(summary).decarb),
    "scale": SearchedFigure("length", lambda summary: _facts(summary).scale),
    "fuel": SearchedFigure(
        "mass",
        lambda summary: _facts(summary).fuel_mass,
        SearchedFigure("volume", lambda summary: _facts(summary).fuel_volume),
    ),
    "hardness": SearchedFigure("number", lambda summary: _facts(summary).hardness, typed='"60", of Rockwell C'),
    "rating": SearchedFigure("number", lambda summary: _facts(summary).rating, typed='"4", of 5'),
    "warp": SearchedFigure("length", lambda summary: _facts(summary).warp),
    "twist": SearchedFigure("number", lambda summary: _facts(summary).twist_degrees, typed='"3", of degrees'),
}
"""The figures of a sitting; the name of one is up to three words."""


def all_texts(summary: Summary, units: Units) -> str:
    """All the texts that a sitting is found by, one a line.

    Args:
        summary: the sitting
        units: those in which its texts are shown
    """
    return "\n".join(text(summary, units) for text in TEXTS.values())
