"""What the live screen says at one moment, as plain values made from a glance at the sitting."""

from __future__ import annotations

from itertools import takewhile
from typing import TYPE_CHECKING

from plans.phase import FORGING, IDLE, OUTSIDE, PhaseKind
from plans.plan import Step
from plans.prose import in_units
from plans.reading import ProbeOn
from plans.record import record
from plans.shown import counted, show_clock
from plans.sitting import (
    ALARMS,
    PASSING,
    PROMPTS,
    STATES,
    TAKE_IT_OUT,
    Basis,
    Begun,
    Call,
    Called,
    Cause,
    Glance,
    Hands,
    HandsFree,
    MainFigureKind,
    Sitting,
    length,
    limits_of,
    question,
)
from plans.units import Units
from plans.warmth import RGB, USUAL_NAMES, HeatNames, heat_name, screen_glow
from tui.live.aim import Aim, aim_of
from tui.live.minding import caution_line
from tui.widgets import FINISHED, PAUSED, Ground, Mark, ScaleData, call_mark, lines_of, phase_mark

if TYPE_CHECKING:
    from devices import LinkState

_SHORT = {TAKE_IT_OUT: "out", Call.SOAKED_TOO_LONG.value: "too long"}
"""Words that would be spindly in big letters; the line below says them whole."""
_BETWEEN = 2
"""Columns between two texts that share a line."""
_AGAINST_THE_HEAT = (Call.OVER_HEAT, Call.PEAK_MISSED, Call.FIRE_COLD)
"""Calls whose temperature is held against what the heat is to come to."""
_GLOW_STEP = 10.0
"""The colour of the glow changes by so much of the work's warmth at once: a temperature difference [K]."""
_PASSES = 60.0
"""A call that holds no longer is shown for so long [s]."""


@record
class Showing:
    """One moment of the live screen."""

    step: str
    """Number and title of the step, e.g. "2/7  weld the billet"."""
    title: str
    """Its title alone."""
    heat: str
    """Which heat or cycle of the step it is, e.g. "heat 2 of 3"; empty in a step at the bench."""
    tally: tuple[int, int, bool]
    """Heats that are done, heats that the step has, and whether the next one is under way."""
    clock: str
    """Time since the sitting began, as a clock shows it."""
    word: str
    """What to do now, in capitals, short enough for big letters."""
    figure: str
    """The figure that counts now, in the units that are set; without its unit."""
    unit: str
    """The unit of the figure; empty for a clock."""
    span: str
    """The range of a figure that is modelled, short: "29-46"; empty where there is none."""
    word_is_big: bool
    """Whether the word has the place of the figure: it is time to do something else."""
    alarm: bool
    """Whether something goes wrong now: word and figure change field and ink."""
    paused: bool
    """Whether the smith pauses."""
    mark: Mark
    """The shape beside the word."""
    foot_mark: Mark
    """The shape beside the line of calls at the foot: that of a lost probe, or else the same as `mark`."""
    ground: Ground
    """What lies round word and figure."""
    glow: RGB | None
    """The colour in which the work glows; None where it glows in none or nobody knows."""
    label: str
    """What the figure is, and where it comes from."""
    basis: str
    """Where the figure comes from: measured, modelled or planned; empty where it only counts the clock."""
    work: str
    """How warm the work is."""
    aim: Aim
    """What this phase is to reach."""
    cue: str
    """How to work in this phase, in the plan's words; empty where it says nothing."""
    then: str
    """What comes after this phase; empty at the end."""
    call: str
    """The call of this phase that holds, or else the newest; empty where there is none."""
    caution: str
    """A caution, as what it warns of begins; empty where there is none."""
    probe: str
    """How it stands with the probe."""
    space: str
    """What space means now."""
    scale: ScaleData
    """The limits of this phase and how warm the work is, for the scale beside the figure."""


