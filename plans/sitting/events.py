"""What happens in a sitting, as frozen facts that can be logged, replayed and compared."""

from __future__ import annotations

from enum import StrEnum

from plans.phase import PhaseKind
from plans.reading import ProbeOn, Reading
from plans.record import record
from plans.sitting.calls import Call


class Word(StrEnum):
    """What the smith can say."""

    NEXT = "next"
    """End this phase and begin the next: the one word that a gloved hand needs."""
    IN = "in"
    """The work is in the fire, whatever the clock thought; in the oven, where the step has one."""
    OUT = "out"
    """The work is out of the fire, whatever the clock thought."""
    FLUX = "flux"
    """Out of the fire to flux, to brush or to look, and straight back: the same heat goes on. Said again: back in."""
    REPEAT = "repeat"
    """One heat more of this step than was planned. It says nothing of where the work is."""
    ON = "on"
    """What this step is for is reached: on to the next step, heats left or not."""
    BACK = "back"
    """Begin the phase before this one again."""
    UNDO = "undo"
    """Take the last word back, as if it had not been said."""
    REDO = "redo"
    """The word that was taken back was right after all."""
    EARLIER = "earlier"
    """What the last word says was so ten seconds earlier, or as many as are said."""
    PAUSE = "pause"
    """The clock stands; the work is taken to lie in the air."""
    RESUME = "resume"
    """The pause is over."""
    FINISH = "finish"
    """The sitting is over, whatever the plan still has."""
    NOTE = "note"
    """Keep a line of text with the sitting."""
    MEASURED = "measured"
    """What the work measures by hand: sides, length, weight, hardness."""
    TICK = "tick"
    """An item of a step's checklist is done, or is not after all."""
    ACKNOWLEDGE = "acknowledge"
    """The cautions have been read."""

    @property
    def is_aside(self) -> bool:
        """Whether it says nothing of where the work is: a note, what was measured, a tick, or cautions read."""
        return self.has_text or self is Word.ACKNOWLEDGE

    @property
    def has_text(self) -> bool:
        """Whether more stands behind it: the line of a note, figures, or which item is ticked."""
        return self in (Word.NOTE, Word.MEASURED, Word.TICK)

    @property
    def is_about_a_word(self) -> bool:
        """Whether it only says something of the word before: undo, redo, earlier."""
        return self in (Word.UNDO, Word.REDO, Word.EARLIER)


class Basis(StrEnum):
    """What a figure stands on."""

    MEASURED = "measured"
    """A probe, or the clock."""
    MODELLED = "modelled"
    """The warm model."""
    PLANNED = "planned"
    """The plan alone."""


class Cause(StrEnum):
    """What made a phase begin, and so ended the one before."""

    WORD = "word"
    """The smith said so."""
    TEMPERATURE = "temperature"
    """The skin came to heat."""
    PROBE = "probe"
    """The probe on the work felt it go in or come out."""
    COLDER = "colder"
    """A word told that the work is back in the fire after a look or a pause, and it was found below its heat."""
    CLOCK = "clock"
    """The time of grace was over."""

    @property
    def by_itself(self) -> bool:
        """Whether no word was needed; undo takes such a phase back as if it had been begun by a word."""
        return self not in (Cause.WORD, Cause.COLDER)


class Doubt(StrEnum):
    """Why a word can hardly be meant."""

    NOT_AT_HEAT = "not at heat"
    """The skin can't have come to its heat yet."""
    TOO_COLD_TO_STRIKE = "too cold to strike"
    """The work can't have come above its cold limit yet."""
    NOT_COLD = "not cold yet"
    """The work can't have cooled as far as the plan wants."""
    NOT_OVER = "not over yet"
    """The set time has not run down."""
    IN_THE_FIRE = "still in the fire"
    """The step is to be left while its heat goes on."""
    JUST_BEGAN = "just began"
    """The phase began a moment ago."""
    WHERE = "in the fire, or out?"
    """After a pause or a break, nobody knows where the work is."""


@record
class Said:
    """A word of the smith."""

    at: float
    """When it was said [s]."""
    word: Word
    """Which word it was."""
    text: str = ""
    """The line that a note keeps, never markup; the seconds of `earlier`; what was `measured`, as the log keeps it:
    see `written_measured`; which item of which step is ticked, see `written_tick`; empty for any other word."""


