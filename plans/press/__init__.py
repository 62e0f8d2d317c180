"""Press, hammer and dies: how hard hot steel resists, what a squeeze makes of a bar, and how many heats it takes."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.press.dies import (
        DIES_SOURCE as DIES_SOURCE,
        STROKE as STROKE,
        force_needed as force_needed,
        height_reached as height_reached,
        pressure_factor as pressure_factor,
        widest_dies as widest_dies,
        work_needed as work_needed,
    )
    from plans.press.drawn import heats_drawn as heats_drawn, squeeze_drawn as squeeze_drawn
    from plans.press.flow import MOST_CARBON as MOST_CARBON, Hot as Hot, flow_stress as flow_stress
    from plans.press.heats import (
        REDUCTION as REDUCTION,
        Drawn as Drawn,
        heats_needed as heats_needed,
        learned_reduction as learned_reduction,
        usual_heats as usual_heats,
        usual_reduction as usual_reduction,
    )
    from plans.press.spread import (
        SPREAD_SOURCE as SPREAD_SOURCE,
        WIDEST_BITE as WIDEST_BITE,
        Squeeze as Squeeze,
        spread_coefficient as spread_coefficient,
    )
else:
    __getattr__ = hand_on(__name__)
