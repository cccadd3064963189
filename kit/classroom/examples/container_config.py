"""Not run by us. A hub that starts a container for each learner, from the image that the Dockerfile beside this file makes.

Needs the packages jupyterhub and dockerspawner, Docker, and a proxy (npm: configurable-http-proxy). Started with: jupyterhub -f container_config.py
"""

c = get_config()
c.JupyterHub.authenticator_class = "pam"  # put the school's own here
c.Authenticator.allow_all = True
c.JupyterHub.spawner_class = "docker"
c.JupyterHub.hub_ip = "0.0.0.0"  # containers must reach the hub
c.JupyterHub.hub_connect_ip = "hub"  # its name in the network below
c.DockerSpawner.image = "twin-vessels"
c.DockerSpawner.network_name = "class"
c.DockerSpawner.remove = True
c.DockerSpawner.volumes = {"work-{username}": "/srv/learner"}  # a learner's folder outlives the container
c.DockerSpawner.mem_limit = "1G"
c.DockerSpawner.cpu_limit = 2.0
c.Spawner.default_url = "/lab/tree/00-your-first-run.ipynb"
c.Spawner.args = ["--MappingKernelManager.cull_idle_timeout=2700", "--ServerApp.shutdown_no_activity_timeout=3600"]
c.Spawner.poll_interval = 5
