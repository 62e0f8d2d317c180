"""Words that can hardly be meant: what steel can't have done yet is asked about before it is taken.

A word said once more within `ASKS_FOR` is taken, and what it says was so when it was said first.
"""

from __future__ import annotations

from collections.abc import Callable

from plans.phase import HOLDING, WARMING, PhaseKind
from plans.sitting.course import PlanPoint
from plans.sitting.due import SLACK, is_even
from plans.sitting.event_record import as_kept
from plans.sitting.events import Asked, Basis, Cause, Doubt, Said, Word
from plans.sitting.facts import Facts
from plans.units import ZERO_CELSIUS
from plans.warmth import Part, Span

_JUST = 3.0
"""A press so soon after the last one may be its echo [s]."""
_BY_ITSELF = 5.0
"""A word so soon after a phase that began by itself may have been meant to begin it [s]."""
_FAR_HOTTER = 100.0
"""By how much work must be hotter than its oven, or its bath, to be asked about: a temperature difference [K]; from
memory, no source."""
_COOL_BATH = 50.0 + ZERO_CELSIUS
"""What is etched goes into its bath no hotter than the hand bears [K]; common practice, no source."""
_GOES_ON = (Word.NEXT, Word.RESUME, Word.ON)
"""The words that end a pause."""
_SHARE = 0.6
"""A modelled time is held against the smith's eye only before this share of its least: his fire may be hotter than the
plan has it, and his section thinner; from memory, no source."""
_ENDS = (Word.NEXT, Word.OUT, Word.ON)
"""The words that end a phase because it has done its work."""

Until = Callable[[Part, float], Span | None]
"""How long until a part of the work has come to a temperature [K], as it is exposed now; None where it never does."""


def asked(said: Said, facts: Facts, point: PlanPoint | None, same_step: bool, until: Until) -> Asked | None:
    """What is asked about a word before it is taken; None where it can be meant.

    Args:
        said: the word
        facts: how the sitting stands as it is said
        point: where it would lead; None where it begins nothing
        same_step: whether that is in the step that goes on
        until: the warm model's forecast
    """
    if facts.is_lost:
        return Asked(said.at, said.word, Doubt.WHERE) if said.word in _GOES_ON else None
    if said.word not in _ENDS or facts.paused or facts.left_fire_at is not None or facts.looked:
        return None
    phase = facts.phase.kind
    if phase is PhaseKind.READY:
        hot = _too_hot_for(said, facts, point) if point is not None and same_step else None
        return hot or (_echo(said, facts) if said.word is Word.ON else None)
    if phase in HOLDING:
        return _too_early(said, facts)
    if point is None:
        return None
    if said.word is Word.ON and phase in WARMING and facts.begun_by is not Cause.PROBE:
        return Asked(said.at, said.word, Doubt.IN_THE_FIRE)
    if said.word is Word.ON and phase is not PhaseKind.BENCH and (echo := _echo(said, facts)) is not None:
        return echo
    if phase in WARMING and same_step:
        return _too_cold(said, facts, point.phase, until) or _echo(said, facts)
    if phase is PhaseKind.AIR:
        return _too_hot(said, facts, until) or _echo(said, facts)
    return _echo(said, facts) if phase is PhaseKind.STRIKE and said.word is Word.NEXT else None


def _too_cold(said: Said, facts: Facts, following: PhaseKind, until: Until) -> Asked | None:
    """The skin can't have come to what follows it: to the soak, to the anvil, to the air or the quench."""
    target, cold = facts.target, facts.step.keep_above
    if target is None:
        return None
    if following is PhaseKind.STRIKE:
        doubt, wanted = Doubt.TOO_COLD_TO_STRIKE, cold
    else:
        doubt, wanted = Doubt.NOT_AT_HEAT, target.heat_to - SLACK
    if wanted is None or facts.skin is None or not _is_surely_below(facts, wanted, until):
        return None
    shown = target.heat_to if doubt is Doubt.NOT_AT_HEAT else wanted
    return Asked(said.at, said.word, doubt, as_kept(facts.skin), facts.basis, shown)


def _is_surely_below(facts: Facts, kelvin: float, until: Until) -> bool:
    assert facts.skin is not None
    if facts.basis is Basis.MEASURED:
        return facts.skin + max(0.0, facts.behind) < kelvin
    span = until(Part.SKIN, kelvin)
    return span is not None and _is_too_soon(facts.elapsed, span.least)


def _too_hot(said: Said, facts: Facts, until: Until) -> Asked | None:
    """The work can't have cooled to what the air phase waits for, or its set time has not run down."""
    wanted = facts.phase.until
    if wanted is None:
        return _too_early(said, facts)
    if facts.skin is None:
        return None
    if facts.basis is Basis.MEASURED:
        surely = facts.skin + min(0.0, facts.behind) > wanted + SLACK
    else:
        span = until(Part.MIDDLE, wanted)
        surely = span is not None and _is_too_soon(facts.elapsed, span.least)
    return Asked(said.at, said.word, Doubt.NOT_COLD, as_kept(facts.skin), facts.basis, wanted) if surely else None


def _too_hot_for(said: Said, facts: Facts, point: PlanPoint) -> Asked | None:
    """The work is far hotter than the oven, or than what it is to be dipped in."""
    kinds = {phase.kind: phase for phase in facts.step.phases}
    wanted = kinds[point.phase].at if point.phase is PhaseKind.OVEN else _COOL_BATH
    if point.phase not in (PhaseKind.OVEN, PhaseKind.DIP) or wanted is None or facts.skin is None:
        return None
    surely = facts.skin > wanted + _FAR_HOTTER
    return Asked(said.at, said.word, Doubt.NOT_COLD, as_kept(facts.skin), facts.basis, wanted) if surely else None


def _is_too_soon(gone: float, least: float) -> bool:
    return least > 0 and gone < _SHARE * (gone + least)


def _too_early(said: Said, facts: Facts) -> Asked | None:
    seconds = facts.phase.seconds
    if seconds is None or is_even(facts.elapsed, seconds):
        return None
    return Asked(said.at, said.word, Doubt.NOT_OVER, took=round(facts.elapsed, 3), lasts=seconds)


def _echo(said: Said, facts: Facts) -> Asked | None:
    # Where it began by itself, the word may have been meant to begin it.
    just = _JUST if facts.begun_by is Cause.WORD else _BY_ITSELF
    if facts.elapsed >= just and facts.at - facts.restarted_at >= _JUST:
        return None
    return Asked(said.at, said.word, Doubt.JUST_BEGAN, took=round(facts.elapsed, 3))
