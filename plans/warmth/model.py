"""The warm model: the running calculation of how warm the work is, place by place."""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

from plans.record import record
from plans.shapes import Section
from plans.warmth.conduction import Conduction, Warmth
from plans.warmth.cross_section import cross_section
from plans.warmth.material import HOTTEST, Heat, Material
from plans.warmth.mesh import Mesh
from plans.warmth.steel import carbon_steel
from plans.warmth.surroundings import ROOM, Surroundings
from plans.warmth.thin_end import thin_end

_CLOSE_TO_SKIN = 100.0
"""Where a known skin leads a step, this is the last correction: less than 4 K, after which 0.01 K are left [W/m]."""

_FAR = 20e3
"""What changed by more in a step, some 30 K, need not go on so: a probe was moved [J/kg]."""


class ThinEnd(NamedTuple):
    """A thin end that is modelled by itself: a point, a tang or a taper."""

    tip: Section
    """Section at its tip."""
    length: float
    """Length over which it tapers from the section of the work [m]."""


@record
class Snapshot:
    """The whole state of a warm model."""

    section: Section
    """Cross-section of the bar."""
    length: float | None
    """Length of a bar with both ends bare [m]; None for a long bar whose ends don't count."""
    end: ThinEnd | None
    """The thin end that is modelled; None where it is the bar itself."""
    heat: Heat
    """Heat at each node."""
    rates: tuple[float, ...] = ()
    """How fast the heat at each node, be it of the folded piece, changed in the last step that a known skin led [W/kg];
    none where there was no such step: where the next one begins to be looked for."""

    def mesh(self) -> Mesh:
        """The piece cut up."""
        if self.end is not None:
            return thin_end(self.section, *self.end)
        return cross_section(self.section, self.length)


def _sound(kelvin: float) -> float:
    if not 0 < kelvin <= HOTTEST:
        raise ValueError(f"the warm model needs a temperature above 0 K and up to {HOTTEST:.0f} K, not {kelvin:g} K")
    return kelvin


