"""What any JupyterLab that the kit starts is told: where settings are read and kept, and which page opens."""

from kit.bootstrap.places import KIT
from kit.coursework import COURSE_FILE, LESSONS

SETTINGS = KIT / "jupyter"
CONTENTS, DESK = "contents.ipynb", "desk.ipynb"


def own_settings(work, runtime):
    """Where JupyterLab reads and keeps things: the kit's settings, a hidden folder in the learner's, and one that goes when it ends."""
    kept = work / ".jupyter"
    return {
        "JUPYTER_CONFIG_PATH": str(SETTINGS),
        "JUPYTER_CONFIG_DIR": str(kept / "config"),
        "JUPYTER_DATA_DIR": str(kept / "data"),
        "JUPYTERLAB_SETTINGS_DIR": str(kept / "settings"),
        "JUPYTERLAB_WORKSPACES_DIR": str(kept / "workspaces"),
        "IPYTHONDIR": str(kept / "ipython"),
        "JUPYTER_RUNTIME_DIR": str(runtime),
    }


def first_page(work, added, lessons=LESSONS):
    """The address to open: of the first lesson, if it was `added` to `work` just now; later, and of a course, of the contents; else of what
    there is, the desk among it."""
    first = None if (lessons / COURSE_FILE).exists() else min((lesson.name for lesson in lessons.glob("[0-9]*.ipynb")), default=None)
    wanted = (*((first, CONTENTS) if first in added else (CONTENTS, first)), DESK)
    found = next((name for name in wanted if name and (work / name).exists()), None)
    return f"/lab/tree/{found}" if found else "/lab"
