"""An open job file with the shop's beside it: opened, given back, and what is in it whatever page is shown."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Self

from frontwright.core.job import Job, Shop
from frontwright.core.lengths import Display, show
from frontwright.core.plan import Plan, derive
from frontwright.desk.edits.edit import Refused
from frontwright.desk.edits.start import NewJob, new_job
from frontwright.desk.rack_desk import RackDesk
from frontwright.desk.shop_desk import ShopDesk
from frontwright.desk.shown import Shown
from frontwright.store import StoreError, create, open_job, open_shop

if TYPE_CHECKING:
    from frontwright.sheets.catalogue import Paper
    from frontwright.store.files import JobFile, ShopFile

_UNITS = {"in": "inches", "mm": "millimetres"}


class SessionError(Exception):
    """A job cannot be opened or begun; the text is one sentence with the way out."""


class OpenJob:
    """The files of an open job, the plan that follows from it, and which step is taken back next."""

    def __init__(self, book: JobFile, shop_file: ShopFile | None = None, shop_problem: str = "") -> None:
        self._book = book
        self._shop = ShopDesk(shop_file, shop_problem)
        self._rack = RackDesk(book, shop_file, shop_problem, now)
        self.rack_problem = self._rack.settle()  # what was cut short and cannot be finished; empty where all is well
        self._shown = Shown()
        self._plan = derive(book.job, self.shop)

    # -- opening and closing

    @classmethod
    def open(cls, path: Path, shop: Path | None = None) -> Self:
        """Open a job file; SessionError, with the file left as it is, where it cannot be."""
        try:
            return cls._with_shop(open_job(path), shop)
        except StoreError as error:
            raise SessionError(str(error)) from error

    @classmethod
    def create(cls, path: Path, job: Job, shop: Path | None = None) -> Self:
        """Make a job file with this job in it and open it; SessionError where it cannot be made."""
        try:
            return cls._with_shop(create(path, job), shop)
        except StoreError as error:
            raise SessionError(str(error)) from error

    @classmethod
    def start(cls, path: Path, form: NewJob, shop: Path | None = None) -> Self:
        """Begin a job from the one form; SessionError names the field that keeps it from being begun."""
        try:
            return cls.create(path, new_job(form), shop)
        except Refused as refused:
            raise SessionError(str(refused)) from refused

    @classmethod
    def _with_shop(cls, book: JobFile, shop: Path | None) -> Self:
        """A shop file that cannot be opened is said and left; the job is whole without it."""
        try:
            return cls(book, open_shop(shop))
        except StoreError as error:
            return cls(book, None, str(error))
        except BaseException:
            book.close()
            raise

    def close(self) -> None:
        """Give both files back; a second time does nothing."""
        self._book.close()
        self._shop.close()

    # -- what is there

    @property
    def path(self) -> Path:
        return self._book.path

    @property
    def job(self) -> Job:
        return self._book.job

    @property
    def plan(self) -> Plan:
        return self._plan

    @property
    def shop(self) -> Shop:
        """The shop's own entries, as its file has them now."""
        return self._shop.shop

    @property
    def shop_problem(self) -> str:
        """Why there is no shop file open; empty where there is one."""
        return self._shop.problem

    @property
    def rack(self) -> RackDesk:
        """The rack of the shop, beside this job."""
        return self._rack

    @property
    def name(self) -> str:
        """What the job is called: by its heading, else by its file."""
        return self.job.heading.name or self.path.stem

    @property
    def display(self) -> Display:
        return self._plan.display

    @property
    def unit_words(self) -> str:
        """ "inches, shown to 1/32"."""
        return f"{_UNITS[self.display.unit]}, shown to {show(self.display.step, self.display)}"

    @property
    def paper(self) -> Paper:
        """Letter for an inch job, A4 otherwise."""
        return "letter" if self.display.unit == "in" else "a4"

    # -- back and forth

    @property
    def undo_name(self) -> str:
        """The step that `undo` takes back, in words; empty if there is none."""
        return self._rack.undo_name if self._on_rack else self._undone().can_undo or ""

    @property
    def redo_name(self) -> str:
        return self._undone().can_redo or ""

    @property
    def _on_rack(self) -> bool:
        """Whether the step to be taken back is one of the rack alone: on its page, where that was the last one."""
        return self._shown.chapter == "rack" and self._rack.undoes_last

    def _undone(self) -> JobFile | ShopFile:
        """The file whose steps are taken back: on the Shop page the shop's, unless the job was edited last."""
        file = self._shop.file
        return file if file is not None and self._shown.chapter == "shop" and self._shop.edited_last else self._book

    def _swapped(self, file: JobFile | ShopFile, *, back: bool) -> str:
        """Take the last step of this file back, or do the next again; what the rack says to it comes back.

        Refused or StoreError where it cannot be.
        """
        if back and self._on_rack:
            return self._rack.undo()
        if file is self._book:
            return self._rack.swap(back=back)
        _ = file.undo() if back else file.redo()
        return ""


def now() -> str:
    """Date and time of day, to the minute, as they are noted."""
    return datetime.now().astimezone().strftime("%Y-%m-%d %H:%M")
