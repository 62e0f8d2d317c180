"""A pedal for one sitting: a switch on the probe's port, or on a port of its own."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from devices import ControlLine, DeviceError, PedalLine, PedalWatch, Power, through_sleep
from plans.sitting import Word

if TYPE_CHECKING:
    from tui.config import PedalSetting
    from tui.running.sources import Source

Tell = Callable[[Word | DeviceError], None]
"""Called from another thread with what the foot said, or what is wrong with the pedal."""
Lift = Callable[[], None]
"""Ends the pedal of a sitting. Calling it twice does no harm."""


def stand(pedal: PedalSetting | None, source: Source, tell: Tell) -> Lift:
    """Let a pedal stand by a sitting: begin to tell what the foot says.

    What is wrong with the pedal is told, and keeps no sitting from going on.

    Args:
        pedal: as it is set; None, or one without a line, has no switch
        source: of the sitting, not started yet: the pedal may hang on its port
        tell: is told what the foot says and what is wrong

    Returns:
        what ends it
    """
    if pedal is None or not pedal.line:
        return _nothing
    line, power = ControlLine(pedal.line), None if pedal.power == "none" else Power(pedal.power)
    clock = through_sleep()
    if not pedal.port:
        if not source.watch_line(PedalWatch(tell, clock, line, power, tell)):
            what = "it names no port, and there is no probe on whose port it could hang"
            tell(DeviceError("pedal", what, 'Write port = "..." below [pedal] in the settings.'))
        return _nothing
    own = PedalLine(pedal.port, tell, clock, line, power, tell)
    try:
        own.start()
    except DeviceError as error:
        tell(error)
    return own.close


def _nothing() -> None:
    pass
