"""Lines of standard input, over a real pipe."""

from __future__ import annotations

import os
from collections.abc import Iterator
from threading import Thread

import pytest

from tui.cli.lines_in import Line, lines_in


@pytest.fixture
def standard_input() -> Iterator[int]:
    """The end of a pipe that is written to; the other one is standard input."""
    before = os.dup(0)
    read, write = os.pipe()
    os.dup2(read, 0)
    os.close(read)
    yield write
    os.dup2(before, 0)
    os.close(before)


def typed(write: int, *pieces: bytes) -> list[Line]:
    def type_it() -> None:
        with os.fdopen(write, "wb", buffering=0) as file:
            for piece in pieces:
                file.write(piece)

    typist = Thread(target=type_it)
    typist.start()
    lines = list(lines_in())
    typist.join()
    return lines


@pytest.mark.parametrize(
    ("pieces", "texts"),
    [
        ((b"next\nout\n",), ["next", "out"]),
        ((b"next\r\n", b"\n  \n", b" no", b"te a ", b"\xc3", b"\xa4\nlast"), ["next", "note a ä", "last"]),
        ((b"note \xff\xfe\n",), ["note \ufffd\ufffd"]),
        ((), []),
    ],
)
def test_lines(standard_input: int, pieces: tuple[bytes, ...], texts: list[str]) -> None:
    assert typed(standard_input, *pieces) == [Line(text) for text in texts]


@pytest.mark.parametrize("character", ["x", "ä", "鍛"])
def test_of_a_line_of_any_length_the_beginning_is_kept_and_the_rest_counted(
    standard_input: int, character: str
) -> None:
    """A megabyte and more, and what comes after it."""
    long, after = typed(standard_input, ("note " + character * 1_000_000 + "\nnext\n").encode())
    assert after == Line("next")
    assert long.text.startswith("note " + character * 2000)
    assert abs(len(long.text) + long.more - 1_000_005) <= 1, "a character may stand across the cut"
