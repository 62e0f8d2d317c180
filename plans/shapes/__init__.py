"""Cross-sections of bars and blades, and the bodies made of them: area, volume, mass."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.shapes.blade import Blade as Blade, Handle as Handle
    from plans.shapes.body import Body as Body, Line as Line, Runout as Runout
    from plans.shapes.outline import Outline as Outline, Point as Point, Side as Side
    from plans.shapes.section import (
        BEVELLED as BEVELLED,
        EDGED as EDGED,
        REGULAR as REGULAR,
        Form as Form,
        Section as Section,
        coldest_place as coldest_place,
    )
else:
    __getattr__ = hand_on(__name__)
