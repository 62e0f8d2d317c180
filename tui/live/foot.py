"""Which keys stand at the foot of the live screen in each phase, those that it needs first."""

from __future__ import annotations

from typing import Final

from plans.phase import HELD_HOT, PhaseKind
from tui.actions import BY_ID

_ALWAYS: Final = ("undo", "lessons", "pause", "leave", "note", "measured", "far", "step-sheet", "mute")
_FIRST: Final[dict[PhaseKind, tuple[str, ...]]] = {
    PhaseKind.READY: ("lessons", "step-sheet", "on"),
    PhaseKind.FIRE: ("out", "flux", "earlier"),
    PhaseKind.SOAK: ("out", "flux", "earlier"),
    PhaseKind.STRIKE: ("in", "repeat", "on", "earlier"),
    PhaseKind.AIR: ("in", "repeat", "on", "earlier"),
    PhaseKind.QUENCH: ("on", "earlier"),
    PhaseKind.OVEN: ("repeat", "on", "earlier"),
    PhaseKind.DIP: ("repeat", "on", "earlier"),
    PhaseKind.BENCH: ("lessons", "step-sheet", "measured", "on", "repeat"),
}
"""What is wanted in a phase before what is always to be had. Space, which goes first of all, says the rest."""


def keys_of(phase: PhaseKind, *, paused: bool = False) -> tuple[str, ...]:
    """The actions whose keys stand at the foot, by their ids, the most important first."""
    # Space ends a pause, and till then nothing else is to be said of the work but where it is.
    first = (("in", "out") if phase in HELD_HOT else ()) if paused else _FIRST[phase]
    wanted = ("next", *first, *(one for one in _ALWAYS if not paused or one != "pause"))
    return tuple(dict.fromkeys(one for one in wanted if one in BY_ID))
