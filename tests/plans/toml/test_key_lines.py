"""The scanner that tells in which line a key stands, held against tomllib's reading of the same text."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from typing import Any

from hypothesis import given, reject, strategies as st

from plans.toml.key_lines import KeyPath, key_lines

TRICKY = '''# [not.a.table]
a = 1 # b = 2
"b c".d = 'x # y = 1'
e = """
f = "no key" \\""" [[none]]
'' "" """""
g = \'\'\'
h = 1 \'\' ]\'\'\'
i = [ 1, # ] j = 2
  "],", [2,
 "#"],
]
k = { l = 1, m.n = [ { o = "}" } ] }

[[step]]
p = 1979-05-27 07:32:00
[step.air]
q = 1.5
[[step]]
'p' = 2
[step . "air" . x]
r = []
[[step.part]]
s = {}
[[step.part]]
[deep.er]
[deep]
t = true'''


def test_finds_every_key_of_a_tricky_text() -> None:
    lines = key_lines(TRICKY)
    assert {
        ("a",): 2,
        ("b c", "d"): 3,
        ("e",): 4,
        ("g",): 7,
        ("i", 0): 9,
        ("i", 1): 10,
        ("i", 2, 1): 11,
        ("k", "m", "n", 0, "o"): 13,
        ("step", 0): 15,
        ("step", 0, "p"): 16,
        ("step", 0, "air"): 17,
        ("step", 0, "air", "q"): 18,
        ("step", 1): 19,
        ("step", 1, "p"): 20,
        ("step", 1, "air", "x", "r"): 22,
        ("step", 1, "part", 0, "s"): 24,
        ("step", 1, "part", 1): 25,
        ("deep", "er"): 26,
        ("deep",): 27,
        ("deep", "t"): 28,
    }.items() <= lines.items()
    assert set(lines) == set(paths(tomllib.loads(TRICKY)))


def test_windows_line_ends_count_once() -> None:
    lines = key_lines('a = """x\r\ny"""\r\n\r\n[b]\r\nc = [\r\n1]\r\n')
    assert (lines["a",], lines["b",], lines["b", "c"], lines["b", "c", 0]) == (1, 4, 5, 6)


def paths(value: Any, here: KeyPath = ()) -> Iterator[KeyPath]:
    """Every place in what tomllib read."""
    children = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, child in children:
        yield (*here, key)
        yield from paths(child, (*here, key))


KEYS = st.text("abz_-1", min_size=1, max_size=3) | st.sampled_from(['"x y"', "'#'", '"="', '"\\u00e9]"'])
BARE = ["1", "-1.5e3", "true", "inf", "1979-05-27T07:32:00Z", "07:32:00"]
STRINGS = [
    '"# ] } = \\" \\\\"',
    "'\\'",
    '""',
    "'''\n'' \"\"\" ]\n'''",
    '"""\n[a]\nb = "c" # d\n"""',
    '""""q""\\\n  r"""',
]
SCALARS = st.sampled_from(BARE + STRINGS)
GAPS = st.sampled_from(["", " ", "\t", "\n", " # ] , = [x]\n", "\n\n  "])
NO_BREAK = st.sampled_from(["", " ", "\t"])


@st.composite
def value(draw: st.DrawFn, depth: int = 2, inline: bool = False) -> str:
    """A value as TOML text, and around it all that TOML lets stand there."""
    kind = draw(st.sampled_from(["scalar", "scalar", "array", "table"])) if depth else "scalar"
    if kind == "array":
        gap = NO_BREAK if inline else GAPS
        items = [draw(gap) + draw(value(depth - 1, inline)) + draw(gap) for _ in range(draw(st.integers(0, 3)))]
        one_more: bool = draw(st.booleans())
        comma = "," + draw(gap) if items and one_more else ""
        return f"[{draw(gap)}{','.join(items)}{comma}]"
    if kind == "table":
        names = draw(st.lists(KEYS, max_size=3, unique=True))
        return "{" + ",".join(f"{draw(NO_BREAK)}{name} = {draw(value(depth - 1, True))}" for name in names) + "}"
    return draw(SCALARS)


@st.composite
def document(draw: st.DrawFn) -> str:
    """A TOML text, most often a valid one."""
    lines = []
    for _ in range(draw(st.integers(0, 8))):
        name = draw(NO_BREAK) + ".".join(draw(st.lists(KEYS, min_size=1, max_size=2))) + draw(NO_BREAK)
        opener, closer = draw(st.sampled_from([("[", "]"), ("[[", "]]"), ("", "")]))
        end = draw(st.sampled_from(["\n", " # x = 1\n", "\n\n", "\t\n"]))
        lines.append(f"{opener}{name}{closer}{end}" if opener else f"{name}={draw(NO_BREAK)}{draw(value())}{end}")
    return "".join(lines)


@given(document())
def test_knows_exactly_the_keys_that_tomllib_reads(text: str) -> None:
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        reject()
    lines = key_lines(text)
    assert set(lines) == set(paths(data))
    rows = text.split("\n")
    for path, line in lines.items():
        # the last part of the key is in that line, but for escapes
        if isinstance(path[-1], str) and path[-1].isascii():
            assert path[-1] in rows[line - 1]
