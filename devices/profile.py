"""How one kind of probe talks, as frozen data."""

from __future__ import annotations

from enum import StrEnum

from plans.record import record
from plans.units import kelvin


class Unit(StrEnum):
    """What the probe's numbers are in."""

    CELSIUS = "degC"
    FAHRENHEIT = "degF"
    KELVIN = "K"

    def to_kelvin(self, number: float) -> float:
        """A temperature in this unit as kelvin [K]."""
        if self is Unit.CELSIUS:
            return kelvin(number)
        if self is Unit.FAHRENHEIT:
            return (number + 459.67) / 1.8
        return number

    def difference(self, number: float) -> float:
        """A temperature difference in this unit [K]."""
        return number / 1.8 if self is Unit.FAHRENHEIT else number


@record
class Profile:
    """How one kind of probe talks."""

    name: str
    """How it is called on the command line: its file's name without the ending."""
    title: str
    """What the probe is, in a few words for a list."""
    unit: Unit
    """What the numbers are in that it sends."""
    kind: str = "text"
    """What is sent: lines of text, so far the only kind."""
    baud: int = 9600
    """Speed of the serial line [baud]."""
    bytesize: int = 8
    """Data bits of a character, 5 to 8."""
    parity: str = "none"
    """none, even, odd, mark or space."""
    stopbits: float = 1
    """Stop bits of a character: 1, 1.5 or 2."""
    pattern: tuple[str, ...] = ()
    """The forms that a line can have, as in `devices.pattern`; none: a bare number a line."""
    decimal_comma: bool = True
    """A comma may stand for the decimal point in the value."""
    lowest: float = 213.15
    """The coldest temperature that is believed [K]."""
    highest: float = 2073.15
    """The hottest temperature that is believed [K]."""
    jump: float = 300.0
    """A reading further than this from the one before is not believed until the next one bears it out:
    a temperature difference [K]."""
    faults: tuple[tuple[str, str], ...] = ()
    """What the probe sends instead of a temperature (a word, or a number out of band), and what that means."""
    silence: float = 5.0
    """Without a reading for longer than this the probe counts as lost [s]."""
    lag: float = 0.0
    """How far it is behind what it sits on, as a thick sheath makes it: the time in which it takes up 63 % of a sudden
    change [s]."""
    skip_first: bool = True
    """The first line after opening is dropped: most likely only its end was heard."""
    example: str = ""
    """A line as the probe sends it."""
