"""How a billet is built: one file for each way in which its pieces lie together."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.maker.building.built import Built as Built, height_of as height_of
    from plans.maker.building.choosing import build as build
    from plans.maker.building.side_by_side import closing_notch as closing_notch, notch_of as notch_of
    from plans.maker.building.sizes import Sizes as Sizes
    from plans.maker.building.stacked import TRIM as TRIM
else:
    __getattr__ = hand_on(__name__)
