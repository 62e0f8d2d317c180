"""Heat in a bar of steel: its thermal properties, the conduction solver, surroundings, forecasts, and its glow."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.warmth.bar import BarShape as BarShape
    from plans.warmth.conduction import Warmth as Warmth
    from plans.warmth.contact import DOUBT as DOUBT
    from plans.warmth.course import HORIZON as HORIZON, Course as Course, Part as Part
    from plans.warmth.doubts import (
        MEASURED_START as MEASURED_START,
        SECTION as SECTION,
        START as START,
        Doubts as Doubts,
        doubts_of as doubts_of,
        range_of as range_of,
    )
    from plans.warmth.forecast import (
        course_of as course_of,
        hammer_time as hammer_time,
        skin_time as skin_time,
        soak_time as soak_time,
    )
    from plans.warmth.glow import (
        RGB as RGB,
        hue as hue,
        luminance as luminance,
        screen_glow as screen_glow,
    )
    from plans.warmth.heat_names import (
        CHARTS_APART as CHARTS_APART,
        COLOUR_SPREAD as COLOUR_SPREAD,
        USUAL_NAMES as USUAL_NAMES,
        HeatName as HeatName,
        HeatNames as HeatNames,
        heat_name as heat_name,
    )
    from plans.warmth.lumped import biot_number as biot_number, cooling_time as cooling_time
    from plans.warmth.material import HOTTEST as HOTTEST, Heat as Heat
    from plans.warmth.model import Snapshot as Snapshot, ThinEnd as ThinEnd, WarmModel as WarmModel
    from plans.warmth.natural_convection import of_a_section as of_a_section
    from plans.warmth.outlook import Exposed as Exposed, Outlook as Outlook, Span as Span
    from plans.warmth.steel import ARREST as ARREST, conductivity as conductivity
    from plans.warmth.surroundings import (
        BLACKEST as BLACKEST,
        DULLEST as DULLEST,
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
