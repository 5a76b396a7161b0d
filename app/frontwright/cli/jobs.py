"""Jobs in and files out; what cannot be done is a `Refusal` with a sentence, and leaves everything as it was."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from frontwright.core.job import Job, Shop
    from frontwright.desk.session import Session


class Refusal(Exception):
    """What was asked cannot be done; `str()` is the sentence for whoever asked."""


def job_at(path: Path) -> Job:
    """The job of a job file or of a JSON form; a file that is neither is refused in the store's words."""
    must_be_there(path)
    if is_json(path):
        return job_from(path)
    with refusals():
        from frontwright.store import open_job

        with open_job(path) as file:
            return file.job


def shop_at(path: Path) -> Shop:
    """The shop of a shop file that is there."""
    must_be_there(path)
    with refusals():
        from frontwright.store import open_shop

        with open_shop(path) as file:
            return file.shop


@contextmanager
def opened(path: Path, shop: Path | None) -> Iterator[Session]:
    """A job file open for a step, its shop beside it; what stands in the way is refused."""
    from frontwright.desk.session import Session, SessionError

    if is_json(path):
        raise Refusal(f"{path} is a job's JSON form: frontwright import {path} JOB makes a job file of it.")
    try:
        session = Session.open(path, shop)
    except SessionError as error:
        raise Refusal(str(error)) from error
    try:
        yield session
    finally:
        session.close()


def is_json(path: Path) -> bool:
    """Whether a file says that it is a job in its JSON form, by its name or by how it begins."""
    with reading(path), path.open("rb") as file:
        head = file.read(256)
    return path.suffix.lower() == ".json" or head.removeprefix(b"\xef\xbb\xbf").lstrip()[:1] in (b"{", b"[")


def job_from(path: Path) -> Job:
    """The job of a JSON form."""
    from frontwright.exchange.json_form import MOST_BYTES, BadJobText, job_from_json

    with reading(path):
        if path.stat().st_size > MOST_BYTES:
            raise Refusal(f"{path} is larger than 20 MB, too much for one job: divide it into several jobs.")
        content = path.read_bytes()
    try:
        return job_from_json(content.decode("utf-8-sig"))
    except UnicodeDecodeError as error:
        raise Refusal(
            f"{path} is not text in UTF-8, so it is no job in its JSON form: export the job again."
        ) from error
    except BadJobText as error:
        raise Refusal(f"{path}: {error}") from error


def sample(name: str) -> Job:
    """A sample job that comes with the program."""
    from frontwright.resources import resource

    return job_from(resource("samples", f"{name}.json"))


def create(path: Path, job: Job) -> None:
    """A new job file."""
    with refusals():
        from frontwright.store import create

        create(path, job).close()


def write(path: Path, content: bytes) -> None:
    """A file whole, or not at all."""
    from frontwright.desk.whole_files import write_whole

    try:
        write_whole(path, content)
    except OSError as error:
        raise Refusal(f"{path} cannot be written: {_why(error)}.") from error


def fill(folder: Path, files: dict[str, bytes]) -> None:
    """A folder, made where it is not there yet, with these files put into it."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise Refusal(f"the folder {folder} cannot be made: {_why(error)}.") from error
    if not os.access(folder, os.W_OK):
        raise Refusal(f"the folder {folder} may not be written to: name another with --out.")
    for name, content in files.items():
        write(folder / name, content)


def must_be_there(path: Path) -> None:
    """Refuses a folder and what is not there."""
    if path.is_dir():
        raise Refusal(f"{path} is a folder: name a file in it.")
    if not path.exists():
        raise Refusal(f"there is no file {path}: see how it is spelled, or begin a job with frontwright new.")


@contextmanager
def refusals() -> Iterator[None]:
    """What the store refuses, refused."""
    from frontwright.store.errors import StoreError

    try:
        yield
    except StoreError as error:
        raise Refusal(str(error)) from error


@contextmanager
def reading(path: Path) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        raise Refusal(f"{path} cannot be read: {_why(error)}.") from error


def _why(error: OSError) -> str:
    return error.strerror or str(error)
