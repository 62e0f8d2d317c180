"""Records: frozen dataclasses with slots, which cost next to nothing until the first one of a kind is made.

A dataclass of the standard library writes the source of its methods and compiles it where the class is defined, half a
millisecond for each class. What every start loads are some hundred of them: as much as a third of a bare Textual app.
Here a class has its `__init__` compiled when its first record is made, and the other methods are alike for all.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import MISSING, FrozenInstanceError, dataclass, field, fields
from operator import attrgetter
from typing import Any, dataclass_transform


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def record(kind: Any = None, /, *, eq: bool = True) -> Any:
    """Make a class a record of its annotated attributes; says and does what `@dataclass(frozen=True, slots=True)` does.

    `fields`, `replace` and `asdict` of the standard library work with it; so do `__post_init__` and defaults, and of
    `field` `default`, `default_factory`, `repr` and `metadata`. Its `init`, `compare`, `hash`, `kw_only` are refused,
    as is an `__init__` or `__hash__` of the class's own; an `InitVar` is not read.

    Args:
        kind: the class
        eq: whether records with the same values are equal, and hashed by them; False: each is only equal to itself

    Raises:
        TypeError: the class asks for what a record does not do.
    """
    return _made(kind, eq) if kind is not None else lambda given: _made(given, eq)


def _made(kind: Any, eq: bool) -> Any:
    if own := {"__init__", "__hash__"} & {name for name, value in vars(kind).items() if value is not None}:
        raise TypeError(f"{kind.__qualname__}: a record has no {min(own)} of its own")
    made: Any = dataclass(init=False, repr=False, eq=False, slots=True)(kind)
    for one in fields(made):
        if not (one.init and one.compare and one.hash is None) or one.kw_only:
            raise TypeError(f"{kind.__qualname__}.{one.name}: init, compare, hash and kw_only are not read in a record")
    # The first name stands again at the end: that of a single attribute alone would give its value, and no tuple.
    names = [one.name for one in fields(made)]
    made.__init__ = _first_init(made)
    made._record_values = staticmethod(attrgetter(*names, *names[:1])) if names else staticmethod(lambda _: ())
    made.__setattr__, made.__delattr__, made.__reduce__ = _set, _delete, _reduce
    if "__repr__" not in kind.__dict__:
        made.__repr__ = _repr
    if eq and "__eq__" not in kind.__dict__:
        made.__eq__, made.__hash__ = _equal, _hash
    return made


def _first_init(kind: Any) -> Callable[..., None]:
    """An `__init__` that puts the real one into its place at the first call."""

    def __init__(self: Any, *given: Any, **named: Any) -> None:  # noqa: N807
        kind.__init__ = _init(kind)
        kind.__init__(self, *given, **named)

    return __init__


def _init(kind: Any) -> Callable[..., None]:
    scope: dict[str, Any] = {"MISSING": MISSING}
    taken, lines = [], []
    for one in fields(kind):
        name, value = one.name, one.name
        scope[f"_set_{name}"] = getattr(kind, name).__set__
        if one.default_factory is not MISSING:
            scope[f"_make_{name}"] = one.default_factory
            taken.append(f"{name}=MISSING")
            value = f"_make_{name}() if {name} is MISSING else {name}"
        elif one.default is not MISSING:
            scope[f"_default_{name}"] = one.default
            taken.append(f"{name}=_default_{name}")
        else:
            taken.append(name)
        lines.append(f"    _set_{name}(self, {value})")
    if hasattr(kind, "__post_init__"):
        lines.append("    self.__post_init__()")
    exec("\n".join([f"def __init__(self, {', '.join(taken)}):", *(lines or ["    pass"])]), scope)
    init: Callable[..., None] = scope["__init__"]
    init.__qualname__ = f"{kind.__qualname__}.__init__"
    return init


def _set(_: object, name: str, __: object) -> None:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _delete(_: object, name: str) -> None:
    raise FrozenInstanceError(f"cannot delete field {name!r}")


def _repr(self: Any) -> str:
    shown = ", ".join(f"{one.name}={getattr(self, one.name)!r}" for one in fields(self) if one.repr)
    return f"{type(self).__qualname__}({shown})"


def _equal(self: Any, other: Any) -> Any:
    if type(other) is not type(self):
        return NotImplemented
    return self is other or self._record_values(self) == other._record_values(other)


def _hash(self: Any) -> int:
    return hash(self._record_values(self))


def _reduce(self: Any) -> tuple[Any, ...]:
    return type(self), tuple(getattr(self, one.name) for one in fields(self))
