"""What a page says as it closes reaches its kernel, in the form that was agreed on while its socket was open."""

from types import SimpleNamespace

from jupyter_server.services.kernels.connection.base import serialize_msg_to_ws_v1
from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection

from kit.jupyter.connection import LastWordConnection

FORM = "v1.kernel.websocket.jupyter.org"
PARTS = [b"{}", b"{}", b"{}", b"{}"]  # header, its parent, metadata, content


class Line(LastWordConnection):
    """Without a server: what is sent on to the kernel is kept in `heard`."""

    def __init__(self, handler):
        self.heard = []
        self.websocket_handler = handler

    websocket_handler = None
    channels = {"shell": "shell"}
    multi_kernel_manager = SimpleNamespace(allowed_message_types=[])

    @property
    def session(self):
        return SimpleNamespace(send_raw=lambda stream, parts: self.heard.append((stream, parts)))


def test_a_message_that_is_read_when_the_socket_has_closed_goes_to_the_kernel(monkeypatch):
    monkeypatch.setattr(ZMQChannelsWebsocketConnection, "connect", lambda line: line.channels)
    handler = SimpleNamespace(ws_connection=object(), selected_subprotocol=FORM)
    line = Line(handler)
    assert line.connect() == line.channels
    handler.ws_connection = None
    line.handle_incoming_message(serialize_msg_to_ws_v1(PARTS, "shell"))
    assert line.heard == [("shell", PARTS)]
