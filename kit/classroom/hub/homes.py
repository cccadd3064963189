"""What each learner finds: a folder of their own with the lessons in it, and the page that opens."""

import os

from kit.bootstrap.places import open_course
from kit.classroom.tickets import read_tickets
from kit.coursework import add_missing_lessons, LESSONS
from kit.jupyter import first_page, LEARNER, own_settings

OF_JUPYTERLAB = {"JUPYTERLAB_SETTINGS_DIR": "--LabApp.user_settings_dir", "JUPYTERLAB_WORKSPACES_DIR": "--LabApp.workspaces_dir"}


def prepare(spawner, place, settings):
    """Make the learner's folder ready and tell the server about it. `settings`: folders of Jupyter settings, the first before the others."""
    home, lessons = place.home(spawner.user.name), open_course() or LESSONS
    home.mkdir(mode=0o700, exist_ok=True)
    added = add_missing_lessons(home, lessons)
    own = own_settings(home, home / ".jupyter" / "runtime") | {"JUPYTER_CONFIG_PATH": os.pathsep.join(map(str, settings))}
    name = read_tickets(place).names.get(spawner.user.name, "")
    spawner.notebook_dir = str(home)
    spawner.default_url = first_page(home, added, lessons)
    spawner.environment = {**spawner.environment, **own, LEARNER: name}
    # Said as arguments, too: JupyterLab reads these two from the environment when it is imported, and that may be before a learner is known.
    said = [f"{option}={own[variable]}" for variable, option in OF_JUPYTERLAB.items()]
    spawner.args = [each for each in spawner.args if not each.startswith(tuple(OF_JUPYTERLAB.values()))] + said
