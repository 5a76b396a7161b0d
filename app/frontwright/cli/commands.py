"""What each command does. Rooms are imported when a command needs them, so that `read` answers at once."""

from __future__ import annotations

import io
import json
import os
import sys
from argparse import Namespace
from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING

from frontwright.cli import jobs
from frontwright.cli.jobs import Refusal

if TYPE_CHECKING:
    from pathlib import Path

    from frontwright.core.findings import Check
    from frontwright.core.lengths import Read, Unit
    from frontwright.core.plan import Plan
    from frontwright.sheets.info import Paper, SheetInfo

WELL, FOUND, REFUSED = 0, 1, 2  # exit codes


def window(asked: Namespace) -> int:
    """The window, on a job or on what was open last."""
    if asked.job is not None:
        jobs.must_be_there(asked.job)
        if jobs.is_json(asked.job):
            raise Refusal(
                f"{asked.job} is a job's JSON form: frontwright import {asked.job} JOB makes a job file of it."
            )
    _must_have_a_screen()
    from frontwright.window.app import run

    with jobs.refusals():
        return run(asked.job, asked.shop)


def _must_have_a_screen() -> None:
    """Qt ends the whole program where a screen is missing; what can be known before is said before."""
    named = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    if sys.platform.startswith("linux") and not any(os.environ.get(name) for name in named):
        raise Refusal(
            "there is no screen to open a window on: use a desktop, or a command such as frontwright figures."
        )


def new(asked: Namespace) -> int:
    """A job file that is not there yet: empty in a unit, or a sample."""
    from frontwright.core.job import Heading, Job

    if asked.sample is None and asked.unit is None:
        raise Refusal("a new job needs --unit in or --unit mm, or --sample NAME.")
    job = jobs.sample(asked.sample) if asked.sample else Job().put(Heading(unit=asked.unit))
    if asked.unit and asked.unit != job.heading.unit:
        raise Refusal(f"the sample {asked.sample} is in {job.heading.unit}: leave --unit {asked.unit} out.")
    jobs.create(asked.job, job)
    return WELL


def figures(asked: Namespace) -> int:
    """Everything derived, for reading or as JSON."""
    plan = _checked(_plan(asked))
    if asked.json:
        from frontwright.exchange.figures_json import figures_json

        print(figures_json(plan, _sentence(plan)), end="")
    else:
        from frontwright.exchange.figures_page import figures_page

        print(figures_page(plan, _sentence(plan)), end="")
    return WELL


def check(asked: Namespace) -> int:
    """The open checks; exit code 1 if one of them is a stop that nobody answered."""
    plan = _checked(_plan(asked))
    if asked.json:
        from frontwright.exchange.figures_json import findings_json

        print(findings_json(plan, _sentence(plan)), end="")
    else:
        from frontwright.exchange.figures_page import findings_page

        print(findings_page(plan.checks, _sentence(plan)))
    return FOUND if any(each.is_open and each.level == "stop" for each in plan.checks) else WELL


def sheets(asked: Namespace) -> int:
    """One PDF a kind of sheet; sheets that a stop holds back are named, exit code 1."""
    plan = _plan(asked)
    infos = _infos(plan, asked.only)
    held = [info for info in infos if info.held]
    paper: Paper = asked.paper or ("letter" if plan.job.heading.unit == "in" else "a4")
    jobs.fill(asked.out, _made(plan, [info for info in infos if not info.held], paper))
    sentence = _sentence(plan)
    for info in held:
        why = " ".join(sentence(each) for each in info.held_by)
        print(f"frontwright: the sheet {info.title} is held back. {why}", file=sys.stderr)
    return FOUND if held else WELL


def import_job(asked: Namespace) -> int:
    """A job file out of the JSON form; or a list of parts or pieces taken into a job that is there."""
    jobs.must_be_there(asked.file)
    if _is_list(asked.file):
        return _list_into(asked)
    jobs.create(asked.job, jobs.job_from(asked.file))
    return WELL


def export_job(asked: Namespace) -> int:
    """The JSON form of a job; or its lists, where the file's name asks for them."""
    from frontwright.exchange.json_form import job_to_json

    if asked.file.exists() and not asked.replace:
        raise Refusal(f"{asked.file} is there already: name another file, or add --replace.")
    if _is_list(asked.file):
        jobs.write(asked.file, _lists(asked))
        return WELL
    if asked.list:
        raise Refusal(f"--list is for a file ending in .xlsx or .csv, which {asked.file} is not.")
    jobs.write(asked.file, job_to_json(jobs.job_at(asked.job)).encode())
    return WELL


def _is_list(path: Path) -> bool:
    from frontwright.desk.lists import LIST_FILES

    return path.suffix.lower() in LIST_FILES


def _lists(asked: Namespace) -> bytes:
    """The lists of a job, reckoned with its own pieces; with the rack of a shop file where one is named."""
    from frontwright.core.plan import billed_whole
    from frontwright.desk.edits.edit import Refused
    from frontwright.desk.lists import list_bytes, tables

    jobs.must_be_there(asked.job)
    try:
        if asked.shop is not None and not jobs.is_json(asked.job):
            with jobs.opened(asked.job, asked.shop) as session:
                return session.lists.content(asked.file.name, asked.list or "")
        plan = _plan(asked)
        found = tables(plan, billed_whole(plan), plan.job.pieces.values())
        return list_bytes(asked.file.name, found, asked.list or "")
    except Refused as refused:
        raise Refusal(str(refused)) from refused


