"""What is said aloud as a sitting goes on: from what happened and how it looks now to sentences."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from plans.phase import WARMING, PhaseKind
from plans.sitting.calls import STATES, Call
from plans.sitting.events import Asked, Begun, Called, Cause, Eased, Ended, Event, LeftFire, Said, WentOn, Word
from plans.sitting.glance import Glance
from plans.sitting.main_figure import MainFigureKind
from plans.sitting.repeating import Unanswered
from plans.sitting.saying import Kind, Saying, Volume
from plans.sitting.spoken import phrases
from plans.units import Units

COUNTDOWN = (30, 20, 10, 5)
"""Marks of hammer time that are said [s]."""
_MORE_COUNTDOWN = (60, *COUNTDOWN)
_SOAK_COUNTDOWN = (60, 10)
_OLD = 10.0
"""What happened longer ago than this, as while the machine slept, is no news [s]."""

_Place = tuple[int, int, PhaseKind]


class Talk:
    """Turns what happens into sentences. It knows no clock but that of the glances, and is deterministic.

    Args:
        volume: how much is said
        units: that temperatures are said in
    """

    def __init__(self, volume: Volume = Volume.NORMAL, units: Units = Units.METRIC) -> None:
        self.volume = volume
        self._units = units
        self._step = 0
        self._count = (0, 0)
        self._place: _Place | None = None
        self._holding: frozenset[Call] = frozenset()
        """Calls that hold, and were said."""
        self._hammer: dict[str, _Countdown] = {}
        """By what the figure is called: a thin part has its own hammer time, before that of the whole."""
        self._soak = _Countdown(())
        self._turns = 0
        self._slow_told = False
        """Whether it was said that the probe is too slow for hammer time."""

    def hear(self, events: Sequence[Event], seen: Glance, again: Unanswered | None = None) -> list[Saying]:
        """What is to be said now, the most urgent first; of each kind the newest alone.

        Args:
            events: what happened since the last time, in order; may be empty
            seen: how the sitting looks after that
            again: the call that is to be repeated now, as `Repeating` tells it; None where none is
        """
        place = (seen.step_number, seen.heat, seen.phase)
        moved, self._place = place != self._place, place
        if moved:
            self._enter(seen)
        fitting: dict[str, Saying] = {}
        for volume, saying in self._sayings(events, seen, moved, again):
            if self.volume.covers(volume):
                fitting.pop(saying.kind, None)  # so that it also stands where the newer one belongs
                fitting[saying.kind] = saying
        return sorted(fitting.values(), key=lambda saying: -saying.urgency)

    def _sayings(
        self, events: Sequence[Event], seen: Glance, moved: bool, again: Unanswered | None
    ) -> Iterator[tuple[Volume, Saying]]:
        fresh = [event for event in events if seen.at - event.at <= _OLD]
        for event in fresh:
            yield from self._of_event(event, seen)
        if moved and not seen.finished:
            yield from self._of_place(fresh, seen)
        yield from self._of_calls(seen)
        if again is not None and (saying := phrases.again(again, seen)) is not None:
            yield Volume.FEW, saying
        if not seen.paused and not seen.finished:
            yield from self._of_time(seen)

    def _enter(self, seen: Glance) -> None:
        """Another phase goes on: what was said of the one before says nothing of this one."""
        self._holding &= STATES
        self._hammer = {}
        self._soak = _Countdown(_SOAK_COUNTDOWN if self.volume is Volume.ALL else ())
        self._turns = self._turns_due(seen)

    def _of_event(self, event: Event, seen: Glance) -> Iterator[tuple[Volume, Saying]]:
        saying = None
        volume = Volume.NORMAL
        match event:
            case Called(call=Call.PROBE_BACK) if Call.PROBE_LOST in seen.alarms:
                pass
            case Called(call=call):
                saying = phrases.passing(event, seen)
                volume = Volume.FEW if call.row.kind is Kind.MISSED else Volume.NORMAL
            case LeftFire() if seen.phase in WARMING:
                saying, volume = phrases.quench_now(), Volume.FEW
            case Asked():
                saying, volume = phrases.asked(event), Volume.FEW
            case Eased(call=call):
                saying, volume = phrases.eased(call), Volume.ALL
            case Said(word=word) if word.has_text:
                saying, volume = phrases.note_kept(), Volume.ALL
            case Said(word=word):
                saying = phrases.answer(word, seen)
            case Ended() if seen.finished:
                saying = phrases.finished()
            case WentOn():
                saying = phrases.went_on()
        if saying is not None:
            yield volume, saying

    def _of_place(self, fresh: Sequence[Event], seen: Glance) -> Iterator[tuple[Volume, Saying]]:
        """Which step, which heat, which phase: as far as it is another one than before."""
        if seen.step_number != self._step:
            self._step = seen.step_number
            yield Volume.NORMAL, phrases.step_title(seen, self._units)
        if seen.phase is PhaseKind.READY:
            return
        if (seen.step_number, seen.heat) != self._count:
            self._count = (seen.step_number, seen.heat)
            if seen.heats > 1:
                yield Volume.NORMAL, phrases.heat_count(seen)
            if seen.phase is PhaseKind.FIRE and seen.heat_to is not None:
                yield Volume.ALL, phrases.target(seen.heat_to, self._units)
        yield (Volume.ALL if _expected(fresh) else Volume.NORMAL), phrases.begun(seen.phase)

    def _of_calls(self, seen: Glance) -> Iterator[tuple[Volume, Saying]]:
        """What has begun to hold; of limits the most urgent last, as of one kind the last is said."""
        for call in sorted(Call, key=lambda call: call.row.rank):
            if call in seen.alarms and call not in self._holding:
                # That the probe is slow is no news at the next strike.
                is_new = not (call is Call.PROBE_SLOW and self._slow_told)
                self._slow_told |= call is Call.PROBE_SLOW
                if (saying := phrases.holding(call, seen)) is not None:
                    yield (Volume.FEW if is_new else Volume.ALL), saying
        self._holding = seen.alarms

    def _of_time(self, seen: Glance) -> Iterator[tuple[Volume, Saying]]:
        figure = seen.figure
        # Early matters more than late: hammer time is told by the short end of its range.
        left = figure.least if seen.phase is PhaseKind.STRIKE and figure.least is not None else figure.seconds
        if seen.phase is PhaseKind.STRIKE:
            # Without a cold limit the figure is how long it has been struck.
            if seen.step.keep_above is not None and left is not None:
                yield from self._of_hammer_time(seen, left)
            if (due := self._turns_due(seen)) != self._turns:
                self._turns = due
                if Call.TOO_COLD not in seen.alarms:
                    yield Volume.FEW, phrases.turn()
        elif (
            seen.phase is PhaseKind.SOAK
            and seen.word == seen.phase.row.word
            and (mark := self._soak.see(left)) is not None
        ):
            yield Volume.ALL, phrases.soak_left(mark)

    def _of_hammer_time(self, seen: Glance, left: float) -> Iterator[tuple[Volume, Saying]]:
        label = seen.figure.label
        thin_is_cold = seen.figure.kind is MainFigureKind.THIN_COLD
        if label not in self._hammer:
            self._hammer[label] = _Countdown(_MORE_COUNTDOWN if self.volume is Volume.ALL else COUNTDOWN)
            if thin_is_cold:
                yield Volume.NORMAL, phrases.thin_is_cold(label)
        if thin_is_cold and seen.figure.thin == seen.coldest_name:
            # Of a section whose edge or corner is cold there is not much more to strike: it is not counted down again.
            return
        if (mark := self._hammer[label].see(left)) is not None:
            yield Volume.NORMAL, phrases.hammer_time(mark, MainFigureKind.HAMMER_TIME.value if thin_is_cold else label)

    def _turns_due(self, seen: Glance) -> int:
        """How often the cadence should have sounded in this phase."""
        every = seen.step.turn_every
        return int(seen.elapsed // every) if every is not None and seen.phase is PhaseKind.STRIKE else 0


def _expected(fresh: Sequence[Event]) -> bool:
    """Whether the smith himself went on to what began, rather than back, or it by itself."""
    for event in reversed(fresh):
        match event:
            case Said(word=Word.UNDO | Word.BACK) | WentOn():
                return False
            case Begun(cause=cause) if cause is not Cause.WORD:
                return False
            case Said(word=word) if not word.is_aside:
                return True
    return True


class _Countdown:
    """Says each mark once, as time runs down past it."""

    def __init__(self, marks: Sequence[int]) -> None:
        self._ahead = list(marks)

    def see(self, left: float | None) -> float | None:
        """The time to be said, if one is [s].

        A mark that is passed in one leap, as with a probe that speaks seldom, would be wrong by now: then what is
        really left is said, and in place of a mark that is close below it too.
        """
        passed = [mark for mark in self._ahead if left is not None and left <= mark + 0.5]
        if left is None or not passed:
            return None
        mark = min(passed)
        self._ahead = [other for other in self._ahead if other < left - 3]
        said = mark if mark - left <= 1 else left
        return said if said >= 1 else None
