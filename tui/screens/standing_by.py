"""The pedal while no sitting runs: what the foot says there goes to the screen, as its key would."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

from devices import DeviceError
from plans.sitting import Word
from tui.actions import BY_ID, Place, first_key

if TYPE_CHECKING:
    from tui.running import Delivered, Lift, Tell
    from tui.screens.host import Host


class StandingBy:
    """A pedal with a switch that can begin a sitting; lifted before one begins, which opens the same port.

    Args:
        host: whose screens hear it
        tell: is told, from another thread, what the foot says and what is wrong; hands it to `hear`
    """

    def __init__(self, host: Host, tell: Tell) -> None:
        self._host, self._tell = host, tell
        self._lift: Lift | None = None

    async def put(self) -> None:
        """Open the pedal that is set, in a thread; does nothing where there is none, or it stands already."""
        pedal, probe = self._host.settings.pedal, self._host.settings.probe
        if pedal is not None and pedal.line and self._lift is None:
            from tui.running import stand_by

            self._lift = await asyncio.to_thread(stand_by, pedal, probe.port if probe else "", self._tell)

    async def take_away(self) -> None:
        """Close it, in a thread; does nothing where it does not stand."""
        lift, self._lift = self._lift, None
        if lift is not None:
            await asyncio.to_thread(lift)

    def close(self) -> None:
        """Close it at once. Closing twice does no harm."""
        lift, self._lift = self._lift, None
        if lift is not None:
            lift()

    def hear(self, entry: Delivered) -> None:
        """Do what the foot said, by the key that says it on the screen on top; what else comes is of a sitting gone."""
        if isinstance(entry, DeviceError):
            self._host.say_aside(str(entry), wrong=True)
        elif entry is Word.NEXT:
            on_shelf = getattr(self._host.screen, "PLACE", None) is Place.SHELF
            action = BY_ID["shelf.begin" if on_shelf else "next"]
            self._host.simulate_key(first_key(action, self._host.settings.keys))
