"""Figures that a hand can follow, and that the words, the keys and the answers of a plan all say alike."""

from __future__ import annotations

import pytest

from plans.maker import propose
from plans.making import Build, CoreKind, What
from plans.reader import AnswerKeys
from plans.units import INCH, Units


@pytest.mark.parametrize("units", [Units.METRIC, Units.INCH])
@pytest.mark.parametrize("build", [Build.CORE, Build.FOLDED, Build.LAMINATE])
def test_lengths_can_be_marked_and_words_say_what_the_keys_say(build: Build, units: Units) -> None:
    answers = AnswerKeys(what=What.DOUBLE_EDGED, build=build, core=CoreKind.TWISTED, length=0.1837, width=0.0312)
    mark = INCH / 16 if units is Units.INCH else 1e-3
    for step in propose(answers, units).steps:
        keys = step.keys
        for length in (keys.length, keys.reach_length, keys.thin_length):
            if length is not None and step.keys.fire is not None and length != answers.length:
                assert length / mark == pytest.approx(round(length / mark)) or length == propose(answers, units).settled.point
        for section in (keys.section, keys.reach, keys.thin):
            if section is not None and section.edge is None:
                # as the words show it is as the file holds it: neither rounds what the other does not
                assert units.section(section) == units.written_section(section), keys.title
