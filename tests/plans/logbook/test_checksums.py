"""A journal whose disk changes a digit or writes a line twice, and those of versions without checksums or numbers."""

from __future__ import annotations

import shutil
from datetime import timedelta
from pathlib import Path
from zlib import crc32

import pytest

from plans.logbook.errors import DamagedError
from plans.logbook.header import Header
from plans.logbook.journal.appending import Journal
from plans.logbook.journal.lines import entry_line, header_line
from plans.logbook.journal.reading_back import has_ended, read_journal
from plans.phase import PhaseKind
from plans.reading import ProbeOn, Reading
from plans.sitting.calls import Call
from plans.sitting.events import Basis, Begun, Called, Ended, Entry, Said, WentOn, Word
from tests.plans.logbook.conftest import STARTED, TRIAL

KEPT = ("trial", "checked", "numbered")
"""The same journal as heatbook wrote it when its lines had no checksums, no numbers yet, and when they had both."""
TOLD: list[Entry] = [
    Begun(0.0, 0, 1, PhaseKind.READY),
    Said(1.0, Word.ACKNOWLEDGE),
    Said(2.0, Word.NEXT),
    Begun(2.0, 0, 1, PhaseKind.FIRE),
    Reading(3.25, 1523.15),
    Reading(3.5, None, "open circuit"),
    Said(9.0, Word.NOTE, "left corner, Späne: 5 %"),
    Called(9.5, Call.TOO_COLD, 0, 1, 1400.15, Basis.MEASURED),
    WentOn(900.0, None, 9.5),
    Reading(901.0, 1273.15),
    Said(902.0, Word.FINISH),
    Ended(902.0),
]


@pytest.mark.parametrize("name", KEPT)
def test_a_journal_of_each_version_is_read_still(tmp_path: Path, name: str) -> None:
    path = Path(shutil.copy(Path(__file__).with_name(f"20261125-091502-{name}.jsonl"), tmp_path))
    found = read_journal(path)
    assert (list(found.log), found.damage) == (TOLD, ())
    head = found.header
    assert (head.source, head.started, head.probe_on, head.port) == (TRIAL, STARTED, ProbeOn.WORK, "/dev/ttyUSB0")
    assert head.went_on == ((900.0, STARTED + timedelta(seconds=900)),)
    assert has_ended(path)


def test_a_line_is_as_the_docstring_says() -> None:
    assert crc32(b"123456789") == 0xCBF43926, "check value of CRC-32/ISO-HDLC, as its catalogues print it"
    assert entry_line(Reading(3.25, 1523.15), 7) == b'["%08x",[3250,12500],7]\n' % crc32(b"[3250,12500],7")


SAID_TWICE = [*TOLD[:4], Reading(3.25, 1523.15), Reading(3.25, 1523.15), *TOLD[6:8]]
"""Two readings that say the same at one time, as two lines in the middle."""


@pytest.mark.parametrize(
    ("stand", "damage"),
    [
        ([0, 1, 2, 3, 4, 5, 6, 7], ()),
        ([0, 1, 2, 3, 4, 5, 5, 6, 7], ("line 8 came twice",)),
        ([0, 1, 2, 3, 4, 4, 5, 6, 7, 7], ("line 7, line 11 came twice",)),
        ([0, 1, 2, 3, 4, 5, 6, 7, 4, 5, 6, 7], ("line 10, line 11, line 12, line 13 came twice",)),
        ([0, 1, 3, 2, 4, 5, 6, 7], ("line 5 came out of turn",)),
        ([0, 4, 5, 6, 1, 2, 3, 7], ("line 6 came out of turn",)),
        ([0, 1, 2, 7, 3, 4, 5, 6, 7], ("line 10 came twice", "line 6 came out of turn")),
    ],
)
def test_lines_that_stand_twice_or_in_another_order_are_told_by_their_numbers(
    folder: Path, header: Header, stand: list[int], damage: tuple[str, ...]
) -> None:
    path = _written(folder, header, SAID_TWICE)
    first, *lines = path.read_bytes().splitlines(keepends=True)
    path.write_bytes(b"".join([first, *(lines[index] for index in stand)]))
    found = read_journal(path)
    assert (list(found.log), found.damage) == (SAID_TWICE, damage)


