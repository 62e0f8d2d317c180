"""Every key, and what it does; and the words on the screen that are no trade terms."""

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
    Place.COMPARING: "Sittings beside one another",
    Place.TRENDS: "Looking at trends",
    Place.RECKONER: "In the reckoner",
    Place.MAKER: "Writing a plan",
    Place.ANYWHERE: "Anywhere",
}

_WORDS = (
    ("soak begins by itself", "when the steel is at heat; everything else waits for your word"),
    ("in and out are felt", "the probe on the work tells when it goes in and comes out: no word is needed for that"),
    ("goes on by itself 20 s after a call", "without such a probe the next phase begins so long after its call"),
    ("the grace", "those seconds, grace_seconds in the settings: time to say something else"),
    ("nothing begins by itself", "every phase waits for your word"),
    ("so far", "how long this has gone on, where nothing sets its end"),
    ("measured", "read from the probe"),
    ("modelled", "reckoned from fire, section and time; the range beside it says how sure that is"),
    ("planned", "as the plan has it; nothing is known of it yet"),
)
"""What stands on the live screen and is no trade term."""


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
    """All keys and what they do, and what the words on the screen mean, as text.

    Args:
        place: the place whose keys stand first; None for none
        keys: keys that were moved, by the action's id
        file: the settings file, where keys can be moved
    """
    places = sorted(_HEADINGS, key=lambda other: other is not place)
    lines: list[Content] = []
    for number, heading in enumerate(places):
        if number == 1:  # right below the keys that were asked for
            lines += _words()
        lines.append(Content.styled(_HEADINGS[heading], "bold $accent"))
        for action in of(heading):
            key = shown_key(action, keys)
            lines.append(Content.assemble((f"  {key:<6}", "bold"), "  ", action.help))
        if heading is Place.ANYWHERE:
            lines.append(Content.assemble(("  ctrl+c", "bold"), "  leave at once, with the log whole"))
        lines.append(Content(""))
    lines += [
        Content("Space, or the pedal, goes ahead on every screen; enter takes the chosen one; q goes back, or leaves."),
        Content(f"The same word twice within {REPEAT:g} s counts once: a glove or a pedal may bounce."),
        Content("All the keys at the foot of a screen can be clicked."),
        Content(f"To move a key, name its action in {file}:"),
        Content('  [keys]\n  next = "enter"'),
        Content("The actions: " + ", ".join(action.id for heading in places for action in of(heading))),
    ]
    return Content("\n").join(lines)


def _words() -> list[Content]:
    lines = [Content.styled("Words on the screen while it runs", "bold $accent")]
    lines += [Content.assemble((f"  {word}", "bold"), f": {meaning}") for word, meaning in _WORDS]
    return [*lines, Content("")]
