"""What a plan takes, worked out by the warm model before anything is in the fire."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.times.of_a_heat import HeatTimes as HeatTimes
    from plans.times.of_a_plan import PlanTimes as PlanTimes, plan_times as plan_times
    from plans.times.of_a_step import StepTimes as StepTimes, step_times as step_times
    from plans.times.ranges import hammer_span as hammer_span
else:
    __getattr__ = hand_on(__name__)
