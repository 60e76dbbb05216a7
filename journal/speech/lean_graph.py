"""The base model's graphs written anew, lean: what is worked out once a sound stands apart from what is worked out a piece.

As shipped, the decoder holds two graphs behind a switch, copies what it attends to for every text of the beam, and keeps its
weights several times over. Here one graph hears (the encoder, and the keys and values that the decoder's layers look up in
it) and one writes a piece for each text of the beam. What they say is the same, to the rounding. Attention as in Vaswani et
al., Attention Is All You Need (2017); positions turn pairs of neighbours as in Su et al., RoFormer (2021).

Tried and left: the matrices kept 8 bits wide (MatMulNBits) need a fifth less computing and 110 MB less, but 4 of 136 memos
came out otherwise, and a text scored otherwise beside other texts.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import numpy as np
from numpy.typing import NDArray

from journal.errors import EngineError

_FLOAT, _INT64 = 1, 7
_MOST_PIECES = 512
_OPSET, _IR = 17, 9
_MICROSOFT = "com.microsoft"


@contextmanager
def _of_this_make() -> Iterator[None]:
    try:
        yield
    except (ValueError, KeyError, StopIteration) as error:
        raise EngineError(
            f"the speech model's decoder is of another make ({error})",
            hint="Install the journal again: it brings the model that it was written for.",
        ) from error


class _Weights:
    """The decoder's numbers by what they are for."""

    def __init__(self, graph: Any) -> None:
        from onnx import numpy_helper

        branches = [
            a.g for node in graph.node if node.op_type == "If" for a in node.attribute if a.name == "else_branch"
        ]
        if len(branches) != 1:
            raise ValueError("no branch for a first piece")
        self._made = {output: node for node in graph.node for output in node.output}
        self._stored = {tensor.name: tensor for tensor in graph.initializer}
        self._array = numpy_helper.to_array
        self._matrices = {
            node.name.split("/model/decoder/")[1].removesuffix("/MatMul").replace("/", "."): node.input[1]
            for node in branches[0].node
            if node.op_type == "MatMul" and node.name.startswith("/model/decoder/layers")
        }
        past = next(i for i in graph.input if i.name == "past_key_values.0.decoder.key")
        self.heads, self.size = (past.type.tensor_type.shape.dim[at].dim_value for at in (1, 3))
        self.layers = sum(i.name.endswith(".decoder.key") for i in graph.input)
        self.frequencies = self.plain("/model/decoder/rotary_emb/Cast_1_output_0").ravel()
        self.least = float(self.plain("/model/decoder/layers.0/input_layernorm/Constant_1_output_0"))

    def matrix(self, name: str) -> NDArray[np.float32]:
        """A matrix that values are multiplied by, (in, out)."""
        return self._unpacked(self._matrices[name])

    def plain(self, name: str) -> NDArray[np.float32]:
        """Numbers that the graph holds as they are."""
        held: NDArray[np.float32] = self._array(self._stored[name])
        return held

    def of(self, layer: int, name: str) -> NDArray[np.float32]:
        """A scale or bias of a layer."""
        return self.plain(f"model.decoder.layers.{layer}.{name}_merged_0")

    def embedding(self) -> tuple[Any, Any, Any]:
        """The pieces as numbers: 8-bit rows, their scale and their offset."""
        name = "model.decoder.embed_tokens.weight_merged_0"
        return tuple(self.plain(f"{name}_{part}") for part in ("quantized", "scale", "zero_point"))  # type: ignore[return-value]

    def _unpacked(self, name: str) -> NDArray[np.float32]:
        """The value that Cast, Mul and Add nodes make of what is stored."""
        if name in self._stored:
            return self.plain(name)
        node = self._made[name]
        parts = [self._unpacked(used) for used in node.input]
        if node.op_type == "Cast":
            return parts[0].astype(np.float32)
        if node.op_type == "Mul":
            return parts[0] * parts[1]
        if node.op_type == "Add":
            return parts[0] + parts[1]
        raise ValueError(f"a matrix is made by {node.op_type}")


