"""Adapters: matrices added to an encoder's and a decoder's graph, and the file that ships."""

from __future__ import annotations

import hashlib
from pathlib import Path

import numpy as np
import onnx
import onnxruntime
import pytest
from onnx import TensorProto, helper, numpy_helper

from journal.errors import EngineError
from journal.paths import sample_audio_folder
from journal.speech import adapter as adapters
from journal.speech.adapter import shipped_adapter
from journal.speech.adapter.merge import decoder_matrices, encoder_matrices, merge_adapter, plain_weights
from journal.speech.choose import choose_engine
from journal.speech.model_cache import PARTS, hash_of, shipped_models
from journal.speech.ort_graph import onnx_from_ort
from journal.speech.sound import load_sound

WIDE, DEEP, RANK = 6, 5, 2
ATTENTION = ("q_proj", "k_proj", "v_proj", "dense")
QUERY, VALUE, UP = "layers.0.self_attn.q_proj", "layers.0.self_attn.v_proj", "layers.0.mlp.up_proj"
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


def answer(model: onnx.ModelProto, *, first: bool = False) -> np.ndarray:
    session = onnxruntime.InferenceSession(model.SerializeToString(), providers=["CPUExecutionProvider"])
    result: np.ndarray = session.run(None, {"x": SOUND, "first": np.array([first])})[0]
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


BIAS = NUMBERS.normal(size=DEEP).astype(np.float32)


@pytest.fixture
def rounding_decoder() -> onnx.ModelProto:
    """Two matrices in products that round to int8, in both branches of an If: one after a rounding outside, one with a bias."""
    tensors = [numpy_helper.from_array(BIAS, "bias")]
    for name in (QUERY, UP):
        tensors += [
            numpy_helper.from_array(NUMBERS.integers(0, 255, (WIDE, DEEP)).astype(np.uint8), f"{name}.whole"),
            numpy_helper.from_array(np.float32(0.01), f"{name}.scale"),
            numpy_helper.from_array(np.uint8(127), f"{name}.zero"),
        ]
    branches = {}
    for branch in ("then", "else"):
        weights = [(f"{name}.whole", f"{name}.scale", f"{name}.zero") for name in (QUERY, UP)]
        (whole, scale, zero), (up_whole, up_scale, up_zero) = weights
        inner = [
            helper.make_node(
                "MatMulIntegerToFloat",
                ["x_rounded", whole, "x_scale", scale, "x_zero", zero],
                [f"{branch}_q"],
                name="/model/decoder/layers.0/self_attn/q_proj/MatMul_quant",
                domain="com.microsoft",
            ),
            helper.make_node(
                "DynamicQuantizeMatMul",
                ["x", up_whole, up_scale, up_zero, "bias"],
                [f"{branch}_up"],
                name="/model/decoder/layers.0/mlp/fc1/MatMul_quant",
                domain="com.microsoft",
            ),
            helper.make_node("Add", [f"{branch}_q", f"{branch}_up"], [f"{branch}_y"]),
        ]
        output = helper.make_tensor_value_info(f"{branch}_y", TensorProto.FLOAT, None)
        branches[f"{branch}_branch"] = helper.make_graph(inner, branch, [], [output])
    nodes = [
        helper.make_node("DynamicQuantizeLinear", ["x"], ["x_rounded", "x_scale", "x_zero"]),
        helper.make_node("If", ["first"], ["y"], **branches),
    ]
    inputs = [
        helper.make_tensor_value_info("x", TensorProto.FLOAT, [3, WIDE]),
        helper.make_tensor_value_info("first", TensorProto.BOOL, [1]),
    ]
    outputs = [helper.make_tensor_value_info("y", TensorProto.FLOAT, None)]
    graph = helper.make_graph(nodes, "decoder", inputs, outputs, tensors)
    sets = [helper.make_opsetid("", 17), helper.make_opsetid("com.microsoft", 1)]
    return helper.make_model(graph, opset_imports=sets, ir_version=8)


