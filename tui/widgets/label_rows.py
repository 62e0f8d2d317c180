"""Labels that stand one to a row, as near to where they belong as their neighbours let them."""

from __future__ import annotations

from collections.abc import Sequence


def rows_for_labels(wanted: Sequence[float], rows: int) -> list[int]:
    """A row for each label, all different, in the order of `wanted`, moved as little as can be.

    Least squares under the condition that the rows rise, by pooling neighbours that are in each other's way.

    Args:
        wanted: rows where the labels belong, rising
        rows: rows that there are, 0 to `rows` - 1, no fewer than labels
    """
    pools: list[tuple[float, int]] = []
    for place, row in enumerate(wanted):
        pools.append((row - place, 1))
        while len(pools) > 1 and pools[-2][0] > pools[-1][0]:
            (upper, above), (lower, below) = pools[-2:]
            pools[-2:] = [((upper * above + lower * below) / (above + below), above + below)]
    offsets = [offset for offset, count in pools for _ in range(count)]
    most = rows - len(wanted)
    return [min(max(0, int(offset + 0.5)), most) + place for place, offset in enumerate(offsets)]
