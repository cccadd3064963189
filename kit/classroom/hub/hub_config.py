"""What the hub is started with. `get_config` is given to this file by JupyterHub."""

import os
from pathlib import Path

from kit.classroom.hub.hub import configure
from kit.classroom.hub.running import listening
from kit.classroom.place import ClassPlace, VARIABLE

place = ClassPlace(Path(os.environ[VARIABLE]))
configure(get_config(), place, listening(place))
