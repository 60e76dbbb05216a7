"""Low-rank matrices added to a speech model's encoder and decoder while their graphs are rebuilt. Knows the graph, not what it hears."""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from journal.errors import EngineError

_MATRIX = re.compile(r"/model/decoder/(layers\.\d+)/(\w+)/(\w+)/MatMul(_quant)?")
_ENCODER_MATRIX = re.compile(r"/(layers\.\d+)/(\w+)/(\w+)/MatMul")
_PRODUCTS = ("MatMul", "MatMulIntegerToFloat", "DynamicQuantizeMatMul")
_HEARING = "encoder."
"""How the names of the encoder's matrices begin; the decoder's have nothing before them."""
SAME_AS = {"o_proj": "dense", "fc1": "up_proj", "fc2": "down_proj"}
"""What some graphs call a matrix, and its name here."""
_TO_FLOAT = 1  # onnx.TensorProto.FLOAT


def merge_adapter(model: Any, adapter: Path, strength: float = 1.0) -> Any:
    """One of the two graphs (an onnx.ModelProto, changed in place) with W + strength * B A for each matrix of it that the
    adapter has.

    A matrix of the graph is int8 under Cast, Mul (scale) and Add (offset), or int8 in a product that first rounds what
    it multiplies to int8 as well. An adapted one becomes float16 under a Cast, which onnxruntime folds away when it
    loads, in a product of floats. One matrix is unpacked at a time, so that memory stays low. EngineError where the
    adapter is of another model or damaged.
    """
    from onnx import helper, numpy_helper

    graph = model.graph
    values = decoder_matrices(graph)
    hears = not values
    if hears:
        values = encoder_matrices(graph)
    halves: dict[str, Any] = {}
    try:
        with np.load(adapter) as packed:
            names = sorted({name.rsplit(".", 1)[0] for name in packed.files})
            for name in (name for name in names if name.startswith(_HEARING) == hears):
                value = values[name]
                weights = plain_weights(graph, value)
                down, up = (packed[f"{name}.{part}"].astype(np.float32) for part in "AB")
                weights += np.float32(strength) * (up @ down).T
                halves[value] = numpy_helper.from_array(weights.astype(np.float16), f"{_raised(graph, value)}_adapted")
    except (OSError, ValueError, KeyError, EOFError, zipfile.BadZipFile) as error:
        raise EngineError(
            f"the adapter {adapter} does not fit this speech model ({type(error).__name__}: {error})",
            hint="Install the journal again, or leave the adapter out with --no-adapter.",
        ) from error
    raised = {value: _raised(graph, value) for value in halves}
    made_by = _makers(graph)
    gone: set[str] = set()
    for value in halves:
        if value in made_by:
            gone.update(output for node in _chain(made_by, value) for output in node.output)
    for inner in _graphs(graph):
        _multiply_floats(inner, raised, made_by)
    nodes = [
        helper.make_node("Cast", [half.name], [raised[value]], name=f"{raised[value]}_raised", to=_TO_FLOAT)
        for value, half in halves.items()
    ]
    nodes += [node for node in graph.node if not gone.intersection(node.output)]
    _put(graph.node, nodes)
    _drop_unread(graph)
    graph.initializer.extend(halves.values())
    return model


def decoder_matrices(graph: Any) -> dict[str, str]:
    """The name of each weight matrix ("layers.0.self_attn.q_proj") and the value in the graph that holds it."""
    branches = [a.g for node in graph.node if node.op_type == "If" for a in node.attribute if a.name == "else_branch"]
    found = {}
    for branch in branches:
        for node in branch.node:
            if node.op_type in _PRODUCTS and (place := _MATRIX.fullmatch(node.name)):
                layer, part, matrix, _ = place.groups()
                found[f"{layer}.{part}.{SAME_AS.get(matrix, matrix)}"] = node.input[1]
    return found


def encoder_matrices(graph: Any) -> dict[str, str]:
    """The name of each weight matrix ("encoder.layers.0.self_attn.q_proj") and the value in the graph that holds it."""
    found = {}
    for node in graph.node:
        if node.op_type == "MatMul" and (place := _ENCODER_MATRIX.fullmatch(node.name)):
            layer, part, matrix = place.groups()
            found[f"{_HEARING}{layer}.{part}.{SAME_AS.get(matrix, matrix)}"] = node.input[1]
    return found


