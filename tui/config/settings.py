"""What the smith has set, in a TOML file in the configuration folder."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace

from plans.reading import ProbeOn
from plans.record import record
from plans.sitting import Hands, HandsFree, Volume
from plans.units import Units
from plans.warmth import USUAL_NAMES, HeatNames

PROFILE = "bare-celsius"
"""The probe profile where none is named."""


@record
class ProbeSetting:
    """A probe: the one that is always there, in the settings, or the one that a command names."""

    port: str
    """Where it is plugged in, as the system calls it."""
    profile: str = PROFILE
    """Name of the profile by which it talks."""
    on: ProbeOn = ProbeOn.WORK
    """Where it sits: on the work or in the fire."""


@record
class PedalSetting:
    """A pedal: a key that it sends as a keyboard does, a switch on the control lines of a serial port, or both."""

    key: str = ""
    """The key that it sends, as the terminal calls it; empty where it sends none."""
    line: str = ""
    """The control line that its switch closes, "cts" or "dsr"; empty where there is no switch."""
    power: str = "rts"
    """The control line that its switch is fed from, "rts" or "dtr"; "none" where it has a supply of its own."""
    port: str = ""
    """The serial port of its switch; empty where that hangs on the probe's port."""


@record
class Settings:
    """What the smith has set; what he has not is as it ships."""

    keys: Mapping[str, str] = field(default_factory=dict)
    """Keys that were moved, by the action's id."""
    units: Units = Units.METRIC
    """The units in which every figure is shown and said."""
    heat_names: HeatNames = USUAL_NAMES
    """The chart by which heats are called after their colour."""
    blocks: bool = False
    """Plain blocks and ASCII, for terminals without braille."""
    bell: bool = True
    """Whether the terminal's bell rings at all; where it does not, not even for a burn limit."""
    mute: bool = False
    """Neither bell nor voice, until it is switched on by its key; but a burn limit is heard all the same."""
    talk: Volume | None = Volume.NORMAL
    """How much is said aloud, where the machine can speak; None for nothing."""
    repeat_for: float = 300.0
    """How long a call that nobody answers is repeated, 0 for never [s]; a burn limit is as long as it holds."""
    speech: str = ""
    """The speech command, as it is typed in a shell; empty to have one looked for."""
    pedal: PedalSetting | None = None
    """The pedal; None without one."""
    hands: Hands = field(default_factory=lambda: Hands(HandsFree.ALL))
    """What may end a phase by itself."""
    probe: ProbeSetting | None = None
    """The probe of sittings begun on the screen's shelf or log; None for only the clock."""

    def in_blocks(self) -> Settings:
        """These settings, but with plain blocks in place of braille."""
        return replace(self, blocks=True)
