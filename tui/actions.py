"""Every action that a key can say, in one table: it feeds the keys, each screen's foot, the help and the palette."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from enum import StrEnum
from typing import TYPE_CHECKING, Final

from plans.record import record

if TYPE_CHECKING:
    from textual.binding import BindingType


class Place(StrEnum):
    """The screen that an action belongs to."""

    ANYWHERE = "anywhere"
    SHELF = "shelf"
    SITTING = "sitting"
    FINISHED = "finished"
    LOG = "log"
    REVIEW = "review"
    COMPARING = "comparing"
    TRENDS = "trends"
    TAUGHT = "taught"
    RECKONER = "reckoner"
    MAKER = "maker"


class Meaning(StrEnum):
    """What a key stands for wherever it is known, so that a hand that has learned one screen knows the others."""

    AHEAD = "go ahead: the next thing, or the chosen one"
    LEAVE = "leave, or back to where you came from"
    BACK = "take the last thing back"
    AGAIN = "what was taken back was right"
    NOTE = "leave a line for the log"
    MEASURED = "what was measured by hand"
    ONCE_MORE = "once more: a heat, or a step"
    WHY = "what a figure stands on"
    WRITE = "write a plan: begin one, or put it in its file"
    BY_HAND = "change a plan by hand"
    SEARCH = "look for something as you type"
    TAKE_OUT = "take the chosen one out"
    KEPT = "what sittings left: the log, and the lessons in it"
    KEEP_FACTOR = "keep what was learned of the shop"
    TRENDS = "how figures go over time"
    TO_LEFT = "the reading line to the left"
    TO_RIGHT = "the reading line to the right"
    BEFORE = "what comes before this one: a stretch of the curve, a heat, a kind of step"
    AFTER = "what comes after this one"
    MORE = "more of it: faster, closer"
    LESS = "less of it: slower, from further off"


@record
class Action:
    """Something that a key, the palette or a click at the foot of a screen can ask for."""

    id: str
    """How the configuration calls it; never changes."""
    key: str
    """Default key, as Textual calls it."""
    short: str
    """For the foot of the screen."""
    help: str
    """What it does, in a sentence without a full stop, for the help and the palette."""
    place: Place
    """The screen that it belongs to."""
    at_foot: bool = True
    """Whether its key stands at the foot of that screen."""
    meaning: Meaning | None = None
    """What its key stands for on every screen that knows it; None where no other screen does."""
    at_once: bool = False
    """Whether it is obeyed before the next key is looked at, which may go elsewhere for it."""

    @property
    def method(self) -> str:
        """The action's name in the program: the last part of its id."""
        return self.id.rpartition(".")[2].replace("-", "_")