class _Graph:
    """A graph that grows a node at a time; each call gives the name of what the node makes."""

    def __init__(self) -> None:
        self.nodes: list[Any] = []
        self.tensors: dict[str, Any] = {}

    def __call__(self, kind: str, *inputs: str, made: str = "", domain: str = "", **attributes: Any) -> str:
        made = made or f"v{len(self.nodes)}"
        self.several(kind, inputs, [made], domain=domain, **attributes)
        return made

    def several(self, kind: str, inputs: Any, made: list[str], *, domain: str = "", **attributes: Any) -> list[str]:
        """A node that makes several values."""
        from onnx import helper

        self.nodes.append(helper.make_node(kind, list(inputs), made, domain=domain, **attributes))
        return made

    def held(self, name: str, numbers: Any) -> str:
        """Numbers that belong to the graph."""
        from onnx import numpy_helper

        if name not in self.tensors:
            self.tensors[name] = numpy_helper.from_array(np.ascontiguousarray(numbers), name)
        return name

    def shape(self, *sizes: int) -> str:
        """Sizes, for a node that wants them as a value."""
        return self.held("x".join(map(str, sizes)), np.array(sizes, np.int64))

    def times(self, value: str, name: str, matrix: NDArray[np.float32]) -> str:
        """The value times a matrix (in, out)."""
        return self("MatMul", value, self.held(name, matrix))

    def model(self, name: str, inputs: list[Any], outputs: list[Any]) -> Any:
        """What has grown, whole."""
        from onnx import helper

        graph = helper.make_graph(self.nodes, name, inputs, outputs, list(self.tensors.values()))
        self.tensors.clear()  # they were copied, and will be once more
        opsets = [helper.make_opsetid("", _OPSET), helper.make_opsetid(_MICROSOFT, 1)]
        return helper.make_model(graph, opset_imports=opsets, ir_version=_IR)


def _value(name: str, kind: int, *sizes: int | str) -> Any:
    from onnx import helper

    return helper.make_tensor_value_info(name, kind, list(sizes))


@_of_this_make()
def hearing_graph(encoder: Any, decoder: Any) -> Any:
    """The encoder, an onnx.ModelProto, with what each decoder layer looks up in a sound behind it.

    From `input_values` (1, samples) to `key.N` (heads, size, frames), ready to be multiplied by, and `value.N` (heads,
    frames, size) for each layer. EngineError where the graphs are of another make.
    """
    from onnx import helper

    weights, graph = _Weights(decoder.graph), _Graph()
    heads, size = weights.heads, weights.size
    outputs = []
    for layer in range(weights.layers):
        for part, order in (("key", [1, 2, 0]), ("value", [1, 0, 2])):
            name = f"layers.{layer}.encoder_attn.{part[0]}_proj"
            scale = 1 / math.sqrt(size) if part == "key" else 1.0
            made = graph.times(encoder.graph.output[0].name, name, weights.matrix(name) * np.float32(scale))
            apart = graph("Reshape", made, graph.shape(-1, heads, size))
            graph("Transpose", apart, made=f"{part}.{layer}", perm=order)
            sizes = (heads, size, "frames") if part == "key" else (heads, "frames", size)
            outputs.append(_value(f"{part}.{layer}", _FLOAT, *sizes))
    whole = helper.make_graph(
        [*encoder.graph.node, *graph.nodes],
        "hearing",
        list(encoder.graph.input),
        outputs,
        [*encoder.graph.initializer, *graph.tensors.values()],
    )
    return helper.make_model(whole, opset_imports=encoder.opset_import, ir_version=encoder.ir_version)


