"""Carbon below a surface that recedes: diffusion solved on a grid that moves with the surface.

    dC/dtau = d2C/dx2 + (ds/dtau) dC/dx,   C = 0 at the surface, dC/dx = 0 at the middle

x is the depth below the surface as it is now [m], tau the integral of D dt [m2], s the metal that is gone [m]. Implicit
in time, central differences in space on nodes that lie closest at the surface. At one temperature, with scale that
grows as the root of time, there is a closed form to hold it against [1]_.

References:
    .. [1] N. Birks, G. H. Meier and F. S. Pettit, Introduction to the High-Temperature Oxidation of Metals, 2nd ed.,
       Cambridge University Press 2006, chapter 5; from memory.
"""

from __future__ import annotations

from itertools import pairwise

_FIRST = 8e-6
"""Distance of the first node below the surface: a fifth of the depth that a minute at 1000 degC reaches [m]."""
_WIDENING = 1.12
_DEEPEST = 0.012
"""As deep as nodes lie in thick work: carbon from there does not come out in a day's sitting [m]."""
_STEP = 0.04
"""Longest step, as a share of the diffusion since the beginning: profiles change with the root of it."""


class MovingSkin:
    """Carbon below one face of a piece, from even content to what is left of it, as shares of the core's content."""

    def __init__(self, half: float) -> None:
        """An even content everywhere.

        Args:
            half: distance from the face to the middle of the piece [m], above 0
        """
        self.depths = _nodes(min(half, _DEEPEST))
        """Depths of the nodes below the surface as it is now, from 0 to the middle [m]."""
        self.contents = [0.0, *(1.0 for _ in self.depths[1:])]
        """Share of the core's carbon at each node; none at the surface."""
        self._done = 0.0

    @property
    def longest_step(self) -> float:
        """Most diffusion (integral of D dt) that the next step may hold [m2]."""
        return max(_STEP * self._done, self.depths[1] ** 2)

    def diffuse(self, spread: float, gone: float) -> None:
        """Let carbon come out while the surface recedes.

        Args:
            spread: integral of D dt meanwhile [m2], above 0 and no more than `longest_step`
            gone: metal that goes to scale meanwhile [m]
        """
        self._done += spread
        x, old = self.depths, self.contents
        last = len(x) - 1
        upper, right = [0.0] * (last + 1), [0.0] * (last + 1)  # the surface's equation is C = 0
        for i in range(1, last):
            before, behind = x[i] - x[i - 1], x[i + 1] - x[i]
            across = before + behind
            left = (2 * spread / before - gone) / across
            onward = (2 * spread / behind + gone) / across
            pivot = 1 + left + onward - left * upper[i - 1]
            upper[i] = onward / pivot
            right[i] = (old[i] + left * right[i - 1]) / pivot
        across = x[last] - x[last - 1]
        left = 2 * spread / across**2
        new = [0.0] * (last + 1)
        new[last] = (old[last] + left * right[last - 1]) / (1 + left - left * upper[last - 1])
        for i in range(last - 1, 0, -1):
            new[i] = right[i] + upper[i] * new[i + 1]
        self.contents = new

    def recede(self, gone: float) -> None:
        """Let the surface recede without time for carbon to move, as when it is ground, or scales too cold to diffuse.

        Args:
            gone: metal that is gone [m]; what lies deeper than the middle leaves nothing
        """
        if gone > 0:
            self.contents = [0.0, *(self.at(depth + gone) for depth in self.depths[1:])]

    def thin(self, factor: float) -> None:
        """Draw the piece out: what lies below the surface becomes thinner with it.

        Args:
            factor: new depth over old, above 0; above 1 where the piece is upset
        """
        self.depths = [depth * factor for depth in self.depths]
        self._done *= factor**2

    def at(self, depth: float) -> float:
        """Share of the core's carbon at a depth below the surface as it is now [m]."""
        points = zip(self.depths, self.contents, strict=True)
        for (above, less), (below, more) in pairwise(points):
            if depth <= below:
                return less + (more - less) * (depth - above) / (below - above)
        return self.contents[-1]

    def depth_of(self, share: float) -> float | None:
        """Depth below the surface as it is now from which on a share of the core's carbon is left [m].

        Args:
            share: from 0 to below 1

        Returns:
            the depth; None where not even the middle has so much.
        """
        points = zip(self.depths, self.contents, strict=True)
        for (above, less), (below, more) in pairwise(points):
            if more >= share:
                return above if share <= less else above + (below - above) * (share - less) / (more - less)
        return None


def _nodes(end: float) -> list[float]:
    nodes, step = [0.0], min(_FIRST, end / 8)
    while nodes[-1] + 1.5 * step < end:
        nodes.append(nodes[-1] + step)
        step *= _WIDENING
    return [*nodes, end]
