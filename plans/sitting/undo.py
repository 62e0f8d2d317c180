"""What undo goes back to: one point for each word, and for each thing that came about without one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from plans.measured import Measured
from plans.record import record
from plans.sitting.calls import Call
from plans.sitting.events import Begun, Called, Cause, Event, LeftFire, Said, Word
from plans.sitting.ticks import Ticked

if TYPE_CHECKING:
    # Whoever only folds the events of a log, as the logbook does, need not load the warm model.
    from plans.shapes import Section
    from plans.sitting.running_piece import PieceState


@record
class Measurement:
    """What was measured by hand, and what of the work it was measured after."""

    at: float
    """When it was said [s]."""
    step: int
    """The step that was worked on last, from 0."""
    heat: int
    """The last heat of that step in which it was worked on, from 1; 0 where the work was as the step begins."""
    measured: Measured
    """The figures."""


@record
class WorkBefore:
    """The work in the warm model, as it was at an undo point."""

    count: int
    """How many grid points had been modelled."""
    whole: PieceState | None
    """The work as a whole; None before its section was known."""
    shape: tuple[Section, float | None] | None
    """Section and length [m] of the work that the plan had given it; None before its section was known."""
    thin: PieceState | None
    """The thin part that was being struck; None without one."""
    thin_in: tuple[int, int] | None
    """Step (from 0) and heat (from 1) in which that thin part was being struck; None without one."""


@dataclass(slots=True)
class UndoPoint:
    """All that a word may change, as it was just before the word: of the sitting and of the work in the warm model."""

    at: float
    """When the word was said, or the thing came about [s]."""
    what: Word | Cause
    """The word; or, of what came about without one, the cause."""
    moved: bool
    """Whether what is going on with the work changed after it. Where it did not, undo leaves calls and warm model."""
    work: WorkBefore | None
    """The work in the warm model; None where events are folded without one."""
    begins: int
    """How many phases had begun."""
    past_pauses: int
    """How many pauses were over."""
    looks: int
    """How many looks at the work, out of the fire, were over."""
    away_since_pause: bool
    """Whether the program was not running for a part of the pause that went on."""
    extra: tuple[tuple[int, tuple[int, ...]], ...]
    """Steps (from 0) that had heats beyond the plan, and in which heats each was asked for."""
    measurements: tuple[Measurement, ...]
    """What had been measured by hand."""
    ticked: tuple[Ticked, ...]
    """The items of checklists that were ticked."""
    paused_at: float | None
    """When the pause that went on had begun [s]; None without one."""
    seconds_paused: float
    """How long the pauses that were over had lasted [s]."""
    left_fire_at: float | None
    """When the work had left the fire for the quench [s]; None unless it was on its way."""
    soak_by_word_only: bool
    """Whether only a word could begin the soak."""
    end_by_word_only: bool
    """Whether only a word could end the phase."""
    ended_at: float | None
    """When the sitting had ended [s]; None while it went on."""
    alarms: frozenset[Call]
    """The calls that held."""
    called: frozenset[Call]
    """The calls that had been made in the phase."""


@record
class RedoPoint:
    """What an undo took away, for redo to bring it back."""

    undone: UndoPoint
    """The point that undo went back to."""
    after: UndoPoint
    """All that a word may change, as it was before the undo."""
    begins: tuple[Begun, ...]
    """The phases that were taken away."""
    seconds_paused_before: tuple[float, ...]
    """How long all pauses before each of them had lasted [s]."""
    past_pauses: tuple[tuple[float, float], ...]
    """The pauses that were taken away."""
    looks: tuple[tuple[float, float], ...]
    """The looks that were taken away."""


def undoable(event: Event) -> Word | Cause | None:
    """What undo would take back with this event.

    Returns:
        the word; the cause of what came about without one; None for what belongs to the word before it, and for what
        undo passes over
    """
    match event:
        case Said(word=word) if word in (Word.MEASURED, Word.TICK) or not (word.is_about_a_word or word.is_aside):
            return word
        case Begun(cause=cause) if cause.by_itself:
            return cause
        case Called(call=Call.LOOKED, happened=float()):
            # Without a time of its own it belongs to the word that said so.
            return Cause.PROBE
        case LeftFire(happened=float()):
            # The first versions passed over this one, and took back the word before it: a log of theirs, in which the
            # smith took something back on the way to a quench that the probe had heard, is folded as he meant it.
            return Cause.PROBE
    return None
