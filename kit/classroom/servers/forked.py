"""Servers and kernels forked and fenced, for the hub's configuration and the command that starts it: `use`, or why not."""

from pathlib import Path

from kit.classroom.servers.calls import missing_filter
from kit.classroom.servers.fence import missing_fence, readable_by_all


def use(c, place):
    """Set JupyterHub's config `c` so that servers and kernels are forked from one preloaded process and fenced, each into its own folder.

    `place` says where the class is kept: `place.state`, where learners must not look, and `place.homes`. None where that is in force from
    now on, with the process starting; else a sentence: why this computer can't keep learners' folders apart, and `c` is as it was.
    """
    reason = why_together(place)
    if reason:
        return reason
    from kit.classroom.servers.asking import begin  # here, for these need Linux and JupyterHub
    from kit.classroom.servers.spawning import ForkedSpawner

    c.JupyterHub.spawner_class = ForkedSpawner
    c.ForkedSpawner.state_folder = str(place.state)
    begin(str(place.state))
    return None


def why_together(place):
    """None where learners' folders can be kept apart; else the reason, in a sentence."""
    return missing_fence() or missing_filter() or within_reach(place.state)


def within_reach(state):
    """A sentence where the class is kept inside a folder that every learner may read."""
    state = Path(state).resolve()
    for each in readable_by_all():
        if state.is_relative_to(Path(each).resolve()):
            return f"The folder {state} lies in {each}, which every learner must be able to read. Keep the class somewhere else."
    return None