@_of_this_make()
def writing_graph(decoder: Any) -> Any:
    """One step of the decoder, an onnx.ModelProto, for several texts.

    From `pieces` and `origins` (texts), `position` (1), what was heard and what was written before, `past_key.N` and
    `past_value.N` (texts before, heads, pieces, size), to `scores` (texts, pieces there are), log probabilities, and
    `written_key.N` and `written_value.N` for the next step. EngineError where the decoder is of another make.
    """
    weights, graph = _Weights(decoder.graph), _Graph()
    heads, size, least = weights.heads, weights.size, weights.least
    width = heads * size
    rows, scale, offset = weights.embedding()
    taken = graph("Cast", graph("Gather", graph.held("pieces.whole", rows), "pieces"), to=_FLOAT)
    x = graph("Add", graph("Mul", taken, graph.held("pieces.scale", scale)), graph.held("pieces.offset", offset))
    cosine, sine, neighbours = _turns(weights)
    along = graph("Gather", graph.held("cosine", cosine), "position")
    across = graph("Gather", graph.held("sine", sine), "position")
    swapped = graph.held("neighbours", neighbours)

    def times(value: str, name: str, matrix: NDArray[np.float32] | None = None) -> str:
        return graph.times(value, name, weights.matrix(name) if matrix is None else matrix)

    def levelled(value: str, name: str, numbers: NDArray[np.float32]) -> str:
        return graph("LayerNormalization", value, graph.held(name, numbers), axis=-1, epsilon=least)

    inputs = [_value("pieces", _INT64, "texts"), _value("origins", _INT64, "texts"), _value("position", _INT64, 1)]
    outputs = [_value("scores", _FLOAT, "texts", len(rows))]
    for n in range(weights.layers):
        layer = f"layers.{n}"
        level = levelled(x, f"{layer}.first", weights.of(n, "input_layernorm.weight"))
        asked = weights.matrix(f"{layer}.self_attn.q_proj") * np.float32(1 / math.sqrt(size))
        others = [weights.matrix(f"{layer}.self_attn.{part}_proj") for part in "kv"]
        three = times(level, f"{layer}.self_attn", np.concatenate([asked, *others], axis=1))
        apart = graph("Reshape", three, graph.shape(-1, 3 * heads, 1, size))
        turning, new = graph.several(
            "Split", [apart, graph.shape(2 * heads, heads)], [f"{layer}.qk", f"{layer}.v"], axis=1
        )
        beside = graph("Mul", graph("Gather", turning, swapped, axis=3), across)
        turned = graph("Add", graph("Mul", turning, along), beside)
        query, key = graph.several("Split", [turned, graph.shape(heads, heads)], [f"{layer}.q", f"{layer}.k"], axis=1)
        for part, latest in (("key", key), ("value", new)):
            before = graph("Gather", f"past_{part}.{n}", "origins", axis=0)
            graph("Concat", before, latest, made=f"written_{part}.{n}", axis=2)
            inputs.append(_value(f"past_{part}.{n}", _FLOAT, "before", heads, "length", size))
            outputs.append(_value(f"written_{part}.{n}", _FLOAT, "texts", heads, "longer", size))
        like = graph("FusedMatMul", query, f"written_key.{n}", domain=_MICROSOFT, transB=1)
        seen = graph("MatMul", graph("Softmax", like, axis=-1), f"written_value.{n}")
        together = graph("Reshape", seen, graph.shape(-1, width))
        x = graph("Add", x, times(together, f"{layer}.self_attn.dense"))

        level = levelled(x, f"{layer}.second", weights.of(n, "post_attention_layernorm.weight"))
        apart = graph("Reshape", times(level, f"{layer}.encoder_attn.q_proj"), graph.shape(-1, heads, size))
        like = graph("MatMul", graph("Transpose", apart, perm=[1, 0, 2]), f"key.{n}")
        seen = graph("MatMul", graph("Softmax", like, axis=-1), f"value.{n}")
        together = graph("Reshape", graph("Transpose", seen, perm=[1, 0, 2]), graph.shape(-1, width))
        x = graph("Add", x, times(together, f"{layer}.encoder_attn.dense"))
        inputs += [
            _value(f"key.{n}", _FLOAT, heads, size, "frames"),
            _value(f"value.{n}", _FLOAT, heads, "frames", size),
        ]

        level = levelled(x, f"{layer}.third", weights.of(n, "final_layernorm.weight"))
        bias = graph.held(f"{layer}.up.bias", weights.of(n, "mlp.up_proj.bias"))
        up = graph("Add", times(level, f"{layer}.mlp.up_proj"), bias)
        half = weights.of(n, "mlp.up_proj.bias").size // 2
        value, gate = graph.several("Split", [up, graph.shape(half, half)], [f"{layer}.value", f"{layer}.gate"], axis=1)
        open_ = graph("Mul", graph("Mul", gate, graph("Sigmoid", gate)), value)
        bias = graph.held(f"{layer}.down.bias", weights.of(n, "mlp.down_proj.bias"))
        x = graph("Add", x, graph("Add", times(open_, f"{layer}.mlp.down_proj"), bias))
    level = levelled(x, "last", weights.plain("model.decoder.norm.weight_merged_0"))
    likely = times(level, "pieces.out", (rows.astype(np.float32) * scale + offset).T)
    graph("LogSoftmax", likely, made="scores", axis=-1)
    return graph.model("writing", inputs, outputs)


def _turns(weights: _Weights) -> tuple[NDArray[np.float32], NDArray[np.float32], NDArray[np.int64]]:
    """By how much a pair of neighbours is turned at each position, along and across; and each one's neighbour."""
    turning = 2 * len(weights.frequencies)
    angles = np.arange(_MOST_PIECES, dtype=np.float32)[:, None] * weights.frequencies
    along, across = np.ones((2, _MOST_PIECES, weights.size), np.float32)
    across[:] = 0
    along[:, :turning] = np.repeat(np.cos(angles), 2, axis=1)
    across[:, 0:turning:2], across[:, 1:turning:2] = -np.sin(angles), np.sin(angles)
    neighbours = np.arange(weights.size)
    neighbours[:turning] ^= 1
    return along, across, neighbours
