"""Comparing: sittings beside one another, and how figures go over many."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from tui.comparing.screen import open_comparing as open_comparing
    from tui.comparing.trends import open_trends as open_trends
else:
    __getattr__ = hand_on(__name__)
