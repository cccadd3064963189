"""What a notebook that ran shows, read from the state of its widgets."""

import json

VIEW, STATE = "application/vnd.jupyter.widget-view+json", "application/vnd.jupyter.widget-state+json"


def shown(ran):
    """The state of every widget that the notebook shows, with those inside it, in order."""
    state = ran.book.metadata.widgets[STATE]["state"]

    def inside(model):
        yield state[model]["state"]
        for child in state[model]["state"].get("children", ()):
            yield from inside(child.removeprefix("IPY_MODEL_"))

    views = [out["data"][VIEW]["model_id"] for cell in ran.book.cells for out in cell.get("outputs", ()) if VIEW in out.get("data", {})]
    return [each for view in views for each in inside(view)]


def words(ran):
    return json.dumps([each.get("blocks", []) for each in shown(ran)], ensure_ascii=False)
