"""How the books' JupyterLab is set up: local, quiet, and without waiting between small messages."""

from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection

# Nothing here needs the network, so nothing is asked of it. The server listens on this
# machine only and asks for a token, so being root adds no danger that it warns of.
OPTIONS = {
    "ServerApp.allow_root": True,
    "ServerApp.kernel_websocket_connection_class": f"{__name__}.PromptConnection",
    "Application.log_level": "WARN",
    "LabApp.news_url": None,
    "LabApp.check_for_updates_class": "jupyterlab.NeverCheckForUpdate",
    "LabApp.extension_manager": "readonly",
}


class PromptConnection(ZMQChannelsWebsocketConnection):
    """A kernel's connection that sends each message at once.

    A slider's answer is several small messages. By default the system holds the
    second back until the browser has acknowledged the first, which a browser
    may do 40 ms late: more than the picture itself takes.
    """

    def connect(self):
        """Connect as usual, with that waiting switched off."""
        self.websocket_handler.set_nodelay(True)
        return super().connect()


def words(options):
    """Options as JupyterLab takes them on its command line."""
    return [f"--{name}={value}" for name, value in {**OPTIONS, **options}.items()]
