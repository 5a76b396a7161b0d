"""What can go wrong with a file, said in one sentence for the person whose file it is."""


class StoreError(Exception):
    """A job or shop file cannot be opened, made or written; `str()` is one plain sentence with the way out."""
