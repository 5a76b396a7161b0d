"""A copy of an open job at another place: another job file, or its JSON form."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from frontwright.desk.contents import Outcome
from frontwright.desk.whole_files import write_whole
from frontwright.store import StoreError

if TYPE_CHECKING:
    from frontwright.store.files import JobFile


def copied(book: JobFile, path: Path) -> Outcome:
    """Write the job to a place, by its name as JSON or else as a job file; the outcome says where, or why not."""
    try:
        if path.suffix.lower() == ".json":
            from frontwright.exchange.json_form import job_to_json

            write_whole(path, job_to_json(book.job).encode())
        else:
            book.copy_to(path)
    except StoreError as error:
        return Outcome(problem=str(error))
    except OSError as error:
        return Outcome(problem=f"{path} cannot be written: {error.strerror or error}; choose another place.")
    return Outcome(said=f"A copy is in {path}")