@pytest.mark.parametrize("first", [False, True], ids=["else branch", "then branch"])
def test_an_adapter_reaches_products_that_round(
    rounding_decoder: onnx.ModelProto, tmp_path: Path, *, first: bool
) -> None:
    """In both branches the adapted products are those of the unpacked matrices plus B A, the bias kept."""
    names = decoder_matrices(rounding_decoder.graph)
    assert names == {QUERY: f"{QUERY}.whole", UP: f"{UP}.whole"}
    low_rank = {}
    expected = BIAS
    for name, value in names.items():
        down, up = NUMBERS.normal(size=(RANK, WIDE)), NUMBERS.normal(size=(DEEP, RANK))
        low_rank |= {f"{name}.A": down.astype(np.float16), f"{name}.B": up.astype(np.float16)}
        expected = expected + SOUND @ (plain_weights(rounding_decoder.graph, value) + (up @ down).T)
    after = answer(merge_adapter(rounding_decoder, written(tmp_path, low_rank)), first=first)
    np.testing.assert_allclose(after, expected, atol=0.03)


def test_what_an_adapter_leaves_alone_still_rounds(
    rounding_decoder: onnx.ModelProto, low_rank: dict[str, np.ndarray], tmp_path: Path
) -> None:
    """A matrix that the adapter lacks keeps its int8 product; a rounding that nothing reads any more is gone."""
    merged = merge_adapter(rounding_decoder, written(tmp_path, low_rank))
    assert [node.op_type for node in merged.graph.node] == ["Cast", "If"]
    for branch in merged.graph.node[1].attribute:
        assert [node.op_type for node in branch.g.node] == ["MatMul", "DynamicQuantizeMatMul", "Add"]
    kept = {tensor.name for tensor in merged.graph.initializer}
    assert kept == {f"{QUERY}.whole_float_adapted", f"{UP}.whole", f"{UP}.scale", f"{UP}.zero", "bias"}


HEARD_QUERY, HEARD_UP = "encoder.layers.0.self_attn.q_proj", "encoder.layers.0.mlp.up_proj"


@pytest.fixture
def encoder() -> onnx.ModelProto:
    """Two matrices kept as a rebuilt encoder keeps them: int8 under Cast, Mul and Add, no If anywhere."""
    nodes, tensors = [], []
    for name, place in ((HEARD_QUERY, "self_attn/q_proj"), (HEARD_UP, "mlp/fc1")):
        tensors += [
            numpy_helper.from_array(NUMBERS.integers(-120, 120, (WIDE, DEEP)).astype(np.int8), f"{name}.whole"),
            numpy_helper.from_array(np.array([0.01], np.float32), f"{name}.scale"),
            numpy_helper.from_array(np.array([0.02], np.float32), f"{name}.offset"),
        ]
        nodes += [
            helper.make_node("Cast", [f"{name}.whole"], [f"{name}.cast"], to=TensorProto.FLOAT),
            helper.make_node("Mul", [f"{name}.cast", f"{name}.scale"], [f"{name}.scaled"]),
            helper.make_node("Add", [f"{name}.scaled", f"{name}.offset"], [f"{name}.weight"]),
            helper.make_node("MatMul", ["x", f"{name}.weight"], [f"{name}.y"], name=f"/layers.0/{place}/MatMul"),
        ]
    inputs = [helper.make_tensor_value_info("x", TensorProto.FLOAT, [3, WIDE])]
    outputs = [helper.make_tensor_value_info(f"{n}.y", TensorProto.FLOAT, None) for n in (HEARD_QUERY, HEARD_UP)]
    graph = helper.make_graph(nodes, "encoder", inputs, outputs, tensors)
    return helper.make_model(graph, opset_imports=[helper.make_opsetid("", 17)], ir_version=8)


def test_an_adapter_reaches_both_graphs(
    encoder: onnx.ModelProto, decoder: onnx.ModelProto, low_rank: dict[str, np.ndarray], tmp_path: Path
) -> None:
    """Of one file the encoder takes the matrices that are named as its own, the decoder the others; the rest stay."""
    assert encoder_matrices(encoder.graph) == {HEARD_QUERY: f"{HEARD_QUERY}.weight", HEARD_UP: f"{HEARD_UP}.weight"}
    heard = {name.replace(QUERY, HEARD_QUERY): 2 * values for name, values in low_rank.items()}
    file = written(tmp_path, {**low_rank, **heard})
    before = [answer(decoder), *_ran(encoder)]
    change = SOUND @ (low_rank[f"{QUERY}.B"].astype(np.float32) @ low_rank[f"{QUERY}.A"].astype(np.float32)).T
    np.testing.assert_allclose(answer(merge_adapter(decoder, file)), before[0] + change, atol=0.02)
    query, up = _ran(merge_adapter(encoder, file))
    np.testing.assert_allclose(query, before[1] + 4 * change, atol=0.05)
    np.testing.assert_array_equal(up, before[2])


