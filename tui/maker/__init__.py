"""The maker: from a blade in mind to a plan, and from a plan to a changed one."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from tui.maker.opening import open_maker as open_maker
else:
    __getattr__ = hand_on(__name__)
