from __future__ import annotations

from typing import Any

from hypothesis import given, strategies as st
from rich.cells import cell_len

from tui.widgets.steps import StepLine, StepList, step_lines

STEPS = st.lists(
    st.builds(
        StepLine,
        st.sampled_from(["Weld", "Draw out the blade", "刃を打つ", "[/x] [b]"]),
        st.integers(0, 9),
        st.integers(1, 9),
    ),
    max_size=20,
)


@given(STEPS, st.integers(0, 20), st.integers(1, 120), st.integers(1, 40), st.booleans(), st.booleans())
def test_lines_fill_their_room(
    steps: list[StepLine], current: int, width: int, height: int, working: bool, blocks: bool
) -> None:
    lines = step_lines(steps, min(current, len(steps)), width, height, working=working, blocks=blocks)
    assert len(lines) == height
    assert {cell_len(text) for text, _ in lines} == {width}


@given(st.integers(1, 40), st.integers(1, 40), st.data())
def test_the_current_step_is_always_there(count: int, height: int, data: st.DataObject) -> None:
    current = data.draw(st.integers(0, count - 1))
    steps = [StepLine(f"step {index}") for index in range(count)]
    lines = step_lines(steps, current, 40, height)
    (text,) = [text for text, state in lines if state == "current"]
    assert f" {current + 1} step {current} " in text
    shown = [text for text, state in lines if state != "empty"]
    assert len(shown) == min(count, height)


def test_each_state_has_a_sign() -> None:
    steps = [StepLine("Stack", 1, 1), StepLine("Weld", 1, 3), StepLine("Draw out", 0, 2), StepLine("Normalize", 0, 3)]
    assert [(text.split(), state) for text, state in step_lines(steps, 1, 30, 5)] == [
        (["√", "1", "Stack", "|"], "done"),
        (["►", "2", "Weld", "|╷·"], "current"),
        (["·", "3", "Draw", "out", "··"], "next"),
        (["4", "Normalize", "···"], "later"),
        ([], "empty"),
    ]
    assert [state for _, state in step_lines(steps, 4, 30, 4)] == ["done"] * 4


def test_narrow_lists_cut_the_title_and_leave_out_the_tally() -> None:
    ((text, _),) = step_lines([StepLine("Draw out the blade", 0, 5)], 0, 14, 1)
    assert text == "► 1 Draw out…" + " "


def test_without_a_heat_under_way_no_stroke_is_begun() -> None:
    ((text, _),) = step_lines([StepLine("Weld", 1, 3)], 0, 30, 1, working=False)
    assert text.endswith(" |··")


async def test_titles_are_no_markup(stage: Any, lines: Any) -> None:
    steps = StepList()
    async with stage(steps, (60, 4)) as pilot:
        steps.show([StepLine("[/x] [T=12] [b]bold\x1b[2J\u202e")], 0, True)
        await pilot.pause()
        assert "► 1 [/x] [T=12] [b]bold[2J " in lines(steps)[0].text
        assert {cell_len(strip.text) for strip in lines(steps)} == {60}
