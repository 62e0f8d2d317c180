"""All there is to read about the step, and the plan around it, where the live screen has no room at its side."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from plans.prose import in_units
from plans.sitting import Sitting
from plans.text import plain
from tui.live.step_text import side_text, step_list
from tui.screens import Sheet, host_of
from tui.widgets import step_lines


class StepSheet(Sheet):
    """Goes away by any of the keys that one would try.

    Args:
        sitting: whose step at hand it is
        lessons: of earlier sittings on this step
    """

    OPENED_BY = "step-sheet"
    LEAVES = "back to the sitting"
    DEFAULT_CSS = """
    StepSheet #sheet { max-width: 96; }
    StepSheet #title { text-style: bold; margin-bottom: 1; }
    """

    def __init__(self, sitting: Sitting, lessons: Sequence[str]) -> None:
        super().__init__()
        self._sitting, self._lessons = sitting, lessons

    def heading(self) -> Iterable[Widget]:
        """Make the title: that of the step."""
        title = in_units(self._sitting.current_step.title, host_of(self).settings.units)
        return (Static(Content(plain(title)), id="title"),)

    def reading(self) -> Iterable[Widget]:
        """Make what the plan says of the step, and below it the steps of the plan."""
        units = host_of(self).settings.units
        return Static(side_text(self._sitting.current_step, _WIDTH, units, self._lessons)), Static(self._plan_text())

    def _plan_text(self) -> Content:
        settings = host_of(self).settings
        lines, current, working = step_list(self._sitting, settings.units)
        texts = step_lines(lines, current, _WIDTH, len(lines), working=working, blocks=settings.blocks)
        heading = Content.styled("\nThe plan", "bold $accent")
        return Content("\n").join(
            [heading, *(Content.styled(text.rstrip(), _STYLES.get(state, "")) for text, state in texts)]
        )


_WIDTH = 60
"""Of the text, however wide the sheet is [cells]."""
_STYLES = {"done": "$text-muted", "current": "bold"}
