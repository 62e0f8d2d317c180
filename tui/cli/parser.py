"""The command line: what can be asked."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    _Commands = argparse._SubParsersAction[argparse.ArgumentParser]

_EPILOG = "Exit status: 0 done, 1 failed with a message on standard error, 2 wrong usage."


class _Version(argparse.Action):
    """Prints the version; looked up only then, since that takes longer than all the rest here."""

    def __call__(self, parser: argparse.ArgumentParser, *_: Any) -> None:
        from importlib.metadata import version

        print(f"heatbook {version('heatbook')}")
        parser.exit()


class _Parser(argparse.ArgumentParser):
    """Refuses what is empty, as of a variable of the shell that is not set: it would be taken for nothing said."""

    def __init__(self, *arguments: Any, **options: Any) -> None:
        super().__init__(*arguments, **options)
        self.register("type", None, _filled)

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
        ("log", "look at what was done; without an action, on the screen", _fill_log),
        ("probe", "look for probes and listen to them", _fill_probe),
        ("reckon", "reckon heat, steel, stock and the work at the bench", _fill_reckon),
    ):
        command = _add(commands, name, name, about)
        if name in words:
            fill(command, words)
    return parser


def _add(commands: _Commands, name: str, module: str, about: str) -> argparse.ArgumentParser:
    parser = commands.add_parser(name, help=about, description=about[0].upper() + about[1:] + ".")
    parser.set_defaults(module=module)
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
    listed = _add(kinds, "list", "plan_list", "the plans at hand")
    words = "those alone that have all these words: in title, steels, steps, or what they are about"
    listed.add_argument("--find", nargs="+", default=[], metavar="WORD", help=words)
    show = _add(kinds, "show", "plan_show", "a whole plan, to read before the fire")
    show.epilog = (
        "Bars and their mass, every step with its sections, heats, limits and times, where the steel goes, what the "
        "plan takes, and what in it does not add up. Times are those of the warm model, in your shop. A plan that was "
        "made tells from which answers, and what in it the maker would have otherwise today."
    )
    show.add_argument("plan", metavar="PLAN", help=named)
    check = _add(kinds, "check", "plan_check", "read a plan file and say what is wrong with it")
    check.add_argument("plan", metavar="PLAN", help="a plan's name, or the path of its file")
    copy = _add(kinds, "copy", "plan_copy", "copy a plan, or a piece of the reckoner, to make it your own")
    copy.add_argument("plan", metavar="PLAN", help=f"{named}; or a piece's name")
    copy.add_argument("file", metavar="FILE", help="where to, a new file that ends in .toml")
    make = _add(kinds, "make", "plan_make", "write a plan from what shall be made")
    make.epilog = (
        "Without --from, on the screen. The answers stand in TOML: `what`, `build`, `length` and so on, as the page on "
        "the keys of a plan has them under [made_from]; a plan that was made is taken as well. What does not add up is "
        "said on standard error; where the work would fail by it, the exit status is 1."
    )
    make.add_argument("--from", dest="answers", metavar="ANSWERS.toml", help="what shall be made")
    make.add_argument("--out", metavar="PLAN.toml", help="where to write the plan (standard output)")
    make.add_argument("--rack", action="store_true", help="take bars of your rack where they will do")
    diff = _add(kinds, "diff", "plan_diff", "what differs between two plans")
    diff.epilog = (
        "Steps are told by title and kind, wherever they stand; figures by what they are, whatever units they are "
        "written in. Exit status: 0 alike, 1 different, 2 one of them can't be read, or wrong usage."
    )
    diff.add_argument("before", metavar="A", help=named)
    diff.add_argument("after", metavar="B", help="likewise")
    for parser in (listed, show, check, make, diff):
        parser.add_argument("--json", action="store_true", help="print one JSON value")


def _fill_log(log: argparse.ArgumentParser, _: Sequence[str]) -> None:
    log.set_defaults(action=None)
    rehearsals = "the rehearsals, which are kept apart"
    log.add_argument("--rehearsals", action="store_true", help=rehearsals)
    kinds = log.add_subparsers(dest="action", metavar="ACTION")
    listed = _add(kinds, "list", "log", "the sittings, the newest first")
    show = _add(kinds, "show", "log", "one sitting: heats, calls, notes")
    show.add_argument("id", metavar="ID", help="a sitting's id, a beginning of it, or `last`")
    learn = _add(kinds, "learn", "log", "what a sitting with a probe on the work tells of your shop")
    learn.epilog = (
        "How fast the skin cooled outside the fire, as factors on what the warm model has by itself, one for the air "
        "and one for contact with the tools; and the skin's hammer time as forecast and as measured. Sittings begun "
        "later go by the factors that were kept in the shop file, and give narrower ranges."
    )
    learn.add_argument("id", metavar="ID", help="a sitting's id, a beginning of it, or `last`")
    learn.add_argument("--keep", action="store_true", help="write the factors into the shop file")
    export = _add(kinds, "export", "log", "write a sitting out")
    export.epilog = (
        "csv: a row a reading, word, phase and call, which `heatbook run PLAN --readings FILE.csv` takes in again. "
        "json: the whole sitting, what `log show --json` prints and events and traces with it. "
        "html: a page with trace, heats, calls, notes and plan, for the screen and for paper."
    )
    export.add_argument("id", metavar="ID", help="a sitting's id, a beginning of it, or `last`")
    export.add_argument("--to", required=True, choices=("csv", "json", "html"), help="in what form")
    export.add_argument("--out", metavar="FILE", help="where to (standard output)")
    lesson = _add(kinds, "lesson", "log_lesson", "lessons: lines for next time, said before such a step comes again")
    outcome = _add(kinds, "outcome", "log_outcome", "what came of a sitting: sound welds, straight, whole, a rating")
    _fill_outcome(outcome)
    compare = _add(kinds, "compare", "log_compare", "sittings beside one another: figures, and traces from a moment on")
    trends = _add(kinds, "trends", "log_trends", "heats, times and sound welds over time; habits and flawed welds")
    _fill_comparing(compare, trends)
    for parser in (listed, show, learn, export, outcome, compare, trends, *_fill_lesson(lesson)):
        # After the action as well; not said there, it is as it was before it.
        parser.add_argument("--rehearsals", action="store_true", default=argparse.SUPPRESS, help=rehearsals)
    for parser in (listed, show, learn, compare, trends):
        parser.add_argument("--json", action="store_true", help="print one JSON value")


def _fill_comparing(compare: argparse.ArgumentParser, trends: argparse.ArgumentParser) -> None:
    compare.epilog = (
        "Steps are the same that have the same title and kind. A star marks what differs from the first sitting by "
        "more than can be told."
    )
    compare.add_argument("ids", nargs="+", metavar="ID", help="two to five: ids, beginnings of them, or `last`")
    compare.add_argument(
        "--from",
        dest="moment",
        choices=("fire", "out", "quench"),
        help="lay the traces of one heat over one another, from when the work went into the fire, came out of it, or "
        "went into the quench",
    )
    compare.add_argument("--step", type=int, metavar="N", help="of which step of the first (the first that has that)")
    compare.add_argument("--heat", type=int, metavar="N", help="of which heat (the first that has that)")
    trends.epilog = (
        "Finished sittings count, and those of which it was said what came of them. Which habits went with flawed "
        "welds is said from ten sittings on whose welds were looked at, see `log outcome`."
    )
    trends.add_argument("--plan", metavar="NAME", help="sittings of this plan alone, by its name")
    trends.add_argument("--kind", metavar="KIND", help="steps of this kind alone, e.g. weld, draw, harden")


def _fill_lesson(lesson: argparse.ArgumentParser) -> list[argparse.ArgumentParser]:
    """The actions on lessons, each with its parser."""
    kinds = lesson.add_subparsers(dest="lesson_action", required=True, metavar="ACTION")
    listed = _add(kinds, "list", "log_lesson", "every lesson: what it belongs to, and in how many sittings it was said")
    listed.add_argument("--plan", metavar="PLAN", help="those alone that this plan's steps will be told, step by step")
    listed.add_argument("--json", action="store_true", help="print one JSON value")
    add = _add(kinds, "add", "log_lesson", "leave a line for next time")
    add.epilog = (
        "`--for step` is said before a step of the same title and kind, in whatever plan; `kind` before every step of "
        "that kind, `steel` before the steps of every plan that starts from that steel, `plan` in this plan and its "
        "copies. --steel with `step` or `kind` narrows those to plans that start from that steel."
    )
    add.add_argument("id", metavar="ID", help="the sitting that taught it: its id, a beginning of it, or `last`")
    add.add_argument("text", metavar="TEXT", help='the line, e.g. "flux sooner, at dull red"')
    add.add_argument("--step", type=int, required=True, metavar="N", help="the step that it was learned at")
    add.add_argument("--for", dest="scope", choices=("step", "kind", "steel", "plan"), default="step")
    add.add_argument("--steel", metavar="STEEL", help="one of the plan's steels")
    named = "a lesson's id as `lesson list` shows it, or last.N for that of the newest sitting"
    edit = _add(kinds, "edit", "log_lesson", "say a lesson in other words")
    edit.add_argument("lesson", metavar="LESSON", help=named)
    edit.add_argument("text", metavar="TEXT", help="the line as it is to be")
    retire = _add(kinds, "retire", "log_lesson", "have a lesson said no longer; it is kept")
    retire.add_argument("lesson", metavar="LESSON", help=named)
    again = _add(kinds, "again", "log_lesson", "have a lesson that was retired said again")
    again.add_argument("lesson", metavar="LESSON", help=named)
    return [listed, add, edit, retire, again]


def _fill_outcome(outcome: argparse.ArgumentParser) -> None:
    outcome.epilog = (
        "Without options it prints what was said. Each option may be given at any time later, as when a weld opens at "
        "the grinder; `unknown` takes it back."
    )
    outcome.add_argument("id", metavar="ID", help="a sitting's id, a beginning of it, or `last`")
    outcome.add_argument(
        "--weld",
        action="append",
        default=[],
        metavar="N=WHAT",
        help="the weld of step N: sound, or delamination, cold-shut, inclusion, burnt, several with a comma between",
    )
    outcome.add_argument("--warp", metavar="LENGTH", help='how far out of straight it came, e.g. "2 mm"; "0 mm"')
    outcome.add_argument("--twist", metavar="DEGREES", help="how far it is out of plane from end to end")
    outcome.add_argument("--cracks", choices=("yes", "no", "unknown"), help="whether there are any")
    outcome.add_argument("--grain", choices=("fine", "medium", "coarse", "unknown"), help="how a broken piece looks")
    outcome.add_argument("--rating", choices=("1", "2", "3", "4", "5", "unknown"), help="5 is best")
    outcome.add_argument("--json", action="store_true", help="print one JSON value")


def _fill_probe(probe: argparse.ArgumentParser, _: Sequence[str]) -> None:
    kinds = probe.add_subparsers(dest="action", required=True, metavar="ACTION")
    listed = _add(kinds, "list", "probe", "ports and profiles")
    watch = _add(kinds, "watch", "probe", "print what a probe says, a line a reading")
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
