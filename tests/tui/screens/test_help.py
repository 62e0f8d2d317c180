"""The help: what stands on the screen is explained there."""

from __future__ import annotations

import pytest

from plans.reading import ProbeOn
from plans.sitting.hands import Hands, HandsFree
from tui.live.showing import hands_line
from tui.screens.help import help_text


@pytest.mark.parametrize("probe_on", [None, *ProbeOn])
@pytest.mark.parametrize("free", list(HandsFree))
def test_whatever_is_said_of_what_happens_by_itself_is_explained(free: HandsFree, probe_on: ProbeOn | None) -> None:
    text = help_text(None, {}, "heatbook.toml").plain
    assert f"  {hands_line(Hands(free, 20.0), probe_on)}: " in text
