"""Where the files are that come with the program: fonts, icons, tables, samples, manual."""

from pathlib import Path

_PACKAGE = Path(__file__).parent
_HOMES = (_PACKAGE / "_resources", _PACKAGE.parents[1] / "resources")  # as installed; in a checkout


def resource(*parts: str) -> Path:
    """The path of a file or folder that comes with the program.

    `parts` are the names below `resources/`, for instance `resource("fonts", "DejaVuSans.ttf")`.
    Raises FileNotFoundError, naming the parts, when this copy of the program does not have it.
    """
    for home in _HOMES:
        path = home.joinpath(*parts)
        if path.exists():
            return path
    raise FileNotFoundError(f"this copy of the program is not whole: {'/'.join(parts)} is missing from its resources")
