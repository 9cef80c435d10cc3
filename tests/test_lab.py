"""How the books' JupyterLab is set up."""

from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection

from benchreckoner import lab


def test_small_messages_are_not_held_back(monkeypatch):
    """The waiting is switched off before the first message, and the usual connecting still happens."""
    done = []
    monkeypatch.setattr(ZMQChannelsWebsocketConnection, "connect", lambda self: done.append("connected"))

    class Handler:
        def set_nodelay(self, wanted):
            done.append(wanted)

    connection = lab.PromptConnection.__new__(lab.PromptConnection)
    monkeypatch.setattr(lab.PromptConnection, "websocket_handler", Handler())
    connection.connect()
    assert done == [True, "connected"]


def test_own_options_go_before_the_common_ones():
    words = lab.words({"ServerApp.port": 8899, "LabApp.extension_manager": "pypi"})
    assert "--ServerApp.port=8899" in words and "--LabApp.extension_manager=pypi" in words
    assert f"--ServerApp.kernel_websocket_connection_class={lab.__name__}.PromptConnection" in words
