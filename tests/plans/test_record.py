"""Records do what frozen dataclasses with slots do."""

from __future__ import annotations

import copy
import pickle
from collections.abc import Callable
from dataclasses import FrozenInstanceError, asdict, dataclass, field, fields, replace
from typing import Any

import pytest
from hypothesis import given, strategies as st

from plans.record import record


@record
class Bar:
    """A bar."""

    length: float
    name: str = "bar"
    cuts: list[float] = field(default_factory=list, repr=False)

    def __post_init__(self) -> None:
        if self.length < 0:
            raise ValueError("shorter than nothing")


@record
class Marked(Bar):
    """A bar with a mark."""

    mark: str = ""


@record
class Nothing:
    """No attribute at all."""


@record(eq=False)
class Itself:
    """Equal to nothing else."""

    number: int


@dataclass(frozen=True, slots=True)
class Yardstick:
    """What a pair of the standard library does."""

    one: Any
    other: Any = 3


@record
class Pair:
    """Says and does the same."""

    one: Any
    other: Any = 3


VALUES = st.one_of(st.integers(-2, 2), st.floats(), st.text(max_size=2), st.tuples(st.integers(0, 1)))


@given(VALUES, VALUES, VALUES, VALUES)
def test_equality_hash_and_text_are_those_of_a_dataclass(one: Any, other: Any, third: Any, fourth: Any) -> None:
    ours, theirs = Pair(one, other), Yardstick(one, other)
    our_like, their_like = Pair(third, fourth), Yardstick(third, fourth)
    assert (ours == our_like) == (theirs == their_like)
    assert (hash(ours) == hash(our_like)) == (hash(theirs) == hash(their_like))
    assert repr(ours) == repr(theirs).replace("Yardstick", "Pair")
    assert ours != theirs
    assert asdict(ours) == asdict(theirs) or one != one or other != other


@pytest.mark.parametrize(
    "wrong",
    [lambda kind: kind(), lambda kind: kind(1, 2, 3), lambda kind: kind(1, one=2), lambda kind: kind(1, size=2)],
)
def test_what_a_dataclass_does_not_take_is_refused(wrong: Callable[[Any], object]) -> None:
    for kind in (Pair, Yardstick):
        with pytest.raises(TypeError):
            wrong(kind)


def with_own_hash() -> object:
    @record
    class Wrong:
        """Has a hash of its own."""

        size: int

        def __hash__(self) -> int:
            return 7

    return Wrong


def with_own_init() -> object:
    @record
    class Wrong:
        """Has an `__init__` of its own."""

        size: int

        def __init__(self) -> None:
            """Does nothing."""

    return Wrong


def with_field(**asked: Any) -> Callable[[], object]:
    def define() -> object:
        return record(type("Wrong", (), {"__annotations__": {"size": int}, "size": field(default=1, **asked)}))

    return define


@pytest.mark.parametrize(
    "define",
    [
        with_own_hash,
        with_own_init,
        with_field(compare=False),
        with_field(init=False),
        with_field(hash=False),
        with_field(kw_only=True),
    ],
)
def test_what_a_record_does_not_do_is_refused_where_it_is_defined(define: Callable[[], object]) -> None:
    with pytest.raises(TypeError, match="record"):
        define()


def test_attributes_may_be_called_as_what_sets_them() -> None:
    @record
    class Named:
        """Has names that stand in its `__init__` too."""

        set_size: int
        size: int
        default_make: int = 3
        make: int = 4

    assert repr(Named(1, 2)).endswith("Named(set_size=1, size=2, default_make=3, make=4)")


def test_a_record_can_be_neither_changed_nor_added_to() -> None:
    bar: Any = Bar(0.2)
    for name in ("length", "weight"):
        with pytest.raises(FrozenInstanceError):
            setattr(bar, name, 1.0)
    with pytest.raises(FrozenInstanceError):
        del bar.length
    assert not hasattr(bar, "__dict__")


def test_defaults_factories_and_checks_hold_from_the_first_record_on() -> None:
    with pytest.raises(ValueError, match="shorter"):
        Bar(-1.0)
    one, other = Bar(0.1), Bar(length=0.1)
    assert one == other
    assert one.cuts is not other.cuts
    assert Bar(0.1, cuts=[1.0]) != one
    assert repr(one) == "Bar(length=0.1, name='bar')"


def test_a_kind_may_add_to_another() -> None:
    marked = Marked(0.1, mark="x")
    assert (marked.length, marked.name, marked.mark) == (0.1, "bar", "x")
    assert [one.name for one in fields(Marked)] == ["length", "name", "cuts", "mark"]
    assert marked != Bar(0.1)
    with pytest.raises(ValueError, match="shorter"):
        replace(marked, length=-1.0)


def test_a_record_is_copied_replaced_and_pickled() -> None:
    bar = Bar(0.3, "tang")
    assert replace(bar, name="edge") == Bar(0.3, "edge")
    assert copy.copy(bar) == copy.deepcopy(bar) == pickle.loads(pickle.dumps(bar)) == bar
    match bar:
        case Bar(length, name):
            assert (length, name) == (0.3, "tang")


def test_a_record_of_nothing_and_one_that_is_only_itself() -> None:
    assert Nothing() == Nothing()
    assert hash(Nothing()) == hash(Nothing())
    assert Itself(1) != Itself(1)
    assert len({Itself(1), Itself(1)}) == 2
