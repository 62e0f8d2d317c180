"""The figures that are worked out of a sitting: heat by heat, what it cost, its fuel, and what fits its cooling."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.logbook.figures.finding import Finding as Finding, Toll as Toll, What as What
    from plans.logbook.figures.fuel import Fuel as Fuel, amount as amount
    from plans.logbook.figures.heats import heat_figures as heat_figures, heats_done as heats_done
    from plans.logbook.figures.kept import (
        figures_from_record as figures_from_record,
        figures_to_record as figures_to_record,
        steps_from_record as steps_from_record,
    )
    from plans.logbook.figures.learned import learn as learn
    from plans.logbook.figures.learned_json import learned_record as learned_record
    from plans.logbook.figures.of_a_sitting import (
        LEAST_TOO_COLD as LEAST_TOO_COLD,
        Factor as Factor,
        Forecast as Forecast,
        HeatEnd as HeatEnd,
        HeatFigures as HeatFigures,
        LayersLeft as LayersLeft,
        Learned as Learned,
        Loss as Loss,
        SittingFigures as SittingFigures,
        StayLearned as StayLearned,
        SteelCost as SteelCost,
        StepFigures as StepFigures,
    )
    from plans.logbook.figures.steel_cost import cost as cost
else:
    __getattr__ = hand_on(__name__)
