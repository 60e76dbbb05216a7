"""A model is fetched whole and safely, or not at all. The server is one of our own on this machine."""

from __future__ import annotations

import io
import threading
import zipfile
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest

from journal.errors import EngineError
from journal.speech import model_get
from journal.speech.model_get import get_model

NAME = "vosk-model-small-xx-0.1"
WHOLE = {f"{NAME}/am/final.mdl": b"model" * 1000, f"{NAME}/conf/mfcc.conf": b"--x"}


def _zip(files: dict[str, bytes], *, link: str = "") -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(name, content)
        if link:
            info = zipfile.ZipInfo(link)
            info.external_attr = 0o120777 << 16
            archive.writestr(info, "/etc")
    return packed.getvalue()


class _Server(ThreadingHTTPServer):
    answer: bytes = b""
    said_length: int | None = None


class _Handler(BaseHTTPRequestHandler):
    server: _Server

    def do_GET(self) -> None:
        if not self.path.endswith(f"/{NAME}.zip"):
            self.send_error(404)
            return
        self.send_response(200)
        length = self.server.said_length if self.server.said_length is not None else len(self.server.answer)
        self.send_header("Content-Length", str(length))
        self.end_headers()
        self.wfile.write(self.server.answer)

    def log_message(self, *_: object) -> None:
        pass


@pytest.fixture
def server() -> Iterator[_Server]:
    """A server on this machine that answers with what the test gives it."""
    with _Server(("127.0.0.1", 0), _Handler) as running:
        threading.Thread(target=running.serve_forever, daemon=True).start()
        yield running
        running.shutdown()


def _get(server: _Server, folder: Path, name: str = NAME, **more: object) -> Path:
    return get_model(name, folder, models_at=f"http://127.0.0.1:{server.server_port}/models", **more)  # type: ignore[arg-type]


def _refused(server: _Server, folder: Path, answer: bytes, name: str = NAME) -> EngineError:
    server.answer = answer
    with pytest.raises(EngineError) as caught:
        _get(server, folder, name)
    assert list(folder.iterdir()) == []
    return caught.value


@pytest.fixture
def models(tmp_path: Path) -> Path:
    """An empty folder for models."""
    folder = tmp_path / "models"
    folder.mkdir()
    return folder


def test_fetched_once(server: _Server, models: Path) -> None:
    """The model is fetched with progress, unpacked under its name, and not fetched again."""
    server.answer = _zip(WHOLE)
    told: list[str] = []
    assert _get(server, models, progress=told.append) == models / NAME
    assert (models / NAME / "am" / "final.mdl").read_bytes() == b"model" * 1000
    assert [path.name for path in models.iterdir()] == [NAME]
    assert told[-1] == "fetching: 0 of 0 MB"
    server.answer = b"gone"
    assert _get(server, models) == models / NAME


@pytest.mark.parametrize(
    "name", ["english", "../vosk-model-en", "vosk-model-en/../../x", "vosk-model-..", "vosk-model-EN"]
)
def test_names(server: _Server, models: Path, name: str) -> None:
    """A name that is none is refused before anything is fetched."""
    error = _refused(server, models, b"", name)
    assert error.message == f"'{name}' is no name of a Vosk model"
    assert error.hint == "Names look like vosk-model-small-en-us-0.15; nothing was fetched."


def test_not_there(server: _Server, models: Path) -> None:
    """A model that the server lacks is told with the other way."""
    error = _refused(server, models, b"", "vosk-model-other")
    address = f"http://127.0.0.1:{server.server_port}/models/vosk-model-other.zip"
    assert error.message == f"there is no model at {address} (answer 404)"
    assert error.hint == (
        "Check the name against the list of Vosk models, or unpack a model yourself and give --vosk-model FOLDER."
    )


def test_no_network(models: Path) -> None:
    """Without a network it is said that all the rest works."""
    with pytest.raises(EngineError) as caught:
        get_model(NAME, models, models_at="http://127.0.0.1:9/models")
    assert caught.value.message.startswith(f"http://127.0.0.1:9/models/{NAME}.zip cannot be reached: ")
    assert caught.value.hint == (
        "Everything but this works without a network. Try again later, or bring the folder on a stick."
    )


def test_https_only(models: Path) -> None:
    """Nothing is fetched from elsewhere without https."""
    with pytest.raises(EngineError, match=r"^http://example\.invalid/models is not an https address\n"):
        get_model(NAME, models, models_at="http://example.invalid/models")


@pytest.mark.parametrize("name", ["../outside", "/outside", "a/../../outside", "..\\outside", "C:/outside"])
def test_names_that_lead_out(server: _Server, models: Path, name: str) -> None:
    """A zip with a name that leads out of its folder is not unpacked at all."""
    error = _refused(server, models, _zip({**WHOLE, name: b"x"}))
    assert error.message.startswith(f"{NAME} was not unpacked: ")
    assert error.message.endswith(" leads out of its folder")
    assert not (models.parent / "outside").exists()


def test_links(server: _Server, models: Path) -> None:
    """A zip with a link in it is not unpacked."""
    error = _refused(server, models, _zip(WHOLE, link=f"{NAME}/away"))
    assert str(error) == f"{NAME} was not unpacked: '{NAME}/away' is a link\nTell its makers."


def test_damaged(server: _Server, models: Path) -> None:
    """A zip damaged on the way is told, whether its end or its middle is wrong."""
    whole = _zip(WHOLE)
    middle = bytearray(whole)
    middle[60:70] = bytes(10)
    for answer in (b"not a zip", whole[:-30], bytes(middle)):
        error = _refused(server, models, answer)
        assert str(error) == f"what was fetched as {NAME} is no whole zip file\nTry again; nothing of it was kept."


def test_broken_off(server: _Server, models: Path) -> None:
    """A fetch that breaks off is told with how far it came."""
    server.said_length = 3_000_000
    error = _refused(server, models, bytes(1_500_000))
    assert error.message.endswith(f"/{NAME}.zip broke off after 1.5 of 3.0 MB")


def test_too_large(server: _Server, models: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """More than a model can be is neither fetched nor unpacked."""
    monkeypatch.setattr(model_get, "LARGEST_BYTES", 10_000)
    server.said_length = 20_000
    assert "models larger than 0 GB are not taken" in _refused(server, models, b"").message
    server.said_length = None
    bomb = _zip({**WHOLE, f"{NAME}/zeros": bytes(1_000_000)})
    assert _refused(server, models, bomb).message == f"{NAME} unpacks to 0.0 GB in 3 files, which is no model"


def test_no_model_inside(server: _Server, models: Path) -> None:
    """A zip without a model is not kept."""
    error = _refused(server, models, _zip({f"{NAME}/README": b"x"}))
    assert str(error) == f"what was fetched as {NAME} holds no Vosk model\nNothing of it was kept."
