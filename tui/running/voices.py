"""What a sitting is heard through: bell and voice on the screen, the voice alone without one."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from devices import DeviceError, Voice, find_command
from plans.sitting import Volume
from tui.running.bell import Bell, Stops
from tui.running.sound import Aloud

if TYPE_CHECKING:
    from devices import Clock
    from tui.config import Settings


def bell_and_voice(
    settings: Settings,
    command: Sequence[str],
    clock: Clock,
    ring: Callable[[], None],
    later: Callable[[float, Callable[[], None]], Stops],
) -> Aloud:
    """Make what a sitting on the screen is heard through, muted if the settings say so.

    Args:
        settings: whether there is a bell, how much is said, in what units, and how long it is repeated
        command: speaks what it is given as its last argument; empty for the bell alone
        clock: real time [s]
        ring: rings the terminal's bell once
        later: has something done in so many seconds
    """
    bell = Bell(ring, later) if settings.bell else None
    aloud = Aloud(bell, Voice(command, clock), settings.talk, settings.units, settings.repeat_for)
    aloud.muted = settings.mute
    return aloud


def voice_alone(settings: Settings) -> Aloud:
    """Make what a sitting without a screen is heard through: there is no bell, only the voice.

    Raises:
        DeviceError: there is no speech command.
    """
    command = find_command(settings.speech)
    if not command:
        do = 'Install one, such as espeak-ng, or name yours in the settings: speech = "...".'
        raise DeviceError("--aloud", "no speech command was found on this machine", do)
    return Aloud(None, Voice(command), settings.talk or Volume.NORMAL, settings.units, settings.repeat_for)
