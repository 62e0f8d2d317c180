"""The palette: every action of the screen, found by its name."""

from __future__ import annotations

from contextlib import suppress
from functools import partial
from typing import Any

from textual.command import CommandPalette, DiscoveryHit, Hit, Hits, Provider
from textual.worker import Worker

from tui.actions import Action, Place, of, shown_key
from tui.screens.host import host_of


class ActionsProvider(Provider):
    """The actions of the screen that the palette was opened over, and those that are anywhere."""

    async def discover(self) -> Hits:
        """All actions, while nothing has been typed."""
        for action in self._actions():
            yield DiscoveryHit(_name(action), partial(self._run, action), help=self._help(action))

    async def search(self, query: str) -> Hits:
        """The actions whose name or help matches what was typed."""
        matcher = self.matcher(query)
        for action in self._actions():
            score = max(matcher.match(_name(action)), matcher.match(action.help))
            if score > 0:
                yield Hit(score, matcher.highlight(_name(action)), partial(self._run, action), help=self._help(action))

    def _actions(self) -> list[Action]:
        place = getattr(self.screen, "PLACE", None)
        here = of(place) if isinstance(place, Place) else ()
        # Whoever says enter before anything was found for what he typed gets the first: it must do no harm.
        return [*(action for action in of(Place.ANYWHERE) if action.id != "palette"), *here]

    def _help(self, action: Action) -> str:
        return f"{shown_key(action, host_of(self.screen).settings.keys)}: {action.help}"

    async def _run(self, action: Action) -> None:
        namespace = self.app if action.place is Place.ANYWHERE else self.screen
        await self.app.run_action(action.method, namespace)


class Palette(CommandPalette):
    """Textual's palette; that it is closed before it has begun to look, or has no room for a line, is no fault."""

    def run_worker(self, *work: Any, **options: Any) -> Worker[Any]:
        """Look for something aside."""
        return super().run_worker(*work, **(options | {"exit_on_error": False}))

    def _action_command_list(self, action: str) -> None:
        with suppress(LookupError):
            super()._action_command_list(action)


def _name(action: Action) -> str:
    return action.short or action.method
