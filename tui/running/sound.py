"""What is heard of a sitting: the bell, and a voice where the machine has one; and what nobody has answered."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from plans.sitting import NEVER_SILENT, Asked, Called, Kind, Repeating, Said, Volume
from plans.sitting.spoken import Talk

if TYPE_CHECKING:
    from devices import Voice
    from plans.sitting import Call, Event, Glance, Unanswered
    from plans.units import Units
    from tui.running.bell import Bell

_LAST_WORDS = 6.0
"""How long the end of a sitting waits for its voice [s]."""
_VOLUMES: tuple[Volume | None, ...] = (*Volume, None)


class Aloud:
    """Belongs to one sitting after another.

    Args:
        bell: the terminal's; None where there is none
        voice: speaks; silent where there is no command to speak with
        volume: how much is said; None for nothing but the bell
        units: that temperatures are said in
        repeat_for: how long a call that nobody answers is repeated, 0 for never [s]
    """

    def __init__(self, bell: Bell | None, voice: Voice, volume: Volume | None, units: Units, repeat_for: float) -> None:
        self._bell, self._voice = bell, voice
        self._volume, self._units = volume, units
        self._repeat_for = repeat_for
        self._muted = False
        self.begin()

    def begin(self) -> None:
        """Another sitting: what was said of the one before is forgotten."""
        self.hush()
        self._talk = Talk(self._volume or Volume.FEW, self._units)
        self._repeating = Repeating(self._repeat_for)

    def hear(self, events: Sequence[Event], seen: Glance) -> None:
        """Ring and say what is due: what happened, and how the sitting looks now."""
        # All is heard though nothing may be: so it is known what is new, and what is due, when it may again.
        again = self._repeating.hear(events, seen)
        sayings = self._talk.hear(events, seen, again)
        if self._bell is not None:
            self._ring(self._bell, events, again, any(saying.kind is Kind.CADENCE for saying in sayings))
        if self._volume is not None:
            if seen.finished and sayings:
                self._voice.forget()  # what still waits is of no use any more
            self._voice.say(sayings)

    def _ring(self, bell: Bell, events: Sequence[Event], again: Unanswered | None, turn: bool) -> None:
        for event in events:
            if isinstance(event, Said):
                bell.silence()  # it was heard
            elif isinstance(event, Called) and self._may_sound(event.call):
                bell.call(event.call)
            elif isinstance(event, Asked) and not self._muted:
                bell.once()
        if again is not None and self._may_sound(again.call):
            bell.call(again.call, again.urgency)
        if turn and not self._muted:
            bell.once()

    def _may_sound(self, call: Call) -> bool:
        return not self._muted or call in NEVER_SILENT

    @property
    def unanswered(self) -> Unanswered | None:
        """The most urgent call that holds and that nobody has answered, and for how long; None without one.

        It is told muted or not, and after its repeating has stopped: what is not heard can still be drawn.
        """
        return self._repeating.unanswered

    @property
    def speaks(self) -> bool:
        """Whether there is a voice at all."""
        return self._voice.available

    @property
    def muted(self) -> bool:
        """Whether bell and voice are both silent, but for a burn limit. Setting it stops all else that is heard."""
        return self._muted

    @muted.setter
    def muted(self, muted: bool) -> None:
        self._muted = self._voice.muted = muted
        burns = self.unanswered is not None and self.unanswered.call in NEVER_SILENT
        if muted and self._bell is not None and not burns:
            self._bell.silence()

    def change_volume(self) -> Volume | None:
        """Say less: all, then normal, few, nothing, and all again."""
        self._volume = _VOLUMES[(_VOLUMES.index(self._volume) - 1) % len(_VOLUMES)]
        if self._volume is not None:
            self._talk.volume = self._volume
        return self._volume

    def hush(self) -> None:
        """Stop the bell, and forget the sentences that still wait: what they tell is over."""
        self._voice.forget()
        if self._bell is not None:
            self._bell.silence()

    def finish(self) -> None:
        """Wait for what is still to be said, a few seconds at most."""
        self._voice.finish(_LAST_WORDS)

    def close(self) -> None:
        """Fall silent. Closing twice does no harm."""
        if self._bell is not None:
            self._bell.silence()
        self._voice.close()
