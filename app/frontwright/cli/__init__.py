"""The same job without a window: what is asked on the command line.

What cannot be done is one sentence on standard error and exit code 2, with nothing written.
"""

from __future__ import annotations

import argparse
import io
import os
import sys
from collections.abc import Callable, Container, Sequence
from pathlib import Path
from typing import Never

from frontwright import __version__
from frontwright.cli import commands
from frontwright.cli.jobs import Refusal

SAMPLES = ("laundry-pair", "kitchen-run")
LISTS = ("parts", "stock", "pull", "purchases", "costs", "hours", "quote", "rack", "defects", "hardware")


def main(words: Sequence[str] | None = None) -> int:
    """Do what the words of a command line ask for (the program's name not among them). Gives the exit code."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")
    try:
        asked = _asked(list(sys.argv[1:] if words is None else words))
        do: Callable[[argparse.Namespace], int] = asked.do
        code = do(asked)
        sys.stdout.flush()
    except Refusal as refusal:
        print(f"frontwright: {refusal}", file=sys.stderr)
        return commands.REFUSED
    except BrokenPipeError:  # whoever read us has read enough
        _give_up_output()
        return commands.WELL
    except OSError as error:
        _give_up_output()
        print(f"frontwright: it could not be done: {error.strerror or error}.", file=sys.stderr)
        return commands.REFUSED
    return code


def _give_up_output() -> None:
    """Let nothing be left to flush into a pipe or a disk that takes no more."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


class _Parser(argparse.ArgumentParser):
    """Says in one sentence what is wrong, and where help stands."""

    def error(self, message: str) -> Never:
        raise Refusal(f"{message}; {self.prog} --help tells what can be asked.")


def _asked(words: list[str]) -> argparse.Namespace:
    first = _Parser("frontwright", add_help=False, allow_abbrev=False)
    first.add_argument("--shop", type=Path)
    asked, rest = first.parse_known_args(words)
    parser, names = _parser()
    if rest and (rest[0] in names or rest[0].startswith("-")):
        return parser.parse_args(rest, asked)
    if len(rest) > 1:
        raise Refusal(
            f"{rest[0]} is no command, and a window shows one job; frontwright --help tells what can be asked."
        )
    asked.job = Path(rest[0]) if rest else None
    asked.do = commands.window
    return asked


def _parser() -> tuple[_Parser, Container[str]]:
    """The parser of all commands, and their names."""
    parser = _Parser(
        "frontwright",
        allow_abbrev=False,
        usage="frontwright [--shop FILE] [JOB | COMMAND ...]",
        description="The workbook for new doors, drawer fronts and facings on old cabinets. "
        "JOB alone opens the window on it; without JOB the window shows the last one, or the sample. "
        "JOB is a job file (.frontwright) or, for every command, its JSON form.",
        epilog="Exit codes: 0 well; 1 a stop was found or a sheet is held back; 2 it could not be done. "
        "--shop FILE names the shop file, else it is the one in the folder for your data.",
    )
    parser.add_argument("--version", action="version", version=f"frontwright {__version__}")
    added = parser.add_subparsers(metavar="COMMAND", required=True, prog="frontwright")

    def command(name: str, do: Callable[[argparse.Namespace], int], words: str, *paths: str) -> argparse.ArgumentParser:
        one = added.add_parser(name, help=words, description=words, allow_abbrev=False)
        one.set_defaults(do=do)
        for path in paths:
            one.add_argument(path, type=Path, metavar=path.upper())
        return one

    made = command("new", commands.new, "begin a job file, empty or as a copy of a sample", "job")
    made.add_argument("--unit", choices=("in", "mm"), help="the job's unit")
    made.add_argument("--sample", choices=SAMPLES, help="begin with this sample job")
    told = command("figures", commands.figures, "everything derived of a job", "job")
    told.add_argument("--json", action="store_true", help="as frontwright-figures, for other programs")
    checked = command("check", commands.check, "the findings of a job; exit code 1 if there is a stop", "job")
    checked.add_argument("--json", action="store_true", help="for other programs")
    paper = command("sheets", commands.sheets, "the sheets of a job as PDF, one file a kind", "job")
    paper.add_argument("--out", type=Path, required=True, metavar="DIR", help="the folder to put them in")
    paper.add_argument("--only", metavar="KIND,...", help="these kinds alone, for instance door,set-up")
    paper.add_argument("--paper", choices=("a4", "letter"), help="else letter for an inch job, A4 for a mm job")
    command(
        "import",
        commands.import_job,
        "make a job file from a job's JSON form; of a list (.xlsx, .csv) take the parts or pieces into JOB",
        "file",
        "job",
    )
    out = command(
        "export", commands.export_job, "write a job in its JSON form, or its lists (.xlsx, .csv)", "job", "file"
    )
    out.add_argument("--replace", action="store_true", help="also where FILE is there already")
    out.add_argument("--list", choices=LISTS, help="that list alone; else all of them as .xlsx, the parts as .csv")
    entry = command("read", commands.read, "how an entry is understood; - reads one entry a line")
    entry.add_argument("text", metavar="TEXT")
    entry.add_argument("--unit", choices=("in", "mm"), default="in", help="the job's unit (in)")
    entry.add_argument("--json", action="store_true", help="a line of JSON an entry")
    command("selftest", commands.selftest, "open the window unseen, a sample and one sheet, and close")
    cut = command("lay", commands.lay, "lay the parts of layout instances, and write a result file each")
    cut.add_argument("files", type=Path, nargs="+", metavar="FILE", help="an instance in its JSON form")
    cut.add_argument("--out", type=Path, required=True, metavar="DIR", help="the folder to put the results in")
    cut.add_argument("--seconds", type=float, default=10.0, metavar="S", help="for each instance (10)")
    command("bench", commands.bench, "measure how fast things are on this machine")
    return parser, added.choices
