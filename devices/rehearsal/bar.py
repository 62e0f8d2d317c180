"""The work in the rehearsal: a bar as three nested shells, with the steel's change of phase and its hysteresis.

This is a world to measure, not a forecast: it shares no formula, no table and no code with the program's own warm
model, so that the two can disagree.
"""

from __future__ import annotations

from plans.shapes import Section

DENSITY = 7800.0
"""Density of the bar's steel, hot or cold [kg/m3]."""
LATENT = 78_000.0
"""Heat that the steel takes up when pearlite turns to austenite; about a eutectoid steel's, from memory [J/kg]."""
TURNS_HEATING = 1013.0
"""Temperature above which the steel turns to austenite when it is heated, about 740 degC [K]."""
TURNS_COOLING = 965.0
"""Temperature below which austenite can turn back when it cools, about 692 degC; it gets going some 15 K lower [K]."""
_TOO_COLD_TO_TURN_BACK = 820.0
"""Fast quenching gets below this before the change back has got going [K]."""
_SKIN_SHARE, _BODY_SHARE = 0.18, 0.55
"""How deep the two inner boundaries lie, as shares of half the thickness."""
_DEPTHS = (0.09, 0.365, 0.75)
"""Where the three shells have their temperatures, as shares of half the thickness."""


def _heat_capacity(kelvin: float, austenite: float) -> float:
    """Without the latent heat [J/(kg K)]; round figures for carbon steel, from memory."""
    ferrite = 455.0 + 0.42 * (min(kelvin, 1050.0) - 293.0)
    return ferrite + austenite * (590.0 + 0.075 * (kelvin - 1000.0) - ferrite)


def _turned(kelvin: float, austenite: float, capacity: float, seconds: float) -> float:
    """How much more of the steel is austenite after a moment (negative: less), never past its turning point.

    On heating it follows how far the steel is above the turning point; on cooling it feeds on itself, so that it
    starts late, then overtakes the loss of heat: the work brightens (recalescence).
    """
    if kelvin > TURNS_HEATING and austenite < 1.0:
        over = kelvin - TURNS_HEATING
        return min(1.0 - austenite, 0.02 * over * seconds, over * capacity / LATENT)
    if austenite > 0.0 and _TOO_COLD_TO_TURN_BACK < kelvin < TURNS_COOLING:
        under = TURNS_COOLING - kelvin
        rate = (0.002 + 0.30 * austenite * (1.0 - austenite)) * under / 15.0
        return -min(austenite, rate * seconds, under * capacity / LATENT)
    return 0.0


class Bar:
    """The work as three nested shells (skin, body, middle), each at one temperature.

    Args:
        section: width and thickness of the bar
        length: of the bar [m]; None where it is so long that its ends don't matter
        kelvin: temperature of the whole bar at the beginning [K]
    """

    __slots__ = ("_austenite", "_joins", "_outside", "_volumes", "body", "middle", "skin")

    def __init__(self, section: Section, length: float | None, kelvin: float) -> None:
        self.skin = kelvin
        """Temperature of the outer shell [K]."""
        self.body = kelvin
        """Temperature of the shell between skin and middle [K]."""
        self.middle = kelvin
        """Temperature of the innermost shell [K]."""
        self._austenite = [1.0 if kelvin > TURNS_HEATING else 0.0] * 3
        self.reshape(section, length)

    def reshape(self, section: Section, length: float | None) -> None:
        """Take another section and length; temperatures stay. A round bar counts as a square one of its size.

        Args:
            section: width and thickness of the bar from now on
            length: of the bar [m]; None where it is so long that its ends don't matter
        """
        half = section.thickness / 2

        def inside(share: float) -> tuple[float, float]:
            width, thickness = section.width - 2 * share * half, section.thickness - 2 * share * half
            return width * thickness, 2 * (width + thickness)

        area, around = inside(0.0)
        body_area, body_around = inside(_SKIN_SHARE)
        middle_area, middle_around = inside(_BODY_SHARE)
        ends = 2 * area / length if length else 0.0
        self._outside = around + ends
        self._volumes = (area - body_area, body_area - middle_area, middle_area)
        self._joins = (
            body_around / ((_DEPTHS[1] - _DEPTHS[0]) * half),
            middle_around / ((_DEPTHS[2] - _DEPTHS[1]) * half),
        )

    @property
    def outside(self) -> float:
        """Surface of the bar for each metre of its length, the ends' share included [m2/m]."""
        return self._outside

    def step(self, seconds: float, flux: float, steepness: float = 0.0) -> None:
        """Let a short while go by.

        Implicit, so that thin bars stay stable; the properties and the change of phase are those at the beginning.

        Args:
            seconds: how long [s]
            flux: heat that goes in through the surface (negative: out) at the beginning [W/m2]
            steepness: how much less goes in for each kelvin that the skin gets hotter meanwhile [W/(m2 K)]
        """
        skin, body, middle = self.skin, self.body, self.middle
        austenite = self._austenite
        per_second = DENSITY / seconds
        capacities = (
            _heat_capacity(skin, austenite[0]),
            _heat_capacity(body, austenite[1]),
            _heat_capacity(middle, austenite[2]),
        )
        conductivity = 27.0 if body > 1050.0 else 54.0 - 0.0357 * (body - 293.0)
        outer, inner = conductivity * self._joins[0], conductivity * self._joins[1]
        volumes = self._volumes
        skin_store = per_second * volumes[0] * capacities[0]
        body_store = per_second * volumes[1] * capacities[1]
        middle_store = per_second * volumes[2] * capacities[2]
        skin_sum, middle_sum = skin_store + outer + steepness * self._outside, middle_store + inner
        skin_right = skin_store * skin + (flux + steepness * skin) * self._outside
        middle_right = middle_store * middle
        body_sum = body_store + outer + inner - outer * outer / skin_sum - inner * inner / middle_sum
        body = (body_store * body + outer * skin_right / skin_sum + inner * middle_right / middle_sum) / body_sum
        skin = (skin_right + outer * body) / skin_sum
        middle = (middle_right + inner * body) / middle_sum
        self.skin = self._turn(0, skin, capacities[0], seconds)
        self.body = self._turn(1, body, capacities[1], seconds)
        self.middle = self._turn(2, middle, capacities[2], seconds)

    def _turn(self, shell: int, kelvin: float, capacity: float, seconds: float) -> float:
        share = self._austenite[shell]
        if kelvin < _TOO_COLD_TO_TURN_BACK:
            # What was quenched past its chance takes up heat again on the next heating, like the rest.
            if share and kelvin < 500.0:
                self._austenite[shell] = 0.0
            return kelvin
        turned = _turned(kelvin, share, capacity, seconds)
        if not turned:
            return kelvin
        self._austenite[shell] = share + turned
        return kelvin - turned * LATENT / capacity
