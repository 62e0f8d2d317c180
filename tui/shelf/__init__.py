"""The shelf: what can be gone on with, and the plans at hand."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from tui.shelf.screen import open_shelf as open_shelf
else:
    __getattr__ = hand_on(__name__)
