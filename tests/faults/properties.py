"""Every property that the suite tries with a few examples, tried with many and with others each time."""

from __future__ import annotations

import subprocess
import sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.faults.row import Row

_ROOT = Path(__file__).parents[2]


def properties() -> Row:
    """Run them in pytest, with the profile `thorough` of `tests/conftest.py`; a case is a property.

    Raises:
        RuntimeError: pytest found no tests, or could not begin.
    """
    with TemporaryDirectory() as folder:
        report = Path(folder) / "report.xml"
        done = subprocess.run(
            [
                *(sys.executable, "-m", "pytest", "-m", "hypothesis"),
                *("--hypothesis-profile", "thorough", "--junitxml", str(report)),
            ],
            cwd=_ROOT,
            capture_output=True,
            text=True,
            check=False,
        )
        if done.returncode not in (0, 1):
            raise RuntimeError(done.stdout + done.stderr)
        cases = list(ElementTree.parse(report).iter("testcase"))
    failed = [
        f"{case.get('classname')}.{case.get('name')}: {_first_line(found)}"
        for case in cases
        for found in case
        if found.tag in ("failure", "error")
    ]
    return Row("properties, each with up to 500 examples", len(cases), tuple(failed))


def _first_line(found: ElementTree.Element) -> str:
    return (found.get("message") or "").partition("\n")[0]
