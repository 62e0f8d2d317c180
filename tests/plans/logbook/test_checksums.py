"""A journal whose disk changes a digit, and one from before its lines had checksums."""

from __future__ import annotations

import shutil
from datetime import timedelta
from pathlib import Path
from zlib import crc32

import pytest

from plans.logbook.errors import DamagedError
from plans.logbook.header import Header
from plans.logbook.journal import Journal
from plans.logbook.journal_lines import entry_line, header_line
from plans.logbook.reading_back import has_ended, read_journal
from plans.phase import PhaseKind
from plans.reading import ProbeOn, Reading
from plans.sitting.calls import Call
from plans.sitting.events import Basis, Begun, Called, Ended, Entry, Said, WentOn, Word
from tests.plans.logbook.conftest import STARTED, TRIAL

WITHOUT = Path(__file__).with_name("20261125-091502-trial.jsonl")
"""A journal that heatbook wrote when its lines had no checksums."""
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


def test_a_journal_of_an_earlier_version_is_read_still(tmp_path: Path) -> None:
    path = Path(shutil.copy(WITHOUT, tmp_path))
    found = read_journal(path)
    assert (list(found.log), found.damage) == (TOLD, ())
    head = found.header
    assert (head.source, head.started, head.probe_on, head.port) == (TRIAL, STARTED, ProbeOn.WORK, "/dev/ttyUSB0")
    assert head.went_on == ((900.0, STARTED + timedelta(seconds=900)),)
    assert has_ended(path)


def test_a_line_is_as_the_docstring_says() -> None:
    assert crc32(b"123456789") == 0xCBF43926, "check value of CRC-32/ISO-HDLC, as its catalogues print it"
    assert entry_line(Reading(3.25, 1523.15)) == b'["%08x",[3250,12500]]\n' % crc32(b"[3250,12500]")


def test_no_other_digit_is_believed_wherever_it_stands(folder: Path, header: Header) -> None:
    """Each digit that is written is changed, those of the checksums too: its line is named, all others are kept."""
    some = TOLD[3:8]
    journal = Journal.create(folder, header)
    for entry in some:
        journal.reading(entry) if isinstance(entry, Reading) else journal.event(entry)
    journal.close()
    whole = journal.path.read_bytes()
    head = len(header_line(header))
    for place in (at for at, byte in enumerate(whole) if byte in b"0123456789"):
        other = b"%d" % ((whole[place] - ord("0") + 1 + place % 9) % 10)
        journal.path.write_bytes(whole[:place] + other + whole[place + 1 :])
        try:
            found = read_journal(journal.path)
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
