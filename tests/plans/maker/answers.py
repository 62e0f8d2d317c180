"""Answers of every kind, for tests that hold whatever was answered."""

from __future__ import annotations

from hypothesis import strategies as st

from plans.blows import StruckBy
from plans.making import OPTIONAL, Build, CoreKind, What
from plans.reader import AnswerKeys
from plans.shapes import Section
from plans.steel import all_grades

_GRADES = st.sampled_from([*(grade.name for grade in all_grades()), "a steel nobody knows"])


def _length(least: float, most: float) -> st.SearchStrategy[float | None]:
    return st.none() | st.floats(least, most)


def _section(most: float) -> st.SearchStrategy[Section | None]:
    side = st.floats(0.002, most)
    return st.none() | st.builds(lambda one, other: Section(max(one, other), min(one, other)), side, side)


ANSWERS = st.builds(
    AnswerKeys,
    what=st.sampled_from(What),
    build=st.sampled_from(Build),
    length=_length(0.03, 1.5),
    width=_length(0.006, 0.15),
    thickness=_length(0.001, 0.06),
    edge=_length(0.0002, 0.004),
    point=_length(0.005, 0.2),
    tang_length=_length(0.01, 0.3),
    tang=_section(0.03),
    steel=_GRADES,
    back=_GRADES,
    pattern=st.lists(_GRADES, min_size=1, max_size=2, unique=True).map(tuple),
    bar=_section(0.06),
    other_bar=_section(0.06),
    pieces=st.none() | st.integers(1, 25),
    folds=st.none() | st.integers(1, 8),
    cores=st.none() | st.integers(1, 8),
    core=st.none() | st.sampled_from(CoreKind),
    twist=_length(0.004, 0.3),
    core_share=st.none() | st.floats(0.1, 0.9),
    loss=st.none() | st.floats(0.0, 0.7),
    struck_by=st.sampled_from(StruckBy),
    reduction=st.none() | st.floats(0.02, 0.8),
    scale=st.none() | st.floats(0.001, 0.15),
    leave_out=st.lists(st.sampled_from(OPTIONAL), max_size=5, unique=True).map(tuple),
    temper=st.none() | st.floats(400.0, 900.0),
    dips=st.none() | st.integers(1, 20),
    dip=st.none() | st.floats(5.0, 5000.0),
)
"""Answers of which most make a plan, and some contradict one another."""
