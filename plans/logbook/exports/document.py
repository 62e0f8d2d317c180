"""A sitting as one JSON object: all that the logbook keeps of it, with units in the key names.

What `heatbook log show --json` prints stands first, under the same keys, then the rest:

| key | what it holds |
| --- | --- |
| `heatbook_sitting` | version of this form: 1 |
| `id`, `plan`, `title`, `started`, `ended`, `state`, `rehearsal`, `probe` | what the sitting was; times are ISO 8601 |
| `length_seconds` | how long it took, without the breaks in which nobody stood at the work |
| `label` | what the smith has written on it: `title` and `mark`, empty where there is none, and whether it is \
`archived` |
| `steps` | for each step its heats, with their figures; `end` says whether a heat is `done`, was `cut off` in the \
fire, or is `under way` |
| `calls`, `notes` | what was called out, and what the smith left |
| `measured` | what was measured by hand, after which `heat` of which step, 0 before the first; missing where nothing \
was |
| `measured_later` | what was measured since: `found`, each with its `number` and when it was `added` and \
`taken_back`; missing where nothing was |
| `photographs` | the photographs of its work: `kept`, each with its `number`, the `path` that was named, its `step`, \
null for the sitting as a whole, what its file was by `size_bytes` and `sha256`, when it was `added` and `taken_back`, \
and the name of its `copy` beside the log, null where there is none; missing where there are none |
| `checklists` | every item of the checklists of the steps that were come to, and when it was ticked, null where it is \
not; missing where there are none |
| `steel` | what it cost the steel, modelled: carbon and metal lost, how even layers became; each with its range |
| `totals` | its heats all together: time in the fire, at welding heat, struck, struck too cold; reheats; `fuel`, \
and what it cost, where the shop says how much its fire burns |
| `planned_beside_done` | for each step in which a heat was begun what the plan wanted, beside what `steps` does not \
say of what was done; section and length as measured, and the share of the steel that is missing by them, else null |
| `stands_out` | what stands out, the most costly first: `costs` is `spoiled` where steel was damaged, `doubtful` \
where the work may not hold, `wasted` where fire and time went for nothing; `at_seconds` is its moment on the trace |
| `shop` | the smith's own figures that the warm model went by: `cooling_factor` and `contact_factor`, each with its \
standard error, null where that was not known: `cooling_standard_error`, `contact_standard_error` |
| `learned` | how fast the skin cooled outside the fire, as fitted to the probe on it: `cooling_factor` from stays in \
the air, `contact_factor` from those on the anvil; and the skin's hammer time as forecast, with its range, and as \
measured, stay by stay; null where nothing was felt |
| `outcome` | what came of it, as its smith found: `welds` with their `flaws`, none for a sound one, and the rest; \
null where it was not said. Missing where nothing was |
| `lessons` | what was `written` for next time, and what each belongs to; and the ids of those of other sittings that \
were `said` in this one. Missing where there are none |
| `plan_source` | the plan's text as it was followed |
| `seed` | of a rehearsal, else null |
| `went_on` | breaks: when the program was started again, `at_seconds` and the wall `time` that stands for |
| `events` | every word, phase and call; `readings_before` says how many readings came before each |
| `measured_seconds_celsius` | every reading, `[seconds, celsius]`; null where there was no temperature |
| `measured_faults` | why: `at_seconds` and `fault` of each reading that had one |
| `modelled_skin_seconds_celsius`, `modelled_middle_seconds_celsius` | what the warm model had the work at, \
likewise |

Seconds count from the beginning of the sitting, steps and heats from 1. The figures are missing where the log's plan
could not be read.
"""

from __future__ import annotations

import json
from typing import Any

from plans.logbook.document import to_document
from plans.logbook.kept_sitting import KeptSitting
from plans.logbook.reviewing import outline
from plans.trace import Trace
from plans.units import celsius

_VERSION = 1


def to_document_text(kept: KeptSitting) -> str:
    """The sitting as JSON: a key a line at the top, traces on one line each, a newline at the end."""
    lines = []
    for key, value in _document(kept).items():
        text = json.dumps(value, allow_nan=False, indent=None if key.endswith("_seconds_celsius") else 2)
        lines.append(f"  {json.dumps(key)}: " + text.replace("\n", "\n  "))
    return "{\n" + ",\n".join(lines) + "\n}\n"


def _document(kept: KeptSitting) -> dict[str, Any]:
    document = to_document(kept)
    readings = kept.log.readings
    faults = ((at, readings.fault_at(index)) for index, at in enumerate(readings.times))
    return (
        {"heatbook_sitting": _VERSION}
        | outline(kept)
        | {
            "shop": document["shop"],
            "plan_source": kept.header.source,
            "seed": document["seed"],
            "went_on": document["went_on"],
            "events": document["events"],
            "measured_seconds_celsius": _points(readings),
            "measured_faults": [{"at_seconds": at, "fault": fault} for at, fault in faults if fault is not None],
            "modelled_skin_seconds_celsius": _points(kept.skin),
            "modelled_middle_seconds_celsius": _points(kept.middle),
        }
    )


def _points(trace: Trace) -> list[tuple[float, float | None]]:
    return [(reading.at, None if reading.kelvin is None else _tenths(reading.kelvin)) for reading in trace]


def _tenths(kelvin: float) -> float:
    return round(celsius(kelvin), 1)
