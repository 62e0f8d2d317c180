"""Every name that a front lists is there and loaded only when it is asked for; and nobody goes round the front."""

from __future__ import annotations

import ast
import pkgutil
import subprocess
import sys
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path
from types import ModuleType

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


def entered(module: str) -> str | None:
    """The innermost package with a front that a module lies in; the modules right in plans and tui have none."""
    package = module
    while package and package not in (*FRONTS, "devices"):
        package = package.rpartition(".")[0]
    return package or None


def imported(path: Path) -> Iterator[tuple[int, str]]:
    """Each module of ours that a file imports something from, with the line."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if (
            isinstance(node, ast.ImportFrom)
            and node.module
            and node.module.split(".")[0] in ("plans", "devices", "tui")
        ):
            yield node.lineno, node.module


@pytest.mark.parametrize("root", [plans, devices, tui], ids=lambda root: root.__name__)
def test_who_stands_outside_a_package_imports_its_front(root: ModuleType) -> None:
    wrong = []
    for path in Path(root.__path__[0]).rglob("*.py"):
        here = ".".join((root.__name__, *path.relative_to(root.__path__[0]).parent.parts))
        for line, module in imported(path):
            package = entered(module)
            if package not in (None, module) and not f"{here}.".startswith(f"{package}."):
                wrong.append(f"{path}:{line} imports {module}, not {package}")
    assert wrong == []
