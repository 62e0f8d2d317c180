"""A pedal for one sitting, or to begin one: a switch on the probe's port, or on a port of its own."""

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
    if pedal.port:
        return _on_a_port(pedal, pedal.port, tell)
    if not source.watch_line(PedalWatch(tell, through_sleep(), *_lines(pedal), tell)):
        what = "it names no port, and there is no probe on whose port it could hang"
        tell(DeviceError("pedal", what, 'Write port = "..." below [pedal] in the settings.'))
    return _nothing


def stand_by(pedal: PedalSetting | None, probe_port: str, tell: Tell) -> Lift:
    """Let a pedal stand by while no sitting runs, so that the foot can begin one.

    To be ended before a sitting begins, which opens the same port.

    Args:
        pedal: as it is set; None, or one without a line, has no switch
        probe_port: of the probe that is set, on which a pedal without a port of its own hangs; empty without a probe
        tell: is told, from another thread, what the foot says and what is wrong

    Returns:
        what ends it
    """
    if pedal is None or not pedal.line or not (port := pedal.port or probe_port):
        return _nothing
    return _on_a_port(pedal, port, tell)


def _on_a_port(pedal: PedalSetting, port: str, tell: Tell) -> Lift:
    own = PedalLine(port, tell, through_sleep(), *_lines(pedal), tell)
    try:
        own.start()
    except DeviceError as error:
        tell(error)
    return own.close


def _lines(pedal: PedalSetting) -> tuple[ControlLine, Power | None]:
    return ControlLine(pedal.line), None if pedal.power == "none" else Power(pedal.power)


def _nothing() -> None:
    pass
