"""What was measured by hand, typed in one line."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from plans.sitting import Word, WordError, measured_text
from plans.text import plain
from plans.units import Units
from tui.screens import Host

_ROWS = 4
"""Rows that the sheet takes."""
_KEYS = "enter keeps it, esc lets it be"
_FIGURES = "w width, t thick, l length, m weight, hrc, file skates/bites, bevel, decarb"


class MeasuredScreen(ModalScreen[str | None]):
    """Asks for what was measured, and stays until it can be read; None when it was left empty or given up.

    Args:
        units: those that are set, of which a bare number is
        below: how many rows of what it stands over are left to be seen below it
    """

    DEFAULT_CSS = """
    MeasuredScreen { align: center bottom; background: $background 30%; }
    MeasuredScreen #sheet { height: auto; background: $surface; padding: 0 1 1 1; }
    MeasuredScreen Input, MeasuredScreen Input:focus { border: none; height: 1; padding: 0; background: $panel; }
    """

    def __init__(self, units: Units, below: int = 0) -> None:
        super().__init__()
        self._units, self._below = units, below

    def compose(self) -> ComposeResult:
        example = "w 1 1/4 t 3/4" if self._units.inches else "w 31.5 t 18"
        with Vertical(id="sheet") as sheet:
            sheet.styles.margin = (0, 0, self._below, 0)
            yield Static(Content.assemble(("Measured", "bold $accent"), f"   {_KEYS}"))
            yield Static(Content(_FIGURES), id="told")
            yield Input(placeholder=example, max_length=200)

    def on_input_submitted(self, message: Input.Submitted) -> None:
        if not message.value.strip():
            self.dismiss(None)
            return
        try:
            self.dismiss(measured_text(message.value, self._units))
        except WordError as error:
            self.query_one("#told", Static).update(Content.styled(plain(str(error)), "$error"))

    def key_escape(self) -> None:
        self.dismiss(None)


def ask_measured(app: Host) -> None:
    """Ask for what was measured, log it, and say how it differs from the plan."""
    units = app.settings.units

    def answered(text: str | None) -> None:
        # Where the log can't be written, whatever is said has been answered so.
        if text is None or not app.say(Word.MEASURED, text) or app.running is None:
            return
        if app.running.logged.trouble is None:
            from plans.logbook.lines import measured_in_short

            sitting = app.running.sitting
            app.say_aside(measured_in_short(sitting.plan, sitting.state, units) or "noted")

    # A warning that the log can't be written is not to be covered, not even in part.
    warnings = [one for one in app.screen.query("#trouble") if one.display]
    below = app.screen.size.height - warnings[0].region.y if warnings else 0
    app.push_screen(MeasuredScreen(units, min(below, app.screen.size.height - _ROWS)), answered)
