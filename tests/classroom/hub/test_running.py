"""The ports that the hub and its proxy speak through on this computer."""

import socket

import pytest

pytest.importorskip("jupyterhub")

from kit.classroom.hub.running import free_ports, is_free


def test_free_ports_are_apart_and_none_that_a_system_gives_to_whoever_asks_for_any():
    """Linux gives those from 32768 on (ip(7), ip_local_port_range), RFC 6335 leaves the ones from 49152 on to such use."""
    ports = free_ports(50)
    assert len(set(ports)) == 50 and all(1024 < port < 32768 for port in ports)


def test_a_port_that_somebody_listens_at_is_not_free():
    with socket.create_server(("127.0.0.1", free_ports(1)[0])) as taken:
        port = taken.getsockname()[1]
        assert not is_free("127.0.0.1", port)
    assert is_free("127.0.0.1", port)
