from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, strategies as st

from plans.shapes import Section
from plans.warmth.cross_section import cross_section
from plans.warmth.elimination import Elimination, eliminate, substitute
from tests.plans.warmth.sections import SECTIONS

# numpy's dense solver stands beside it: LAPACK's dgesv.


@given(st.integers(2, 12), st.data())
def test_any_pattern_is_solved_as_lapack_does(count: int, data: st.DataObject) -> None:
    pairs = data.draw(st.sets(st.tuples(st.integers(0, count - 1), st.integers(0, count - 1)), max_size=30))
    entries = {(min(a, b), max(a, b)): 0.0 for a, b in pairs if a != b}
    links = [(a, b, data.draw(st.floats(-1.0, 1.0))) for a, b in entries]
    right = data.draw(st.lists(st.floats(-10.0, 10.0), min_size=count, max_size=count))
    matrix = np.diag(np.full(count, float(count) + 1.0))
    for a, b, entry in links:
        matrix[a, b] = matrix[b, a] = entry
    ours = Elimination(count, links).solve([float(count) + 1.0] * count, right)
    given = list(right)
    assert ours == pytest.approx(np.linalg.solve(matrix, np.array(given)), abs=1e-9)
    whole = Elimination(count, links)
    left, pivots, other = [*whole.entries], [float(count) + 1.0] * count, right[::-1]
    eliminate(whole.pattern.steps, left, pivots)
    substitute(whole.pattern.steps, left, pivots, right)
    substitute(whole.pattern.steps, left, pivots, other)
    assert right == ours
    assert other == pytest.approx(np.linalg.solve(matrix, np.array(given[::-1])), abs=1e-9)


@given(SECTIONS)
def test_so_are_those_of_sections(section: Section) -> None:
    mesh = cross_section(section)
    matrix = np.diag(np.array(mesh.diagonal) + 0.01)
    for one, other, conductance in mesh.links:
        matrix[one, other] = matrix[other, one] = -conductance
    right = np.arange(mesh.count, dtype=float)
    ours = mesh.elimination.solve([each + 0.01 for each in mesh.diagonal], list(right))
    assert ours == pytest.approx(np.linalg.solve(matrix, right), rel=1e-6, abs=1e-6 * float(np.abs(right).max()) / 0.01)