def test_an_encoder_of_another_model_is_refused(
    encoder: onnx.ModelProto, low_rank: dict[str, np.ndarray], tmp_path: Path
) -> None:
    """A matrix that the encoder lacks is named, with what to do."""
    file = written(tmp_path, {name.replace("layers.0", "encoder.layers.9"): n for name, n in low_rank.items()})
    with pytest.raises(EngineError) as refused:
        merge_adapter(encoder, file)
    assert refused.value.message == (
        f"the adapter {file} does not fit this speech model (KeyError: 'encoder.layers.9.self_attn.q_proj')"
    )
    assert refused.value.hint == "Install the journal again, or leave the adapter out with --no-adapter."


def _ran(model: onnx.ModelProto) -> list[np.ndarray]:
    session = onnxruntime.InferenceSession(model.SerializeToString(), providers=["CPUExecutionProvider"])
    result: list[np.ndarray] = session.run(None, {"x": SOUND})
    return result


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


HERE = {model.kind: model for model in shipped_models()}
each_kind = pytest.mark.parametrize(
    "kind",
    [
        pytest.param(kind, marks=pytest.mark.skipif(kind not in HERE, reason=f"{package} is not installed here"))
        for kind, package in (("base", "moonshine-cpp"), ("tiny", "moonshine-voice"))
    ],
)
"""Pip brings the better model alone; the other may be put beside it."""


@pytest.mark.parametrize("kind", ["base", "tiny"])
def test_each_model_has_its_adapter(kind: str) -> None:
    """The journal brings an adapter for either model, as it was tested, whichever model is installed."""
    assert shipped_adapter(kind) == Path(adapters.__file__).with_name(f"{kind}.npz")


@each_kind
def test_the_shipped_adapter_fits_the_shipped_model(kind: str) -> None:
    """Every matrix of the shipped adapter has its place in the graph of the model that pip installed."""
    model, file = HERE[kind], shipped_adapter(kind)
    with np.load(file) as packed:
        adapted = {name.rsplit(".", 1)[0] for name in packed.files}
    assert adapted
    for part, matrices in zip(PARTS, (encoder_matrices, decoder_matrices), strict=True):
        graph = merge_adapter(onnx_from_ort(model.folder / f"{part}.ort"), file).graph
        halves = {tensor.name for tensor in graph.initializer if tensor.data_type == TensorProto.FLOAT16}
        of_this = matrices(graph)
        assert {f"{of_this[name]}_adapted" for name in adapted & of_this.keys()} == halves
        adapted -= of_this.keys()
    assert not adapted


@each_kind
def test_the_shipped_adapter_changes_what_is_heard(kind: str) -> None:
    """With its adapter the engine hears a sample memo word for word, and is otherwise sure of it than without."""
    sound = load_sound(sample_audio_folder() / "2026-07-14_0750_base.flac")
    adapted, plain = (
        choose_engine("moonshine", adapter=adapter, second_opinion=False, model=kind) for adapter in (True, False)
    )
    heard, otherwise = adapted.listen(sound), plain.listen(sound)
    assert heard.text == "lake gable base width fifteen foot eleven and a half"
    assert [word.confidence for word in heard.words] != [word.confidence for word in otherwise.words]
    digest = hash_of(shipped_adapter(kind))
    assert (adapted.version, plain.version) == (
        f"{plain.version} adapted {digest[:8]}",
        f"{kind} {HERE[kind].package_version}",
    )


@each_kind
def test_every_matrix_of_a_shipped_model_is_known(kind: str) -> None:
    """Each layer of the decoder that pip installed has its ten matrices under the names that adapters use, and of base's
    encoder its six."""
    graph = onnx_from_ort(HERE[kind].folder / f"{PARTS[1]}.ort").graph
    layers = {"base": 8, "tiny": 6}[kind]
    attention = [f"{whose}.{part}" for whose in ("self_attn", "encoder_attn") for part in ATTENTION]
    parts = [*attention, "mlp.up_proj", "mlp.down_proj"]
    found = decoder_matrices(graph)
    assert set(found) == {f"layers.{layer}.{part}" for layer in range(layers) for part in parts}
    if kind == "base":
        heard = encoder_matrices(onnx_from_ort(HERE[kind].folder / f"{PARTS[0]}.ort").graph)
        assert set(heard) == {f"encoder.{name}" for name in found if "encoder_attn" not in name}
    weights = plain_weights(graph, found["layers.0.mlp.up_proj"])
    assert np.isfinite(weights).all()
    assert abs(float(weights.mean())) < float(weights.std())
