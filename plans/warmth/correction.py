"""One correction of Newton's method for the heat in a piece: what each node lacks, and what makes up for it.

It is looped over nodes and skin, and, once meshes that are cut up alike have been corrected often, written out: the
same operations in the same order, in half of the time.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache, partial
from typing import Any, NamedTuple

from plans.warmth.elimination import Pattern, Steps, eliminate, substitute
from plans.warmth.mesh import Mesh
from plans.warmth.surroundings import Surroundings
from plans.warmth.tables import Tables
from plans.warmth.unrolled import unrolled

_PAYS_AFTER = 250
"""So many corrections take as long as it takes to write one out and to compile it."""


class Lacking(NamedTuple):
    """What a step takes up and what it has, node by node, and what is round the piece."""

    turnover: Sequence[float]
    """Mass over the length of the step, times the weight of the new enthalpy [kg/s]."""
    supply: Sequence[float]
    """Heat that is kept, over the length of the step [W]."""
    outside: Surroundings
    """What is round the piece."""
    skin: float | None
    """Mean temperature of its skin at the end, where it is known [K]."""


class Corrected(NamedTuple):
    """What a correction came to."""

    heat: list[float]
    """Enthalpy of each node [J/kg]."""
    largest: float
    """The largest correction of a potential [W/m]."""


class Correction:
    """Corrects the heat in one piece, as often as need be until a step is solved."""

    __slots__ = ("_forms", "_numbers", "_skin_area", "_tables")

    def __init__(self, mesh: Mesh, tables: Tables) -> None:
        """Correct a piece.

        Args:
            mesh: the piece, cut up
            tables: of what it is made of
        """
        self._tables, self._skin_area = tables, mesh.skin_area
        _, *skin = zip(*mesh.skin, strict=True)
        self._numbers = (mesh.elimination.entries, mesh.diagonal, *skin)
        self._forms = _forms_for(mesh.elimination.pattern, tuple(one.node for one in mesh.skin))

    def correct(
        self, step: Lacking, heat: Sequence[float], here: Sequence[float], steepness: Sequence[float]
    ) -> Corrected:
        """Correct the heat once.

        Args:
            step: the step that is solved
            heat: enthalpy of each node so far [J/kg]
            here: potential of each node [W/m]
            steepness: its slope over the enthalpy [kg/(m s)]
        """
        turnover, supply, outside, skin = step
        base, slope = self._tables.kelvins
        return self._forms.of(outside.contact > 0, outside.both_faces, skin is not None)(
            *self._numbers,
            *(turnover, supply, heat, here, steepness, base, slope, self._tables.segments_per_watt),
            *(outside.incoming, outside.linear, outside.radiation, outside.contact, outside.touching, outside.share),
            0.0 if skin is None else self._skin_area * skin,
        )


def _corrected(
    nodes: Sequence[int],
    bare: Sequence[tuple[int, int]],
    steps: Steps,
    touched: bool,
    both_faces: bool,
    skin_is_known: bool,
    off_diagonal: Sequence[float],
    on_diagonal: Sequence[float],
    area: Sequence[float],
    below: Sequence[float],
    above: Sequence[float],
    ends: Sequence[float],
    turnover: Sequence[float],
    supply: Sequence[float],
    heat: Sequence[float],
    here: Sequence[float],
    steepness: Sequence[float],
    base: Sequence[float],
    slope: Sequence[float],
    per_watt: float,
    incoming: float,
    linear: float,
    radiation: float,
    contact: float,
    tool: float,
    share: float,
    known: float,
) -> Corrected:
    """The equations are put up straight round the state so far, and solved for the potentials."""
    entries = [*off_diagonal]
    pivots = [*on_diagonal]
    solution = [0.0] * len(supply)
    by_flux = [0.0] * len(supply)
    warms = [0.0] * len(area)
    for k in nodes:
        holds = turnover[k] / steepness[k]
        pivots[k] += holds
        solution[k] = supply[k] - turnover[k] * heat[k] + holds * here[k]
    missing = known
    for s, k in bare:
        i = int(here[k] * per_watt)
        kelvin = base[i] + slope[i] * here[k]
        cube = radiation * kelvin * kelvin * kelvin
        gives = incoming - (linear + cube) * kelvin
        open_to_it = area[s]
        if touched:
            touches = below[s]
            if both_faces:
                touches += above[s]
            open_to_it -= share * touches
        if gives < 0:
            # A bar that warms is not warmed through any sooner in the middle of its length for its ends.
            open_to_it += ends[s]
        takes = open_to_it * gives
        steep = open_to_it * (linear + 4.0 * cube)
        if touched:
            takes += touches * contact * (tool - kelvin)
            steep += touches * contact
        steep *= slope[i]
        pivots[k] += steep
        solution[k] += takes + steep * here[k]
        if skin_is_known:
            by_flux[k] = area[s]
            warms[s] = area[s] * slope[i]
            missing -= area[s] * base[i]
    eliminate(steps, entries, pivots)
    substitute(steps, entries, pivots, solution)
    if skin_is_known:
        # As much flows through every part of the skin, besides what the surroundings make flow, as brings it there.
        substitute(steps, entries, pivots, by_flux)
        moves = 0.0
        for s, k in bare:
            missing -= warms[s] * solution[k]
            moves += warms[s] * by_flux[k]
        flux = missing / moves
        for k in nodes:
            solution[k] += flux * by_flux[k]
    for k in nodes:
        solution[k] -= here[k]
    change = [solution[k] for k in nodes]
    return Corrected([heat[k] + solution[k] / steepness[k] for k in nodes], max(max(change), -min(change)))


class _Forms:
    """The correction of meshes that are cut up alike, looped and written out, whatever touches them and is known."""

    def __init__(self, pattern: Pattern, bare: Sequence[int]) -> None:
        self._shape: dict[str, Any] = {
            "nodes": range(pattern.count),
            "bare": tuple(enumerate(bare)),
            "steps": pattern.steps,
        }
        count, skin = pattern.count, len(bare)
        self._sizes = dict.fromkeys(("on_diagonal", "turnover", "supply", "heat", "here", "steepness"), count)
        self._sizes |= dict.fromkeys(("area", "below", "above", "ends"), skin) | {"off_diagonal": len(pattern.pairs)}
        self._asked: dict[tuple[bool, ...], int] = {}
        self._made: dict[tuple[bool, ...], Callable[..., Corrected]] = {}

    def of(self, *case: bool) -> Callable[..., Corrected]:
        """The correction for a case: whether something touches the piece, on both faces, and whether its skin is known.

        It takes the arguments of `_corrected` from `off_diagonal` on.
        """
        made = self._made.get(case)
        if made is not None:
            return made
        self._asked[case] = times = self._asked.get(case, 0) + 1
        known = self._shape | dict(zip(("touched", "both_faces", "skin_is_known"), case, strict=True))
        looped = partial(_corrected, *known.values())
        if times < _PAYS_AFTER:
            return looped
        try:
            self._made[case] = unrolled(_corrected, known, self._sizes)
        except OSError:  # it is installed without its source, or another version beside it by now
            self._made[case] = looped
        return self._made[case]


@lru_cache(maxsize=64)
def _forms_for(pattern: Pattern, bare: tuple[int, ...]) -> _Forms:
    return _Forms(pattern, bare)
