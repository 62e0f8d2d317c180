"""The live screen: a sitting as it runs."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from tui.live.cautions import CautionsScreen as CautionsScreen
    from tui.live.leave import ask_to_leave as ask_to_leave
    from tui.live.shown_sitting import ShownSitting as ShownSitting, load_live as load_live
else:
    __getattr__ = hand_on(__name__)
