"""Pages handed to a phone: who can fetch what, and what the matrix code says."""

import threading
import urllib.error
import urllib.request

import pytest
import segno

from benchreckoner import commands
from benchreckoner.tell import serve

START, END = "\x1b[40;97m", "\x1b[0m"


@pytest.fixture
def folder(tmp_path):
    made = tmp_path / "pages"
    made.mkdir()
    (made / "index.html").write_text("<p>pages</p>", encoding="utf-8")
    (made / "script.toml").write_text("mine = true", encoding="utf-8")
    (tmp_path / "secret.html").write_text("secret", encoding="utf-8")
    return made


@pytest.fixture
def served(folder):
    server = serve.open_server(folder)
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    yield server
    server.shutdown()
    thread.join()
    server.server_close()


def fetched(server, path):
    with urllib.request.urlopen(f"http://127.0.0.1:{server.server_address[1]}{path}") as answer:
        return answer.read().decode("utf-8")


@pytest.mark.parametrize("path", ["/", "/index.html", "/index.html?again"])
def test_pages_are_handed_out(served, path):
    assert fetched(served, path) == "<p>pages</p>"


@pytest.mark.parametrize("path", ["/script.toml", "/../secret.html", "/%2e%2e/secret.html", "//index.html/../../secret.html", "/missing.html"])
def test_nothing_else_is(served, path):
    with pytest.raises(urllib.error.HTTPError) as refused:
        fetched(served, path)
    assert refused.value.code == 404
    refused.value.close()


def test_it_is_for_this_machine_alone_unless_asked(served):
    assert served.server_address[0] == "127.0.0.1"
    words = serve.words_for(served)
    assert "this machine alone" in words and "\u2588" not in words


def test_the_matrix_code_holds_the_address():
    """Squares of the printed code against the library's own matrix, dark by dark."""

    class Found:
        server_address = ("192.168.7.5", 8000)

    words = serve.words_for(Found())
    assert "http://192.168.7.5:8000/index.html" in words and "everybody on this network" in words
    lines = [line[len(START):-len(END)] for line in words.splitlines() if line.startswith(START) and line.endswith(END)]
    printed = [[line[place] == " " for place in range(0, len(line), 2)] for line in lines]
    matrix = segno.make("http://192.168.7.5:8000/index.html", micro=False).matrix
    inner = [row[4:-4] for row in printed[4:-4]]
    assert inner == [[bool(dark) for dark in row] for row in matrix]


@pytest.mark.parametrize(("words", "said"), [
    (["make", "record", "--serve"], "make pages --serve"), (["make", "pages", "--network"], "--serve --network")])
def test_what_cannot_be_served_is_told(tmp_path, capsys, words, said):
    assert commands.main([*words, "--sheet", "missing.toml", "--to", str(tmp_path / "out")]) == 2
    assert said in capsys.readouterr().err
