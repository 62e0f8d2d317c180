"""The review: one sitting that was kept, looked at."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from tui.review.screen import open_review as open_review
else:
    __getattr__ = hand_on(__name__)
