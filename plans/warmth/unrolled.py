"""A function that loops over fixed numbers, written out without its loops: the same operations in the same order.

In Python most of what arithmetic on short lists takes is the loops and the lists. Where the loops go over what is known
beforehand, as over the nodes of a mesh, and the lists are as long as that, every number in them can have a name.
"""

from __future__ import annotations

import inspect
import re
from collections.abc import Callable, Iterator, Mapping
from functools import cache, partial
from itertools import chain, takewhile
from types import CodeType
from typing import Any, cast

_LOOP = re.compile(r"for (.+) in (reversed\()?(\w+)\)?:")
_ASKED = re.compile(r"if (\w+):")
_MADE = re.compile(r"(\w+) = (?:\[\*(\w+)\]|\[0\.0\] \* len\((\w+)\))")
_HANDED = re.compile(r"(\w+)\(([\w, ]+)\)")
_INDEXED = re.compile(r"\b(\w+)\[(\w+)\]")
_LISTED = re.compile(r"\[([^][]*\[.*?) for (\w+) in (\w+)\]")
_LESS = re.compile(r"( *\w+) -= (\w+ \* \w+)")

_Known = dict[str, Any]
"""By its name, what is looped over, what is asked about, and each number that is indexed by."""
_Write = Callable[[_Known], Iterator[str]]
"""Writes a piece of source out."""


def unrolled(function: Callable[..., Any], known: Mapping[str, Any], sizes: Mapping[str, int]) -> Callable[..., Any]:
    """A function that does what another one does, to the last bit, where some of its arguments are known.

    Each statement of that one stands on a line of its own. What is known may be looped over (`for k in known:`, with
    tuples taken apart), asked about (`if known:`, with no else), and indexed by. Lists are arguments, which are not
    changed, and those that are made by `x = [*given]` or `x = [0.0] * len(given)`. They may be indexed by what is
    known, be listed (`[x[k] for k in known]`), and be handed to another function of this kind that changes them.

    Args:
        function: a plain function whose source is at hand; its arguments are positional
        known: those of its arguments that are known; the new function takes the others, in order
        sizes: how many numbers there are in each argument that is a list

    Raises:
        OSError: its source is not at hand, or is no more what it was when it was loaded.
    """
    others = [name for name in _arguments(function) if name not in known]
    reader = _Reader(function.__globals__, sizes)
    indexed = {name for line in _body(function) for name, _ in _INDEXED.findall(line)}
    given = [f"    {reader.each(name)}= {name}" for name in others if name in sizes and name in indexed]
    lines = reader.block(_body(function), frozenset(), {})(dict(known))
    names: dict[str, Any] = {}
    exec("\n".join([f"def made({', '.join(others)}):", *given, *_joined(lines)]), function.__globals__, names)
    return cast(Callable[..., Any], names["made"])


def _arguments(function: Callable[..., Any]) -> tuple[str, ...]:
    return function.__code__.co_varnames[: function.__code__.co_argcount]


@cache
def _body(function: Callable[..., Any]) -> list[str]:
    """The lines of a function's body, without comments and what it says of itself."""
    source = inspect.getsource(function)
    try:
        (code,) = (one for one in compile(source, "", "exec").co_consts if isinstance(one, CodeType))
    except (SyntaxError, ValueError):
        code = None
    # Whoever installs another version does so beside a sitting that runs.
    if code is None or not _is_same(code, function.__code__):
        raise OSError(f"the source of {function.__name__} has changed since it was loaded")
    text = source.partition('"""')[2].partition('"""\n')[2]
    return [line for line in text.splitlines() if line.strip() and not line.lstrip().startswith("#")]


def _is_same(one: object, other: object) -> bool:
    """Whether two constants of code are the same, be they code themselves, wherever it stands in its file."""
    if not (isinstance(one, CodeType) and isinstance(other, CodeType)):
        return one == other
    parts = ((code.co_code, code.co_names, code.co_varnames) for code in (one, other))
    return next(parts) == next(parts) and all(map(_is_same, one.co_consts, other.co_consts))


