"""What is typed at the forge: a note, and what was measured by hand."""

from __future__ import annotations

from plans.measured import read_measured
from plans.sitting import (
    LONGEST_NOTE,
    Measurement,
    Word,
    check_come_to,
    is_at_bench,
    is_struck,
    measured_of,
    measured_text,
    note_text,
)
from plans.units import Units
from tui.screens import Host, LineScreen, measured_line


def ask_note(app: Host) -> None:
    """Ask for a note and log it; one that is too long says so at its end."""

    def answered(text: str | None) -> None:
        if _logged(app, Word.NOTE, text):
            app.say_aside("noted")

    app.push_screen(LineScreen("Note", longest=LONGEST_NOTE, below=_warned(app), read=note_text), answered)


def ask_measured(app: Host) -> None:
    """Ask for what was measured, log it, and say how it differs from the plan."""
    units = app.settings.units

    def answered(text: str | None) -> None:
        if _logged(app, Word.MEASURED, text) and app.running is not None:
            from plans.logbook.lines import measured_in_short

            sitting = app.running.sitting
            app.say_aside(measured_in_short(sitting.plan, sitting.state, units) or "noted")

    def read(text: str, _: int) -> str:
        said = measured_text(text, units)
        step = read_measured(said, Units.METRIC).step
        if app.running is not None and step is not None:
            check_come_to(step, app.running.sitting.state)
        return said

    def doubt(text: str) -> str:
        from plans.logbook.lines import hardly_so

        if app.running is None:
            return ""
        plan, state = app.running.sitting.plan, app.running.sitting.state
        measured = read_measured(text, Units.METRIC)
        one = Measurement(state.at, *measured_of(plan, state, measured), measured)
        return hardly_so(one, (*state.measurements, one), plan, units)

    place, otherwise = _measured_where(app)
    title = f"Measured, {place}"
    app.push_screen(
        measured_line(units, _warned(app), title=title, otherwise=otherwise, read=read, doubt=doubt), answered
    )


def _measured_where(app: Host) -> tuple[str, str]:
    """Of what the figures are as they are typed, and what to write where they are of something else; empty for no
    sitting, and where nothing else can be meant."""
    from plans.logbook.lines import measured_place

    if app.running is None:
        return "", ""
    plan, state = app.running.sitting.plan, app.running.sitting.state
    step, heat = measured_of(plan, state)
    worked_on, _ = state.worked_on()
    otherwise = ""
    if step < worked_on:
        otherwise = f"as it was forged; if it was ground or cut since, write: step {worked_on + 1} t 18"
    elif step == worked_on > 0 and is_at_bench(plan.steps[step]) and is_struck(plan.steps[step - 1]):
        otherwise = f"as it lies here; of what came from the anvil, write: step {step} t 18"
    return measured_place(step, heat, plan), otherwise


def _logged(app: Host, word: Word, text: str | None) -> bool:
    """Say what was typed; whether it is logged, for where it can't be, that has been told."""
    said = text is not None and app.say(word, text, sure=True)  # a line that was typed is no bounce
    return said and app.running is not None and app.running.logged.trouble is None


def _warned(app: Host) -> int:
    """Rows from the warning that the log can't be written to the foot: it is not to be covered, not even in part."""
    warnings = [one for one in app.screen.query("#trouble") if one.display]
    return app.screen.size.height - warnings[0].region.y if warnings else 0
