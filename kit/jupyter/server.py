"""What the page asks of the server: which lesson a notebook is and how far the learner is in it; a fresh copy beside it."""

import os
from pathlib import Path

from jupyter_server.base.handlers import APIHandler
from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection
from jupyter_server.utils import url_path_join
from tornado.web import authenticated, HTTPError

from kit.coursework import add_fresh_copy, answers_beside, is_marked, next_step, outline_with, peek_at_answers, progress_of, read_lesson
from kit.faults import Fault
from kit.jupyter.connection import LastWordConnection
from kit.settings import class_settings

LEARNER = "TWIN_VESSELS_LEARNER"  # where a class is served and names were given: whose folder this is


def load(server):
    """Let a Jupyter server answer under `twin-vessels/`, and hear a page's last words."""
    base = url_path_join(server.web_app.settings["base_url"], "twin-vessels")
    if server.kernel_websocket_connection_class is ZMQChannelsWebsocketConnection:
        server.web_app.settings["kernel_websocket_connection_class"] = LastWordConnection
    server.web_app.add_handlers(".*$", [(f"{base}/lesson", LessonHandler), (f"{base}/copy", CopyHandler)])


class LessonHandler(APIHandler):
    """`lesson?path=…&cell=…`: the lesson that begins with that cell, and how far it is in the notebook at that path; nothing if none does."""

    @authenticated
    def get(self):
        outline, notebook = asked_for(self)
        if outline is None:
            return self.finish({})
        page = {"name": outline.name, "title": outline.title, "code": outline.code, "learner": os.environ.get(LEARNER, "")}
        page |= {"settings": repr(class_settings(notebook.parent).said)}  # so that the page sees when they change
        return self.finish({**page, "contents": (notebook.parent / "contents.ipynb").exists(), **how_far(outline, notebook)})


class CopyHandler(APIHandler):
    """`copy?path=…&cell=…`: puts a fresh copy of that lesson into the notebook's folder, and names it."""

    @authenticated
    def post(self):
        outline, notebook = asked_for(self)
        if outline is None:
            raise HTTPError(404)
        self.finish({"name": add_fresh_copy(outline.path, notebook.parent).name})


def asked_for(handler):
    """(outline or None, path of the notebook) of a request; a path outside the learner's folder is not found."""
    outline = outline_with(handler.get_query_argument("cell"))
    root = Path(handler.contents_manager.root_dir).resolve()
    notebook = (root / handler.get_query_argument("path").strip("/")).resolve()
    if not notebook.is_relative_to(root):
        raise HTTPError(404)
    return outline, notebook


def how_far(outline, notebook):
    """What the strip above a lesson shows: counts as words, whether anything is kept, and the next step that has something to do."""
    try:
        lesson, kept = read_lesson(outline.number, notebook.parent), peek_at_answers(answers_beside(notebook))
    except Fault:  # a page without cards, or texts that can't be read: the page itself says so
        return {"progress": "", "begun": False, "next": None}
    progress, step = progress_of(lesson, kept), next_step(outline, lesson, kept, is_marked(notebook))
    return {"progress": str(progress), "begun": bool(kept.answers), "next": step and {"step": step.number, "title": step.title}}
