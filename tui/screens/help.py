"""Every key, and what it does."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from devices import REPEAT
from tui.actions import Place, of, shown_key
from tui.screens.host import host_of
from tui.screens.sheet import Sheet

_HEADINGS = {
    Place.SITTING: "While a sitting runs",
    Place.FINISHED: "When it is finished",
    Place.SHELF: "On the shelf",
    Place.LOG: "In the log",
    Place.REVIEW: "Looking at a sitting",
    Place.RECKONER: "In the reckoner",
    Place.ANYWHERE: "Anywhere",
}


class HelpScreen(Sheet):
    """The sheet of all keys; goes away by any of the keys that one would try.

    Args:
        place: the place that it was asked from, whose keys stand first; None where that has none
    """

    OPENED_BY = "help"
    DEFAULT_CSS = "HelpScreen #sheet { max-width: 84; }"

    def __init__(self, place: Place | None) -> None:
        super().__init__()
        self._place = place

    def reading(self) -> Iterable[Widget]:
        """All keys, as they are set."""
        app = host_of(self)
        return (Static(help_text(self._place, app.settings.keys, str(app.folders.configuration))),)


def help_text(place: Place | None, keys: Mapping[str, str], file: str) -> Content:
    """All keys and what they do, as text.

    Args:
        place: the place whose keys stand first; None for none
        keys: keys that were moved, by the action's id
        file: the settings file, where keys can be moved
    """
    places = sorted(_HEADINGS, key=lambda other: other is not place)
    lines: list[Content] = []
    for heading in places:
        lines.append(Content.styled(_HEADINGS[heading], "bold $accent"))
        for action in of(heading):
            key = shown_key(action, keys)
            lines.append(Content.assemble((f"  {key:<6}", "bold"), "  ", action.help))
        if heading is Place.ANYWHERE:
            lines.append(Content.assemble(("  ctrl+c", "bold"), "  leave at once, with the log whole"))
        lines.append(Content(""))
    lines += [
        Content(f"The same word twice within {REPEAT:g} s counts once: a glove or a pedal may bounce."),
        Content("All the keys at the foot of a screen can be clicked."),
        Content(f"To move a key, name its action in {file}:"),
        Content('  [keys]\n  next = "enter"'),
        Content("The actions: " + ", ".join(action.id for heading in places for action in of(heading))),
    ]
    return Content("\n").join(lines)