class WarmModel:
    """A bar or its thin end and the heat in it, kept up step by step; the same steps give the same state to the bit."""

    __slots__ = ("_folded", "_piece", "_state", "_warmth")

    def __init__(
        self,
        section: Section,
        length: float | None = None,
        start: float = ROOM,
        material: Material | None = None,
        end: ThinEnd | None = None,
    ) -> None:
        """A piece at one temperature throughout.

        Args:
            section: cross-section of the bar
            length: length of a bar with both ends bare [m]: what they give off while it cools is shared out over its
                length; None for a long bar whose ends don't count
            start: temperature that the piece was heated to [K]
            material: what it is made of; carbon steel, if nothing else is said
            end: the thin end of the bar that is modelled in its place; None for the bar itself

        Raises:
            ValueError: a length is not above zero, or the temperature is not above 0 K, or above `HOTTEST`.
        """
        state = Snapshot(section, length, end, Heat((), ()))
        self._piece = Conduction(state.mesh(), material or carbon_steel())
        self._state = replace(state, heat=self._piece.material.even(_sound(start), self._piece.count))
        self._warmth: Warmth | None = None
        self._folded: tuple[Heat, Heat] | None = None
        """The heat that was last unfolded, and what it was unfolded from: to fold it takes as long as half a step."""

    @property
    def section(self) -> Section:
        """Cross-section of the bar as it is now."""
        return self._state.section

    @property
    def length(self) -> float | None:
        """Length of the bar as it is now [m]; None for a long bar whose ends don't count."""
        return self._state.length

    @property
    def end(self) -> ThinEnd | None:
        """The thin end that is modelled; None where it is the bar itself."""
        return self._state.end

    @property
    def piece(self) -> Conduction:
        """The conduction equations of the piece as it is now, with which `look_ahead` goes on from here."""
        return self._piece

    @property
    def heat(self) -> Heat:
        """Heat at each node."""
        return self._state.heat

    @property
    def warmth(self) -> Warmth:
        """How warm it is, place by place."""
        if self._warmth is None:
            self._warmth = self._piece.warmth(self.heat)
        return self._warmth

    @property
    def skin(self) -> float:
        """Mean temperature of the skin [K]."""
        return self.warmth.skin

    @property
    def coldest(self) -> float:
        """Temperature of the coldest place [K]."""
        return self.warmth.coldest

    @property
    def middle(self) -> float:
        """Temperature where it lies deepest [K]."""
        return self.warmth.middle

    @property
    def mean(self) -> float:
        """Temperature that the piece would even out to, if it gave no heat away [K]."""
        joules, latent = self.heat
        return self._piece.material.temperature_of(self._piece.mean(joules), self._piece.mean(latent))

    def step(self, seconds: float, surroundings: Surroundings) -> None:
        """Go on for a time in surroundings.

        Steps of half a second bring a soak in about 0.5 s late and the end of the hammer time about 0.2 s late.

        Args:
            seconds: length of the step [s]; nothing happens where it is not above 0
            surroundings: what the piece is in
        """
        if seconds > 0:
            self._go_on(seconds, surroundings, None)

    def step_following(self, seconds: float, skin_kelvin: float, surroundings: Surroundings | None = None) -> None:
        """Go on for a time with the skin at a temperature that is known, as from a probe on the work.

        Args:
            seconds: length of the step [s]; nothing happens where it is not above 0
            skin_kelvin: mean temperature of the skin at the end of the step [K]
            surroundings: what the piece is in, which says where it is warmer and where colder; None where the heat goes
                evenly through all of its skin

        Raises:
            ValueError: the temperature is not above 0 K, or above `HOTTEST`.
        """
        around = surroundings or Surroundings(_sound(skin_kelvin), skin_kelvin, 0.0, 0.0)
        if seconds > 0:
            self._go_on(seconds, around, _sound(skin_kelvin))

    def _go_on(self, seconds: float, surroundings: Surroundings, skin: float | None) -> None:
        piece, whole = self._piece, self._piece
        now, rates = self.heat, tuple[float, ...]()
        folded = self._fold(now, surroundings)
        if folded is not None:
            piece, now = piece.folded(), folded
        if skin is None:
            heat = piece.solve(now, seconds, surroundings)
        else:
            guess, before = None, self._state.rates
            if len(before) == piece.count and max(max(before), -min(before)) * seconds < _FAR:
                guess = [joules + rate * seconds for joules, rate in zip(now.joules, before, strict=True)]
            heat = piece.solve(now, seconds, surroundings, skin=skin, guess=guess, close=_CLOSE_TO_SKIN)
            rates = tuple([(new - old) / seconds for new, old in zip(heat.joules, now.joules, strict=True)])
        if folded is None:
            self._set(heat, rates)
        else:
            unfolded = whole.unfold(heat)
            self._folded = unfolded, heat
            self._set(unfolded, rates)

    def _fold(self, heat: Heat, surroundings: Surroundings) -> Heat | None:
        """Heat of the folded piece; None where only the whole will do."""
        if self._folded is not None and self._folded[0] is heat and not surroundings.touches_below_only:
            return self._folded[1]
        return self._piece.fold(heat) if self._piece.fares_alike(heat, surroundings) else None

    def reshape(self, section: Section, length: float | None = None) -> None:
        """Take on another section and length, as after a heat's striking; the mean heat in a kilogram stays.

        Args:
            section: the new cross-section
            length: the new length [m]; None for a long bar whose ends don't count

        Raises:
            ValueError: the length is not above zero.
        """
        if (section, length) == (self.section, self.length):
            return
        joules, latent = self.heat
        before, material, old = self._piece.mean(joules), self._piece.material, self._piece.mesh
        state = replace(self._state, section=section, length=length)
        self._piece = Conduction(state.mesh(), material)
        # Each node takes over from the one that lay where it lies, and all are set back to the same mean.
        came_from = [_nearest(old, place) for place in self._piece.mesh.places]
        joules, latent = [joules[k] for k in came_from], [latent[k] for k in came_from]
        more = before - self._piece.mean(joules)
        joules = material.tables.within([heat + more for heat in joules])
        self._state = replace(state, heat=Heat(joules, material.tables.latent(joules, latent)), rates=())
        self._warmth = None

    def assume_skin(self, kelvin: float, surroundings: Surroundings | None = None) -> None:
        """Take the skin to be at a temperature because the smith sees that it is.

        The whole profile shifts with it, so that the middle stays as far behind as it was. With `surroundings` that
        warm it, the middle lags at least as far as steady warming in them would have it: a bar that the model took for
        cold is not assumed to be warm right through.

        Args:
            kelvin: mean temperature of the skin as it is seen [K]
            surroundings: the fire that the piece is in; None where no fire warms it

        Raises:
            ValueError: the temperature is not above 0 K, or above `HOTTEST`.
        """
        material, mesh = self._piece.material, self._piece.mesh
        more = _sound(kelvin) - self.skin
        flux = max(0.0, surroundings.flux(kelvin)) if surroundings and more > 0 else 0.0
        lag = flux * mesh.skin_area / sum(mesh.volumes) / material.conductivity(kelvin)
        kelvins = [material.temperature_of(*cell) + more for cell in zip(*self.heat, strict=True)]
        if flux:
            kelvins = [min(at, kelvin - lag * depth) for at, depth in zip(kelvins, mesh.depths, strict=True)]
        # Where corners would have run ahead of a bar that was cold all through, the mean is short of what is seen.
        short = kelvin - sum(one.area * kelvins[one.node] for one in mesh.skin) / mesh.skin_area
        cells = [material.brought_to(at + short, latent) for at, latent in zip(kelvins, self.heat.latent, strict=True)]
        self._set(Heat([joules for joules, _ in cells], [latent for _, latent in cells]))

    def take(self, heat: Heat) -> None:
        """Go on from another state of the same piece, as one that was looked ahead to.

        Args:
            heat: heat at each node
        """
        self._set(heat)

    def snapshot(self) -> Snapshot:
        """The whole state of the model, for `restore`."""
        return self._state

    def restore(self, snapshot: Snapshot) -> None:
        """Put the model back to the very state in which a snapshot was taken."""
        now = self._state
        if (snapshot.section, snapshot.length, snapshot.end) != (now.section, now.length, now.end):
            self._piece = Conduction(snapshot.mesh(), self._piece.material)
        self._state = snapshot
        self._warmth = None

    @classmethod
    def of(cls, snapshot: Snapshot) -> WarmModel:
        """A model in the very state in which a snapshot was taken."""
        model = cls(snapshot.section, snapshot.length, end=snapshot.end)
        model.restore(snapshot)
        return model

    def _set(self, heat: Heat, rates: tuple[float, ...] = ()) -> None:
        now = self._state
        self._state = Snapshot(now.section, now.length, now.end, heat, rates)
        self._warmth = None


def _nearest(mesh: Mesh, place: tuple[float, float]) -> int:
    """The node that lies nearest to a place, either half of a mesh standing for the other."""
    x, y = place
    widest = max(at for at, _ in mesh.places)
    x = min(x, 1 - x) if widest <= 0.5 else x
    return min(range(mesh.count), key=lambda k: (mesh.places[k][0] - x) ** 2 + (mesh.places[k][1] - y) ** 2)
