"""The keys at the foot of a screen, from the table of actions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from textual.dom import DOMNode

from tui.actions import BY_ID, Action, Place, of, shown_key
from tui.screens.host import host_of
from tui.widgets import Key


def keys_at_foot(
    screen: DOMNode, place: Place, now: Mapping[str, str] | None = None, only: Sequence[str] = ()
) -> list[Key]:
    """The keys at the foot of a screen: those of its place, and at the end that of the help.

    Args:
        screen: the screen, or a widget on it
        place: whose actions
        now: what an action means just now, by its id, where that is not what it always means; empty leaves it out
        only: the ids of those that are wanted, in their order; empty for all that the table has at the foot

    Returns:
        for each the key, what it does, and the action that a click on it runs
    """
    keys = host_of(screen).settings.keys
    wanted = [BY_ID[one] for one in only] or [action for action in of(place) if action.at_foot]
    found = [
        (shown_key(action, keys), text, _run(action))
        for action in wanted
        if (text := (now or {}).get(action.id, action.short))
    ]
    help_ = BY_ID["help"]
    return [*found, (shown_key(help_, keys), help_.short, _run(help_))]


def _run(action: Action) -> str:
    return f"app.{action.method}" if action.place is Place.ANYWHERE else action.method
