"""The simulated smithy, moment by moment: forge, probe and smith, in lock-step with the sitting that they answer."""

from __future__ import annotations

from collections.abc import Callable
from random import Random
from typing import TYPE_CHECKING

from devices.rehearsal.forge import Forge
from devices.rehearsal.probe import Probe
from devices.rehearsal.smith import Smith
from devices.rehearsal.waits import MOMENT, Waits
from plans.phase import PhaseKind
from plans.plan import Plan
from plans.sitting import Call, Said

if TYPE_CHECKING:
    from plans.sitting import Sitting


class Smithy:
    """What a rehearsal simulates, without the cable and the pace: by turns time goes `on`, and `answer` says what then.

    Args:
        plan: what the smith follows
        seed: the same one gives the same rehearsal
    """

    def __init__(self, plan: Plan, seed: int) -> None:
        self.forge = Forge(plan, Random(f"{seed} forge"))
        """The simulated fire and the work in it."""
        self._smith = Smith(plan, Random(f"{seed} smith"))
        self._probe = Probe(Random(f"{seed} probe"))
        self._waits = Waits()
        self.at = 0.0
        """Rehearsal time now [s]."""
        self.moment = MOMENT
        """How much time goes on next [s]: more in a long wait."""

    @property
    def hurries(self) -> bool:
        """Whether a long wait is being run through."""
        return self.moment > MOMENT

    def on(self) -> tuple[bytes, ...]:
        """Let a moment go by.

        Returns:
            what the probe sends at its end, each line with its end; nothing where it says nothing
        """
        self.at += self.moment
        self.forge.step(self.moment)
        return self._probe.lines(self.at, self.moment, self.forge.bar.skin)

    def answer(self, at: float, sitting: Sitting, hear: Callable[[Said], object]) -> None:
        """Let the smith speak, move the work, and settle how much time goes on next.

        Args:
            at: the moment that the sitting has been told of [s]
            sitting: as it stands after that
            hear: takes a word as if the smith had pressed a key; it changes the sitting before it returns
        """
        try:
            if (said := self._smith.says(at, sitting)) is not None:
                hear(said)
        finally:
            state = sitting.state
            phase = PhaseKind.READY if sitting.exposure.in_the_air else state.phase
            self.forge.place(phase, state.step, state.heat)
            if Call.OVER_HEAT in state.alarms:
                self.forge.turn_down()
            self.moment = self._waits.next_moment(at, sitting)
