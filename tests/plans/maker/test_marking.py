"""Figures that a hand can follow, and that the words, the keys and the answers of a plan all say alike."""

from __future__ import annotations

from dataclasses import replace

import pytest

from plans.editing import remake
from plans.maker import draft_of_proposal, propose, text_of
from plans.making import Build, CoreKind, What
from plans.reader import AnswerKeys, made_from
from plans.units import INCH, Units


@pytest.mark.parametrize("units", [Units.METRIC, Units.INCH])
@pytest.mark.parametrize("build", [Build.CORE, Build.FOLDED, Build.LAMINATE])
def test_lengths_can_be_marked_and_words_say_what_the_keys_say(build: Build, units: Units) -> None:
    answers = AnswerKeys(what=What.DOUBLE_EDGED, build=build, core=CoreKind.TWISTED, length=0.1837, width=0.0312)
    mark = INCH / 16 if units is Units.INCH else 1e-3
    proposal = propose(answers, units)
    asked = (proposal.settled.length, proposal.settled.point)
    for step in proposal.steps:
        keys = step.keys
        for length in (keys.length, keys.reach_length, keys.thin_length):
            if length is not None and keys.fire is not None and length not in asked:
                assert length / mark == pytest.approx(round(length / mark)), keys.title
        for section in (keys.section, keys.reach, keys.thin):
            if section is not None and section.edge is None:
                # as the words show it is as the file holds it: neither rounds what the other does not
                assert units.section(section) == units.written_section(section), keys.title


def test_what_nobody_edited_is_not_kept_as_by_hand() -> None:
    # 215 x 28 mm are no sixteenths of an inch: the file holds 8 15/32 in, and the plan is made of what it holds
    text = text_of(propose(AnswerKeys(length=0.215, width=0.0282), Units.INCH), Units.INCH)
    answers = made_from(text, "a plan")
    assert answers is not None
    base = draft_of_proposal(propose(answers, Units.INCH), Units.INCH)
    other = draft_of_proposal(propose(replace(answers, steel="O1"), Units.INCH), Units.INCH)
    assert remake(base, text, base, Units.INCH).text == text
    assert remake(base, text, other, Units.INCH).kept.is_empty
    assert text_of(propose(answers, Units.INCH), Units.INCH) == text
