"""How the hub is set: everything is said here, nothing is taken from the computer's own settings of JupyterHub."""

import sys
from pathlib import Path

from kit.bootstrap.handover import ONE_THREAD
from kit.bootstrap.places import COURSE
from kit.classroom.hub.homes import prepare
from kit.classroom.hub.line import WaitingLine
from kit.classroom.hub.signing_in import TicketAuthenticator
from kit.classroom.place import VARIABLE
from kit.classroom.servers import use
from kit.jupyter import SETTINGS

PAGES, OWN_SETTINGS = Path(__file__).with_name("pages"), Path(__file__).with_name("settings")
HALF_A_DAY, IDLE_MIN, LAST_MIN = 0.5, 45, 60
PASSED_ON = ("PATH", "LANG", "LC_ALL", "TZ", "PYTHONPATH", COURSE)


def configure(c, place, listens):
    """Set the traitlets config `c` for the class in `place`. `listens`: address, port, the hub's and the proxy's own ports, and whether folders are
    kept `apart`."""
    line = WaitingLine()
    set_ways_in(c, place, listens)
    set_servers(c, place, line)
    if listens["apart"] and (reason := use(c, place)):
        raise SystemExit(reason)  # it was asked before: rather no class than one without the walls that its page promises
    c.JupyterHub.template_paths = [str(PAGES)]
    # Asked anew for each page, with its user. Not the method itself: a config copies what it is given, and with a method its line.
    c.JupyterHub.template_vars = {"ahead": lambda user: line.before(user)}
    c.JupyterHub.log_level = "WARN"
    c.JupyterHub.log_format = "%(asctime)s %(levelname)s %(message)s"


def set_ways_in(c, place, listens):
    """The proxy, who may in, and for how long."""
    keys = place.keys()
    c.JupyterHub.bind_url = f"http://{listens['address']}:{listens['port']}"
    c.JupyterHub.hub_port = listens["hub"]
    c.JupyterHub.db_url = f"sqlite:///{place.state / 'hub.sqlite'}"
    c.JupyterHub.cookie_secret_file = str(place.state / "cookie_secret")
    c.JupyterHub.cookie_max_age_days = HALF_A_DAY
    c.JupyterHub.authenticator_class = TicketAuthenticator
    c.TicketAuthenticator.folder = str(place.root)
    c.Authenticator.allow_all = True  # whoever holds no ticket gets no name
    c.Authenticator.auth_refresh_age = 30
    c.Authenticator.refresh_pre_spawn = True
    c.ConfigurableHTTPProxy.should_start = False  # a hub that is started again would end the proxy, and with it every learner's connection
    c.ConfigurableHTTPProxy.api_url = f"http://127.0.0.1:{listens['proxy']}"
    c.ConfigurableHTTPProxy.auth_token = keys["proxy"]
    c.JupyterHub.services = [{"name": "teacher", "api_token": keys["teacher"]}]
    scopes = ["list:users", "admin:users", "admin:servers", "proxy"]
    c.JupyterHub.load_roles = [{"name": "teacher", "scopes": scopes, "services": ["teacher"]}]


def set_servers(c, place, line):
    """One server each. A hub that ends leaves them running, and finds them again."""
    settings = (OWN_SETTINGS, SETTINGS)

    async def ready(spawner):
        prepare(spawner, place, settings)
        await line.turn(spawner)

    c.JupyterHub.spawner_class = "kit.classroom.servers.starting.PortSpawner"
    c.SimpleLocalProcessSpawner.home_dir_template = str(place.homes / "{username}")
    c.Spawner.cmd = [sys.executable, "-m", "jupyterhub.singleuser"]
    c.Spawner.pre_spawn_hook = ready
    c.Spawner.env_keep = [*PASSED_ON, VARIABLE]
    c.Spawner.environment = {**ONE_THREAD, "PYTHONNOUSERSITE": "1", "PLOTLY_RENDERER": "plotly_mimetype"}
    c.Spawner.args = [
        f"--LabApp.extra_labextensions_path={SETTINGS / 'labextensions'}",
        f"--MappingKernelManager.cull_idle_timeout={IDLE_MIN * 60}",
        f"--ServerApp.shutdown_no_activity_timeout={LAST_MIN * 60}",
    ]
    c.Spawner.start_timeout = c.Spawner.http_timeout = 180
    c.Spawner.poll_interval = 5  # a server that ended itself is known as ended when its learner comes back
    c.JupyterHub.concurrent_spawn_limit = c.JupyterHub.active_server_limit = 0  # the line does that, and refuses nobody
    c.JupyterHub.cleanup_servers = False
    c.JupyterHub.implicit_spawn_seconds = 0.1
    c.JupyterHub.tornado_settings = {"slow_spawn_timeout": 0, "cookie_options": {"samesite": "Lax"}}
