"""What one sitting teaches of its shop, as its file keeps it."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.logbook.teaching.of_a_sitting import teaches_of as teaches_of
    from plans.logbook.teaching.teaches import (
        VERSION as VERSION,
        FactorTaught as FactorTaught,
        SteelLost as SteelLost,
        StepDrawn as StepDrawn,
        Teaches as Teaches,
        WeldSoaked as WeldSoaked,
    )
else:
    __getattr__ = hand_on(__name__)