ACTIONS: Final[tuple[Action, ...]] = (
    Action("help", "question_mark", "help", "every key, and what it does", Place.ANYWHERE),
    Action("palette", "colon", "all actions", "look for an action by its name", Place.ANYWHERE, False),
    # The smith's word stands first; its text at the foot is what it means just now.
    Action("next", "space", "", "the next thing: in the fire, out, struck, done", Place.SITTING, meaning=Meaning.AHEAD),
    Action("in", "i", "it is in", "the work is in the fire, whatever the clock says", Place.SITTING),
    Action("out", "o", "it is out", "the work is out of the fire, whatever the clock says", Place.SITTING),
    Action("flux", "x", "flux, look", "out to flux, brush or look, and back into the same heat", Place.SITTING),
    Action(
        "undo", "u", "undo", "take the last word back, as if it had not been said", Place.SITTING, meaning=Meaning.BACK
    ),
    Action("redo", "y", "redo", "the word that was taken back was right", Place.SITTING, meaning=Meaning.AGAIN),
    Action("earlier", "e", "earlier", "what the last word says was so ten seconds earlier", Place.SITTING),
    Action("note", "n", "note", "leave a line for the log", Place.SITTING, meaning=Meaning.NOTE),
    Action(
        "measured",
        "equals_sign",
        "measured",
        "what you measured: sides, length, weight, hardness",
        Place.SITTING,
        meaning=Meaning.MEASURED,
    ),
    Action(
        "step-sheet", "c", "checklist", "this step's instruction, checklist to be ticked, and cautions", Place.SITTING
    ),
    Action(
        "lessons",
        "l",
        "lessons",
        "what earlier sittings taught of this step, in whatever plan",
        Place.SITTING,
        meaning=Meaning.KEPT,
    ),
    Action("far", "f", "far view", "what is read from afar, over the whole screen", Place.SITTING),
    Action("mute", "m", "mute", "bell and voice off, or on again", Place.SITTING),
    Action("talk", "v", "talk", "how much is said aloud: all, normal, few, nothing", Place.SITTING, False),
    Action("pause", "p", "pause", "stand still, or go on after a pause", Place.SITTING),
    Action(
        "repeat",
        "r",
        "one heat more",
        "one heat more of this step than was planned",
        Place.SITTING,
        False,
        Meaning.ONCE_MORE,
    ),
    Action(
        "keep-heats",
        "w",
        "write heats",
        "write the heats that were done or asked for into a copy of the plan",
        Place.SITTING,
        False,
        meaning=Meaning.WRITE,
    ),
    Action("on", "s", "next step", "this step is reached: on to the next one", Place.SITTING, False),
    Action("back", "b", "back", "begin the phase before this one again", Place.SITTING, False),
    Action("faster", "plus", "faster", "a rehearsal twice as fast", Place.SITTING, False, Meaning.MORE),
    Action("slower", "minus", "slower", "a rehearsal half as fast", Place.SITTING, False, Meaning.LESS),
    Action(
        "leave", "q", "leave", "leave the sitting: to go on later, or finished", Place.SITTING, meaning=Meaning.LEAVE
    ),
    Action(
        "finished.review",
        "space",
        "what was done",
        "the whole sitting, heat by heat",
        Place.FINISHED,
        meaning=Meaning.AHEAD,
    ),
    Action("finished.note", "n", "note", "leave a line for the log", Place.FINISHED, meaning=Meaning.NOTE),
    Action(
        "finished.lessons",
        "l",
        "outcome, lessons",
        "what came of it, and what shall be said next time",
        Place.FINISHED,
        meaning=Meaning.KEPT,
    ),
    Action(
        "finished.measured",
        "equals_sign",
        "measured",
        "what you measured: sides, length, weight, hardness",
        Place.FINISHED,
        meaning=Meaning.MEASURED,
    ),
    Action("finished.undo", "u", "undo", "not finished yet: back to the sitting", Place.FINISHED, meaning=Meaning.BACK),
    Action("finished.leave", "q", "leave", "put the log away and leave", Place.FINISHED, meaning=Meaning.LEAVE),
    Action(
        "shelf.begin",
        "enter,space",
        "begin",
        "begin the chosen plan, or go on with the chosen sitting",
        Place.SHELF,
        meaning=Meaning.AHEAD,
    ),
    Action("shelf.rehearse", "t", "rehearse", "try the chosen plan out on a simulated forge", Place.SHELF),
    Action("shelf.log", "l", "log", "the sittings that were kept", Place.SHELF, meaning=Meaning.KEPT),
    Action(
        "shelf.search",
        "slash",
        "search",
        "find plans as you type: by title, steel, or what a step does",
        Place.SHELF,
        meaning=Meaning.SEARCH,
        at_once=True,
    ),
    Action("shelf.make", "w", "new plan", "write a plan for what shall be made", Place.SHELF, meaning=Meaning.WRITE),
    Action(
        "shelf.reckoner",
        "k",
        "reckoner",
        "work it out: cooling, soaks, steels, carbon, tempers, colours",
        Place.SHELF,
    ),
    Action(
        "shelf.change",
        "h",
        "change",
        "change the chosen plan; of one that ships with heatbook, a copy",
        Place.SHELF,
        meaning=Meaning.BY_HAND,
    ),
    Action("shelf.leave", "q", "leave", "leave heatbook", Place.SHELF, meaning=Meaning.LEAVE),
    Action("shelf.pedal", "d", "pedal", "learn the key that your pedal sends, by pressing it", Place.SHELF),
    Action("log.open", "enter,space", "open", "what was done in the chosen sitting", Place.LOG, meaning=Meaning.AHEAD),
    Action("log.go-on", "g", "go on", "go on with the chosen sitting, if it is unfinished", Place.LOG),
    Action(
        "log.search",
        "slash",
        "search",
        "find sittings as you type: by words, steel, date, or a figure",
        Place.LOG,
        meaning=Meaning.SEARCH,
        at_once=True,
    ),
    Action(
        "log.beside",
        "B",
        "beside",
        "have the chosen sitting among those that are compared, up to five, or no longer",
        Place.LOG,
    ),
    Action("log.compare", "V", "compare", "the sittings that were put beside one another", Place.LOG),
    Action(
        "log.trends",
        "T",
        "trends",
        "how figures go over all sittings of the chosen one's plan",
        Place.LOG,
        False,
        Meaning.TRENDS,
    ),
    Action("log.rename", "N", "name", "give the chosen sitting a title of its own", Place.LOG),
    Action("log.mark", "M", "mark", "put a word on the chosen sitting, by which it is found again", Place.LOG, False),
    Action(
        "log.archive", "A", "archive", "leave the chosen sitting out of the list, or have it in again", Place.LOG, False
    ),
    Action(
        "log.delete",
        "delete",
        "delete",
        "delete the chosen sitting; until heatbook is left, undo brings it back",
        Place.LOG,
        meaning=Meaning.TAKE_OUT,
    ),
    Action(
        "log.taught",
        "S",
        "your shop",
        "what all sittings together teach of your shop, and what of it counts",
        Place.LOG,
    ),
    Action(
        "log.undo", "u", "undo", "take back what was done to a sitting in this list", Place.LOG, meaning=Meaning.BACK
    ),
    Action("log.leave", "q", "back", "back to where you came from", Place.LOG, meaning=Meaning.LEAVE),
    Action(
        "review.zoom",
        "enter",
        "closer",
        "what is chosen over the whole curve, or the whole sitting again",
        Place.REVIEW,
        meaning=Meaning.AHEAD,
    ),
    Action(
        "review.undo",
        "u",
        "undo",
        "take back what was measured or photographed last",
        Place.REVIEW,
        meaning=Meaning.BACK,
    ),
    Action("review.earlier", "left", "earlier", "the reading line to the left", Place.REVIEW, False, Meaning.TO_LEFT),
    Action("review.later", "right", "later", "the reading line to the right", Place.REVIEW, False, Meaning.TO_RIGHT),
    Action("review.zoom-in", "plus", "closer", "half as long a stretch of it", Place.REVIEW, False, Meaning.MORE),
    Action("review.zoom-out", "minus", "wider", "twice as long a stretch", Place.REVIEW, False, Meaning.LESS),
    Action(
        "review.before",
        "comma",
        "before",
        "the stretch of the curve before this one",
        Place.REVIEW,
        False,
        Meaning.BEFORE,
    ),
    Action(
        "review.after",
        "full_stop",
        "after",
        "the stretch of the curve after this one",
        Place.REVIEW,
        False,
        Meaning.AFTER,
    ),
    Action(
        "review.lessons",
        "l",
        "lessons",
        "what came of it, and what shall be said next time",
        Place.REVIEW,
        meaning=Meaning.KEPT,
    ),
    Action(
        "review.measured",
        "equals_sign",
        "measured",
        "what you measured since, of the step that you look at",
        Place.REVIEW,
        meaning=Meaning.MEASURED,
    ),
    Action(
        "review.photograph",
        "I",
        "photo",
        "an image of the step that you look at: a photograph by its file's name, or copied beside the log",
        Place.REVIEW,
    ),
    Action(
        "review.keep-factor",
        "a",
        "keep",
        "keep the factors that this sitting taught for those that come, in the shop file",
        Place.REVIEW,
        meaning=Meaning.KEEP_FACTOR,
    ),
    Action(
        "review.keep-heats",
        "w",
        "write heats",
        "write the heats that were done into a copy of the plan",
        Place.REVIEW,
        meaning=Meaning.WRITE,
    ),
    Action(
        "review.copy", "C", "copy", "copy the chosen line, for another program; over ssh as well", Place.REVIEW, False
    ),
    Action("review.leave", "q", "back", "back to where you came from", Place.REVIEW, meaning=Meaning.LEAVE),
    Action(
        "comparing.moment",
        "F",
        "from when",
        "lay the traces over one another from another moment: in the fire, out of it, into the quench",
        Place.COMPARING,
    ),
    Action(
        "comparing.before", "comma", "heat before", "the heat before this one", Place.COMPARING, False, Meaning.BEFORE
    ),
    Action(
        "comparing.after", "full_stop", "heat after", "the heat after this one", Place.COMPARING, False, Meaning.AFTER
    ),
    Action(
        "comparing.earlier", "left", "earlier", "the reading line to the left", Place.COMPARING, False, Meaning.TO_LEFT
    ),
    Action(
        "comparing.later", "right", "later", "the reading line to the right", Place.COMPARING, False, Meaning.TO_RIGHT
    ),
    Action(
        "comparing.trends",
        "T",
        "trends",
        "how figures go over all sittings that have such steps",
        Place.COMPARING,
        meaning=Meaning.TRENDS,
    ),
    Action(
        "comparing.open",
        "enter",
        "the sitting",
        "what was done in the sitting that the list stands on",
        Place.COMPARING,
        meaning=Meaning.AHEAD,
    ),
    Action("comparing.leave", "q", "back", "back to where you came from", Place.COMPARING, meaning=Meaning.LEAVE),
    Action(
        "trends.open",
        "enter",
        "the sitting",
        "what was done in the chosen sitting, or the newest of those put together",
        Place.TRENDS,
        meaning=Meaning.AHEAD,
    ),
    Action(
        "trends.before",
        "comma",
        "kind before",
        "steps of the kind before this one",
        Place.TRENDS,
        False,
        Meaning.BEFORE,
    ),
    Action(
        "trends.after",
        "full_stop",
        "kind after",
        "steps of the kind after this one",
        Place.TRENDS,
        False,
        Meaning.AFTER,
    ),
    Action("trends.plans", "P", "all plans", "the sittings of all plans, or of the one plan again", Place.TRENDS),
    Action("trends.leave", "q", "back", "back to where you came from", Place.TRENDS, meaning=Meaning.LEAVE),
    Action(
        "taught.keep",
        "a",
        "keep",
        "keep the chosen factor for sittings that come, in the shop file",
        Place.TAUGHT,
        meaning=Meaning.KEEP_FACTOR,
    ),
    Action(
        "taught.forget",
        "delete",
        "forget",
        "have what was taught of the chosen row until now count no more, or again",
        Place.TAUGHT,
        meaning=Meaning.TAKE_OUT,
    ),
    Action("taught.undo", "u", "undo", "take back what was kept or forgotten last", Place.TAUGHT, meaning=Meaning.BACK),
    Action("taught.leave", "q", "back", "back to where you came from", Place.TAUGHT, meaning=Meaning.LEAVE),
    Action(
        "reckoner.further",
        "pagedown",
        "basis, sources",
        "what the answer stands on, then further down there",
        Place.RECKONER,
        meaning=Meaning.WHY,
    ),
    Action("reckoner.nearer", "pageup", "nearer", "further up there, then the answer again", Place.RECKONER, False),
    Action(
        "reckoner.leave",
        "escape,q",
        "back",
        "to the row of questions, then out of the reckoner",
        Place.RECKONER,
        meaning=Meaning.LEAVE,
    ),
    Action(
        "maker.write",
        "w",
        "write it down",
        "put the plan in its file, in your own folder, so that it stands on the shelf",
        Place.MAKER,
        meaning=Meaning.WRITE,
    ),
    Action(
        "maker.why", "pagedown", "why", "where a figure comes from, and what it means", Place.MAKER, meaning=Meaning.WHY
    ),
    Action(
        "maker.doubts", "exclamation_mark", "doubts", "to what does not add up; enter leads to its answer", Place.MAKER
    ),
    Action(
        "maker.by-hand",
        "h",
        "by hand",
        "to the steps of the plan, to change them",
        Place.MAKER,
        meaning=Meaning.BY_HAND,
    ),
    Action("maker.add", "j", "add a step", "a step more, below the chosen one", Place.MAKER),
    Action("maker.repeat", "r", "once more", "the chosen step once more", Place.MAKER, meaning=Meaning.ONCE_MORE),
    Action("maker.split", "z", "in two", "the chosen step in two, after some of its heats", Place.MAKER),
    Action("maker.raise", "less_than_sign", "up", "the chosen step one place up", Place.MAKER),
    Action("maker.lower", "greater_than_sign", "down", "the chosen step one place down", Place.MAKER),
    Action(
        "maker.take-out",
        "delete",
        "take out",
        "take the chosen step or bar out of the plan",
        Place.MAKER,
        meaning=Meaning.TAKE_OUT,
    ),
    Action("maker.undo", "u", "undo", "take the last change of the plan back", Place.MAKER, meaning=Meaning.BACK),
    Action("maker.redo", "y", "redo", "the change that was taken back was right", Place.MAKER, meaning=Meaning.AGAIN),
    Action(
        "maker.leave",
        "escape,q",
        "back",
        "to the row at the top, then out; what is not written down is asked about",
        Place.MAKER,
        meaning=Meaning.LEAVE,
    ),
)

