"""The job file and the shop file.

What they stand on is imported when the first file is opened: a program that opens none does not wait for it.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from frontwright.core.job import Job, Shop
from frontwright.store.errors import StoreError
from frontwright.store.places import shop_path

if TYPE_CHECKING:
    from frontwright.store.files import JobFile, ShopFile

__all__ = ["StoreError", "create", "open_job", "open_shop", "shop_path"]


def create(path: Path, job: Job) -> JobFile:
    """Make a job file with this job in it and open it; StoreError if it cannot be made there."""
    from frontwright.store.files import JobFile

    return JobFile.create(path, job)


def open_job(path: Path) -> JobFile:
    """Open a job file; StoreError, with the file left as it is, if that cannot be done."""
    from frontwright.store.files import JobFile

    return JobFile.open(path)


def open_shop(path: Path | None = None, first: Shop | None = None) -> ShopFile:
    """Open the shop file, that of whoever runs the program unless `path` names one.

    One that is not there is made, with `first` in it. StoreError if it cannot be made or opened.
    """
    from frontwright.store.files import ShopFile

    place = shop_path() if path is None else path
    if place.exists():
        return ShopFile.open(place)
    if path is None:
        try:
            place.parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise StoreError(
                f"The folder {place.parent} for the shop file cannot be made: {error.strerror}."
            ) from error
    return ShopFile.create(place, first or Shop())
