"""Low-rank matrices added to a speech model's decoder while its graph is rebuilt. Knows the graph, not what it hears."""

from __future__ import annotations

import zipfile
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from journal.errors import EngineError

_INSIDE = "/model/decoder/"
_TO_FLOAT = 1  # onnx.TensorProto.FLOAT


def merge_adapter(model: Any, adapter: Path, strength: float = 1.0) -> Any:
    """The decoder (an onnx.ModelProto, changed in place) with W + strength * B A for each matrix that the adapter has.

    A matrix of the graph is int8 under Cast, Mul (scale) and Add (offset); an adapted one becomes float16 under a Cast,
    which onnxruntime folds away when it loads. One matrix is unpacked at a time, so that memory stays low. EngineError
    where the adapter is of another model or damaged.
    """
    from onnx import helper, numpy_helper

    graph = model.graph
    outputs = decoder_matrices(graph)
    made_by = {output: node for node in graph.node for output in node.output}
    stored = {tensor.name: tensor for tensor in graph.initializer}
    adapted: dict[str, Any] = {}
    gone: set[str] = set()
    try:
        with np.load(adapter) as packed:
            names = {name.rsplit(".", 1)[0] for name in packed.files}
            for name in sorted(names):
                output = outputs[name]
                add, scaled, cast = _chain(made_by, output)
                weights = _unpacked(stored, add, scaled, cast)
                down, up = (packed[f"{name}.{part}"].astype(np.float32) for part in "AB")
                weights += np.float32(strength) * (up @ down).T
                gone |= {*add.output, *scaled.output, *cast.output, cast.input[0], scaled.input[1], add.input[1]}
                half = numpy_helper.from_array(weights.astype(np.float16), f"{output}_adapted")
                raised = helper.make_node("Cast", [half.name], [output], name=f"{output}_raised", to=_TO_FLOAT)
                adapted[output] = (half, raised)
    except (OSError, ValueError, KeyError, EOFError, zipfile.BadZipFile) as error:
        raise EngineError(
            f"the adapter {adapter} does not fit this speech model ({type(error).__name__}: {error})",
            hint="Install the journal again, or leave the adapter out with --no-adapter.",
        ) from error
    nodes = [raised for _, raised in adapted.values()]
    nodes += [node for node in graph.node if not gone.intersection(node.output)]
    used = {name for node in nodes for name in node.input}
    tensors = [half for half, _ in adapted.values()]
    tensors += [tensor for tensor in graph.initializer if tensor.name not in gone or tensor.name in used]
    for field, kept in ((graph.node, nodes), (graph.initializer, tensors)):
        del field[:]
        field.extend(kept)
    return model


def decoder_matrices(graph: Any) -> dict[str, str]:
    """The name of each weight matrix ("layers.0.self_attn.q_proj") and the value in the graph that holds it."""
    branches = [a.g for node in graph.node if node.op_type == "If" for a in node.attribute if a.name == "else_branch"]
    return {
        node.name.split(_INSIDE)[1].rsplit("/", 1)[0].replace("/", "."): node.input[1]
        for branch in branches
        for node in branch.node
        if node.op_type == "MatMul" and node.name.startswith(f"{_INSIDE}layers")
        if node.name.endswith(("_proj/MatMul", "dense/MatMul"))
    }


def plain_weights(graph: Any, output: str) -> NDArray[np.float32]:
    """The matrix that a Cast, Mul, Add chain unpacks, as float32 (in, out)."""
    made_by = {made: node for node in graph.node for made in node.output}
    return _unpacked({tensor.name: tensor for tensor in graph.initializer}, *_chain(made_by, output))


def _unpacked(stored: dict[str, Any], add: Any, scaled: Any, cast: Any) -> NDArray[np.float32]:
    from onnx import numpy_helper

    names = (cast.input[0], scaled.input[1], add.input[1])
    whole, scale, offset = (numpy_helper.to_array(stored[name]) for name in names)
    weights: NDArray[np.float32] = whole.astype(np.float32) * scale + offset
    return weights


def _chain(made_by: dict[str, Any], output: str) -> tuple[Any, Any, Any]:
    """The Add that makes a matrix, the Mul before it and the Cast before that. KeyError where it is made otherwise."""
    add = made_by[output]
    scaled = made_by[add.input[0]]
    cast = made_by[scaled.input[0]]
    if (add.op_type, scaled.op_type, cast.op_type) != ("Add", "Mul", "Cast"):
        raise KeyError(output)
    return add, scaled, cast
