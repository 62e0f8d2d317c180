"""Every name that a front lists is there, and nothing is loaded before it is asked for."""

from __future__ import annotations

import pkgutil
import subprocess
import sys
from importlib import import_module

import pytest

import devices
import plans
import tui
from plans.front import names_of

FRONTS = sorted(
    module.name
    for root in (plans, devices, tui)
    for module in pkgutil.walk_packages(root.__path__, f"{root.__name__}.")
    if module.ispkg
)


@pytest.mark.parametrize("package", FRONTS)
def test_what_a_front_lists_is_there_under_its_own_name(package: str) -> None:
    front = import_module(package)
    inside = {module.name for module in pkgutil.iter_modules(front.__path__)}
    for name, module in names_of(package).items():
        assert getattr(front, name) is getattr(import_module(module), name)
        assert name not in inside, "a module of that name would hide it"


def test_a_name_that_is_not_listed_is_told() -> None:
    with pytest.raises(AttributeError, match=r"'plans\.sitting' has no attribute 'Nothing'"):
        import_module("plans.sitting").Nothing  # noqa: B018


def test_a_front_loads_only_what_is_asked_for() -> None:
    program = "import sys; from plans.sitting import Hands; print('plans.sitting.engine' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"
