"""What is written out loops no more, and comes to the same."""

from __future__ import annotations

from pathlib import Path
from runpy import run_path

import pytest

from plans.warmth.unrolled import unrolled


def _halve(over: tuple[int, ...], halved: list[float]) -> None:
    """Halve some, from behind."""
    for k in reversed(over):
        halved[k] /= 2.0


def _example(over: tuple[int, ...], pairs: tuple[tuple[int, int], ...], less: bool, given: list[float]) -> list[float]:
    """Something of everything that may stand in such a function.

    1, 2 and 4 are halved; 1 is taken from 2 and from 4.
    """
    total = [*given]
    none = [0.0] * len(given)
    _halve(over, total)
    for one, other in pairs:
        # What is above 1 only.
        if total[other] > 0.75:
            total[other] -= total[one] * 1.0
        if less:
            none[one] -= 1.0
    return [total[k] + none[k] for k in over]


def test_a_function_that_is_written_out_does_the_same_without_a_loop() -> None:
    over, pairs, given = (0, 1, 2), ((0, 1), (0, 2)), [1.0, 2.0, 4.0]
    for less, wanted in ((False, [0.5, 0.5, 1.5]), (True, [-1.5, 0.5, 1.5])):
        written = unrolled(_example, {"over": over, "pairs": pairs, "less": less}, {"given": 3})
        assert written(given) == _example(over, pairs, less, given) == wanted
        assert given == [1.0, 2.0, 4.0]
        assert not {"over", "pairs", "reversed"} & {*written.__code__.co_names, *written.__code__.co_varnames}


@pytest.mark.parametrize("above", ["", "# A line more.\n", "def other():\n    pass\n\n\n"])
def test_source_that_is_another_by_now_is_not_taken_for_the_functions_own(tmp_path: Path, above: str) -> None:
    """As when another version is installed while a sitting runs."""
    path = tmp_path / "loaded.py"
    source = 'def twice(given):\n    """Twice as much."""\n    return 2.0 * given\n'
    path.write_text(source)
    function = run_path(str(path))["twice"]
    path.write_text(above + source.replace("2.0", "3.0"))
    with pytest.raises(OSError, match="has changed since"):
        unrolled(function, {}, {})