def showing(
    sitting: Sitting,
    seen: Glance,
    probe: str,
    units: Units = Units.METRIC,
    names: HeatNames = USUAL_NAMES,
    *,
    scaled: bool = False,
    columns: int = 100,
) -> Showing:
    """Put a glance into words.

    Args:
        sitting: what is looked at
        seen: how it looks
        probe: how it stands with the probe
        units: that every figure is shown in
        names: the chart that the heats are named by
        scaled: whether the scale stands beside the figure: what it tells need not be said once more
        columns: that the line has in which `label` and `work` share
    """
    alarm = seen.alarm in ALARMS and not seen.paused
    state = sitting.state
    asks = seen.asked is not None
    prompt = asks or ((bool(PROMPTS & seen.alarms) or state.out_for_a_look) and not seen.paused)
    mark = _mark(seen, alarm)
    lost = Call.PROBE_LOST in seen.alarms and not alarm and not seen.finished
    under_way = seen.phase is not PhaseKind.READY and not seen.finished
    done = seen.heat - (0 if seen.finished else 1)
    label = _label(seen)
    return Showing(
        step=f"{seen.step_number}/{seen.step_count}  {in_units(seen.step.title, units)}",
        title=in_units(seen.step.title, units),
        heat="" if seen.step.phases[0].kind is PhaseKind.BENCH else f"{seen.step.counts} {seen.heat} of {seen.heats}",
        tally=(done, seen.heats, under_way),
        clock=show_clock(length(state, seen.at)),
        word=_SHORT.get(seen.word, seen.word).upper(),
        figure=seen.figure.text(units),
        unit=seen.figure.unit(units),
        span=seen.figure.range_text.replace(" to ", "-").replace("-never", "+"),
        word_is_big=alarm or prompt or seen.finished,
        alarm=alarm,
        paused=seen.paused,
        mark=mark,
        foot_mark=call_mark(Call.PROBE_LOST) if lost else mark,
        ground=_ground(seen, alarm, prompt or state.left_fire_at is not None),
        glow=_glow(seen),
        label=label,
        basis="" if seen.figure.kind.counts else seen.figure.basis.value,
        work=_work(seen, units, names, scaled, columns - len(label) - _BETWEEN),
        aim=aim_of(sitting, seen, units),
        cue="" if seen.paused or seen.finished else in_units(sitting.current_phase.cue, units),
        then=f"then: {in_units(seen.then, units)}" if not seen.finished else "",
        call=_call(sitting, seen, units),
        caution=caution_line(sitting, seen.at, units),
        probe=probe,
        space=seen.next_word,
        scale=_scale(seen),
    )


def hands_line(hands: Hands, probe_on: ProbeOn | None) -> str:
    """What may begin by itself, in words that need no manual."""
    if hands.free is HandsFree.NEVER:
        return "nothing begins by itself"
    if hands.free is HandsFree.ALL and probe_on is ProbeOn.WORK:
        return "in and out are felt"
    if hands.free is HandsFree.ALL and hands.grace is not None:
        return f"goes on by itself {hands.grace:g} s after a call"
    return "soak begins by itself"


_SELF = {
    Cause.TEMPERATURE: "at heat",
    Cause.COLDER: "below its heat",
    Cause.PROBE: "felt by the probe",
    Cause.CLOCK: "the grace is over",
}


def by_itself(begun: Begun, undo: str) -> str:
    """Tell that a phase began without a word of the smith, and which key takes that back; empty where one did."""
    why = _SELF.get(begun.cause)
    return f"{why}: {begun.phase.value}; {undo} takes it back" if why else ""


def probe_line(
    probe_on: ProbeOn | None,
    link: LinkState | None,
    lost: bool,
    speed: float | None = None,
    short: bool = False,
    hurries: bool = False,
) -> str:
    """How it stands with the probe.

    Args:
        probe_on: where it sits
        link: its link, if there is one
        lost: whether the sitting has lost it
        speed: of a rehearsal; None for a real sitting
        short: leave out what a second glance can do without
        hurries: whether a rehearsal runs through a long wait, faster than its speed
    """
    if probe_on is None:
        return "no probe: modelled"
    parts = [] if speed is None else [f"rehearsal {speed:g} x"]
    if hurries:
        parts.append("faster through this wait")
    if link is None:
        parts.append("no probe now: modelled")
    elif link.trouble or lost:
        parts.append(f"probe lost: {link.trouble or 'it says nothing'}")
    elif not (short and parts):
        parts.append(f"probe on {probe_on.value}")
        if speed is None and not short:
            parts.append(link.port.removeprefix("/dev/"))
        if link.pace:
            parts.append(link.pace)
        if link.junk and not short:
            parts.append(counted(link.junk, "junk line"))
    return ", ".join(parts)


def _glow(seen: Glance) -> RGB | None:
    """The colour of the work to within a step that nobody sees: with each kelvin the whole field would be sent anew."""
    if seen.skin is None or seen.finished or not seen.phase.row.glows:
        return None
    glow = screen_glow(round(seen.skin / _GLOW_STEP) * _GLOW_STEP)
    return None if glow == (0, 0, 0) else glow


