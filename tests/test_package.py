"""What is built is what stands in the tree, and it runs where it is installed."""

from __future__ import annotations

import fcntl
import json
import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
PACKAGES = ("tui", "devices", "plans")
PLAN = Path(__file__).with_name("oven.toml")


@pytest.fixture(scope="session")
def wheel(shared: Path) -> Path:
    """A wheel, built from the source archive as an index would have it; once, whichever process comes first."""
    folder = shared / "wheel"
    with (shared / "wheel.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not list(folder.glob("built/*.whl")):
            _build(folder / "tree", folder / "built")
    return next(folder.glob("built/*.whl"))


def _build(tree: Path, out: Path) -> None:
    files = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT,
        check=True,
        capture_output=True,
        text=True,
    ).stdout.split("\0")
    for name in filter(None, files):
        if (ROOT / name).is_file():
            (tree / name).parent.mkdir(parents=True, exist_ok=True)
            (tree / name).write_bytes((ROOT / name).read_bytes())
    done = subprocess.run(
        [sys.executable, "-m", "build", "--no-isolation", "--outdir", str(out), str(tree)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_the_wheel_holds_every_file_of_the_packages_and_nothing_else(wheel: Path) -> None:
    built = {name for name in zipfile.ZipFile(wheel).namelist() if ".dist-info/" not in name}
    tree = {
        str(path.relative_to(ROOT))
        for package in PACKAGES
        for path in (ROOT / package).rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }
    assert built == tree


def test_installed_elsewhere_it_rehearses(wheel: Path, tmp_path: Path) -> None:
    target = tmp_path / "elsewhere"
    subprocess.run(
        [
            sys.executable,
            "-m",
            "pip",
            "install",
            "--quiet",
            "--no-deps",
            "--no-compile",
            "--target",
            str(target),
            str(wheel),
        ],
        check=True,
    )
    environment = os.environ | {"PYTHONPATH": str(target), "HEATBOOK_HOME": str(tmp_path / "home")}
    plan = tmp_path / "plan.toml"
    plan.write_text(PLAN.read_text())
    where = subprocess.run(
        [sys.executable, "-c", "import tui, devices, plans; print(tui.__file__, devices.__file__, plans.__file__)"],
        env=environment,
        cwd=tmp_path,
        check=True,
        capture_output=True,
        text=True,
    ).stdout.split()
    assert all(Path(file).is_relative_to(target) for file in where)
    done = subprocess.run(
        [sys.executable, str(target / "bin" / "heatbook"), "demo", "--unattended", "--plan", str(plan), "--json"],
        env=environment,
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout)["state"] == "finished"