def _joined(lines: Iterator[str]) -> Iterator[str]:
    """Lines, those joined that take one product after the other from the same number: `x -= a * b` and so on."""
    before, so_far = "", ""
    for line in lines:
        less = _LESS.fullmatch(line)
        if less and less[1] == before:
            so_far += f" - {less[2]}"
            continue
        if so_far:
            yield so_far
        before, so_far = (less[1], f"{less[1]} = {less[1].strip()} - {less[2]}") if less else ("", line)
    yield so_far


class _Reader:
    """Reads source once and makes what writes it out, since a loop is written out many times."""

    def __init__(self, functions: Mapping[str, Any], sizes: Mapping[str, int]) -> None:
        self._functions = functions
        self._sizes = dict(sizes)
        """How many numbers each list has."""

    def each(self, name: str) -> str:
        """The numbers of a list by their names."""
        return "".join(f"{name}{k}, " for k in range(self._sizes[name]))

    def block(self, lines: list[str], bound: frozenset[str], called: Mapping[str, str], depth: int = 4) -> _Write:
        """Read some lines.

        Args:
            lines: as they stand in the source
            bound: names of numbers that are indexed by
            called: what a list that was handed on is called by who made it
            depth: how far they are to be indented
        """
        writes, at = [], 0
        while at < len(lines):
            line, indent = lines[at].strip(), _depth(lines[at])
            inner = list(takewhile(partial(_is_deeper, indent), lines[at + 1 :]))
            writes.append(self._statement(line, inner, bound, called, depth))
            at += 1 + len(inner)

        def write(known: _Known) -> Iterator[str]:
            for one in writes:
                yield from one(known)

        return write

    def _statement(
        self, line: str, inner: list[str], bound: frozenset[str], called: Mapping[str, str], depth: int
    ) -> _Write:
        if loop := _LOOP.fullmatch(line):
            names = loop[1].split(", ")
            body, over = self.block(inner, bound | set(names), called, depth), called.get(loop[3], loop[3])
            return _repeats(body, names, over, backward=bool(loop[2]))
        if asked := _ASKED.fullmatch(line):
            flag, body = asked[1], self.block(inner, bound, called, depth)
            return lambda known: body(known) if known[flag] else iter(())
        if made := _MADE.fullmatch(line):
            name, given, like = made.groups()
            self._sizes[name] = self._sizes[given or like]
            each = self.each(name)
            return _says(" " * depth + (f"{each}= {given}" if given else f"{each.replace(', ', ' = ')}0.0"))
        if (handed := _HANDED.fullmatch(line)) and handed[1] in self._functions:
            function = self._functions[handed[1]]
            given = [called.get(name, name) for name in handed[2].split(", ")]
            return self.block(_body(function), bound, dict(zip(_arguments(function), given, strict=True)), depth)
        if _LISTED.search(line):
            return lambda known: iter([" " * depth + _LISTED.sub(lambda found: _listed(found, known), line)])
        filled = " " * depth + _INDEXED.sub(
            lambda found: f"{called.get(found[1], found[1])}{{{found[2]}}}" if found[2] in bound else found[0], line
        )
        if not inner:
            return _says(filled)
        body = self.block(inner, bound, called, depth + 4)
        return lambda known: chain([filled.format_map(known)], body(known))


def _depth(line: str) -> int:
    return len(line) - len(line.lstrip())


def _is_deeper(than: int, line: str) -> bool:
    return _depth(line) > than


def _says(line: str) -> _Write:
    return lambda known: iter((line.format_map(known),))


def _repeats(body: _Write, names: list[str], over: str, *, backward: bool) -> _Write:
    def write(known: _Known) -> Iterator[str]:
        items = known[over]
        for item in reversed(items) if backward else items:
            known.update(zip(names, item, strict=True) if len(names) > 1 else ((names[0], item),))
            yield from body(known)

    return write


def _listed(found: re.Match[str], known: _Known) -> str:
    each = _INDEXED.sub(lambda one: f"{one[1]}{{}}" if one[2] == found[2] else one[0], found[1])
    return f"[{', '.join(each.replace('{}', str(k)) for k in known[found[3]])}]"
