"""A rehearsal without a forge: a simulated fire, bar, probe and smith on a real pseudo-terminal."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from devices.rehearsal.rehearsal import PROFILE as PROFILE, Rehearsal as Rehearsal
    from devices.rehearsal.waits import MOMENT as MOMENT
else:
    __getattr__ = hand_on(__name__)
