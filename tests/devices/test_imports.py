"""What is slow to load waits until it is asked for."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest


def loaded_by(module: str) -> set[str]:
    """The names of all modules that are loaded once this one of `devices` is."""
    code = f"import devices.{module}, sys; print(*sys.modules)"
    root = Path(__file__).parents[2]
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=root, check=True)
    return set(done.stdout.split())


@pytest.mark.parametrize(
    "module", ["link", "watch", "finder", "profile_reader", "recording", "voice", "pedal", "pedal_line"]
)
def test_no_module_loads_pyserial_or_pint(module: str) -> None:
    assert not loaded_by(module) & {"serial", "pint", "tinydb", "textual"}


@pytest.mark.parametrize("module", ["recording", "pedal_line", "voice", "rehearsal.rehearsal"])
def test_no_module_loads_the_engine_or_the_warm_model(module: str) -> None:
    loaded = loaded_by(module)
    assert any(name.startswith("plans.sitting.") for name in loaded)
    assert not {name for name in loaded if name.startswith(("plans.sitting.engine", "plans.warmth", "plans.reader"))}
