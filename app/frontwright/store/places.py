"""Where the shop file stands when nobody says so."""

from __future__ import annotations

import os
import sys
from pathlib import Path


def user_data() -> Path:
    """The platform's folder for what a person's programs keep, ours below it; it may not be there yet."""
    home = Path.home()
    if sys.platform == "win32":
        base = Path(os.environ.get("LOCALAPPDATA") or home / "AppData" / "Local")
    elif sys.platform == "darwin":
        base = home / "Library" / "Application Support"
    else:
        said = Path(os.environ.get("XDG_DATA_HOME", ""))
        base = said if said.is_absolute() else home / ".local" / "share"
    return base / "frontwright"


def shop_path() -> Path:
    """The shop file of whoever runs the program."""
    return user_data() / "shop.frontwright-shop"
