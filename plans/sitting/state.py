"""Where a sitting stands, and what follows from that: a record of what its events come to, whatever the plan."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import takewhile

from plans.phase import HELD_HOT, WARMING, PhaseKind
from plans.record import record
from plans.sitting.calls import Call
from plans.sitting.events import Asked, Begun, Called, Cause, Doubt
from plans.sitting.ticks import Ticked
from plans.sitting.undo import Measurement, RedoPoint, UndoPoint

_SHORT_AWAY = 600.0
"""Work that is said to be in the fire after so short a break lay in it all along [s]; from memory, no source."""
_NOTHING_BEGUN = Begun(0.0, 0, 1, PhaseKind.READY)
NOT_WORKED_ON = WARMING | {PhaseKind.READY}
"""Until it has come out of the fire, the work is as the heat before left it, or the step before."""
ECHO = 0.5
"""The same word sooner than this after it was asked about is no answer, but a stutter [s]."""
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
    measurements: tuple[Measurement, ...] = ()
    """What was measured by hand, in order, what was taken back left out."""
    ticked: tuple[Ticked, ...] = ()
    """The items of checklists that are ticked, in the order in which they were."""
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

    def worked_on(self, step: int | None = None) -> tuple[int, int]:
        """The step (from 0) that was worked on last, and the last of its heats (from 1) that came out of the fire.

        Args:
            step: of which it is asked, from 0; None for the last of them all

        Returns:
            both; a heat of 0 where the work is as the step begins
        """
        done = (
            begun for begun in reversed(self.begins) if begun.phase not in NOT_WORKED_ON and step in (None, begun.step)
        )
        last = next(done, None)
        return (self.step if step is None else step, 0) if last is None else (last.step, last.heat)

    def ticked_at(self, step: int, item: int) -> float | None:
        """When an item of a step's checklist, both from 0, was ticked [s]; None where it is not."""
        return next((one.at for one in self.ticked if (one.step, one.item) == (step, item)), None)

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

    def last_since(self) -> float:
        """Since when holds what the last word said [s]."""
        said = (self.paused_at, self.left_fire_at, self.looked_since, self.since)
        return next(since for since in said if since is not None)
