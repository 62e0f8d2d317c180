"""Where a sitting stands: nothing but its events, folded one by one, whatever the plan."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from itertools import takewhile

from plans.phase import HELD_HOT, PhaseKind
from plans.record import record
from plans.sitting.calls import PASSING, PROMPTS, STATES, Call
from plans.sitting.events import Asked, Begun, Called, Cause, Doubt, Eased, Ended, Event, LeftFire, Said, WentOn, Word
from plans.sitting.undo import RedoPoint, UndoPoint, WorkBefore, undoable

_SHORT_AWAY = 600.0
"""Work that is said to be in the fire after so short a break lay in it all along [s]; from memory, no source."""
_LEAVES_A_QUESTION = (Word.NOTE, Word.ACKNOWLEDGE, Word.REPEAT)
"""Words that say nothing of where the work is: a question stands through them."""
_NOTHING_BEGUN = Begun(0.0, 0, 1, PhaseKind.READY)
EARLIER = 10.0
"""By how much the word `earlier` moves what the last word said, where it does not say [s]."""
ASKS_FOR = 10.0
"""How long a question whether a word was meant stands [s]."""


@record
class Note:
    """A line that the smith left, and what was going on then."""

    at: float
    """When it was left [s]."""
    text: str
    """The line as it was typed; never markup."""
    step: int
    """The step that was going on, from 0."""
    heat: int
    """The heat of that step, from 1."""


@dataclass(slots=True)
class State:
    """The fold of a sitting's events. Lists only grow, or are cut back by undo: an event costs the same throughout."""

    at: float = 0.0
    """Time of the newest event [s]."""
    begins: list[Begun] = field(default_factory=list)
    """The phases in the order in which they began, those that were taken back left out."""
    seconds_paused_before: list[float] = field(default_factory=list)
    """How long all pauses before each of `begins` had lasted [s]."""
    calls: list[Called] = field(default_factory=list)
    """Every call that was made; one stays, whatever is taken back."""
    notes: list[Note] = field(default_factory=list)
    """Every note that was left; one stays, whatever is taken back."""
    extra: dict[int, tuple[int, ...]] = field(default_factory=dict)
    """In which heats of a step (from 0) the smith asked for one more than was planned: a number for each time."""
    alarms: frozenset[Call] = frozenset()
    """Calls that still hold."""
    called: frozenset[Call] = frozenset()
    """Calls made in this phase."""
    acknowledged_at: float | None = None
    """When the smith said that he has read the cautions [s]; None until then."""
    paused_at: float | None = None
    """When the pause that goes on began [s]; None without one."""
    past_pauses: list[tuple[float, float]] = field(default_factory=list)
    """Pauses that are over, from and to [s]."""
    looks: list[tuple[float, float]] = field(default_factory=list)
    """When the work was out of the fire while its phase went on, from and to [s]: for a look, for flux, on its way to
    the quench."""
    seconds_paused: float = 0.0
    """How long the pauses, and the looks and trips for flux, that are over lasted together [s]."""
    left_fire_at: float | None = None
    """When the work left the fire for the quench, while it is on its way [s]; None else."""
    soak_by_word_only: bool = False
    """The smith said that the work is not at heat, whatever was reckoned: only a word begins the soak."""
    end_by_word_only: bool = False
    """The smith took back what the clock had begun: only a word ends this phase."""
    restarted_at: float = 0.0
    """When the program was last started again in the middle of the sitting [s]; 0 where it never was."""
    breaks: list[tuple[float, float]] = field(default_factory=list)
    """Long breaks in which the program was not running and nobody stood at the work, from and to [s]."""
    ended_at: float | None = None
    """When the sitting ended [s]; None while it goes on."""
    undo_points: list[UndoPoint] = field(default_factory=list)
    """What can be taken back, the newest last."""
    redo_points: list[RedoPoint] = field(default_factory=list)
    """What was taken back since the last word, the newest last."""
    question: Asked | None = None
    """The word that was not taken yet, as it can hardly be meant; None once another word was said."""
    away_since_pause: bool = False
    """Whether the program was not running for a part of the pause that goes on."""

    @classmethod
    def of(cls, events: Iterable[Event]) -> State:
        """Where a sitting stands after these events, without plan and warm model."""
        state = cls()
        for event in events:
            state.apply(event)
        return state

    @property
    def last_begun(self) -> Begun:
        """The phase that is going on, as it began; before any has, the smith is awaited at the first step."""
        return self.begins[-1] if self.begins else _NOTHING_BEGUN

    @property
    def phase(self) -> PhaseKind:
        """What kind of phase is going on."""
        return self.last_begun.phase

    @property
    def step(self) -> int:
        """Number of the step that is going on, from 0."""
        return self.last_begun.step

    @property
    def heat(self) -> int:
        """Number of the heat in its step, from 1."""
        return self.last_begun.heat

    @property
    def since(self) -> float:
        """When this phase really began [s]."""
        return self.last_begun.began

    @property
    def out_for_a_look(self) -> bool:
        """Whether the work is out of the fire for a look or for flux, and its heat goes on."""
        return Call.LOOKED in self.alarms

    @property
    def looked_since(self) -> float | None:
        """Since when the work is out of the fire for a look or for flux [s]; None where it is not."""
        if not self.out_for_a_look:
            return None
        return next(called.was for called in reversed(self.calls) if called.call is Call.LOOKED)

    @property
    def is_lost(self) -> bool:
        """Whether nobody knows where the work is: the smith pauses, and it lay in the fire or the oven before."""
        return self.paused and self.phase in HELD_HOT and self.left_fire_at is None

    def may_have_lain_in_it(self, at: float) -> bool:
        """Whether work that is said to be in the fire at `at` [s], after a pause, lay in it all along.

        Through a long break, in which heatbook did not run, nobody believes that.
        """
        if not self.is_lost or self.paused_at is None:
            return False
        return not self.away_since_pause or at - self.paused_at <= _SHORT_AWAY

    def looked_above(self, kelvin: float) -> bool:
        """Whether the work was out for a look or for flux in this phase when it was hotter than this [K]."""
        of_phase = takewhile(lambda called: called.was >= self.since, reversed(self.calls))
        return any(called.call is Call.LOOKED and (called.kelvin or 0.0) >= kelvin for called in of_phase)

    def asks(self, at: float) -> Asked | None:
        """The word that waits to be said once more at `at` [s]; None where none does.

        Where the work is, is asked until it is answered.
        """
        question = self.question
        if question is None or (question.doubt is not Doubt.WHERE and at - question.at > ASKS_FOR):
            return None
        return question

    @property
    def strikes_by_model(self) -> bool:
        """Whether the work is being struck by the warm model, as the probe on it is too slow for that."""
        return Call.PROBE_SLOW in self.alarms

    @property
    def went_in_unsaid(self) -> bool:
        """Whether it was the probe that felt the work go into the fire, where it still warms."""
        return self.phase is PhaseKind.FIRE and self.last_begun.cause is Cause.PROBE

    @property
    def paused(self) -> bool:
        """Whether the smith pauses."""
        return self.paused_at is not None

    @property
    def finished(self) -> bool:
        """Whether the sitting came to its end, and the smith did not take that back."""
        return self.ended_at is not None

    def elapsed(self, at: float) -> float:
        """How long this phase has run at `at`, pauses left out [s]."""
        until = at if self.paused_at is None else self.paused_at
        before = self.seconds_paused_before[-1] if self.begins else 0.0
        return until - self.since - (self.seconds_paused - before)

    def was_out(self, at: float) -> bool:
        """Whether the work was out of the fire, or is, whatever the phase that went on at `at` [s]: a pause, a look."""
        over = any(start < at <= end for start, end in (*self.past_pauses[-9:], *self.looks[-9:]))
        going_on = (self.paused_at, self.left_fire_at, self.looked_since, self.ended_at)
        return over or any(since is not None and since < at for since in going_on)

    def begun_at(self, at: float) -> Begun:
        """The phase that went on at `at` [s]."""
        return next((begun for begun in reversed(self.begins) if begun.began < at), _NOTHING_BEGUN)

    def seconds_away(self, at: float) -> float:
        """How long the breaks before `at` lasted together [s]: a night between the halves of a sitting."""
        return sum(max(0.0, min(end, at) - start) for start, end in self.breaks)

    def clock(self, at: float) -> float:
        """The sitting's own clock at a moment [s]: time since it began, without the breaks. Pauses are in it."""
        return at - self.seconds_away(at)

    def pauses(self, until: float) -> list[tuple[float, float]]:
        """Every pause, from and to [s]; one that goes on ends at `until`."""
        return self.past_pauses if self.paused_at is None else [*self.past_pauses, (self.paused_at, until)]

    def called_at(self, calls: frozenset[Call]) -> float | None:
        """When the newest of some calls was made [s]; None where none of them ever was."""
        if not calls:
            return None
        return next((called.at for called in reversed(self.calls) if called.call in calls), None)

    def began_at(self, phase: PhaseKind) -> float | None:
        """When a phase of this kind last really began [s]; None where none did."""
        return next((begun.began for begun in reversed(self.begins) if begun.phase is phase), None)

    def apply(self, event: Event, remember: Callable[[], WorkBefore] | None = None) -> UndoPoint | None:
        """Fold one more event in.

        Args:
            event: what happened
            remember: tells how the work is in the warm model now, for undo to go back to; None without a warm model

        Returns:
            the point that an undo went back to; None for any other event, and for an undo that finds nothing
        """
        what = undoable(event)
        if what is not None:
            self.undo_points.append(self._undo_point(event.at, what, None if remember is None else remember()))
            self.redo_points.clear()
        self.at = max(self.at, event.at)
        dismissed = self._is_dismissed_by(event)
        if isinstance(event, Begun) or (isinstance(event, Said) and event.word not in _LEAVES_A_QUESTION):
            self.question = None
        match event:
            case Said(word=Word.UNDO):
                return None if dismissed else self._undo(remember)
            case Said(word=Word.REDO):
                return self._redo()
            case Said(word=Word.EARLIER):
                return self._move_back(event)
            case Said():
                self._apply_word(event)
            case Asked():
                self.question = event
            case Begun():
                self._end_look(event.began)
                if self.left_fire_at is not None:
                    self.looks.append((self.left_fire_at, event.began))
                self._move(event.at)
                self.left_fire_at = None
                self.soak_by_word_only = self._is_back_from_soak(event)
                self.end_by_word_only = False
                self.begins.append(event)
                self.seconds_paused_before.append(self.seconds_paused)
                self.alarms &= STATES
                self.called = frozenset()
            case Called(call=call):
                if call is Call.LOOKED:
                    self._moved()
                if call in (Call.LOOKED, Call.AT_HEAT):
                    # Who was there may have fluxed it; at heat it is too late to.
                    self.alarms -= {Call.FLUX_NOW}
                self.calls.append(event)
                self.called |= {call}
                if call is Call.PROBE_BACK:
                    self.alarms -= {Call.PROBE_LOST}
                if call not in PASSING:
                    self.alarms |= {call}
            case Eased(call=Call.LOOKED):
                self._end_look(event.was)
            case Eased(call=call):
                self.alarms -= {call}
                if call is Call.FIRE_COLD:
                    self.called -= {call}  # a fire wavers: it is called anew
            case Ended():
                self._end_look(event.at)
                self._move(event.at)
                self.ended_at = event.at
                self.alarms = frozenset()
            case LeftFire(at=at, happened=happened):
                self._moved()
                self.left_fire_at = at if happened is None else happened
                self._end_look(self.left_fire_at)
                self.alarms -= PROMPTS
            case WentOn(paused_since=since):
                self.restarted_at = event.at
                self.away_since_pause = since is not None or self.paused
                self.question = None
                if since is not None:
                    self._end_look(since)
                    self.redo_points.clear()
                    # What was before a long break can't be taken back as if the break had not been.
                    self.undo_points.clear()
                    if self.paused_at is None:
                        self.paused_at = since
                away = since if event.away_since is None else event.away_since
                if away is not None and away < event.at:
                    self.breaks.append((away, event.at))
        return None

    def _is_dismissed_by(self, event: Event) -> bool:
        """Whether an event takes back a word that was asked about and not taken: then nothing else is taken back."""
        asked = self.asks(event.at)
        takes_back = isinstance(event, Said) and event.word is Word.UNDO
        return takes_back and asked is not None and asked.doubt is not Doubt.WHERE

    def _is_back_from_soak(self, event: Begun) -> bool:
        if not self.begins or event.phase is not PhaseKind.FIRE or event.cause is Cause.COLDER:
            return False
        before = self.begins[-1]
        return (before.step, before.heat, before.phase) == (event.step, event.heat, PhaseKind.SOAK)

    def _apply_word(self, said: Said) -> None:
        match said.word:
            case Word.ACKNOWLEDGE:
                if self.acknowledged_at is None:
                    self.acknowledged_at = said.at
            case Word.NOTE:
                # A note stands: taking back a word must not cost what was written down meanwhile.
                self.notes.append(Note(said.at, said.text, self.step, self.heat))
            case Word.PAUSE:
                self._moved()
                self._end_look(said.at)
                self.paused_at = said.at
                self.away_since_pause = False
            case Word.IN if self.may_have_lain_in_it(said.at):
                # It lay in the fire all along: its time went on.
                self._moved()
                self.paused_at = None
            case Word.IN:
                # In the same heat no phase begins.
                self._move(said.at)
            case Word.RESUME:
                self._move(said.at)
            case Word.FLUX if self.out_for_a_look:
                self._moved()
            case Word.REPEAT:
                self.extra[self.step] = (*self.extra.get(self.step, ()), self.heat)
            case _:
                pass

    def _end_look(self, at: float) -> None:
        """The work is out for good, or back in the fire, at `at` [s]; what it spent out is no time of its phase."""
        since = self.looked_since
        if since is None:
            return
        self.alarms -= {Call.LOOKED}
        start = max(since, self.since)
        if at > start:
            self.looks.append((start, at))
            self.seconds_paused += at - start

    def _move(self, at: float) -> None:
        """Something else goes on with the work from `at` [s]: a pause is over."""
        self._moved()
        if self.paused_at is not None:
            self.past_pauses.append((self.paused_at, at))
            self.seconds_paused += at - self.paused_at
            self.paused_at = None

    def _moved(self) -> None:
        if self.undo_points:
            self.undo_points[-1].moved = True

    def _undo_point(self, at: float, what: Word | Cause, work: WorkBefore | None) -> UndoPoint:
        return UndoPoint(
            at=at,
            what=what,
            moved=False,
            work=work,
            begins=len(self.begins),
            past_pauses=len(self.past_pauses),
            looks=len(self.looks),
            away_since_pause=self.away_since_pause,
            extra=tuple(sorted(self.extra.items())),
            paused_at=self.paused_at,
            seconds_paused=self.seconds_paused,
            left_fire_at=self.left_fire_at,
            soak_by_word_only=self.soak_by_word_only,
            end_by_word_only=self.end_by_word_only,
            ended_at=self.ended_at,
            alarms=self.alarms,
            called=self.called,
        )

    def _undo(self, remember: Callable[[], WorkBefore] | None) -> UndoPoint | None:
        if not self.undo_points:
            return None
        point = self.undo_points.pop()
        self.redo_points.append(
            RedoPoint(
                undone=point,
                after=self._undo_point(self.at, point.what, None if remember is None else remember()),
                begins=tuple(self.begins[point.begins :]),
                seconds_paused_before=tuple(self.seconds_paused_before[point.begins :]),
                past_pauses=tuple(self.past_pauses[point.past_pauses :]),
                looks=tuple(self.looks[point.looks :]),
            )
        )
        self.extra = dict(point.extra)
        if not point.moved:
            return point
        # Whether the probe is there is not the smith's word to take back; but the end had let go of every call.
        stands = (point.alarms if self.finished else self.alarms) & STATES
        del self.past_pauses[point.past_pauses :]
        del self.looks[point.looks :]
        self._take_on(point)
        self.soak_by_word_only |= point.what is Cause.TEMPERATURE
        self.end_by_word_only |= point.what is Cause.CLOCK
        del self.begins[point.begins :]
        del self.seconds_paused_before[point.begins :]
        self.alarms = (point.alarms - STATES) | stands
        self.called = point.called
        return point

    def _redo(self) -> UndoPoint | None:
        """Bring back what the last undo took away; the point tells where the work was before that."""
        if not self.redo_points:
            return None
        redo = self.redo_points.pop()
        self.undo_points.append(redo.undone)
        self.extra = dict(redo.after.extra)
        if redo.undone.moved:
            self.past_pauses += redo.past_pauses
            self.looks += redo.looks
            self._take_on(redo.after)
            self.begins += redo.begins
            self.seconds_paused_before += redo.seconds_paused_before
            self.alarms = (redo.after.alarms - STATES) | (self.alarms & STATES)
            self.called = redo.after.called
        return replace(redo.after, moved=redo.undone.moved)

    def _take_on(self, point: UndoPoint) -> None:
        self.paused_at = point.paused_at
        self.seconds_paused = point.seconds_paused
        self.left_fire_at = point.left_fire_at
        self.soak_by_word_only = point.soak_by_word_only
        self.end_by_word_only = point.end_by_word_only
        self.ended_at = point.ended_at
        self.away_since_pause = point.away_since_pause

    def earliest(self) -> float | None:
        """The earliest that what the last word said can have been [s]; None where it says nothing that has a time."""
        if not self.undo_points or not self.undo_points[-1].moved:
            return None
        point = self.undo_points[-1]
        paused_until = max((spans[-1][1] for spans in (self.past_pauses, self.looks) if spans), default=0.0)
        if len(self.begins) > point.begins:
            return max(paused_until, self.begins[-2].began if len(self.begins) > 1 else 0.0)
        looked = Call.LOOKED in self.alarms and Call.LOOKED not in point.alarms
        return max(paused_until, self.since) if self._pauses_since(point) or self._left_since(point) or looked else None

    def _pauses_since(self, point: UndoPoint) -> bool:
        return self.paused_at is not None and point.paused_at is None

    def _left_since(self, point: UndoPoint) -> bool:
        return self.left_fire_at is not None and point.left_fire_at is None

    def last_since(self) -> float:
        """Since when holds what the last word said [s]."""
        said = (self.paused_at, self.left_fire_at, self.looked_since, self.since)
        return next(since for since in said if since is not None)

    def _move_back(self, said: Said) -> UndoPoint | None:
        """Move what the last word said to an earlier time; the point before it tells where the work was then."""
        earliest = self.earliest()
        if earliest is None:
            return None
        point, by = self.undo_points[-1], float(said.text or EARLIER)
        if len(self.begins) > point.begins:
            last = self.begins[-1]
            self.begins[-1] = replace(last, happened=max(earliest, last.began - by))
        elif self.paused_at is not None and self._pauses_since(point):
            self.paused_at = max(earliest, self.paused_at - by)
        elif self.left_fire_at is not None and self._left_since(point):
            self.left_fire_at = max(earliest, self.left_fire_at - by)
        else:
            place = next(at for at in range(len(self.calls) - 1, -1, -1) if self.calls[at].call is Call.LOOKED)
            looked = self.calls[place]
            self.calls[place] = replace(looked, happened=max(earliest, looked.was - by))
        return point