@record
class Begun:
    """A phase began; the one before it ended at the same moment."""

    at: float
    """When the sitting knew of it [s]."""
    step: int
    """Number of its step, from 0."""
    heat: int
    """Number of its heat in the step, from 1."""
    phase: PhaseKind
    """What kind of phase it is."""
    cause: Cause = Cause.WORD
    """What made it begin."""
    happened: float | None = None
    """When the phase really began, where that could only be told later, at `at` [s]; None where it was `at`."""

    @property
    def began(self) -> float:
        """When the phase really began [s]."""
        return self.at if self.happened is None else self.happened


@record
class Called:
    """A call to the smith."""

    at: float
    """When it was called out [s]."""
    call: Call
    """What was called out."""
    step: int
    """Number of the step that went on, from 0."""
    heat: int
    """Number of the heat in that step, from 1."""
    kelvin: float | None = None
    """The temperature that it is about [K]; None where it is about none, or where that was not known."""
    basis: Basis = Basis.MODELLED
    """What that temperature stands on."""
    happened: float | None = None
    """When what it tells of really was, where that could only be told later, at `at` [s]; None where it was `at`."""
    took: float | None = None
    """How long what it is about lasted [s]; None where it is about no time."""
    wanted: float | None = None
    """How long that was to last [s]; None where nobody knows."""

    @property
    def was(self) -> float:
        """When what it tells of really was [s]."""
        return self.at if self.happened is None else self.happened


@record
class Asked:
    """A word was not taken yet: it can hardly be meant, and said once more it is."""

    at: float
    """When the word was said [s]."""
    word: Word
    """The word."""
    doubt: Doubt
    """Why it can hardly be meant."""
    kelvin: float | None = None
    """The temperature that speaks against it [K]; None where none does."""
    basis: Basis = Basis.MODELLED
    """What that temperature stands on."""
    wanted: float | None = None
    """The temperature that is wanted [K]; None where none is."""
    took: float | None = None
    """How long the phase that it would end has lasted [s]; None where no time speaks against it."""
    lasts: float | None = None
    """How long that phase is to last [s]; None where no time is set."""


@record
class Eased:
    """What a call was about is over."""

    at: float
    """When the sitting knew of it [s]."""
    call: Call
    """The call that no longer holds."""
    happened: float | None = None
    """When it really was over, where a probe felt it later, at `at` [s]; None where it was `at`."""

    @property
    def was(self) -> float:
        """When it really was over [s]."""
        return self.at if self.happened is None else self.happened


@record
class WentOn:
    """The program was started again in the middle of the sitting."""

    at: float
    """When the program was started again [s]."""
    probe_on: ProbeOn | None = None
    """Where the probe sits from now on; None without one."""
    paused_since: float | None = None
    """Since when the sitting counts as paused [s]: a long break is a pause that goes on. None where time ran on."""
    away_since: float | None = None
    """Since when nobody stood at the work [s]: until `at` the sitting's own clock stands. None where it runs on, in a
    short break or a set time; and from the first versions, which knew only of breaks that are pauses."""

    @property
    def left_at(self) -> float:
        """When the program was left before it was started again [s]; 0 where that is not known."""
        return next((since for since in (self.paused_since, self.away_since) if since is not None), 0.0)


@record
class Ended:
    """The sitting is over: the plan is done, or the smith said finish."""

    at: float
    """When it was over [s]."""


@record
class LeftFire:
    """The work is on its way from the fire to the quench."""

    at: float
    """When the sitting knew of it [s]."""
    happened: float | None = None
    """When the work really left the fire, where a probe felt it later, at `at` [s]; None where the smith said it."""


Event = Said | Asked | Begun | Called | Eased | WentOn | Ended | LeftFire
"""Something that happened in a sitting; its times are seconds since the sitting began."""

Entry = Event | Reading
"""What the log of a sitting is made of, in order."""


@record
class Tick:
    """Time has passed and nothing else; never logged."""

    at: float
    """The time that it is now [s]."""
