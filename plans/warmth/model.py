"""The warm model: the running calculation of how warm the work is, at its skin and in its middle."""

from __future__ import annotations

from math import inf

from plans.section import Section
from plans.warmth.bar import BarShape
from plans.warmth.conduction import Conduction
from plans.warmth.material import HOTTEST, Heat, Material
from plans.warmth.steel import carbon_steel
from plans.warmth.surroundings import ROOM, Surroundings

Snapshot = tuple[tuple[float, float, bool], float | None, float, Heat]
"""The whole state of a warm model: section (width [m], thickness [m], whether it is round), length [m], temperature of
the skin [K], heat in each cell."""


def _sound(kelvin: float) -> float:
    if not 0 < kelvin <= HOTTEST:
        raise ValueError(f"the warm model needs a temperature above 0 K and up to {HOTTEST:.0f} K, not {kelvin:g} K")
    return kelvin


class WarmModel:
    """A bar and the heat in it, kept up step by step; the same steps give the same state to the last bit."""

    __slots__ = ("_bar", "_heat", "_length", "_section", "_skin")

    def __init__(
        self, section: Section, length: float | None = None, start: float = ROOM, material: Material | None = None
    ) -> None:
        """A bar at one temperature throughout.

        Args:
            section: cross-section of the bar
            length: length of a bar with both ends bare [m]; None for a long bar whose ends don't count
            start: temperature that the bar was heated to [K]
            material: what it is made of; carbon steel, if nothing else is said

        Raises:
            ValueError: the length is not above zero, or the temperature is not above 0 K, or above `HOTTEST`.
        """
        self._section = section
        self._length = length
        self._bar = Conduction(BarShape.of(section, length), material or carbon_steel())
        self._heat = self._bar.material.even(_sound(start), self._bar.count)
        self._skin = start

    @property
    def section(self) -> Section:
        """Cross-section of the bar as it is now."""
        return self._section

    @property
    def length(self) -> float | None:
        """Length of the bar as it is now [m]; None for a long bar whose ends don't count."""
        return self._length

    @property
    def bar(self) -> Conduction:
        """The conduction equations of the bar as it is now, with which `look_ahead` goes on from here."""
        return self._bar

    @property
    def heat(self) -> Heat:
        """Heat in each cell of the bar."""
        return self._heat

    @property
    def skin(self) -> float:
        """Temperature of the skin [K]."""
        return self._skin

    @property
    def middle(self) -> float:
        """Temperature in the very middle [K]."""
        return self._bar.middle(self._heat)

    @property
    def mean(self) -> float:
        """Temperature that the bar would even out to, if it gave no heat away [K]."""
        joules, latent = self._heat
        return self._bar.material.temperature_of(self._bar.mean(joules), self._bar.mean(latent))

    def step(self, seconds: float, surroundings: Surroundings) -> None:
        """Go on for a time in surroundings.

        Steps of half a second bring a soak in about 0.5 s late and the end of the hammer time about 0.2 s late.

        Args:
            seconds: length of the step [s]; nothing happens where it is not above 0
            surroundings: what the bar is in
        """
        self._go_on(seconds, surroundings)

    def step_following(self, seconds: float, skin_kelvin: float) -> None:
        """Go on for a time with the skin at a temperature that is known, as from a probe on the work.

        Args:
            seconds: length of the step [s]; nothing happens where it is not above 0
            skin_kelvin: temperature of the skin at the end of the step [K]

        Raises:
            ValueError: the temperature is not above 0 K, or above `HOTTEST`.
        """
        self._go_on(seconds, _sound(skin_kelvin))

    def _go_on(self, seconds: float, outside: Surroundings | float) -> None:
        if seconds > 0:
            self._heat, self._skin, _ = self._bar.solve(self._heat, self._skin, seconds, outside)

    def reshape(self, section: Section, length: float | None = None) -> None:
        """Take on another section and length, as after a heat's striking; the mean heat in a kilogram stays.

        Args:
            section: the new cross-section
            length: the new length [m]; None for a long bar whose ends don't count

        Raises:
            ValueError: the length is not above zero.
        """
        if (section, length) == (self._section, self._length):
            return
        joules, latent = self._heat
        before = self._bar.mean(joules)
        material = self._bar.material
        self._bar = Conduction(BarShape.of(section, length), material)
        self._section, self._length = section, length
        # The outer cells now weigh differently: the profile keeps its form and is set back to the same mean.
        more = before - self._bar.mean(joules)
        joules = [heat + more for heat in joules]
        self._heat = Heat(joules, material.tables.latent(joules, latent))

    def assume_skin(self, kelvin: float, surroundings: Surroundings | None = None) -> None:
        """Take the skin to be at a temperature because the smith sees that it is.

        The whole profile shifts with it, so that the middle stays as far behind as it was. With `surroundings` that
        warm it, the middle lags at least as far as steady warming in them would have it: a bar that the model took for
        cold is not assumed to be warm right through.

        Args:
            kelvin: temperature of the skin as it is seen [K]
            surroundings: the fire that the bar is in; None where no fire warms it

        Raises:
            ValueError: the temperature is not above 0 K, or above `HOTTEST`.
        """
        material = self._bar.material
        more = _sound(kelvin) - self._skin
        flux = max(0.0, surroundings.flux(kelvin)) if surroundings and more > 0 else 0.0
        lag = flux / (2 * self._bar.shape.half_thickness * material.conductivity(kelvin)) if flux else -inf
        cells = [
            material.brought_to(min(material.temperature_of(joules, latent) + more, kelvin - lag * depth), latent)
            for joules, latent, depth in zip(*self._heat, self._bar.cells.depths, strict=True)
        ]
        self._heat = Heat([joules for joules, _ in cells], [latent for _, latent in cells])
        self._skin = kelvin

    def snapshot(self) -> Snapshot:
        """The whole state of the model, for `restore`."""
        section = self._section
        return (section.width, section.thickness, section.is_round), self._length, self._skin, self._heat

    def restore(self, snapshot: Snapshot) -> None:
        """Put the model back to the very state in which a snapshot was taken."""
        (width, thickness, is_round), length, skin, heat = snapshot
        section = Section(width, thickness, is_round)
        if (section, length) != (self._section, self._length) or len(heat.joules) != self._bar.count:
            self._bar = Conduction(BarShape.of(section, length), self._bar.material, len(heat.joules))
            self._section, self._length = section, length
        self._skin = skin
        self._heat = heat
