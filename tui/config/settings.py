"""What the smith has set, in a TOML file in the configuration folder."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from plans.reading import ProbeOn
from plans.sitting.hands import Hands, HandsFree
from plans.sitting.spoken.saying import Volume
from plans.units import Units

PROFILE = "bare-celsius"


@dataclass(frozen=True, slots=True)
class ProbeSetting:
    """The probe that is always there."""

    port: str
    profile: str = PROFILE
    on: ProbeOn = ProbeOn.WORK


@dataclass(frozen=True, slots=True)
class PedalSetting:
    """A pedal: a key that it sends as a keyboard does, a switch on the control lines of a serial port, or both."""

    key: str = ""
    """As the terminal calls it; empty where it sends none."""
    line: str = ""
    """The line that the switch closes, "cts" or "dsr"; empty where there is no switch."""
    power: str = "rts"
    """The line that it is fed from, "rts" or "dtr", or "none" where it has a supply of its own."""
    port: str = ""
    """Its own port; empty where it hangs on the probe's."""


@dataclass(frozen=True, slots=True)
class Settings:
    """What the smith has set; what he has not is as it ships."""

    keys: Mapping[str, str] = field(default_factory=dict)
    """Keys that were moved, by the action's id."""
    units: Units = Units.METRIC
    """The units in which every figure is shown and said."""
    blocks: bool = False
    """Plain blocks and ASCII, for terminals without braille."""
    mute: bool = False
    talk: Volume | None = Volume.NORMAL
    """How much is said aloud, where the machine can speak; None for nothing."""
    speech: str = ""
    """The speech command, as it is typed in a shell; empty to have one looked for."""
    pedal: PedalSetting | None = None
    hands: Hands = field(default_factory=lambda: Hands(HandsFree.ALL))
    """What may end a phase by itself."""
    probe: ProbeSetting | None = None
    """For sittings begun from the shelf."""

    def in_blocks(self) -> Settings:
        """The same without braille."""
        return replace(self, blocks=True)
