"""What a shop's sittings teach together, on one screen."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from tui.taught.screen import open_taught as open_taught
else:
    __getattr__ = hand_on(__name__)
