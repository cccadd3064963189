"""What the hub is started with. `get_config` is given to this file by JupyterHub."""

import os
from pathlib import Path

from kit.classroom.hub import configure
from kit.classroom.place import ClassPlace, VARIABLE
from kit.classroom.running import listening

place = ClassPlace(Path(os.environ[VARIABLE]))
configure(get_config(), place, listening(place))
