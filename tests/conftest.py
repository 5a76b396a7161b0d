"""What every test stands on: no screen, a home of its own, the same luck every time."""

import os
from pathlib import Path

import pytest
from hypothesis import settings

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

# No deadline: how long an example takes says more about what else the machine does. On the build machine the
# examples are the same at each run, so that a change is judged by itself; elsewhere they differ and find more.
settings.register_profile("frontwright", deadline=None, print_blob=True, derandomize="CI" in os.environ)
settings.load_profile("frontwright")

_FOLDERS = {
    "HOME": "home",
    "USERPROFILE": "home",
    "APPDATA": "home/AppData/Roaming",
    "LOCALAPPDATA": "home/AppData/Local",
    "XDG_DATA_HOME": "home/.local/share",
    "XDG_CONFIG_HOME": "home/.config",
    "XDG_CACHE_HOME": "home/.cache",
    "XDG_STATE_HOME": "home/.local/state",
    "XDG_RUNTIME_DIR": "run",
}


@pytest.fixture(autouse=True)
def own_home(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A home folder for this test alone, so that no test meets the shop file or the jobs of whoever runs it."""
    base = tmp_path_factory.mktemp("person")
    for name, place in _FOLDERS.items():
        folder = base / place
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        monkeypatch.setenv(name, str(folder))
    return base / "home"