def _list_into(asked: Namespace) -> int:
    """One step of the job, or nothing."""
    jobs.must_be_there(asked.job)
    with jobs.opened(asked.job, asked.shop) as session:
        outcome = session.lists.take_in(asked.file)
    if outcome.problem:
        raise Refusal(outcome.problem)
    print(outcome.said)
    return WELL


def read(asked: Namespace) -> int:
    """How entries are understood, a line each."""
    from frontwright.core.lengths import read as understood

    for text in _entries() if asked.text == "-" else [asked.text]:
        entry = understood(text, asked.unit)
        print(_entry_json(entry, asked.unit) if asked.json else _entry_line(entry, asked.unit))
    return WELL


def selftest(_asked: Namespace) -> int:
    """Whether this copy of the program can do its work on this machine."""
    from frontwright.window.app import selftest

    return selftest()


def lay(asked: Namespace) -> int:
    """A result file an instance, and a line about it; exit code 1 where parts found no place."""
    from time import monotonic

    from frontwright.cutting import BadOrder, missing_sentences
    from frontwright.cutting import lay as laid
    from frontwright.cutting.bench_file import BadInstance, Instance, read, result

    if not 0 < asked.seconds < float("inf"):
        raise Refusal(f"--seconds is {asked.seconds}: give the seconds for each instance, above 0.")
    told: list[Instance] = []
    for path in asked.files:
        jobs.must_be_there(path)
        with jobs.reading(path):
            try:
                told.append(read(path))
            except BadInstance as error:
                raise Refusal(str(error)) from error
    code = WELL
    for one in told:
        began = monotonic()
        try:
            plan = laid(one.order, asked.seconds)
        except BadOrder as error:
            raise Refusal(f"{one.name}: {error}") from error
        seconds = monotonic() - began
        jobs.fill(asked.out, {f"{one.name}.json": result(one.name, plan, seconds).encode()})
        bound = "" if plan.bound is None else f", none can do better than {plan.bound}"
        print(f"{one.name}: {plan.cost}{bound}; {len(plan.layouts)} layouts, {seconds:.1f} s", flush=True)
        if not plan.whole and one.order.wish != "most value":
            code = FOUND
            for sentence in missing_sentences(one.order, plan):
                print(f"frontwright: {one.name}: part {sentence}", file=sys.stderr)
    return code


def bench(_asked: Namespace) -> int:
    """The table of timings."""
    from frontwright.bench import table

    for line in table():
        print(line, flush=True)
    return WELL


def _checked(plan: Plan) -> Plan:
    """With what is found of sheets that were printed; they are only looked at where there are any."""
    if not plan.job.printed:
        return plan
    from frontwright.desk.sheets_list import checked

    return checked(plan)


def _plan(asked: Namespace) -> Plan:
    from frontwright.core.plan import derive

    return derive(jobs.job_at(asked.job), jobs.shop_at(asked.shop) if asked.shop else None)


def _sentence(plan: Plan) -> Callable[[Check], str]:
    from frontwright.desk.wording.checks import sentence

    return lambda each: sentence(each, plan.display)


def _entries() -> Iterable[str]:
    return (line.rstrip("\r\n") for line in io.TextIOWrapper(sys.stdin.buffer, "utf-8-sig", "replace"))


def _entry_json(entry: Read, unit: Unit) -> str:
    from frontwright.core.lengths import exact_text

    value = None if entry.exact is None else exact_text(entry.exact, unit)
    told = {"text": entry.text, "value": value, "shown": _shown(entry, unit)}
    return json.dumps(told | {"doubt": entry.doubt, "problem": entry.problem}, ensure_ascii=False)


def _entry_line(entry: Read, unit: Unit) -> str:
    if entry.value is None:
        return f"{entry.text}: {entry.problem or 'nothing is typed.'}"
    return f"{entry.text} = {_shown(entry, unit)}" + (f"; {entry.doubt}" if entry.doubt else "")


def _shown(entry: Read, unit: Unit) -> str | None:
    from frontwright.core.lengths import IN_SIXTYFOURTHS, IN_TENTH_MM, both_units

    if entry.value is None:
        return None
    return both_units(entry.value, IN_SIXTYFOURTHS if unit == "in" else IN_TENTH_MM)


def _infos(plan: Plan, only: str | None) -> list[SheetInfo]:
    """The sheets asked for; refuses a kind that there is not."""
    from frontwright.sheets.catalogue import KINDS, sheets_of

    words = [kind.word for kind in KINDS]
    wanted = words if only is None else only.split(",")
    unknown = [word for word in wanted if word not in words]
    if unknown:
        raise Refusal(f"there is no kind of sheet {unknown[0]!r}: the kinds are {', '.join(words)}.")
    return [info for info in sheets_of(plan) if info.kind in wanted]


def _made(plan: Plan, infos: list[SheetInfo], paper: Paper) -> dict[str, bytes]:
    """Name of each file, and what is in it."""
    from datetime import datetime

    from frontwright.sheets.catalogue import make
    from frontwright.sheets.info import Stamp

    stamp = Stamp(printed=datetime.now().astimezone().strftime("%Y-%m-%d %H:%M"))
    of_kind: dict[str, list[SheetInfo]] = {}
    for info in infos:
        of_kind.setdefault(f"{info.file_word}.pdf", []).append(info)
    return {name: make(plan, each, paper, stamp) for name, each in of_kind.items()}
