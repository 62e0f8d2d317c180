"""The sentences themselves: short, in plain words, the thing to do or the matter first."""

from __future__ import annotations

from plans.plan import PhaseKind
from plans.sitting.events import Call, Called, Word
from plans.sitting.glance import Glance
from plans.sitting.spoken.saying import Kind, Saying, Urgency, counted, number
from plans.units import Units

_LIMITS = {
    Call.TOO_COLD: "back in the fire, too cold",
    Call.TOO_HOT: "too hot, out of the fire",
    Call.SOAKED_TOO_LONG: "soaked too long, take it out",
    Call.TEMPER_LATE: "temper it now",
}

_EASED = {Call.TOO_COLD: "warm enough again", Call.TOO_HOT: "no longer too hot"}

_BEGUN = {
    PhaseKind.FIRE: "in the fire",
    PhaseKind.SOAK: "at heat, let it soak",
    PhaseKind.STRIKE: "out, strike",
    PhaseKind.AIR: "out, let it cool",
    PhaseKind.QUENCH: "in the quench",
    PhaseKind.OVEN: "in the oven",
    PhaseKind.DIP: "in the bath",
    PhaseKind.BENCH: "to the bench",
}

_OUT_OF = {
    PhaseKind.QUENCH: "out of the quench",
    PhaseKind.OVEN: "out of the oven",
    PhaseKind.DIP: "out of the bath",
}

_ANSWERS = {Word.UNDO: "taken back", Word.PAUSE: "paused", Word.RESUME: "going on"}


def holding(call: Call, seen: Glance) -> Saying | None:
    """A call that holds; None for one that only passes."""
    if call in _LIMITS:
        return Saying(_LIMITS[call], Urgency.ALARM, Kind.LIMIT)
    match call:
        case Call.AT_HEAT:
            return _prompt("at heat")
        case Call.SOAK_DONE:
            quench = any(phase.kind is PhaseKind.QUENCH for phase in seen.step.phases)
            return _prompt("soak done, into the quench" if quench else "soak done, take it out")
        case Call.COLD_ENOUGH:
            return _prompt(f"cold enough{_after_air(seen)}")
        case Call.TIME_UP:
            return _prompt(_OUT_OF.get(seen.phase, "time is up") + _after_air(seen))
        case Call.PROBE_LOST:
            return Saying("probe lost, going by the model", Urgency.NOTICE, Kind.PROBE)
        case _:
            return None


def passing(called: Called, seen: Glance) -> Saying | None:
    """A call that tells what was; None for one that holds."""
    match called.call:
        case Call.PROBE_BACK:
            return Saying("probe back", Urgency.NOTICE, Kind.PROBE)
        case Call.ARREST:
            return Saying("possible arrest", Urgency.NOTICE, Kind.SEEN)
        case Call.FIRE_FELL:
            return Saying("the fire fell", Urgency.NOTICE, Kind.SEEN)
        case Call.PEAK_MISSED:
            return Saying(_peak_missed(called, seen), Urgency.NOTICE, Kind.MISSED)
        case Call.QUENCH_LATE:
            return Saying("late into the quench", Urgency.NOTICE, Kind.MISSED)
        case _:
            return None


def eased(call: Call) -> Saying | None:
    """What a limit was about is over."""
    return Saying(_EASED[call], Urgency.NOTICE, Kind.LIMIT) if call in _EASED else None


def quench_now() -> Saying:
    """The work left the fire for the quench."""
    return Saying("quench now", Urgency.ALARM, Kind.QUENCH)


def hammer_time(left: float, label: str) -> Saying:
    """So much hammer time is left [s]; the label says of which part."""
    return Saying(f"{counted(left, 'second')} of {label}", Urgency.COUNTDOWN, Kind.COUNTDOWN)


def thin_is_cold(text: str) -> Saying:
    """The thin part has gone cold, the rest may be worked on."""
    return Saying(text, Urgency.COUNTDOWN, Kind.SEEN)


def soak_left(left: float) -> Saying:
    """So much of the soak is left [s]."""
    return Saying(f"{counted(left, 'second')} of soak left", Urgency.COUNTDOWN, Kind.COUNTDOWN)


def step_title(seen: Glance) -> Saying:
    return Saying(f"step {number(seen.step_number)}, {seen.step.title}", Urgency.ASIDE, Kind.STEP)


def heat_count(seen: Glance) -> Saying:
    text = f"{seen.step.counts} {number(seen.heat)} of {number(seen.heats)}"
    return Saying(text, Urgency.ASIDE, Kind.COUNT)


def target(kelvin: float, units: Units) -> Saying:
    """What the heat aims at, a temperature [K], said in degrees of the units that are set."""
    return Saying(f"heat to {units.degrees(kelvin)} degrees", Urgency.ASIDE, Kind.TARGET)


def begun(phase: PhaseKind) -> Saying:
    """A phase began."""
    return Saying(_BEGUN[phase], Urgency.ASIDE, Kind.NOW)


def answer(word: Word, seen: Glance) -> Saying | None:
    """That a word was heard, where nothing else tells it."""
    text = f"one {seen.step.counts} more" if word is Word.REPEAT else _ANSWERS.get(word)
    return Saying(text, Urgency.NOTICE, Kind.WORD) if text else None


def note_kept() -> Saying:
    return Saying("noted", Urgency.ASIDE, Kind.WORD)


def finished() -> Saying:
    return Saying("finished", Urgency.NOTICE, Kind.WORD)


def went_on() -> Saying:
    return Saying("going on where it was left", Urgency.NOTICE, Kind.WORD)


def turn() -> Saying:
    """The cadence for even work round the bar."""
    return Saying("turn", Urgency.ASIDE, Kind.CADENCE)


def _prompt(text: str) -> Saying:
    return Saying(text, Urgency.PROMPT, Kind.NOW)


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
