"""Whether two things went together, in counts as small as a shop has."""

from __future__ import annotations

from math import comb


def fisher_exact(with_both: int, with_first: int, with_second: int, with_neither: int) -> float:
    """How often chance alone would part so many cases at least as unevenly: Fisher's exact test, two-sided.

    Both sums of the table are taken as given; the chances of all tables that are no likelier than this one are added
    up [1]_. Exact in whole numbers, whatever the counts.

    Args:
        with_both: cases that have the first and the second thing
        with_first: cases that have the first alone
        with_second: cases that have the second alone
        with_neither: cases that have neither

    Returns:
        the chance, from above 0 to 1; 1 where a row or a column is empty, since nothing can be told then

    Raises:
        ValueError: a count is negative.

    References:
        .. [1] R. A. Fisher, The logic of inductive inference, Journal of the Royal Statistical Society 98 (1935) 39-82.
    """
    if min(with_both, with_first, with_second, with_neither) < 0:
        raise ValueError("a count can't be negative")
    first, others = with_both + with_first, with_second + with_neither
    second = with_both + with_second
    ways = [comb(first, both) * comb(others, second - both) for both in range(second + 1)]
    found = ways[with_both]
    return sum(way for way in ways if way <= found) / sum(ways)
