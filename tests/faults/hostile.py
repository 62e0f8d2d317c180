"""Files changed at random: stretches of bytes, and values put in the place of others."""

from __future__ import annotations

import json
from collections.abc import Callable
from random import Random
from typing import Any

ODD = (b"-1", b"1e999", b"NaN", b'"', b"[]", b"{", b"9" * 400, b"\x1b[2J", b"\xff", b"\0", b"=", b"\n", "–".encode())
_SHORT = (
    *("0", "-1", "1", "2", "1.5", "-0.0", "1e15", "1e300", "1e308", "-1e308", "NaN", "Infinity"),
    *("true", "false", "null", "[]", "{}", "[[]]", "[null]", '""', '"x"', '"NaN"', '"1e999"', '"99999"', '"\\ud800"'),
    *('"\\u001b[2J\\u001b]0;x\\u0007"', '"[red]x[/red]<b>"', '"0001-01-01T00:00:00+00:00"'),
    *(
        '"9999-12-31T23:59:59-23:59"',
        '"2026-11-25T09:15:02"',
        "1" + 30 * "0",
        "1" + 400 * "0",
        "2147483648",
        "1000000000",
    ),
)
_WORDS = (
    *("-1", "0", "1e308", "-1e308", "nan", "inf", 400 * "9", "true", "''", '""', '"x"', '"1e999 degC"', '"-5 s"'),
    *('"\\u001b[2J"', "[]", "{}", "[[[]]]", "{ a = { b = 1 } }", "1979-05-27T07:32:00Z", '"1e15 s"', '"0 mm"'),
    f'"{700 * "long "}"',
)
"""Values of TOML, for the place behind an equals sign."""
_CELLS = (
    *("-1", "1e308", "nan", "inf", 400 * "9", '"', "", "note \x1b[2J", "undo", "earlier 1e999", "earlier nan", "redo"),
    *(9000 * "x", "\0", "5000"),
)
"""What a cell of a recording may hold instead."""

Spoil = Callable[[bytes, Random], bytes]


def _hostile(random: Random) -> Any:
    """A value of JSON that nobody would write."""
    match random.randrange(12):
        case 0:
            return 20_000 * "long "
        case 1:
            return json.loads(900 * "[" + 900 * "]")
        case _:
            return json.loads(random.choice(_SHORT))


def spoil(content: bytes, random: Random) -> bytes:
    """The same with one to three stretches of it cut, changed, doubled, exchanged or written over."""
    for _ in range(random.randint(1, 3)):
        at = random.randrange(len(content) + 1)
        end = min(len(content), at + random.choice((1, 1, 3, 20, 200)))
        match random.choice(("cut", "leave out", "change", "flip", "twice", "odd", "odd", "exchange")):
            case "cut":
                content = content[:at]
            case "leave out":
                content = content[:at] + content[end:]
            case "change":
                content = content[:at] + random.randbytes(end - at) + content[end:]
            case "flip" if at < len(content):
                content = content[:at] + bytes([content[at] ^ 1 << random.randrange(8)]) + content[at + 1 :]
            case "twice":
                content = content[:end] + content[at:end] + content[end:]
            case "odd":
                content = content[:at] + random.choice(ODD) + content[end:]
            case _:
                lines = content.split(b"\n")
                one, other = random.randrange(len(lines)), random.randrange(len(lines))
                lines[one], lines[other] = lines[other], lines[one]
                content = b"\n".join(lines)
    return content


def swap_json(content: bytes, random: Random) -> bytes:
    """JSON with a value or two changed to what nobody would write, left out, doubled, or put in another's place.

    Values near the root are as likely as those of a long list.
    """
    whole = json.loads(content)
    for _ in range(random.choice((1, 1, 1, 2))):
        _swap(whole, random)
    return json.dumps(whole).encode()


def swap_json_line(content: bytes, random: Random) -> bytes:
    """The same with one line of many."""
    lines = content.splitlines(keepends=True)
    at = random.randrange(len(lines))
    whole = json.loads(swap_json(lines[at], random))
    lines[at] = json.dumps(whole, separators=(",", ":")).encode() + b"\n"  # as the program writes it
    return b"".join(lines)


def _swap(value: Any, random: Random) -> None:
    """Walk down to a container that is chosen at random, and change one of its values."""
    while True:
        inner = [item for item in _items(value) if isinstance(item, dict | list) and item]
        if not inner or (len(_items(value)) > 1 and random.random() < 0.15):
            break
        value = random.choice(inner)
    if not value:
        return
    key: Any = random.choice(list(value)) if isinstance(value, dict) else random.randrange(len(value))
    match random.choice(("hostile",) * 3 + ("scale",) * 4 + ("leave out", "double", "neighbour")):
        case "hostile":
            value[key] = _hostile(random)
        case "scale" if type(value[key]) in (int, float):
            value[key] *= random.choice((-1, 0, 0.5, 2, 10, 1000, 10**6, 10**9))
        case "scale" if isinstance(value[key], str):
            value[key] = random.choice((value[key][:-1], value[key] * 2, value[key] + "\u202e"))
        case "scale" | "leave out":
            del value[key]
        case "double" if isinstance(value, list):
            value.insert(random.randrange(len(value) + 1), value[key])
        case "double":
            value[f"{key} too"] = value[key]
        case _:
            value[key] = random.choice(list(_items(value)))


def _items(value: Any) -> list[Any]:
    return list(value.values()) if isinstance(value, dict) else value


def swap_toml(content: bytes, random: Random) -> bytes:
    """TOML with the value of a key changed to what nobody would write, or with a line left out or doubled."""
    lines = content.split(b"\n")
    keys = [index for index, line in enumerate(lines) if b"=" in line]
    for _ in range(random.randint(1, 2)):
        at = random.choice(keys)
        name = lines[at].partition(b"=")[0]
        match random.choice(("hostile",) * 5 + ("leave out", "double", "neighbour")):
            case "hostile":
                lines[at] = name + b"= " + random.choice(_WORDS).encode()
            case "leave out":
                lines[at] = b""
            case "double":
                lines[at] = lines[at] + b"\n" + lines[at]
            case _:
                lines[at] = name + b"=" + lines[random.choice(keys)].partition(b"=")[2]
    return b"\n".join(lines)


def swap_cells(content: bytes, random: Random) -> bytes:
    """CSV with a cell or two changed to what no logger would write."""
    lines = content.split(b"\n")
    for _ in range(random.randint(1, 2)):
        at = random.randrange(len(lines))
        cells = lines[at].split(b",")
        cells[random.randrange(len(cells))] = random.choice(_CELLS).encode()
        lines[at] = b",".join(cells)
    return b"\n".join(lines)
