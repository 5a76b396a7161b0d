"""How a job comes into the window: its file, its form as text, a form just filled in, or the sample."""

from __future__ import annotations

from pathlib import Path

from frontwright.desk import recent
from frontwright.desk.edits.start import NewJob
from frontwright.desk.session import Session, SessionError

SAMPLE = "laundry-pair"


def open_session(path: Path, shop: Path | None) -> Session:
    """Open a job file. A job as text (JSON) is laid down as a job file of its own, which is opened.

    SessionError, with one sentence, where it cannot be.
    """
    if path.suffix.lower() != ".json":
        return Session.open(path, shop)
    from frontwright.exchange.json_form import BadJobText, job_from_json

    try:
        job = job_from_json(path.read_text("utf-8"))
        return Session.create(recent.free_path(recent.jobs_folder(), path.stem), job, shop)
    except BadJobText as error:
        raise SessionError(f"{path.name}: {error}") from error
    except (OSError, UnicodeDecodeError) as error:
        raise SessionError(f"{path.name} cannot be read: choose a job file or a job as text (.json).") from error


def start_session(form: NewJob, shop: Path | None) -> Session:
    """Make the file of a new job in the person's folder of jobs. SessionError where it cannot be."""
    return Session.start(_free(form.name or "new job"), form, shop)


def sample_job() -> Path:
    """The sample job as a file in the person's folder of jobs. SessionError where it cannot be laid down there."""
    from frontwright.store import StoreError

    try:
        return recent.sample(SAMPLE, recent.jobs_folder())
    except (OSError, StoreError) as error:
        raise SessionError(f"The sample job cannot be laid down ({error}): start a job of your own.") from error


def _free(name: str) -> Path:
    folder = recent.jobs_folder()
    try:
        return recent.free_path(folder, name)
    except OSError as error:
        raise SessionError(f"No job can be kept in {folder} ({error.strerror}).") from error
