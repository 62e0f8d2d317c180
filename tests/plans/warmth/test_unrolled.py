"""What is written out loops no more, and comes to the same."""

from __future__ import annotations

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