def test_a_journal_without_numbers_means_what_it_meant(tmp_path: Path) -> None:
    """Where a line of it stands twice at one time, nobody can tell that from two that say the same."""
    path = Path(shutil.copy(Path(__file__).with_name("20261125-091502-checked.jsonl"), tmp_path))
    lines = path.read_bytes().splitlines(keepends=True)
    path.write_bytes(b"".join([*lines[:6], lines[5], *lines[6:]]))
    found = read_journal(path)
    assert (list(found.log), found.damage) == ([*TOLD[:5], *TOLD[4:]], ())


def test_a_line_of_the_end_that_stands_twice_ends_it_once(folder: Path, header: Header) -> None:
    path = _written(folder, header, [*TOLD[:4], Said(9.0, Word.FINISH), Ended(9.0), Said(9.5, Word.UNDO)])
    assert not has_ended(path)
    whole = path.read_bytes()
    path.write_bytes(whole + whole.splitlines(keepends=True)[-2])
    assert not has_ended(path)


def _written(folder: Path, header: Header, entries: list[Entry]) -> Path:
    journal = Journal.create(folder, header)
    for entry in entries:
        journal.reading(entry) if isinstance(entry, Reading) else journal.event(entry)
    journal.flush()
    journal.close()
    return journal.path


def test_no_other_digit_is_believed_wherever_it_stands(folder: Path, header: Header) -> None:
    """Each digit that is written is changed, those of the checksums too: its line is named, all others are kept."""
    some = TOLD[3:8]
    path = _written(folder, header, some)
    whole = path.read_bytes()
    head = len(header_line(header))
    for place in (at for at, byte in enumerate(whole) if byte in b"0123456789"):
        other = b"%d" % ((whole[place] - ord("0") + 1 + place % 9) % 10)
        path.write_bytes(whole[:place] + other + whole[place + 1 :])
        try:
            found = read_journal(path)
        except DamagedError:
            assert place < head, "there are digits without which there is no header"
            continue
        line = 1 + whole[:place].count(b"\n")
        assert any(f"line {line} " in told for told in found.damage), (place, found.damage)
        if place >= head:
            assert (list(found.log), found.header) == (some[: line - 2] + some[line - 1 :], header)
        else:
            assert list(found.log) == some


@pytest.mark.parametrize("tail", [b"]", b"x", b" ", b"\0"])
def test_a_last_line_that_ends_otherwise_is_damage(folder: Path, header: Header, tail: bytes) -> None:
    journal = Journal.create(folder, header)
    for entry in TOLD[:2]:
        journal.event(entry)  # type: ignore[arg-type]
    journal.close()
    journal.path.write_bytes(journal.path.read_bytes()[:-1] + tail)
    found = read_journal(journal.path)
    assert (list(found.log), found.damage) == (TOLD[:1], ("line 3 can't be read",))


@pytest.mark.parametrize("begins", [b'["', b'["1a2b3c4', b'["1a2b3c4d5",', b'X"1a2b3c4d",', b'[ 1a2b3c4d",'])
def test_a_header_stands_whatever_became_of_its_checksum(folder: Path, header: Header, begins: bytes) -> None:
    journal = Journal.create(folder, header)
    journal.event(TOLD[0])  # type: ignore[arg-type]
    journal.close()
    whole = journal.path.read_bytes()
    journal.path.write_bytes(begins + whole[whole.index(b"{") :])
    found = read_journal(journal.path)
    assert (found.header, list(found.log)) == (header, TOLD[:1])
    assert ["line 1 is not as it was written" in told for told in found.damage] == [True]
