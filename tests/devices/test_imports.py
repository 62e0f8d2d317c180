"""What is slow to load waits until a port is asked for."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest


@pytest.mark.parametrize(
    "module", ["link", "watch", "finder", "profile_reader", "recording", "voice", "pedal", "pedal_line"]
)
def test_no_module_loads_pyserial_or_pint(module: str) -> None:
    code = f"import devices.{module}, sys; print(sorted({{'serial', 'pint', 'tinydb', 'textual'}} & set(sys.modules)))"
    root = Path(__file__).parents[2]
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=root, check=True)
    assert done.stdout.strip() == "[]"
