"""A speech model's graphs as a beam search drives them. The only module that runs onnxruntime."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

import numpy as np
from numpy.typing import NDArray

from journal.errors import EngineError
from journal.speech.beam import Scores, Stepper
from journal.speech.tokens import START

if TYPE_CHECKING:
    import onnxruntime


class Graphs(Protocol):
    """A loaded model."""

    def begin(self, samples: NDArray[np.float32]) -> Stepper:
        """The model in front of a sound, with nothing written yet."""
        ...


def load_graphs(folder: Path) -> Graphs:
    """The model that lies in a folder of the cache, in either of its forms. EngineError where it cannot be loaded."""
    return _Lean(folder) if (folder / "writing.onnx").is_file() else _Merged(folder)


class _Lean:
    """Graphs of `lean_graph`: what is heard is worked out once, and is the same for every text of the beam."""

    def __init__(self, folder: Path) -> None:
        self.hearing, self.writing = _sessions(folder / "hearing.onnx", folder / "writing.onnx")

    def begin(self, samples: NDArray[np.float32]) -> Stepper:
        """The model in front of a sound."""
        return _LeanSteps(self.writing, _run(self.hearing, {"input_values": samples[None, :]}))


class _LeanSteps:
    def __init__(self, writing: onnxruntime.InferenceSession, heard: dict[str, NDArray[np.float32]]) -> None:
        self.session = writing
        self.heard = heard
        self.position = 0
        _, heads, _, size = next(i.shape for i in writing.get_inputs() if i.name == "past_key.0")
        nothing = np.zeros((1, heads, 0, size), np.float32)
        self.past = {i.name: nothing for i in writing.get_inputs() if i.name.startswith("past_")}

    def start(self) -> Scores:
        """Log probabilities of the first piece."""
        return self.step([0], [START])

    def step(self, origins: Sequence[int], pieces: Sequence[int]) -> Scores:
        """Log probabilities after one more piece for each text."""
        feed = {
            "pieces": np.asarray(pieces, np.int64),
            "origins": np.asarray(origins, np.int64),
            "position": np.array([self.position], np.int64),
            **self.past,
            **self.heard,
        }
        out = _run(self.session, feed)
        self.position += 1
        self.past = {name: out[name.replace("past_", "written_")] for name in self.past}
        scores: Scores = out["scores"]
        return scores


class _Merged:
    """Graphs as they are shipped: an encoder, and a decoder that keeps what it attends to for each text."""

    def __init__(self, folder: Path) -> None:
        self.encoder, self.decoder = _sessions(folder / "encoder_model.onnx", folder / "decoder_model_merged.onnx")
        self.masked = any(i.name == "attention_mask" for i in self.encoder.get_inputs())

    def begin(self, samples: NDArray[np.float32]) -> Stepper:
        """The model in front of a sound."""
        feed: dict[str, Any] = {"input_values": samples[None, :]}
        if self.masked:
            feed["attention_mask"] = np.ones((1, len(samples)), np.int64)
        hidden: NDArray[np.float32] = self.encoder.run(None, feed)[0]
        return _MergedSteps(self.decoder, hidden, len(samples))


class _MergedSteps:
    def __init__(self, session: onnxruntime.InferenceSession, hidden: NDArray[np.float32], samples: int) -> None:
        self.session = session
        self.hidden = hidden
        self.samples = samples
        self.inputs = {i.name: i for i in session.get_inputs()}
        self.past_names = [name for name in self.inputs if name.startswith("past_key_values")]
        _, heads, _, size = self.inputs[self.past_names[0]].shape
        empty = np.zeros((1, heads, 0, size), np.float32)
        self.past: dict[str, NDArray[np.float32]] = dict.fromkeys(self.past_names, empty)
        self.of_sound: dict[str, NDArray[np.float32]] = {}

    def start(self) -> Scores:
        """Log probabilities of the first piece."""
        scores = self._run([START], self.hidden, later=False)
        self.of_sound = {name: self.past[name] for name in self.past_names if ".encoder." in name}
        return scores

    def step(self, origins: Sequence[int], pieces: Sequence[int]) -> Scores:
        """Log probabilities after one more piece for each row."""
        rows = list(origins)
        for name in self.past_names:
            if ".encoder." not in name:
                self.past[name] = self.past[name][rows]
            elif len(self.past[name]) != len(rows):
                # what a row hears is the same for all rows: copied only when their number changes
                self.past[name] = np.repeat(self.of_sound[name], len(rows), axis=0)
        if len(self.hidden) != len(rows):
            self.hidden = np.repeat(self.hidden[:1], len(rows), axis=0)
        return self._run(pieces, self.hidden, later=True)

    def _run(self, pieces: Sequence[int], hidden: NDArray[np.float32], *, later: bool) -> Scores:
        feed: dict[str, Any] = {
            "input_ids": np.asarray(pieces, np.int64)[:, None],
            "encoder_hidden_states": hidden,
            **self.past,
        }
        if "use_cache_branch" in self.inputs:
            feed["use_cache_branch"] = np.array([later])
        if "encoder_attention_mask" in self.inputs:
            feed["encoder_attention_mask"] = np.ones((len(hidden), self.samples), np.int64)
        out = _run(self.session, feed)
        for name in self.past_names:
            if not (later and ".encoder." in name):
                self.past[name] = out[name.replace("past_key_values", "present")]
        logits = out["logits"][:, -1]
        logits = logits - logits.max(axis=-1, keepdims=True)
        scores: Scores = logits - np.log(np.exp(logits).sum(axis=-1, keepdims=True))
        return scores


def _run(session: onnxruntime.InferenceSession, feed: dict[str, Any]) -> dict[str, Any]:
    names = [output.name for output in session.get_outputs()]
    return dict(zip(names, session.run(names, feed), strict=True))


def write_optimised(model: Any, path: Path) -> None:
    """An onnx.ModelProto as onnxruntime would run it, so that it need not be worked out at each start; weights beside it.

    The weights are then used where they lie in the file. Nothing in it is for one processor only. The model gives up its
    weights on the way: they go by way of the disk, as they are hundreds of megabytes.
    """
    import onnx
    import onnxruntime

    options = onnxruntime.SessionOptions()
    options.graph_optimization_level = onnxruntime.GraphOptimizationLevel.ORT_ENABLE_EXTENDED
    options.optimized_model_filepath = str(path)
    for entry, value in (
        ("session.optimized_model_external_initializers_file_name", path.with_suffix(".weights").name),
        ("session.optimized_model_external_initializers_min_size_in_bytes", "1024"),
        ("session.disable_prepacking", "1"),
    ):
        options.add_session_config_entry(entry, value)
    options.log_severity_level = 3
    raw, weights = path.with_suffix(".raw"), path.with_suffix(".raw.weights")
    try:
        onnx.save_model(model, raw, "protobuf", save_as_external_data=True, location=weights.name, size_threshold=1024)
        onnxruntime.InferenceSession(str(raw), options, providers=["CPUExecutionProvider"])
    except OSError:
        raise
    except Exception as error:
        # onnxruntime's exceptions share no public base class
        raise EngineError(
            f"the speech model cannot be written as {path}: {str(error).splitlines()[0]}",
            hint="Make room there (500 MB), or install the journal again.",
        ) from error
    finally:
        raw.unlink(missing_ok=True)
        weights.unlink(missing_ok=True)


def _sessions(*paths: Path) -> list[onnxruntime.InferenceSession]:
    """The graphs loaded, side by side."""
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(len(paths)) as pool:
        return list(pool.map(_session, paths))


def _session(path: Path) -> onnxruntime.InferenceSession:
    import onnxruntime

    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = min(4, os.cpu_count() or 1)
    options.inter_op_num_threads = 1
    if path.with_suffix(".weights").is_file():
        options.graph_optimization_level = (
            onnxruntime.GraphOptimizationLevel.ORT_DISABLE_ALL
        )  # done when it was written
    # threads that wait without sleeping would take the core from whatever else runs
    options.add_session_config_entry("session.intra_op.allow_spinning", "0")
    options.log_severity_level = 3
    try:
        return onnxruntime.InferenceSession(str(path), options, providers=["CPUExecutionProvider"])
    except Exception as error:
        # onnxruntime's exceptions share no public base class
        raise EngineError(
            f"the speech model {path} cannot be loaded: {str(error).splitlines()[0]}",
            hint=f"Delete the folder {path.parent}; it is made again at the next start.",
        ) from error
