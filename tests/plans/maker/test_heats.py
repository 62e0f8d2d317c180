"""Heats of each step: as many as its own sections ask for, and worked out from the same figures as its lengths."""

from __future__ import annotations

from math import ceil, log

import pytest

from plans.maker import propose
from plans.making import Build, Part, What
from plans.reader import AnswerKeys
from plans.shapes import Section
from plans.units import Units


def test_each_fold_has_the_heats_of_its_own_section_and_says_them() -> None:
    folded = AnswerKeys(build=Build.FOLDED, pieces=9, folds=4, other_bar=Section(0.03, 0.004), reduction=0.26)
    before, counts = None, []
    for step in propose(folded).steps:
        keys = step.keys
        section = keys.section or before
        before = keys.reach or section
        if step.part is not Part.FOLD_DRAW:
            continue
        assert section is not None
        assert keys.reach is not None
        # each heat leaves 74 % of the area
        counts.append(keys.heats)
        assert keys.heats == max(1, ceil(log(keys.reach.area / section.area) / log(1 - 0.26) - 1e-9))
        assert Units.METRIC.section(section) in Units.METRIC.text(step.why["heats"].said)
        assert keys.length is not None or keys.reach_length is not None
    assert len(set(counts)) > 1, "a case in which the folds differ"


def test_written_lengths_hold_the_volume_by_the_written_heats() -> None:
    # 2 % of the steel goes to scale in each heat
    folded = AnswerKeys(build=Build.FOLDED, pieces=9, folds=4, other_bar=Section(0.03, 0.004), reduction=0.26)
    section, length = None, None
    for step in propose(folded).steps:
        keys = step.keys
        section, length = keys.section or section, keys.length or length
        if step.part in (Part.FOLD_DRAW, Part.DRAW):
            assert section is not None
            assert length is not None
            assert keys.reach is not None
            assert keys.reach_length is not None
            assert isinstance(keys.heats, int)
            longer = section.area / keys.reach.area * 0.98**keys.heats
            # both lengths are in whole millimetres
            assert keys.reach_length == pytest.approx(longer * length, abs=0.6e-3 * (1 + longer)), step.keys.title
        section, length = keys.reach or section, keys.reach_length or length


def test_a_taper_takes_the_heats_that_its_thin_end_asks_for() -> None:
    steps = propose(AnswerKeys(what=What.WEDGE, reduction=0.3)).steps
    taper = next(step.keys for step in steps if step.part is Part.TAPER)
    draw = next(step.keys for step in steps if step.part is Part.DRAW)
    assert draw.reach is not None
    assert taper.thin is not None
    assert taper.heats == ceil(log(taper.thin.thickness / draw.reach.thickness) / log(0.7))
    # a short blade's taper is small, and still takes two: the thin end last
    knife = next(step.keys for step in propose(AnswerKeys(reduction=0.6)).steps if step.part is Part.TAPER)
    assert knife.heats == 2
