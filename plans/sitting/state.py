"""Where a sitting stands: nothing but its events, folded one by one, whatever the plan."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from plans.phase import PhaseKind
from plans.sitting.calls import PASSING, PROMPTS, STATES, Call
from plans.sitting.events import Begun, Called, Cause, Eased, Ended, Event, LeftFire, Said, WentOn, Word
from plans.sitting.undo import UndoPoint, WorkBefore, undoable

_NOTHING_BEGUN = Begun(0.0, 0, 1, PhaseKind.READY)


@dataclass(frozen=True, slots=True)
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
    extra: dict[int, int] = field(default_factory=dict)
    """How many heats the smith added to the plan, by step (from 0)."""
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
    seconds_paused: float = 0.0
    """How long the pauses that are over lasted together [s]."""
    left_fire_at: float | None = None
    """When the work left the fire for the quench, while it is on its way [s]; None else."""
    soak_by_word_only: bool = False
    """The smith said that the work is not at heat, whatever was reckoned: only a word begins the soak."""
    end_by_word_only: bool = False
    """The smith took back what the clock had begun: only a word ends this phase."""
    restarted_at: float = 0.0
    """When the program was last started again in the middle of the sitting [s]; 0 where it never was."""
    ended_at: float | None = None
    """When the sitting ended [s]; None while it goes on."""
    undo_points: list[UndoPoint] = field(default_factory=list)
    """What can be taken back, the newest last."""

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
        self.at = max(self.at, event.at)
        match event:
            case Said(word=Word.UNDO):
                return self._undo()
            case Said():
                self._apply_word(event)
            case Begun():
                self._move(event.at)
                self.left_fire_at = None
                self.soak_by_word_only = self._is_back_from_soak(event)
                self.end_by_word_only = False
                self.begins.append(event)
                self.seconds_paused_before.append(self.seconds_paused)
                self.alarms &= STATES
                self.called = frozenset()
            case Called(call=call):
                if what is not None:
                    self._moved()
                self.calls.append(event)
                self.called |= {call}
                if call is Call.PROBE_BACK:
                    self.alarms -= {Call.PROBE_LOST}
                if call not in PASSING:
                    self.alarms |= {call}
            case Eased(call=call):
                self.alarms -= {call}
            case Ended():
                self._move(event.at)
                self.ended_at = event.at
                self.alarms = frozenset()
            case LeftFire(at=at, happened=happened):
                self._moved()
                self.left_fire_at = at if happened is None else happened
                self.alarms -= PROMPTS
            case WentOn(paused_since=since):
                self.restarted_at = event.at
                if since is not None:
                    # What was before a long break can't be taken back as if the break had not been.
                    self.undo_points.clear()
                    if self.paused_at is None:
                        self.paused_at = since
        return None

    def _is_back_from_soak(self, event: Begun) -> bool:
        if not self.begins or event.phase is not PhaseKind.FIRE:
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
                self.paused_at = said.at
            case Word.RESUME:
                self._move(said.at)
            case Word.REPEAT:
                self.extra[self.step] = self.extra.get(self.step, 0) + 1
            case _:
                pass

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

    def _undo(self) -> UndoPoint | None:
        if not self.undo_points:
            return None
        point = self.undo_points.pop()
        # Whether the probe is there is not the smith's word to take back; but the end had let go of every call.
        stands = (point.alarms if self.finished else self.alarms) & STATES
        del self.past_pauses[point.past_pauses :]
        self.extra = dict(point.extra)
        self.paused_at = point.paused_at
        self.seconds_paused = point.seconds_paused
        self.left_fire_at = point.left_fire_at
        self.soak_by_word_only = point.soak_by_word_only or point.what is Cause.TEMPERATURE
        self.end_by_word_only = point.end_by_word_only or point.what is Cause.CLOCK
        self.ended_at = point.ended_at
        if point.moved:
            del self.begins[point.begins :]
            del self.seconds_paused_before[point.begins :]
            self.alarms = (point.alarms - STATES) | stands
            self.called = point.called
        return point
