"""The table of actions."""

from __future__ import annotations

import pytest
from textual.binding import Binding

from tui.actions import ACTIONS, BY_ID, Action, Place, bindings, clashes, keys_of, of, shown_key
from tui.app import HeatbookApp
from tui.comparing.screen import ComparingScreen
from tui.comparing.trends import TrendsScreen
from tui.live.finished import FinishedScreen
from tui.live.screen import LiveScreen
from tui.maker.screen import MakerScreen
from tui.reckoner.screen import ReckonerScreen
from tui.review.screen import ReviewScreen
from tui.screens.log import LogScreen
from tui.shelf.screen import ShelfScreen
from tui.taught.screen import TaughtScreen

OWNERS = {
    Place.ANYWHERE: HeatbookApp,
    Place.SITTING: LiveScreen,
    Place.FINISHED: FinishedScreen,
    Place.SHELF: ShelfScreen,
    Place.LOG: LogScreen,
    Place.REVIEW: ReviewScreen,
    Place.COMPARING: ComparingScreen,
    Place.TRENDS: TrendsScreen,
    Place.TAUGHT: TaughtScreen,
    Place.RECKONER: ReckonerScreen,
    Place.MAKER: MakerScreen,
}


def test_no_two_actions_of_a_screen_share_a_key() -> None:
    assert list(clashes({})) == []
    assert len(BY_ID) == len(ACTIONS)


def test_a_key_means_one_thing_on_every_screen() -> None:
    for key in {key for action in ACTIONS for key in keys_of(action, {})}:
        sharing = [action for action in ACTIONS if key in keys_of(action, {})]
        if len(sharing) > 1:
            assert len({action.meaning or action.id for action in sharing}) == 1, (key, [one.id for one in sharing])


@pytest.mark.parametrize("action", ACTIONS, ids=lambda action: action.id)
def test_every_action_can_be_done_and_says_what_it_does(action: Action) -> None:
    assert hasattr(OWNERS[action.place], f"action_{action.method}")
    assert action.help


def test_nothing_needs_a_control_chord() -> None:
    assert not any("ctrl" in action.key or action.key in ("f3", "ctrl+z") for action in ACTIONS)


def test_keys_are_shown_as_a_person_calls_them() -> None:
    assert shown_key(BY_ID["help"], {}) == "?"
    assert shown_key(BY_ID["next"], {"next": "enter,space"}) == "enter"
    assert {action.place for action in of(Place.SHELF)} == {Place.SHELF}


def test_what_is_bound_before_the_table_is_read_is_as_in_the_table() -> None:
    bound = [binding for binding in HeatbookApp.BINDINGS if isinstance(binding, Binding) and binding.id]
    assert bound == bindings(Place.ANYWHERE)
