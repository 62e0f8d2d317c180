"""A blade, or any other forging: a few bodies in a row, what they weigh together, and where they balance."""

from __future__ import annotations

from itertools import accumulate

from plans.record import record
from plans.shapes.body import Body


@record
class Handle:
    """What is put onto a blade: its mass and where that lies.

    Raises:
        ValueError: the mass is not above zero; the text begins with the name of the attribute that is at fault.
    """

    mass: float
    """Its mass [kg]."""
    centre: float
    """How far along its own centre lies, from the beginning of the blade's first body [m]; below 0 before it."""

    def __post_init__(self) -> None:
        if not self.mass > 0:
            raise ValueError("mass: a handle needs one above zero")


@record
class Blade:
    """Bodies of steel in a row, each beginning where the one before it ends: from the tang to the point, say.

    Raises:
        ValueError: there is none; the text begins with the name of the attribute that is at fault.
    """

    bodies: tuple[Body, ...]
    """The bodies, in their order."""

    def __post_init__(self) -> None:
        if not self.bodies:
            raise ValueError("bodies: a blade has one at least")

    @property
    def length(self) -> float:
        """Its whole length [m]."""
        return sum(body.length for body in self.bodies)

    @property
    def begins(self) -> tuple[float, ...]:
        """How far along each body begins, from the beginning of the first [m]."""
        return tuple(accumulate((body.length for body in self.bodies[:-1]), initial=0.0))

    @property
    def volume(self) -> float:
        """Its volume [m3]."""
        return sum(body.volume for body in self.bodies)

    @property
    def centre(self) -> float:
        """How far along from its beginning the bare blade balances [m]."""
        placed = zip(self.begins, self.bodies, strict=True)
        return sum((begin + body.centre) * body.volume for begin, body in placed) / self.volume

    @property
    def skin(self) -> float:
        """Area of its skin [m2]: that of its bodies, with both ends and the steps from body to body."""
        edges = [self.bodies[0].area_at(0.0), self.bodies[-1].area_at(1.0)]
        for one, other in zip(self.bodies, self.bodies[1:], strict=False):
            edges.append(abs(one.area_at(1.0) - other.area_at(0.0)))
        return sum(body.skin for body in self.bodies) + sum(edges)

    def mass(self, density: float) -> float:
        """What it weighs bare [kg].

        Args:
            density: of its steel [kg/m3]
        """
        return density * self.volume

    def balance(self, density: float, handle: Handle | None = None) -> float:
        """How far along from its beginning it balances with its handle on [m].

        Args:
            density: of its steel [kg/m3]
            handle: what is put onto it; None for the bare blade
        """
        if handle is None:
            return self.centre
        mass = self.mass(density)
        return (mass * self.centre + handle.mass * handle.centre) / (mass + handle.mass)
