"""Heat in a bar of steel: its thermal properties, the conduction solver, surroundings, forecasts, and its glow."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.warmth.ahead import look_ahead as look_ahead
    from plans.warmth.bar import BarShape as BarShape
    from plans.warmth.forecast import hammer_time as hammer_time, skin_time as skin_time, soak_time as soak_time
    from plans.warmth.glow import (
        COLOUR_SPREAD as COLOUR_SPREAD,
        RGB as RGB,
        colour_name as colour_name,
        hue as hue,
        luminance as luminance,
        screen_glow as screen_glow,
    )
    from plans.warmth.lumped import biot_number as biot_number, cooling_time as cooling_time
    from plans.warmth.material import HOTTEST as HOTTEST
    from plans.warmth.model import Snapshot as Snapshot, WarmModel as WarmModel
    from plans.warmth.steel import ARREST as ARREST, conductivity as conductivity
    from plans.warmth.surroundings import (
        ROOM as ROOM,
        SCALED_STEEL as SCALED_STEEL,
        Surroundings as Surroundings,
        fire as fire,
        oil as oil,
        still_air as still_air,
        striking as striking,
    )
else:
    __getattr__ = hand_on(__name__)
