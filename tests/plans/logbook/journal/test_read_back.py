"""Whatever is read of a journal and put away can be read back: one gate for both."""

from __future__ import annotations

import json
import os
from datetime import timedelta
from itertools import count
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings, strategies as st

from plans.logbook.cut_off import piece_together
from plans.logbook.disk.whole_files import to_json
from plans.logbook.document import from_document, to_document
from plans.logbook.errors import DamagedError
from plans.logbook.header import Header
from plans.logbook.journal.lines import entry_line, entry_of, header_line
from plans.logbook.kept_sitting import KeptSitting
from plans.logbook.store import Store
from plans.logbook.trace_segments import decode, encode
from plans.phase import PhaseKind
from plans.reading import Reading
from plans.sitting.events import Begun, Entry, Said, WentOn, Word
from plans.trace import Trace, as_logged
from tests.plans.logbook.conftest import STARTED, TRIAL

_BEFORE: list[Entry] = [
    Begun(0.0, 0, 1, PhaseKind.READY),
    Said(1.0, Word.ACKNOWLEDGE),
    Said(2.0, Word.NEXT),
    Begun(2.0, 0, 1, PhaseKind.FIRE),
    *(Reading(3 + at / 4, 1000.15) for at in range(12)),
    Said(9.0, Word.NOTE, "a line"),
]
_SINCE: list[Entry] = [
    Said(910.0, Word.NEXT),
    Begun(910.0, 0, 1, PhaseKind.SOAK),
    *(Reading(912 + at / 4, 1400.15 if at % 3 else None) for at in range(12)),
    Said(920.0, Word.EARLIER, "3"),
]


def _spoiled(lines: list[bytes], random: Random) -> list[bytes]:
    """One line with a wrong digit or another one's place, gone, or there twice."""
    lines, at = list(lines), random.randrange(1, len(lines))
    match random.randrange(4):
        case 0:
            digits = [place for place, byte in enumerate(lines[at]) if byte in b"0123456789"]
            place = random.choice(digits)
            lines[at] = lines[at][:place] + random.choice("0123456789").encode() + lines[at][place + 1 :]
        case 1:
            del lines[at]
        case 2:
            lines.insert(random.randrange(1, len(lines)), lines[at])
        case _:
            other = random.randrange(1, len(lines))
            lines[at], lines[other] = lines[other], lines[at]
    return lines


@given(st.integers(0, 2**32), st.integers(1, 3))
@settings(deadline=None, max_examples=60)
def test_what_is_pieced_together_can_be_read_back_once_it_is_put_away(seed: int, faults: int) -> None:
    random = Random(seed)
    gone_on = STARTED + timedelta(seconds=900)
    header = Header("20261125-091502-trial", "trial", "A trial", TRIAL, STARTED, went_on=((900.0, gone_on),))
    lines = [header_line(header), *map(entry_line, [*_BEFORE, WentOn(900.0, None, 9.0), *_SINCE], count(1))]
    for _ in range(faults):
        lines = _spoiled(lines, random)
    with TemporaryDirectory() as folder:
        store = Store(Path(folder))
        store.sittings.mkdir()
        path = store.sittings / f"{header.id}.jsonl"
        path.write_bytes(b"".join(lines))
        os.utime(path, (gone_on.timestamp() + 60,) * 2)
        try:
            cut = piece_together(store, header.id)
        except DamagedError:
            return
    kept = KeptSitting(cut.header, cut.log, cut.state)
    back = from_document(json.loads(to_json(to_document(kept))))
    assert (list(back.log), back.header) == (list(cut.log), cut.header)


@pytest.mark.parametrize(
    "kelvin", [-999_900.0, 999_900.0, 1_000_273.1, 1_000_273.2, -1e300, float("inf"), float("nan")]
)
def test_whatever_a_probe_says_its_line_can_be_read_back(kelvin: float) -> None:
    logged = as_logged(Reading(1.0, kelvin))
    assert entry_of(entry_line(logged, 1)) == (logged, 1)
    assert as_logged(logged) == logged
    assert list(decode(encode(Trace([logged])))) == [logged]
