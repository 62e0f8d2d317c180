"""Where labels of a picture may stand."""

from __future__ import annotations

from plans.logbook.exports.labels import Box, Room


def test_a_label_takes_the_first_place_in_which_nothing_stands_and_over_lines_rather_than_over_a_mark() -> None:
    above, below, aside = Box(0, 0, 40, 10), Box(0, 12, 40, 22), Box(50, 0, 90, 10)
    room = Room()
    assert room.place([above, below]) == above
    assert room.place([above, below]) == below, "another stands in the first place"
    room.take(Box(60, 5, 61, 6), is_line=True)
    assert room.place([above, below, aside]) == aside, "a line may be stood over, a label not"
    assert room.place([Box(40, 10, 50, 12)]) == Box(40, 10, 50, 12), "sides that touch are in nobody's way"