def plain_weights(graph: Any, value: str) -> NDArray[np.float32]:
    """The matrix that a value holds, as float32 (in, out). KeyError where it is held in a way that is not known."""
    from onnx import numpy_helper

    stored = {tensor.name: tensor for tensor in graph.initializer}
    made_by = _makers(graph)
    weights: NDArray[np.float32]
    if value in made_by:
        add, scaled, cast = _chain(made_by, value)
        names = (cast.input[0], scaled.input[1], add.input[1])
        whole, scale, offset = (numpy_helper.to_array(stored[name]) for name in names)
        weights = whole.astype(np.float32) * scale + offset
    else:
        whole, scale, zero = (numpy_helper.to_array(stored[name]) for name in (value, *_scale_of(graph, value)))
        weights = (whole.astype(np.float32) - zero.astype(np.float32)) * scale
    return weights


def _raised(graph: Any, value: str) -> str:
    """The name of the float matrix: the value's own where it is one already."""
    return f"{value}_float" if any(tensor.name == value for tensor in graph.initializer) else value


def _scale_of(graph: Any, value: str) -> tuple[str, str]:
    """What a product's int8 matrix is scaled by and what stands for 0 in it."""
    for inner in _graphs(graph):
        for node in inner.node:
            if node.op_type == "MatMulIntegerToFloat" and node.input[1] == value:
                return node.input[3], node.input[5]
            if node.op_type == "DynamicQuantizeMatMul" and node.input[1] == value:
                return node.input[2], node.input[3]
    raise KeyError(value)


def _multiply_floats(graph: Any, raised: dict[str, str], outer: dict[str, Any]) -> None:
    """Each product that rounds to int8 and reads an adapted matrix becomes a product of floats, its bias added after."""
    from onnx import helper

    made_by = {**outer, **_makers(graph)}
    nodes = []
    for node in graph.node:
        if node.op_type not in _PRODUCTS[1:] or node.input[1] not in raised:
            nodes.append(node)
            continue
        left, bias_at = node.input[0], 4
        if node.op_type == "MatMulIntegerToFloat":
            left, bias_at = made_by[left].input[0], 6
        bias = node.input[bias_at] if len(node.input) > bias_at else ""
        product = f"{node.output[0]}_product" if bias else node.output[0]
        nodes.append(helper.make_node("MatMul", [left, raised[node.input[1]]], [product], name=node.name))
        if bias:
            nodes.append(helper.make_node("Add", [product, bias], list(node.output), name=f"{node.name}_bias"))
    _put(graph.node, nodes)


def _drop_unread(graph: Any) -> None:
    """Leaves out tensors, and nodes that round or unpack them, that nothing reads any more."""
    read = {name for inner in _graphs(graph) for node in inner.node for name in node.input}
    for inner in _graphs(graph):
        read.update(output.name for output in inner.output)
    for inner in _graphs(graph):
        kept = [n for n in inner.node if n.op_type != "DynamicQuantizeLinear" or read.intersection(n.output)]
        _put(inner.node, kept)
    _put(graph.initializer, [tensor for tensor in graph.initializer if tensor.name in read])


def _graphs(graph: Any) -> Iterator[Any]:
    """The graph and those inside it."""
    yield graph
    for node in graph.node:
        for attribute in node.attribute:
            if attribute.HasField("g"):
                yield from _graphs(attribute.g)


def _makers(graph: Any) -> dict[str, Any]:
    return {output: node for node in graph.node for output in node.output}


def _put(field: Any, kept: list[Any]) -> None:
    del field[:]
    field.extend(kept)


def _chain(made_by: dict[str, Any], value: str) -> tuple[Any, Any, Any]:
    """The Add that makes a matrix, the Mul before it and the Cast before that. KeyError where it is made otherwise."""
    add = made_by[value]
    scaled = made_by[add.input[0]]
    cast = made_by[scaled.input[0]]
    if (add.op_type, scaled.op_type, cast.op_type) != ("Add", "Mul", "Cast"):
        raise KeyError(value)
    return add, scaled, cast
