"""Calls that nobody answers are repeated, the more urgently the longer: one rule for bell, voice and screen."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from plans.phase import PhaseKind
from plans.record import record
from plans.sitting.call_row import Role
from plans.sitting.calls import ALARMS, Call
from plans.sitting.events import Called, Eased, Event, LeftFire, Said
from plans.sitting.limits import limits_of

if TYPE_CHECKING:
    # Whoever only asks how urgent a call is need not load the engine.
    from plans.sitting.glance import Glance

NEVER_SILENT = frozenset({Call.TOO_HOT})
"""Calls that neither a word nor muting nor time silences while they hold: steel that burns can't be mended."""


@record
class _Stage:
    """From when on a call is repeated how often."""

    begins: float
    """How long the call has then gone unanswered [s]."""
    every: float
    """How often it is repeated from then on, until the next stage [s]."""


_STAGES = {
    Role.PROMPT: (_Stage(10.0, 20.0), _Stage(70.0, 15.0), _Stage(130.0, 10.0)),
    Role.ALARM: (_Stage(5.0, 5.0), _Stage(20.0, 5.0), _Stage(60.0, 5.0)),
}
"""Calls with any other role are not repeated: no hand can answer them."""
_REST, _QUICK = 0.6, 0.2
"""How long after a call's own pattern the bell begins to ring more, and how quickly it does [s]."""
_MORE_STROKES = 2
"""How many strokes more each stage rings."""


def urgency_of(call: Call, seconds: float) -> int:
    """How urgent a call has become, from 0, just called or never repeated, to 3.

    Args:
        call: the call
        seconds: how long it has gone unanswered [s]
    """
    return sum(stage.begins <= seconds for stage in _STAGES.get(call.row.role, ()))


def strokes(call: Call, urgency: int) -> tuple[float, ...]:
    """When the bell rings [s]: in the call's own pattern, and then quick strokes, the more the more urgent it is."""
    own = call.row.bell
    return (*own, *(own[-1] + _REST + _QUICK * count for count in range(_MORE_STROKES * urgency)))


@record
class Unanswered:
    """A call that holds, and that nobody has answered."""

    call: Call
    """The call."""
    seconds: float
    """How long it has gone unanswered [s]."""

    @property
    def urgency(self) -> int:
        """How urgent it has become, from 0 to 3."""
        return urgency_of(self.call, self.seconds)


class Repeating:
    """Tells which call is to be repeated, and when. It knows no clock but that of the glances, and is deterministic.

    A word of the smith answers every call that holds as he says it, but no note and no burn limit; so does work that
    leaves the fire for its quench. What undo brings back is called anew. One call is repeated at a time, the most
    urgent. What fell due while nobody looked, as while the machine slept, is repeated once and not made up for.

    Args:
        repeat_for: how long an unanswered call is repeated, 0 for never [s]; a burn limit is as long as it holds
    """

    def __init__(self, repeat_for: float) -> None:
        self._repeat_for = repeat_for
        self._holding: dict[Call, _Repeats | None] = {}
        """Calls that hold and can be answered; None for one that was."""
        self._place: tuple[int, int, PhaseKind] | None = None
        """Step, heat and phase that they were made in."""
        self.unanswered: Unanswered | None = None
        """The most urgent call that nobody has answered, repeated or no longer, as it was heard last."""

    def hear(self, events: Sequence[Event], seen: Glance) -> Unanswered | None:
        """The call that is to be repeated now; None where none is.

        Args:
            events: what happened since the last time, in order; may be empty
            seen: how the sitting looks after that
        """
        for event in events:
            self._take(event)
        place = (seen.step_number, seen.heat, seen.phase)
        if place != self._place:
            self._place, self._holding = place, {}  # of another phase, even where it is called alike
        repeated = [call for call in Call if call in seen.alarms and call.row.role in _STAGES]
        self._holding = {call: self._holding.get(call, _Repeats(call, seen.at)) for call in repeated}
        # The marks of every call are passed, so that one which was not the most urgent catches nothing up.
        due = {repeats.call for repeats in self._open() if repeats.fall_due(seen.at)}
        waiting = [Unanswered(repeats.call, seen.at - repeats.since) for repeats in self._open()]
        waiting = [one for one in waiting if not seen.paused or (one.call in NEVER_SILENT and _still_burns(seen))]
        self.unanswered = _most_urgent(waiting)
        loud = _most_urgent([one for one in waiting if one.seconds < self._repeat_for or one.call in NEVER_SILENT])
        return loud if loud is not None and loud.call in due else None

    def _take(self, event: Event) -> None:
        match event:
            case Called(call=call) | Eased(call=call):
                self._holding.pop(call, None)
            case Said(word=word) if word.is_aside:
                pass
            case Said() | LeftFire():
                self._holding |= {call: None for call in self._holding if call not in NEVER_SILENT}

    def _open(self) -> Iterator[_Repeats]:
        return (repeats for repeats in self._holding.values() if repeats is not None)


class _Repeats:
    """When one call is repeated, from when it was heard first."""

    def __init__(self, call: Call, since: float) -> None:
        self.call, self.since = call, since
        self._next = _STAGES[call.row.role][0].begins

    def fall_due(self, at: float) -> bool:
        """Whether it falls due to be repeated by `at` [s]; once, however much time went by."""
        due, gone = False, at - self.since
        while self._next <= gone:
            due = True
            begun = urgency_of(self.call, self._next)
            stages = _STAGES[self.call.row.role]
            every = stages[begun - 1].every
            # A night is passed over at once, once it is as urgent as it can be.
            self._next += every * (max(1.0, (gone - self._next) // every) if begun == len(stages) else 1.0)
        return due


def _most_urgent(waiting: Sequence[Unanswered]) -> Unanswered | None:
    """An alarm before a prompt; of prompts the newest."""
    return max(waiting, key=lambda one: (one.call in ALARMS, one.call.row.rank, -one.seconds), default=None)


def _still_burns(seen: Glance) -> bool:
    """Whether the skin is above the burn limit in a pause, in which no modelled skin eases a call."""
    limits = limits_of(seen.step, seen.heat, seen.phase)
    burn = next((limit.kelvin for limit in limits if limit.call is Call.TOO_HOT), None)
    return burn is None or seen.skin is None or seen.skin > burn
