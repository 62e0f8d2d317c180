"""`heatbook plan card`: what hangs by the anvil, with what was learned last time, obeyed in nothing."""

from __future__ import annotations

import re
from html import unescape
from html.parser import HTMLParser
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from plans.reader import SHELF, read_plan_file

if TYPE_CHECKING:
    from tests.tui.conftest import Ask

_EMPTY = ("meta",)


class _Tags(HTMLParser):
    """Whether every tag is closed, in its order."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []

    def handle_starttag(self, tag: str, attrs: object) -> None:  # noqa: ARG002 - as the parser calls it
        if tag not in _EMPTY:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


def test_a_card_has_the_steps_with_the_lessons_that_belong_to_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, ask: Ask
) -> None:
    monkeypatch.setenv("HEATBOOK_HOME", str(tmp_path))
    assert ask("run", "chisel-knife", "--no-screen", input="finish\n").returncode == 0
    lesson = "<script>soak</script> & wait at 1200 degC"
    assert ask("log", "lesson", "add", "last", lesson, "--step", "1", "--for", "kind").returncode == 0
    out = tmp_path / "card.html"
    assert ask("plan", "card", "drawknife", "--out", str(out)).returncode == 0
    assert "stands there already" in ask("plan", "card", "drawknife", "--out", str(out)).stderr
    page = out.read_text(encoding="utf-8")
    tags = _Tags()
    tags.feed(page)
    assert tags.open == []
    assert "@page{size:A5" in page
    assert min(map(float, re.findall(r"([\d.]+)pt", page))) >= 11, "read from a metre off"
    assert "<script" not in page
    assert "default-src 'none'" in page
    steps = page.split('<li class="step">')[1:]
    plan, taught = read_plan_file(SHELF / "drawknife.toml"), read_plan_file(SHELF / "chisel-knife.toml").steps[0].kind
    assert len(steps) == len(plan.steps)
    for number, (step, shown) in enumerate(zip(plan.steps, map(unescape, steps), strict=True), start=1):
        assert f"<b>{number} {step.title}</b>" in shown
        told = "<script>soak</script> & wait at 1200 °C" in re.sub(r"\s+", " ", shown)
        assert told == (step.kind is taught)
        for target in step.targets:
            assert f"{target.fire - 273.15:.0f}" in shown
        if step.keep_above is not None:
            assert f"strike down to {step.keep_above - 273.15:.0f} °C" in shown
