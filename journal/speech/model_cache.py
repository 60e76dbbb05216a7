"""The speech model that came with pip: where it lies, and its graph rebuilt once into the user's cache."""

from __future__ import annotations

import hashlib
import importlib.metadata
import importlib.util
import json
import os
import platform
import shutil
import tempfile
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from journal.errors import EngineError
from journal.paths import cache_folder

Progress = Callable[[str], None]
"""Called with what is going on, in words for a person."""

PARTS = ("encoder_model", "decoder_model_merged")
"""What a model is shipped as."""
_FILES = {
    "base": ("hearing.onnx", "hearing.weights", "writing.onnx", "writing.weights"),
    "tiny": ("encoder_model.onnx", "decoder_model_merged.onnx"),
}
"""What is kept of it: the base model's graphs written anew, the tiny one's as they are."""
_RECIPE = 2
"""Goes up when the way of rebuilding changes, so that what an older journal cached is not used."""
_PLACES = {"base": ("moonshine_cpp", "models/base-en"), "tiny": ("moonshine_voice", "assets/tiny-en")}
_DISTRIBUTIONS = {"base": "moonshine-cpp", "tiny": "moonshine-voice"}


@dataclass(frozen=True, slots=True)
class ShippedModel:
    """A Moonshine model inside its installed package."""

    kind: str
    folder: Path
    package_version: str

    @property
    def tokens(self) -> Path:
        """The file with its pieces of words."""
        return self.folder / "tokenizer.bin"


@dataclass(frozen=True, slots=True)
class Merge:
    """A change to the weights while the graphs are rebuilt.

    `key` names it and its version (it is part of the cache's name); `apply` takes the onnx.ModelProto of the decoder, and
    another time of the encoder, and gives it back changed. The base model keeps each weight matrix as int8, scale and
    offset, under Cast, Mul and Add nodes of the outer graph.
    """

    key: str
    apply: Callable[[Any], Any]


def shipped_models() -> list[ShippedModel]:
    """The models installed here, the better first. Looks at the files only; imports none of the packages."""
    found = []
    for kind, (package, inside) in _PLACES.items():
        spec = importlib.util.find_spec(package)
        if spec is None or spec.origin is None:
            continue
        folder = Path(spec.origin).parent / inside
        if all((folder / f"{part}.ort").is_file() for part in PARTS) and (folder / "tokenizer.bin").is_file():
            found.append(ShippedModel(kind, folder, importlib.metadata.version(_DISTRIBUTIONS[kind])))
    return found


def shipped_model(kind: str | None = None) -> ShippedModel:
    """The model of this kind ("base" or "tiny"), or the best one here. EngineError where there is none."""
    for model in shipped_models():
        if kind in (None, model.kind):
            return model
    which = f"the speech model Moonshine {kind}" if kind else "the default engine's speech model"
    package = f"{_DISTRIBUTIONS.get(kind or '', 'moonshine-cpp')}"
    raise EngineError(
        f"{which} is not installed here",
        hint=f"It comes with the journal's own dependencies: pip install {package}. Typed memos need no engine.",
    )


def rebuilt(model: ShippedModel, *, merge: Merge | None = None, progress: Progress | None = None) -> Path:
    """The folder in the cache with the model's graphs; made there first where they are missing or damaged."""
    tell = progress or (lambda _what: None)
    folder = _cache_of(model, merge)
    if not _is_whole(folder, _FILES[model.kind]):
        _rebuild(model, merge, folder, tell)
    return folder


def _cache_of(model: ShippedModel, merge: Merge | None) -> Path:
    sizes = [str((model.folder / f"{part}.ort").stat().st_size) for part in PARTS]
    made_by = [str(_RECIPE), importlib.metadata.version("onnxruntime"), platform.machine()]
    made_from = "|".join([model.kind, model.package_version, *sizes, *made_by, merge.key if merge else ""])
    return cache_folder() / "speech" / f"{model.kind}-{hashlib.sha256(made_from.encode()).hexdigest()[:16]}"


def _is_whole(folder: Path, names: Sequence[str]) -> bool:
    """Whether every file is there with the hash that it was written with."""
    try:
        hashes = json.loads((folder / "hashes.json").read_text(encoding="utf-8"))
        with ThreadPoolExecutor() as pool:  # hashing lets other threads run
            return list(pool.map(hash_of, [folder / name for name in names])) == [hashes[name] for name in names]
    except (OSError, ValueError, KeyError, TypeError):
        return False


def hash_of(path: Path) -> str:
    """The content of a file as a SHA-256 digest in hex."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _rebuild(model: ShippedModel, merge: Merge | None, folder: Path, tell: Progress) -> None:
    """Written aside and renamed, so that a folder of this name is always whole."""
    tell(f"preparing the speech model (Moonshine {model.kind}), this once: a few seconds …")
    aside = None
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        aside = Path(tempfile.mkdtemp(prefix=f".{folder.name}-", dir=folder.parent))
        _write_graphs(model, merge, aside, tell)
        hashes = {name: hash_of(aside / name) for name in _FILES[model.kind]}
        (aside / "hashes.json").write_text(json.dumps(hashes, indent=1), encoding="utf-8")
        if folder.exists():
            shutil.rmtree(folder, ignore_errors=True)
        try:
            os.replace(aside, folder)  # noqa: PTH105 - Path.replace refuses a folder on some systems
        except OSError:
            # another journal was quicker; what it made is as good
            if not _is_whole(folder, _FILES[model.kind]):
                raise
    except OSError as error:
        raise EngineError(
            f"the speech model cannot be prepared in {folder.parent}: {error.strerror or error}",
            hint="Make room there (500 MB), or set JOURNAL_CACHE to a folder that may be written.",
        ) from error
    finally:
        if aside is not None:
            shutil.rmtree(aside, ignore_errors=True)


def _write_graphs(model: ShippedModel, merge: Merge | None, folder: Path, tell: Progress) -> None:
    from journal.speech.ort_graph import onnx_from_ort

    def read(part: str) -> Any:
        graph = onnx_from_ort(model.folder / f"{part}.ort")
        return merge.apply(graph) if merge is not None else graph

    decoder = read(PARTS[1])
    if model.kind == "tiny":
        encoder = read(PARTS[0])
        for done, (part, graph) in enumerate(zip(PARTS, (encoder, decoder), strict=True), 1):
            (folder / f"{part}.onnx").write_bytes(graph.SerializeToString())
            tell(f"prepared {done} of {len(PARTS)} parts")
        return
    from journal.speech.lean_graph import hearing_graph, writing_graph
    from journal.speech.steps import write_optimised

    # the larger one first and the encoder read after it, so that less lies in memory at a time
    write_optimised(writing_graph(decoder), folder / "writing.onnx")
    tell("prepared 1 of 2 parts")
    encoder = read(PARTS[0])
    write_optimised(hearing_graph(encoder, decoder), folder / "hearing.onnx")
    tell("prepared 2 of 2 parts")
