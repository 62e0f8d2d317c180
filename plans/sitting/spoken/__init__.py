"""What is said aloud as a sitting goes on: pure, from events and glances to sentences."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.sitting.spoken.talk import Talk as Talk
else:
    __getattr__ = hand_on(__name__)
