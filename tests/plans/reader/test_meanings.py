"""Words of other meanings: what is suggested can be written, and what can be written is never talked out of."""

from __future__ import annotations

from plans.plan import StepKind
from plans.reader.declaring import keys_of
from plans.reader.keys import TABLES
from plans.reader.meanings import KEYS_MEANT, KINDS_MEANT, PHASES_MEANT
from plans.reader.value_types import PHASES
from plans.toml import nearest

KEYS = {key.name for table in TABLES for key in keys_of(table).values()}


def test_all_that_is_suggested_can_be_written() -> None:
    assert {kind for kinds in KINDS_MEANT.values() for kind in kinds} == set(StepKind)
    assert {phase for phases in PHASES_MEANT.values() for phase in phases} == set(PHASES)
    assert {key for keys in KEYS_MEANT.values() for key in keys} <= KEYS


def test_a_kind_or_a_phase_means_itself() -> None:
    assert not set(KINDS_MEANT) & set(StepKind)
    assert not set(PHASES_MEANT) & set(PHASES)


def test_only_what_may_stand_there_is_suggested() -> None:
    assert nearest("temperature", ("fire", "heat_to"), KEYS_MEANT) == "heat_to"
    assert nearest("temperature", ("at", "for"), KEYS_MEANT) == "at"
    assert nearest("temperature", ("for", "medium"), KEYS_MEANT) == ""


def test_a_word_is_known_however_it_is_written() -> None:
    for word in ("heat treat", "Heat-Treat", "heat_treat", " HEAT  TREAT "):
        assert nearest(word, tuple(StepKind), KINDS_MEANT) == "harden"


def test_a_word_without_a_meaning_goes_by_its_spelling() -> None:
    assert nearest("hardn", tuple(StepKind), KINDS_MEANT) == "harden"
    assert nearest("zzz", tuple(StepKind), KINDS_MEANT) == ""
