"""Where a sitting stands: nothing but its events, folded one by one."""

from __future__ import annotations

from dataclasses import dataclass, field

from plans.plan import PhaseKind, Plan, Step
from plans.sitting.calls import PASSING, PROMPTS, STATES
from plans.sitting.events import Begun, Call, Called, Cause, Eased, Ended, Event, LeftFire, Said, WentOn, Word


@dataclass(frozen=True, slots=True)
class Note:
    """A line that the smith left, and what was going on then."""

    at: float
    text: str
    step: int
    heat: int


@dataclass(slots=True)
class Mark:
    """What a word may change, as it was before the word: undo puts it back."""

    at: float
    what: Word | Cause
    """The word, or what began a phase by itself."""
    moved: bool
    """Whether the word changed what is going on; one that did not leaves the phases alone when it is taken back."""
    begins: int
    rests: int
    extra: tuple[tuple[int, int], ...]
    paused_at: float | None
    stood: float
    left_fire_at: float | None
    not_yet: bool
    by_word: bool
    ended_at: float | None
    alarms: frozenset[Call]
    called: frozenset[Call]


@dataclass(slots=True)
class State:
    """The fold of a sitting's events. Lists only grow, or are cut back by undo: an event costs the same throughout."""

    plan: Plan
    at: float = 0.0
    begins: list[Begun] = field(default_factory=list)
    stood_at_begin: list[float] = field(default_factory=list)
    """Seconds of pause before each of `begins`."""
    calls: list[Called] = field(default_factory=list)
    notes: list[Note] = field(default_factory=list)
    extra: dict[int, int] = field(default_factory=dict)
    """Heats beyond the plan, by step."""
    alarms: frozenset[Call] = frozenset()
    """Calls that still hold."""
    called: frozenset[Call] = frozenset()
    """Calls made in this phase."""
    acknowledged_at: float | None = None
    paused_at: float | None = None
    rests: list[tuple[float, float]] = field(default_factory=list)
    """Pauses that are over, from and to [s]."""
    stood: float = 0.0
    """Seconds of pause so far, those of a pause that goes on not counted."""
    left_fire_at: float | None = None
    """When the work left the fire for the quench, while it is on its way [s]."""
    not_yet: bool = False
    """The smith said that the work is not at heat, whatever was reckoned: only a word begins the soak."""
    by_word: bool = False
    """The smith took back what the clock had begun: only a word ends this phase."""
    back_at: float = 0.0
    """When the program was started again in the middle of the sitting, last [s]."""
    ended_at: float | None = None
    marks: list[Mark] = field(default_factory=list)

    @property
    def now(self) -> Begun:
        """The phase that is going on."""
        return self.begins[-1]

    @property
    def phase(self) -> PhaseKind:
        return self.now.phase

    @property
    def step(self) -> int:
        """From 0."""
        return self.now.step

    @property
    def heat(self) -> int:
        """From 1."""
        return self.now.heat

    @property
    def since(self) -> float:
        """When this phase really began [s]."""
        return self.now.began

    @property
    def paused(self) -> bool:
        return self.paused_at is not None

    @property
    def finished(self) -> bool:
        return self.ended_at is not None

    @property
    def current_step(self) -> Step:
        return self.plan.steps[self.step]

    def heats_planned(self, step: int) -> int:
        """Heats of a step: the plan's, those that the smith added, and what came to be done beyond them."""
        planned = self.plan.steps[step].heats + self.extra.get(step, 0)
        return max(planned, self.heat) if step == self.step else planned

    def elapsed(self, at: float) -> float:
        """How long this phase has run at `at`, pauses left out [s]."""
        until = at if self.paused_at is None else self.paused_at
        return until - self.since - (self.stood - self.stood_at_begin[-1])

    def pauses(self, until: float) -> list[tuple[float, float]]:
        """Every pause, from and to [s]; one that goes on ends at `until`."""
        return self.rests if self.paused_at is None else [*self.rests, (self.paused_at, until)]

    def apply(self, event: Event) -> None:
        """Fold one more event in."""
        self.at = max(self.at, event.at)
        match event:
            case Said():
                self._apply_word(event)
            case Begun():
                if event.cause.by_itself:
                    self.marks.append(self._mark(event.at, event.cause))
                self._end_pause(event.at)
                if self.marks:
                    self.marks[-1].moved = True
                self.left_fire_at = None
                self.not_yet = self._is_back_from_soak(event)
                self.by_word = False
                self.begins.append(event)
                self.stood_at_begin.append(self.stood)
                self.alarms &= STATES
                self.called = frozenset()
            case Called(call=call):
                self.calls.append(event)
                self.called |= {call}
                if call is Call.PROBE_BACK:
                    self.alarms -= {Call.PROBE_LOST}
                if call not in PASSING:
                    self.alarms |= {call}
            case Eased(call=call):
                self.alarms -= {call}
            case Ended():
                self._end_pause(event.at)
                if self.marks:
                    self.marks[-1].moved = True
                self.ended_at = event.at
                self.alarms = frozenset()
            case LeftFire(at=at, happened=happened):
                self.left_fire_at = at if happened is None else happened
                self.alarms -= PROMPTS
            case WentOn(stood_since=float(since)):
                # What was before a long break can't be taken back as if the break had not been.
                self.marks.clear()
                self.back_at = event.at
                if self.paused_at is None:
                    self.paused_at = since
            case WentOn():
                self.back_at = event.at

    def _is_back_from_soak(self, event: Begun) -> bool:
        if not self.begins or event.phase is not PhaseKind.FIRE:
            return False
        before = self.begins[-1]
        return (before.step, before.heat, before.phase) == (event.step, event.heat, PhaseKind.SOAK)

    def _apply_word(self, said: Said) -> None:
        if said.word is Word.UNDO:
            self._undo()
            return
        if said.word is Word.ACKNOWLEDGE:
            if self.acknowledged_at is None:
                self.acknowledged_at = said.at
            return
        if said.word is Word.NOTE:
            # A note stands: taking back a word must not cost what was written down meanwhile.
            self.notes.append(Note(said.at, said.text, self.step, self.heat))
            return
        self.marks.append(self._mark(said.at, said.word))
        match said.word:
            case Word.PAUSE:
                self.marks[-1].moved = True
                self.paused_at = said.at
            case Word.RESUME:
                self.marks[-1].moved = True
                self._end_pause(said.at)
            case Word.REPEAT:
                self.extra[self.step] = self.extra.get(self.step, 0) + 1
            case _:
                pass

    def _end_pause(self, at: float) -> None:
        if self.paused_at is not None:
            self.rests.append((self.paused_at, at))
            self.stood += at - self.paused_at
            self.paused_at = None

    def _mark(self, at: float, what: Word | Cause) -> Mark:
        return Mark(
            at=at,
            what=what,
            moved=False,
            begins=len(self.begins),
            rests=len(self.rests),
            extra=tuple(sorted(self.extra.items())),
            paused_at=self.paused_at,
            stood=self.stood,
            left_fire_at=self.left_fire_at,
            not_yet=self.not_yet,
            by_word=self.by_word,
            ended_at=self.ended_at,
            alarms=self.alarms,
            called=self.called,
        )

    def _undo(self) -> None:
        mark = self.marks.pop()
        del self.rests[mark.rests :]
        self.extra = dict(mark.extra)
        self.paused_at = mark.paused_at
        self.stood = mark.stood
        self.left_fire_at = mark.left_fire_at
        self.not_yet = mark.not_yet or mark.what is Cause.TEMPERATURE
        self.by_word = mark.by_word or mark.what is Cause.CLOCK
        self.ended_at = mark.ended_at
        if not mark.moved:
            return
        del self.begins[mark.begins :]
        del self.stood_at_begin[mark.begins :]
        # Whether the probe is there is not the smith's word to take back.
        stands = self.alarms & STATES
        self.alarms = (mark.alarms - STATES) | stands
        self.called = mark.called
