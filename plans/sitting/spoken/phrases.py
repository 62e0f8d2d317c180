"""The sentences themselves: short, in plain words, the thing to do or the matter first."""

from __future__ import annotations

from dataclasses import replace

from plans.phase import PhaseKind
from plans.prose import in_units
from plans.sitting.call_row import Role
from plans.sitting.calls import Call
from plans.sitting.events import Asked, Called, Word
from plans.sitting.glance import Glance
from plans.sitting.questions import spoken_question
from plans.sitting.repeating import NEVER_SILENT, Unanswered
from plans.sitting.saying import Kind, Saying, Urgency, number, spelled_out
from plans.units import Units

_URGENCY = {
    Role.PROMPT: Urgency.PROMPT,
    Role.ALARM: Urgency.ALARM,
    Role.STATE: Urgency.NOTICE,
    Role.SPELL: Urgency.NOTICE,
    Role.PASSING: Urgency.NOTICE,
}
_STILL = 2
"""From which urgency on a prompt says that it still waits."""
_ANSWERS = {Word.UNDO: "taken back", Word.PAUSE: "paused", Word.RESUME: "going on"}


def holding(call: Call, seen: Glance) -> Saying | None:
    """The sentence for a call that holds; None for one that only passes."""
    row = call.row
    if row.role is Role.PASSING:
        return None
    text = row.spoken
    match call:
        case Call.SOAK_DONE if any(phase.kind is PhaseKind.QUENCH for phase in seen.step.phases):
            text = "soak done, into the quench"
        case Call.COLD_ENOUGH:
            text += _after_air(seen)
        case Call.TIME_UP:
            text = (seen.phase.row.over or text) + _after_air(seen)
    return Saying(text, _URGENCY[row.role], row.kind, through_mute=call in NEVER_SILENT)


def again(unanswered: Unanswered, seen: Glance) -> Saying | None:
    """The sentence for a call that nobody has answered; once it is more urgent, a prompt says that it still waits."""
    saying = holding(unanswered.call, seen)
    if saying is None or unanswered.call.row.role is not Role.PROMPT or unanswered.urgency < _STILL:
        return saying
    return replace(saying, text=f"still waiting, {saying.text}")


def passing(called: Called, seen: Glance) -> Saying | None:
    """The sentence for a call that tells what was; None for one that holds."""
    row = called.call.row
    if row.role is not Role.PASSING:
        return None
    match called.call:
        case Call.PEAK_MISSED:
            text = _peak_missed(called, seen)
        case Call.GOES_ON:
            text = f"{row.spoken}, {seen.step.counts} {number(called.heat)} goes on"
        case Call.AWAITS_WORD:
            text = f"step {number(called.step + 1)} is {row.spoken}"
        case _:
            text = row.spoken
    return Saying(text, _URGENCY[row.role], row.kind)


def eased(call: Call) -> Saying | None:
    """The sentence for what a call was about being over; None where nothing is said."""
    return Saying(call.row.eased, Urgency.NOTICE, call.row.kind) if call.row.eased else None


def asked(event: Asked) -> Saying:
    """A word was not taken yet, as it can hardly be meant."""
    return Saying(spoken_question(event), Urgency.PROMPT, Kind.WORD)


def quench_now() -> Saying:
    """The work left the fire for the quench."""
    return Saying("quench now", Urgency.ALARM, Kind.QUENCH)


def hammer_time(left: float, label: str) -> Saying:
    """So much hammer time is left [s]; the label says of which part."""
    return Saying(f"{spelled_out(left, 'second')} of {label}", Urgency.COUNTDOWN, Kind.COUNTDOWN)


def thin_is_cold(text: str) -> Saying:
    """The thin part has gone cold, the rest may be worked on."""
    return Saying(text, Urgency.COUNTDOWN, Kind.SEEN)


def soak_left(left: float) -> Saying:
    """So much of the soak is left [s]."""
    return Saying(f"{spelled_out(left, 'second')} of soak left", Urgency.COUNTDOWN, Kind.COUNTDOWN)


def step_title(seen: Glance, units: Units) -> Saying:
    """Another step began: its number and its title."""
    return Saying(f"step {number(seen.step_number)}, {in_units(seen.step.title, units)}", Urgency.ASIDE, Kind.STEP)


def heat_count(seen: Glance) -> Saying:
    """Another heat began: its number, and how many there are."""
    text = f"{seen.step.counts} {number(seen.heat)} of {number(seen.heats)}"
    return Saying(text, Urgency.ASIDE, Kind.COUNT)


def target(kelvin: float, units: Units) -> Saying:
    """What the heat aims at, a temperature [K], said in degrees of the units that are set."""
    return Saying(f"heat to {units.degrees(kelvin)} degrees", Urgency.ASIDE, Kind.TARGET)


def begun(phase: PhaseKind) -> Saying:
    """A phase began."""
    return Saying(phase.row.spoken, Urgency.ASIDE, Kind.NOW)


def answer(word: Word, seen: Glance) -> Saying | None:
    """Confirm a word; None where what follows from it is said anyway."""
    text = f"one {seen.step.counts} more" if word is Word.REPEAT else _ANSWERS.get(word)
    return Saying(text, Urgency.NOTICE, Kind.WORD) if text else None


def note_kept() -> Saying:
    """A note was kept."""
    return Saying("noted", Urgency.ASIDE, Kind.WORD)


def finished() -> Saying:
    """The sitting is over."""
    return Saying("finished", Urgency.NOTICE, Kind.WORD)


def went_on() -> Saying:
    """The program was started again in the middle of the sitting."""
    return Saying("going on where it was left", Urgency.NOTICE, Kind.WORD)


def turn() -> Saying:
    """The cadence for even work round the bar."""
    return Saying("turn", Urgency.ASIDE, Kind.CADENCE)


def _after_air(seen: Glance) -> str:
    """Where the work goes when it has cooled."""
    step = seen.step
    if seen.phase is not PhaseKind.AIR:
        return ""
    if seen.heat == seen.heats:
        return f", that was the last {step.counts}" if seen.heats > 1 else ""
    return f", back in the {'oven' if step.phases[0].kind is PhaseKind.OVEN else 'fire'}"


def _peak_missed(called: Called, seen: Glance) -> str:
    wanted = seen.step.target(called.heat) if seen.step_number == called.step + 1 else None
    if wanted is None or called.kelvin is None:
        return f"that {seen.step.counts} missed its heat"
    return f"that {seen.step.counts} {'stayed too cold' if called.kelvin < wanted.heat_to else 'went too hot'}"
