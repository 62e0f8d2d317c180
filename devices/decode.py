"""From bytes to temperatures: lines cut out of a stream, and each line judged. Pure; nothing here waits or fails."""

from __future__ import annotations

from collections import deque
from math import isclose

from devices.pattern import parse_pattern
from devices.profile import Profile
from devices.text import to_number, to_text
from plans.record import record
from plans.text import clean

LONGEST_LINE = 256
"""A line longer than this is junk [bytes]."""

OUT_OF_RANGE = "out of range"
"""The fault of a line whose temperature the profile does not believe."""


class LineSplitter:
    """Cuts a stream of bytes into lines, in whatever pieces it comes.

    CR, LF or both end a line; empty lines and NULs are dropped. A line longer than `LONGEST_LINE` comes out once, as
    its first `LONGEST_LINE + 1` bytes, as soon as it is too long; what follows is dropped up to the next end of line.

    Args:
        skip_first: drop what comes before the first end of line, most likely the end of a line whose beginning was
            not heard
    """

    def __init__(self, skip_first: bool = False) -> None:
        self._held = b""
        self._dropping = skip_first

    def feed(self, data: bytes) -> list[bytes]:
        """The lines that become whole with the next piece of the stream, in order, without their ends."""
        *ended, begun = data.replace(b"\0", b"").replace(b"\r", b"\n").split(b"\n")
        lines: list[bytes] = []
        if ended:
            first, *others = ended
            self._go_on(first, lines)
            if self._held:
                lines.append(self._held)
            lines += [line[: LONGEST_LINE + 1] for line in others if line]
            self._held = b""
            self._dropping = False
        self._go_on(begun, lines)
        return lines

    def _go_on(self, part: bytes, lines: list[bytes]) -> None:
        """Take in what goes on with a line, which may have become too long by it."""
        if self._dropping:
            return
        self._held += part
        if len(self._held) > LONGEST_LINE:
            lines.append(self._held[: LONGEST_LINE + 1])
            self._held = b""
            self._dropping = True


@record
class Decoded:
    """What one line of a probe says: a temperature, a fault, or neither, which is junk."""

    kelvin: float | None = None
    """The temperature that the line tells [K]; None where it tells none."""
    fault: str | None = None
    """Why the line tells no temperature ("open circuit", "out of range"); None where it tells one, and for junk."""

    @property
    def is_junk(self) -> bool:
        """Whether the line was no reading at all, neither a temperature nor a fault."""
        return self.kelvin is None and self.fault is None


_JUNK = Decoded()


class Decoder:
    """Judges lines by a profile, counts junk and keeps the last of it for whoever looks for the cause.

    Args:
        profile: how the probe talks
        keep: how many lines of junk are kept
    """

    def __init__(self, profile: Profile, keep: int = 5) -> None:
        self._profile = profile
        self._patterns = [parse_pattern(form) for form in profile.pattern or ("{value}",)]
        self._words: dict[str, str] = {}
        self._numbers: list[tuple[float, str]] = []
        for sent, means in profile.faults:
            number = to_number(sent)
            if number is None:
                self._words[sent.strip().casefold()] = means
            else:
                self._numbers.append((number, means))
        self._junk: deque[str] = deque(maxlen=keep)
        self.junk_count = 0
        """How many lines so far were no reading."""

    @property
    def last_junk(self) -> tuple[str, ...]:
        """The last few lines that were no reading, oldest first, each safe to show and 60 characters long at most."""
        return tuple(self._junk)

    def decode(self, line: bytes) -> Decoded:
        """What a line says, given without its end. A temperature is always finite and within the profile's range."""
        text = to_text(line)
        decoded = _JUNK if len(line) > LONGEST_LINE else self._judge(text)
        if decoded.is_junk:
            self.junk_count += 1
            self._junk.append(clean(text))
        return decoded

    def _judge(self, text: str) -> Decoded:
        fault = self._words.get(text.strip().casefold())
        if fault is not None:
            return Decoded(fault=fault)
        for pattern in self._patterns:
            value = pattern.match(text)
            decoded = _JUNK if value is None else self._weigh(value)
            if not decoded.is_junk:
                return decoded
        return _JUNK

    def _weigh(self, value: str) -> Decoded:
        fault = self._words.get(value.casefold())
        if fault is not None:
            return Decoded(fault=fault)
        number = self._number(value)
        if number is None:
            return _JUNK
        for sentinel, means in self._numbers:
            if isclose(number, sentinel, rel_tol=1e-6, abs_tol=1e-9):
                return Decoded(fault=means)
        kelvin = self._profile.unit.to_kelvin(number)
        return Decoded(kelvin=kelvin) if self._is_believable(kelvin) else Decoded(fault=OUT_OF_RANGE)

    def _number(self, text: str) -> float | None:
        if not self._profile.decimal_comma or text.count(",") != 1 or "." in text:
            return to_number(text)
        number = to_number(text.replace(",", "."))
        thousands = to_number(text.replace(",", "")) if len(text) - text.index(",") == 4 else None
        # "1,023" may be a little over one degree or a little over a thousand: guessing could burn the work.
        if thousands is not None and self._is_believable(self._profile.unit.to_kelvin(thousands)):
            return None
        return number

    def _is_believable(self, kelvin: float) -> bool:
        return self._profile.lowest <= kelvin <= self._profile.highest
