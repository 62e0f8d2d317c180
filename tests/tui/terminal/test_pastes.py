"""Pastes: the brackets are xterm's, https://invisible-island.net/xterm/xterm-paste64.html."""

from __future__ import annotations

from collections.abc import Iterable

import pytest
from textual.events import Paste

from tui.terminal.pastes import Pastes

START, END = "\x1b[200~", "\x1b[201~"


def told(parts: Iterable[str | Paste]) -> list[str]:
    """Pastes in brackets, and what was typed joined."""
    keys, found = "", []
    for part in parts:
        if isinstance(part, Paste):
            found += [keys, f"<{part.text}>"]
            keys = ""
        else:
            keys += part
    return [part for part in (*found, keys) if part]


def test_it_is_the_same_however_it_is_cut() -> None:
    text = f"a{START}one\x1b[0m q\r\x1b[A{START} \x00{END[:-1]}x{END}b\x1b[A{START}{END}"
    pasted = "one[0m q\r[A[200~ [201x"
    for first in range(len(text) + 1):
        for second in range(first, min(first + 9, len(text)) + 1):
            pastes = Pastes()
            parts = [part for piece in (text[:first], text[first:second], text[second:]) for part in pastes.take(piece)]
            # What reads the keys begins anew after a paste: some of its mark may have come to it.
            assert [part.rstrip("\x1b[20") for part in told(parts)] == ["a", f"<{pasted}>", "b\x1b[A", "<>"]


def test_what_comes_of_a_paste_that_has_stalled_is_no_key() -> None:
    pastes = Pastes()
    assert told(pastes.take(f"{START}first\r")) == ["\x1b"]
    assert told(pastes.stalled()) == ["<first\r>"]
    assert told(pastes.take("second\r \r \x1b[20")) == []
    assert told(pastes.take("1~n")) == ["n"]


@pytest.mark.parametrize("left", ["", " \r "])
def test_keys_are_heard_again_though_the_end_never_comes(left: str) -> None:
    pastes = Pastes()
    assert told(pastes.take(f"{START}never ended")) == ["\x1b"]
    assert told(pastes.stalled()) == ["<never ended>"]
    assert told(pastes.take(left)) == []
    told(pastes.stalled())
    assert pastes.patience is None
    assert told(pastes.take("n")) == ["n"]


def test_half_a_start_is_waited_for_and_a_lone_escape_is_not() -> None:
    pastes = Pastes()
    assert told(pastes.take("\x1b")) == ["\x1b"]
    assert pastes.patience is None
    told(pastes.take("[20"))
    assert pastes.patience is not None
    assert told(pastes.take(f"0~words{END}")) == ["<words>"]


def test_a_paste_without_an_end_takes_no_more_room_than_the_longest() -> None:
    pastes = Pastes()
    told(pastes.take(START))
    for _ in range(300):
        told(pastes.take("x" * 4096))
    (paste,) = pastes.stalled()
    assert len(paste.text) == 1 << 20
