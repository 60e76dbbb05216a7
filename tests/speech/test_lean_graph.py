"""The base model's graphs, written anew, say what the graphs as shipped say (outside check: onnxruntime runs both)."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from journal.errors import EngineError
from journal.paths import sample_audio_folder
from journal.speech.lean_graph import hearing_graph, writing_graph
from journal.speech.model_cache import PARTS, shipped_models
from journal.speech.ort_graph import onnx_from_ort
from journal.speech.sound import load_sound
from journal.speech.steps import load_graphs, write_optimised
from journal.speech.tokens import START

PIECES = 10

pytestmark = pytest.mark.skipif(
    not any(model.kind == "base" for model in shipped_models()), reason="the base model has no wheel for this system"
)


@pytest.fixture(scope="module")
def shipped() -> Path:
    """The folder of the base model as it was installed."""
    return next(model.folder for model in shipped_models() if model.kind == "base")


@pytest.fixture(scope="module")
def graphs(shipped: Path) -> tuple[Any, Any]:
    """Its encoder and decoder."""
    encoder, decoder = (onnx_from_ort(shipped / f"{part}.ort") for part in PARTS)
    return encoder, decoder


@pytest.fixture(scope="module")
def samples() -> NDArray[np.float32]:
    """A memo of 2 s."""
    return load_sound(sample_audio_folder() / "2026-07-14_0752_slope.flac").samples


@pytest.fixture(scope="module")
def as_shipped(shipped: Path, samples: NDArray[np.float32]) -> list[tuple[int, NDArray[np.float32]]]:
    """The likeliest pieces one after another, each with the log probabilities that it was chosen from."""
    return list(_greedy(shipped, samples))


def _greedy(shipped: Path, samples: NDArray[np.float32]) -> Iterator[tuple[int, NDArray[np.float32]]]:
    import onnxruntime

    encoder, decoder = (onnxruntime.InferenceSession(str(shipped / f"{part}.ort")) for part in PARTS)
    hidden = encoder.run(None, {"input_values": samples[None, :]})[0]
    shapes = {i.name: i.shape for i in decoder.get_inputs() if i.name.startswith("past_key_values")}
    past = {name: np.zeros((1, shape[1], 0, shape[3]), np.float32) for name, shape in shapes.items()}
    names = [output.name for output in decoder.get_outputs()]
    piece = START
    for later in range(PIECES):
        feed = {
            "input_ids": np.array([[piece]]),
            "encoder_hidden_states": hidden,
            "use_cache_branch": np.array([bool(later)]),
            **past,
        }
        out = dict(zip(names, decoder.run(None, feed), strict=True))
        for name in past:
            if not later or ".decoder." in name:
                past[name] = out[name.replace("past_key_values", "present")]
        logits = out["logits"][0, -1].astype(np.float64)
        scores = logits - logits.max()
        scores -= np.log(np.exp(scores).sum())
        piece = int(scores.argmax())
        yield piece, scores.astype(np.float32)


@pytest.fixture(scope="module")
def rewritten(graphs: tuple[Any, Any], tmp_path_factory: pytest.TempPathFactory) -> Any:
    """The graphs written anew and loaded."""
    folder = tmp_path_factory.mktemp("lean")
    write_optimised(hearing_graph(*graphs), folder / "hearing.onnx")
    write_optimised(writing_graph(graphs[1]), folder / "writing.onnx")
    return load_graphs(folder)


def test_the_same_log_probabilities(
    rewritten: Any, as_shipped: list[tuple[int, NDArray[np.float32]]], samples: NDArray[np.float32]
) -> None:
    """Piece after piece the same one is likeliest, and every likely one is as likely as with the graphs as shipped."""
    steps = rewritten.begin(samples)
    scores = steps.start()
    for piece, expected in as_shipped:
        assert int(scores[0].argmax()) == piece
        likely = expected > -6
        assert np.abs(scores[0] - expected)[likely].max() < 1e-3
        scores = steps.step([0], [piece])


def test_several_texts(rewritten: Any, samples: NDArray[np.float32]) -> None:
    """A text scores the same beside others as alone, whichever rows it and its beginning stood in."""
    alone, beside = rewritten.begin(samples), rewritten.begin(samples)
    assert np.allclose(alone.start(), beside.start(), atol=1e-5)
    one = [alone.step([0], [piece])[0] for piece in (323, 417, 412)]
    other = [
        beside.step([0, 0, 0], [9579, 323, 720])[1],
        beside.step([1, 1, 0, 2], [417, 8718, 373, 417])[0],
        beside.step([3, 0], [10090, 412])[1],
    ]
    assert all(np.allclose(a, b, atol=1e-3) for a, b in zip(one, other, strict=True))


def test_another_make(graphs: tuple[Any, Any]) -> None:
    """A decoder of another make is told, not taken for this one."""
    encoder, _ = graphs
    with pytest.raises(EngineError) as caught:
        writing_graph(encoder)
    assert str(caught.value) == (
        "the speech model's decoder is of another make (no branch for a first piece)\n"
        "Install the journal again: it brings the model that it was written for."
    )
