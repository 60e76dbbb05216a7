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
    adapted: dict[str, Any] = {}
    gone: set[str] = set()
    try:
        with np.load(adapter) as packed:
            names = {name.rsplit(".", 1)[0] for name in packed.files}
            for name in sorted(names):
                output = outputs[name]
                weights = plain_weights(graph, output)
                down, up = (packed[f"{name}.{part}"].astype(np.float32) for part in "AB")
                weights += np.float32(strength) * (up @ down).T
                add, scaled, cast = _chain(made_by, output)
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
    tensors = [half for half, _ in adapted.values()] + [t for t in graph.initializer if t.name not in gone]
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
    from onnx import numpy_helper

    add, scaled, cast = _chain({o: node for node in graph.node for o in node.output}, output)
    wanted = (cast.input[0], scaled.input[1], add.input[1])
    stored = {t.name: numpy_helper.to_array(t) for t in graph.initializer if t.name in wanted}
    whole, scale, offset = (stored[name] for name in wanted)
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