BY_ID: Final = {action.id: action for action in ACTIONS}


def of(place: Place) -> tuple[Action, ...]:
    """The actions of a screen, in the order of the table."""
    return tuple(action for action in ACTIONS if action.place is place)


def bindings(place: Place) -> list[BindingType]:
    """The keys of a screen; they carry the action's id, by which the configuration moves them."""
    # Whoever only reads the settings need not wait for Textual.
    from textual.binding import Binding

    return [
        Binding(action.key, action.method, action.help, show=False, priority=action.at_once, id=action.id)
        for action in of(place)
    ]


def before_the_focus(keys: Mapping[str, str]) -> list[BindingType]:
    """Keys that move about on a screen, each with the action that it runs, obeyed before the next key is looked at.

    Left to the widget that has the focus, they would be obeyed when it comes to them, and what is typed fast would go
    where the focus still is. They stand in no configuration.
    """
    from textual.binding import Binding

    return [Binding(key, action, show=False, priority=True) for key, action in keys.items()]


def first_key(action: Action, keys: Mapping[str, str]) -> str:
    """The first of the keys that say an action, as Textual calls it; see `keys_of`."""
    return keys.get(action.id, action.key).split(",")[0].strip()


_SHOWN_KEYS: Final = {
    "question_mark": "?",
    "colon": ":",
    "plus": "+",
    "minus": "-",
    "left": "←",
    "right": "→",
    "escape": "esc",
    "pagedown": "pgdn",
    "pageup": "pgup",
    "full_stop": ".",
    "comma": ",",
    "slash": "/",
    "equals_sign": "=",
    "exclamation_mark": "!",
    "less_than_sign": "<",
    "greater_than_sign": ">",
    "delete": "del",
}


def keys_of(action: Action, keys: Mapping[str, str]) -> set[str]:
    """The keys that say an action, as Textual calls them, `keys` being those that the configuration moved."""
    return {key.strip() for key in keys.get(action.id, action.key).split(",")}


def shown_key(action: Action, keys: Mapping[str, str]) -> str:
    """The action's key as a person calls it, `keys` being those that the configuration moved."""
    first = first_key(action, keys)
    return _SHOWN_KEYS.get(first, first)


def clashes(keys: Mapping[str, str]) -> Iterable[tuple[Action, Action, str]]:
    """Pairs of actions that would share a key on one screen, and the key."""
    for index, one in enumerate(ACTIONS):
        for other in ACTIONS[index + 1 :]:
            if one.place is other.place or Place.ANYWHERE in (one.place, other.place):
                shared = keys_of(one, keys) & keys_of(other, keys)
                if shared:
                    yield one, other, sorted(shared)[0]
