"""What is aimed at, and where one trace fell short of it."""

from __future__ import annotations

from tests.listening.played.cells import ARREST, COLD, HEAT, IN, OUT, Cell
from tests.listening.played.judging import Score

_SLOW = 3.0
"""A probe that speaks no oftener than this pays for its median of five with seconds [Hz]."""
_LATEST = {IN: 12.0, OUT: 6.0, COLD: 4.0}
"""How late each may be told of a weld heat [s]."""
_DATED_WITHIN = 5.0
"""[s]"""
_FALSE_AN_HOUR = 0.3
"""False calls of a skin that hovers just above its limit."""


def shortcomings(cell: Cell, scores: dict[str, Score]) -> list[str]:
    """A line for each aim that a trace missed; none if all is well."""
    match cell.scene:
        case "held" | "lying":
            quiet = (OUT, COLD) if cell.scene == "held" else (IN,)
            return [told for what in quiet for told in _none_false(what, scores[what])]
        case "hover":
            score = scores[COLD]
            if score.false < _FALSE_AN_HOUR * score.hours:
                return []
            return [f"{score.false} false calls of {COLD} in {score.hours:.1f} h"]
        case "normalize":
            return [told for what in (IN, OUT, HEAT, ARREST) for told in _found(what, scores[what])]
        case _:
            found = [told for what in (IN, OUT, HEAT, COLD) for told in _found(what, scores[what])]
            return found + [told for what in (IN, OUT, COLD) for told in _late(cell, what, scores[what])]


def _none_false(what: str, score: Score) -> list[str]:
    return [f"{what}: false at {score.false_at}"] if score.false else []


def _found(what: str, score: Score) -> list[str]:
    missed = [f"{what}: {score.found} found of {score.true}"] if score.found != score.true or not score.true else []
    return missed + _none_false(what, score)


def _late(cell: Cell, what: str, score: Score) -> list[str]:
    if what is COLD and (cell.faults.hertz <= _SLOW or cell.faults.lag):
        return []
    late = [f"{what}: told after {delay:.1f} s" for delay in score.delays if delay > _LATEST[what]]
    if what is COLD:
        return late
    return late + [f"{what}: dated {off:+.1f} s off" for off in score.dating if abs(off) > _DATED_WITHIN]
