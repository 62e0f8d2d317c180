"""One correction of Newton's method for the heat in a piece: what each node lacks, and what makes up for it.

By loops over nodes, links and skin, and, once meshes that are cut up alike have been corrected often, written out as a
function in which every number has a name: the same operations in the same order, to the last bit, in half of the time.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache
from typing import Any, NamedTuple, cast

from plans.warmth.elimination import Pattern
from plans.warmth.mesh import Mesh
from plans.warmth.surroundings import Surroundings
from plans.warmth.tables import Tables

_PAYS_AFTER = 150
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
    extra: float
    """Flux through every part of the skin besides what the surroundings make flow [W/m2]."""


class Correction:
    """Corrects the heat in one piece, as often as need be until a step is solved."""

    __slots__ = ("_mesh", "_numbers", "_tables", "_written")

    def __init__(self, mesh: Mesh, tables: Tables) -> None:
        """Correct a piece.

        Args:
            mesh: the piece, cut up
            tables: of what it is made of
        """
        self._mesh, self._tables = mesh, tables
        skin = (number for one in mesh.skin for number in one[1:])
        self._numbers = (*mesh.diagonal, *(conductance for _, _, conductance in mesh.links), *skin)
        nodes, paths = tuple(one.node for one in mesh.skin), tuple((one, other) for one, other, _ in mesh.links)
        self._written = _written_for(mesh.elimination.pattern, nodes, paths)

    def correct(
        self, step: Lacking, heat: Sequence[float], here: Sequence[float], steepness: Sequence[float], extra: float
    ) -> Corrected:
        """Correct the heat once.

        Args:
            step: the step that is solved
            heat: enthalpy of each node so far [J/kg]
            here: potential of each node [W/m]
            steepness: its slope over the enthalpy [kg/(m s)]
            extra: flux that was found so far [W/m2]
        """
        written = self._written.for_(step)
        if written is None:
            return self._by_loops(step, heat, here, steepness, extra)
        turnover, supply, outside, skin = step
        base, slope = self._tables.kelvins
        around = (outside.incoming, outside.linear, outside.radiation, outside.contact, outside.touching, outside.share)
        return cast(
            Corrected,
            written(
                *(self._numbers, self._mesh.elimination.entries, turnover, supply, heat, here, steepness),
                *(base, slope, self._tables.segments_per_watt, around),
                *(0.0 if skin is None else self._mesh.skin_area * skin, extra),
            ),
        )

    def _by_loops(
        self, step: Lacking, heat: Sequence[float], here: Sequence[float], steepness: Sequence[float], extra: float
    ) -> Corrected:
        mesh, (turnover, supply, outside, known) = self._mesh, step
        per_watt, (kelvin_base, kelvin_slope) = self._tables.segments_per_watt, self._tables.kelvins
        incoming, linear, radiation = outside.incoming, outside.linear, outside.radiation
        contact, tool, share = outside.contact, outside.touching, outside.share
        # What a correction of each node's potential takes up, and what the node lacks.
        diagonal = [
            conducts + mass / steep for conducts, mass, steep in zip(mesh.diagonal, turnover, steepness, strict=True)
        ]
        lacks = [keeps - mass * joules for keeps, mass, joules in zip(supply, turnover, heat, strict=True)]
        for one, other, conductance in mesh.links:
            flow = conductance * (here[other] - here[one])
            lacks[one] += flow
            lacks[other] -= flow
        mean, steps_warmer = 0.0, []
        for node, area, below, above, ends in mesh.skin:
            watts = here[node]
            i = int(watts * per_watt)
            warmer = kelvin_slope[i]
            kelvin = kelvin_base[i] + warmer * watts
            cube = radiation * kelvin**3
            gives = incoming - (linear + cube) * kelvin
            steep = linear + 4.0 * cube
            open_to_it = area
            if contact:
                touched = below + above if outside.both_faces else below
                open_to_it -= share * touched
                lacks[node] += touched * contact * (tool - kelvin)
                diagonal[node] += touched * contact * warmer
            if gives < 0:
                # A bar that warms is not warmed through any sooner in the middle of its length for its ends.
                open_to_it += ends
            lacks[node] += open_to_it * gives + area * extra
            diagonal[node] += open_to_it * steep * warmer
            mean += area * kelvin
            steps_warmer.append((node, area * warmer))
        if known is None:
            change = mesh.elimination.solve(diagonal, lacks)
        else:
            area_of = [0.0] * mesh.count
            for node, area, _, _, _ in mesh.skin:
                area_of[node] = area
            change, more = mesh.elimination.solve_both(diagonal, lacks, area_of)
            short, by_more = mesh.skin_area * known - mean, 0.0
            for node, warms in steps_warmer:
                short -= warms * change[node]
                by_more += warms * more[node]
            brings = short / by_more
            extra += brings
            change = [one + brings * other for one, other in zip(change, more, strict=True)]
        corrected = [joules + one / steep for joules, one, steep in zip(heat, change, steepness, strict=True)]
        return Corrected(corrected, max(max(change), -min(change)), extra)


class _Written:
    """Corrections of meshes that are cut up alike, written out: for what touches them and whether a skin is known."""

    def __init__(self, pattern: Pattern, bare: Sequence[int], paths: Sequence[tuple[int, int]]) -> None:
        self._pattern, self._bare, self._paths = pattern, bare, paths
        self._asked: dict[tuple[bool, bool, bool], int] = {}
        self._made: dict[tuple[bool, bool, bool], Callable[..., Any]] = {}

    def for_(self, step: Lacking) -> Callable[..., Any] | None:
        """The function for a step; None as long as it would not pay."""
        asked = (step.outside.contact > 0, step.outside.both_faces, step.skin is not None)
        made = self._made.get(asked)
        if made is None:
            self._asked[asked] = times = self._asked.get(asked, 0) + 1
            if times < _PAYS_AFTER:
                return None
            made = self._made[asked] = self._compiled(*asked)
        return made

    def _compiled(self, touched: bool, both_faces: bool, skin_is_known: bool) -> Callable[..., Any]:
        names: dict[str, Any] = {"Corrected": Corrected}
        exec("\n    ".join([_HEAD, *self._statements(touched, both_faces, skin_is_known)]), names)
        return cast(Callable[..., Any], names["correct"])

    def _statements(self, touched: bool, both_faces: bool, skin_is_known: bool) -> Iterator[str]:
        every, links, bare = range(self._pattern.count), range(len(self._paths)), self._bare
        yield f"{_named('g', every)}{_named('c', links)}{_named('abvn', range(len(bare)))} = numbers"
        for letter, what, which in (
            *(("e", "entries", range(len(self._pattern.pairs))), ("t", "turnover", every), ("l", "supply", every)),
            *(("h", "heat", every), ("w", "here", every), ("q", "steepness", every)),
        ):
            if which:
                yield f"{_named(letter, which)} = {what}"
        yield "incoming, linear, radiation, contact, tool, share = around"
        for k in every:
            yield f"d{k} = g{k} + t{k} / q{k}; l{k} = l{k} - t{k} * h{k}"
        for k, (one, other) in enumerate(self._paths):
            yield f"flow = c{k} * (w{other} - w{one}); l{one} += flow; l{other} -= flow"
        yield "mean = 0.0"
        for k, node in enumerate(bare):
            yield f"i = int(w{node} * per_watt); x{k} = slope[i]; kelvin = base[i] + x{k} * w{node}"
            yield "cube = radiation * kelvin**3; gives = incoming - (linear + cube) * kelvin"
            yield "steep = linear + 4.0 * cube"
            yield f"bare = a{k}"
            if touched:
                yield f"touched = b{k} + v{k}" if both_faces else f"touched = b{k}"
                yield f"bare -= share * touched; l{node} += touched * contact * (tool - kelvin)"
                yield f"d{node} += touched * contact * x{k}"
            yield f"if gives < 0: bare += n{k}"
            yield f"l{node} += bare * gives + a{k} * extra; d{node} += bare * steep * x{k}"
            if skin_is_known:
                yield f"mean += a{k} * kelvin; x{k} = a{k} * x{k}"
        if skin_is_known:
            yield f"{' = '.join(f's{k}' for k in every)} = 0.0"
            yield from (f"s{node} = a{k}" for k, node in enumerate(bare))
            yield from self._pattern.statements("l", "s")
            yield "short = known - mean; by_more = 0.0"
            yield from (f"short -= x{k} * l{node}; by_more += x{k} * s{node}" for k, node in enumerate(bare))
            yield "brings = short / by_more; extra += brings"
            yield from (f"l{k} = l{k} + brings * s{k}" for k in every)
        else:
            yield from self._pattern.statements("l")
        yield f"change = {_named('l', every)}"
        heat = ", ".join(f"h{k} + l{k} / q{k}" for k in every)
        yield f"return Corrected([{heat}], max(max(change), -min(change)), extra)"


_HEAD = (
    "def correct(numbers, entries, turnover, supply, heat, here, steepness, base, slope, per_watt, around, "
    "known, extra):"
)


def _named(letters: str, which: range) -> str:
    return "".join(f"{letter}{k}, " for k in which for letter in letters)


@lru_cache(maxsize=64)
def _written_for(pattern: Pattern, bare: tuple[int, ...], paths: tuple[tuple[int, int], ...]) -> _Written:
    return _Written(pattern, bare, paths)
