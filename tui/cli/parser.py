"""The command line: what can be asked."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import Any

from tui.cli.adding import added
from tui.cli.log_parser import fill_log

_EPILOG = "Exit status: 0 done, 1 failed with a message on standard error, 2 wrong usage."


class _Version(argparse.Action):
    """Prints the version; looked up only then, since that takes longer than all the rest here."""

    def __call__(self, parser: argparse.ArgumentParser, *_: Any) -> None:
        from importlib.metadata import version

        print(f"heatbook {version('heatbook')}")
        parser.exit()


class _Parser(argparse.ArgumentParser):
    """Refuses what is empty, as of a variable of the shell that is not set: it would be taken for nothing said.

    A word that may be left out may stand behind options as well: `log measured last --step 2 "w 31.5"`.
    """

    def __init__(self, *arguments: Any, **options: Any) -> None:
        super().__init__(*arguments, **options)
        self.register("type", None, _filled)
        self._is_mixing = False

    def parse_known_args(self, args: Any = None, namespace: Any = None) -> Any:
        """As any parser does, which takes such a word for left out as soon as an option stands before it."""
        words = self._get_positional_actions()
        if self._is_mixing or len(words) < 2 or words[-1].nargs != "?" or {"-h", "--help"} & set(args or ()):
            return super().parse_known_args(args, namespace)
        self._is_mixing = True  # what mixes them comes back here for each of its two rounds
        try:
            return self.parse_known_intermixed_args(args, namespace)
        finally:
            self._is_mixing = False

    def add_subparsers(self, **options: Any) -> Any:
        """As any parser does; the words that a command is given are looked at by its own parser."""
        commands = super().add_subparsers(**options)
        commands.type = str
        return commands


def _filled(text: str) -> str:
    if not text.strip():
        raise argparse.ArgumentTypeError("it is empty; give what it stands for, or leave it out")
    return text


def build_parser(words: Sequence[str] = ()) -> argparse.ArgumentParser:
    """Make the parser of the whole command line; what it finds says in `module` which of tui.cli.commands answers.

    Args:
        words: what was typed; the options of a command are only made if it is among them
    """
    parser = _Parser(
        prog="heatbook",
        description="Stands beside the forge: leads you through a plan heat by heat, times it, and keeps the log. "
        "Without a command: the shelf of plans.",
        epilog=_EPILOG,
    )
    parser.add_argument("--version", action=_Version, nargs=0, help="print the version")
    parser.set_defaults(module="shelf")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
    for name, about, fill in (
        ("demo", "rehearse with a simulated forge and smith", _fill_demo),
        ("run", "follow a plan", _fill_run),
        ("plan", "look at plans", _fill_plan),
        ("log", "look at what was done; without an action, on the screen", fill_log),
        ("probe", "look for probes and listen to them", _fill_probe),
        ("reckon", "reckon heat, steel, stock and the work at the bench", _fill_reckon),
    ):
        command = added(commands, name, name, about)
        if name in words:
            fill(command, words)
    return parser


def _fill_demo(demo: argparse.ArgumentParser, _: Sequence[str]) -> None:
    demo.add_argument("--plan", default="drawknife", metavar="PLAN", help="the plan to follow (drawknife)")
    demo.add_argument(
        "--speed",
        type=_above_zero,
        metavar="N",
        help="seconds of rehearsal in one second (10 on the screen; unattended, as fast as it can)",
    )
    demo.add_argument("--seed", type=int, default=1, metavar="N", help="the same seed gives the same rehearsal (1)")
    demo.add_argument("--unattended", action="store_true", help="no keys and no screen: print the summary and end")
    demo.add_argument("--json", action="store_true", help="with --unattended: print what `log show --json` would")


def _fill_run(run: argparse.ArgumentParser, _: Sequence[str]) -> None:
    run.add_argument("plan", nargs="?", metavar="PLAN", help="a plan's name, or the path of its file")
    run.add_argument("--go-on", metavar="ID", help="go on with an unfinished sitting instead (`last`: the newest)")
    run.add_argument("--port", metavar="PORT", help="where the probe is plugged in, see `probe list`")
    run.add_argument("--probe", metavar="PROFILE", help="how the probe talks (bare-celsius)")
    run.add_argument("--probe-on", choices=("work", "fire"), help="where the probe sits (work)")
    run.add_argument(
        "--hands-free",
        choices=("all", "thermal", "never"),
        help="what may end a phase by itself: all that a probe on the work feels, only the skin coming to heat, or "
        "nothing (all, or as the settings have it)",
    )
    run.add_argument("--aloud", action="store_true", help="with --no-screen: speak the calls as well")
    run.add_argument("--no-screen", action="store_true", help="words on standard input, calls on standard output")
    run.add_argument(
        "--readings",
        metavar="FILE.csv",
        help="take a recording (columns seconds,celsius or fahrenheit[,word]) instead of a port",
    )
    run.add_argument("--json", action="store_true", help="without a screen: one JSON object a line")


def _fill_plan(plan: argparse.ArgumentParser, _: Sequence[str]) -> None:
    kinds = plan.add_subparsers(dest="action", required=True, metavar="ACTION")
    named = "a plan's name, the path of its file, or log:ID for the plan that a sitting was run by"
    listed = added(kinds, "list", "plan_list", "the plans at hand")
    words = "those alone that have all these words: in title, steels, steps, or what they are about"
    listed.add_argument("--find", nargs="+", default=[], metavar="WORD", help=words)
    show = added(kinds, "show", "plan_show", "a whole plan, to read before the fire")
    show.epilog = (
        "Bars and their mass, every step with its sections, heats, limits and times, where the steel goes, what the "
        "plan takes, and what in it does not add up. Times are those of the warm model, in your shop. A plan that was "
        "made tells from which answers, and what in it the maker would have otherwise today."
    )
    show.add_argument("plan", metavar="PLAN", help=named)
    card = added(kinds, "card", "plan_card", "a card to print on A5, with the lessons that belong to its steps")
    card.add_argument("plan", metavar="PLAN", help=named)
    card.add_argument("--out", metavar="CARD.html", help="where to write it (standard output)")
    check = added(kinds, "check", "plan_check", "read a plan file and say what is wrong with it")
    check.add_argument("plan", metavar="PLAN", help="a plan's name, or the path of its file")
    copy = added(kinds, "copy", "plan_copy", "copy a plan, or a piece of the reckoner, to make it your own")
    copy.add_argument("plan", metavar="PLAN", help=f"{named}; or a piece's name")
    copy.add_argument("file", metavar="FILE", help="where to, a new file that ends in .toml")
    make = added(kinds, "make", "plan_make", "write a plan from what shall be made")
    make.epilog = (
        "Without --from, on the screen. The answers stand in TOML: `what`, `build`, `length` and so on, as the page on "
        "the keys of a plan has them under [made_from]; a plan that was made is taken as well. What does not add up is "
        "said on standard error; where the work would fail by it, the exit status is 1."
    )
    make.add_argument("--from", dest="answers", metavar="ANSWERS.toml", help="what shall be made")
    make.add_argument("--out", metavar="PLAN.toml", help="where to write the plan (standard output)")
    make.add_argument("--rack", action="store_true", help="take bars of your rack where they will do")
    diff = added(kinds, "diff", "plan_diff", "what differs between two plans")
    diff.epilog = (
        "Steps are told by title and kind, wherever they stand; figures by what they are, whatever units they are "
        "written in. Exit status: 0 alike, 1 different, 2 one of them can't be read, or wrong usage."
    )
    diff.add_argument("before", metavar="A", help=named)
    diff.add_argument("after", metavar="B", help="likewise")
    for parser in (listed, show, check, make, diff):
        parser.add_argument("--json", action="store_true", help="print one JSON value")


def _fill_probe(probe: argparse.ArgumentParser, _: Sequence[str]) -> None:
    kinds = probe.add_subparsers(dest="action", required=True, metavar="ACTION")
    listed = added(kinds, "list", "probe", "ports and profiles")
    watch = added(kinds, "watch", "probe", "print what a probe says, a line a reading")
    watch.add_argument("--port", metavar="PORT", required=True, help="where it is plugged in")
    watch.add_argument("--probe", metavar="PROFILE", default="bare-celsius", help="how it talks (bare-celsius)")
    listed.add_argument("--json", action="store_true", help="print one JSON value")
    watch.add_argument("--json", action="store_true", help="one JSON object a line")


def _fill_reckon(reckon: argparse.ArgumentParser, words: Sequence[str]) -> None:
    reckon.set_defaults(reckoning=None)
    if not words[1:]:  # the screen asks itself
        return
    from plans.units import Units
    from tui.cli.reckon_options import add_questions
    from tui.config import units_set

    # The examples are seen in help alone.
    add_questions(reckon, units_set() if {"-h", "--help"} & set(words) else Units.METRIC, words[1:])


def _above_zero(text: str) -> float:
    try:
        number = float(text)
    except ValueError:
        number = 0.0
    if not 0 < number < 1e6:
        raise argparse.ArgumentTypeError("must be a number above zero and below a million")
    return number