def _label(seen: Glance) -> str:
    figure = seen.figure
    if figure.kind.counts:
        return figure.label
    rest = "the rest " if figure.kind is MainFigureKind.THIN_COLD else ""
    between = f", {rest}{figure.range_text}{'' if figure.as_clock else ' s'}" if figure.range_text else ""
    return f"{figure.label}{between}, {_stands_on(figure.basis, seen)}"


def _stands_on(basis: Basis, seen: Glance) -> str:
    """What a temperature, or a figure, stands on, and how old that is where it is not as new as it can be."""
    if basis is not Basis.MEASURED or seen.probe_age is None:
        return basis.value
    return f"{basis.value} {seen.probe_age:.0f} s ago"


def _mark(seen: Glance, alarm: bool) -> Mark:
    if seen.finished:
        return FINISHED
    if seen.paused:
        return PAUSED
    if alarm and seen.alarm is not None:
        return call_mark(seen.alarm)
    prompt = next((call for call in Call if call in PROMPTS & seen.alarms), None)
    return phase_mark(seen.phase) if prompt is None else call_mark(prompt)


def _ground(seen: Glance, alarm: bool, prompt: bool) -> Ground:
    if seen.asked is not None:
        return Ground.STRIPES
    if seen.finished or seen.paused or seen.phase is PhaseKind.READY:
        return Ground.EMPTY
    if alarm:
        return Ground.ALARM
    if prompt:
        return Ground.STRIPES
    return {PhaseKind.SOAK: Ground.LEVEL, PhaseKind.STRIKE: Ground.FULL}.get(seen.phase, Ground.SIDES)


def _work(seen: Glance, units: Units, names: HeatNames, scaled: bool, room: int) -> str:
    if seen.skin is None or seen.skin_basis is Basis.PLANNED:
        return ""
    measured = seen.skin_basis is Basis.MEASURED
    struck = seen.phase is PhaseKind.STRIKE and not seen.paused
    # Beside the scale there is little room: the field shows the colour.
    colour = heat_name(seen.skin, names) if seen.phase.row.glows and not (struck and scaled) else None
    skin = f"{'struck face' if struck and not measured else 'skin'} {units.degrees(seen.skin)}"
    # Beside the scale there is little room, and where the figure is modelled as well the line says so already.
    told = scaled and seen.figure.basis is seen.skin_basis and not seen.figure.kind.counts
    skin += "" if told else f" {_stands_on(seen.skin_basis, seen)}"
    others = []
    if seen.coldest is not None and struck:
        others.append(f"{seen.coldest_name} {units.degrees(seen.coldest)}")
    if seen.middle is not None and seen.phase in FORGING | OUTSIDE and not scaled:
        others.append(f"middle {units.degrees(seen.middle)}")
    modelled = " modelled" if others and measured else ""
    warm = ", ".join((skin, *others)) + modelled
    if colour is None:
        return warm
    # A name is a hint by eye and light: its range shows how wide a hint.
    whole = f"{colour.text(units)}, {warm}"
    return whole if len(whole) <= room else f"{colour.name}, {warm}"


def _call(sitting: Sitting, seen: Glance, units: Units) -> str:
    # What was called in another phase is an instruction no longer.
    if seen.asked is not None:
        return question(seen.asked, units)
    since = sitting.state.since
    of_phase = list(takewhile(lambda call: call.at >= since, reversed(sitting.state.calls)))
    holding = (call for call in of_phase if call.call in seen.alarms and call.call not in STATES)
    passing = (call for call in of_phase if call.call in PASSING and seen.at - call.at < _PASSES)
    call = next(holding, None) or next(passing, None)
    return "" if call is None else said(call, sitting.plan.steps[call.step], units)


def said(call: Called, step: Step, units: Units) -> str:
    """A call as a line, with its time, and where something was missed, by how much."""
    return f"{show_clock(call.at)} {call.call.value}{_by_how_much(call, step, units)}: {call.call.row.advice}"


def _by_how_much(call: Called, step: Step, units: Units) -> str:
    if call.took is not None:
        return f" {show_clock(call.took)}{'' if call.wanted is None else f' of {show_clock(call.wanted)}'}"
    target = step.target(call.heat)
    if call.kelvin is None or target is None or call.call not in _AGAINST_THE_HEAT:
        return ""
    return f" {units.degrees(call.kelvin)}, wanted {units.degrees(target.heat_to)}"


def _scale(seen: Glance) -> ScaleData:
    return ScaleData(
        limits=tuple(lines_of(limits_of(seen.step, seen.heat, seen.phase))),
        skin=seen.skin if seen.skin_basis is not Basis.PLANNED else None,
        middle=seen.middle if seen.phase not in IDLE else None,
    )
