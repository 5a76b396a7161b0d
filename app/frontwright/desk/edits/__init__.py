"""What an edit does: a name and a pure function from job to job, one module a chapter.

`entry.entered` makes the edit of any cell from its key; the functions of the chapters make all others. A figure that
can be read is never replaced by text that cannot: then `Refused` says why, and the desk keeps the text as a draft.
"""

from frontwright.desk.edits.edit import Change, Edit, Refused

__all__ = ["Change", "Edit", "Refused"]
