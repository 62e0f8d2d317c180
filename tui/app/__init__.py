"""The app, and what it is made of: the start, opening, the sitting in hand, and leaving."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from tui.app.heatbook_app import HeatbookApp as HeatbookApp
else:
    __getattr__ = hand_on(__name__)
