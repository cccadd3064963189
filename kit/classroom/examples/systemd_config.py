"""Not run by us. A hub on one Linux server, with a systemd unit for each learner. Started as root: jupyterhub -f systemd_config.py

Needs the packages jupyterhub, jupyterhub-systemdspawner and this kit, all in the Python that runs the hub, and a proxy (npm: configurable-http-proxy).
"""

c = get_config()
c.JupyterHub.authenticator_class = "pam"  # put the school's own here
c.Authenticator.allow_all = True
c.JupyterHub.spawner_class = "systemd"
c.SystemdSpawner.dynamic_users = True  # a user of its own for each learner, made and removed by systemd
c.SystemdSpawner.user_workingdir = "/var/lib/{USERNAME}"
c.SystemdSpawner.mem_limit = "1G"
c.SystemdSpawner.cpu_limit = 2.0
c.SystemdSpawner.isolate_tmp = True
c.SystemdSpawner.isolate_devices = True
c.SystemdSpawner.disable_user_sudo = True
c.Spawner.cmd = ["sh", "-c", 'python -m kit copy --all . && exec jupyterhub-singleuser "$@"', "learner"]
c.Spawner.default_url = "/lab/tree/00-your-first-run.ipynb"
c.Spawner.environment = {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}
c.Spawner.args = ["--MappingKernelManager.cull_idle_timeout=2700", "--ServerApp.shutdown_no_activity_timeout=3600"]
c.Spawner.poll_interval = 5
