"""Thermocouples by ITS-90: emf from temperature and back, tolerances, and how hot their wires may get.

Types K, N, S, R, B and J; emf in volts and temperatures in kelvin throughout.
"""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from devices.thermocouple.functions import (
        Kind as Kind,
        Range as Range,
        emf as emf,
        kind_of as kind_of,
        reference_range as reference_range,
    )
    from devices.thermocouple.inversion import inverse_range as inverse_range, temperature as temperature
    from devices.thermocouple.limits import (
        tolerance as tolerance,
        wire_limit as wire_limit,
        wire_limits as wire_limits,
    )
    from devices.thermocouple.reckoning import thermocouple as thermocouple
else:
    __getattr__ = hand_on(__name__)
