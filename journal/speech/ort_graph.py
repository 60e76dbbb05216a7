"""An ONNX graph out of an ORT flatbuffer file.

The speech models come as .ort files, whose decoder unpacks its weights again at every token. As ONNX the same graph lets
onnxruntime do that once when it loads: the same text in a third of the time. onnxruntime ships the readers of the format.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from journal.errors import EngineError


def onnx_from_ort(path: Path) -> Any:
    """The onnx.ModelProto with the graph, weights and opsets of an .ort file. EngineError where it cannot be read."""
    from onnx import helper

    with _flatbuffer_readers() as fbs:
        try:
            session = fbs.InferenceSession.InferenceSession.GetRootAs(bytearray(path.read_bytes()), 0)
            model = session.Model()
            graph = _Reader(fbs).graph(model.Graph(), "graph")
            opsets = [
                helper.make_opsetid(_text(model.OpsetImport(i).Domain()), model.OpsetImport(i).Version())
                for i in range(model.OpsetImportLength())
            ]
            return helper.make_model(graph, opset_imports=opsets, ir_version=int(model.IrVersion()))
        except (OSError, AttributeError, ValueError, TypeError, IndexError, KeyError) as error:
            raise EngineError(
                f"the speech model {path} cannot be read ({error})",
                hint="It is damaged, or of another make: install the journal again.",
            ) from error
        except Exception as error:
            # flatbuffers raises struct.error and errors of its own on bytes that are no model
            raise EngineError(
                f"the speech model {path} is damaged ({type(error).__name__})", hint="Install the journal again."
            ) from error


@contextmanager
def _flatbuffer_readers() -> Iterator[Any]:
    """The generated readers inside onnxruntime; they import each other by a name that needs their folder on the path."""
    import importlib

    import onnxruntime

    folder = str(Path(onnxruntime.__path__[0]) / "tools" / "ort_format_model" / "ort_flatbuffers_py")
    above = str(Path(folder).parent)
    sys.path[:0] = [folder, above]
    try:
        fbs = importlib.import_module("ort_flatbuffers_py.fbs")
        for name in ("InferenceSession", "AttributeType", "DimensionValueType", "TypeInfoValue", "TensorTypeAndShape"):
            importlib.import_module(f"ort_flatbuffers_py.fbs.{name}")
        yield fbs
    except ImportError as error:
        raise EngineError(
            f"this onnxruntime ({onnxruntime.__version__}) lacks its reader of .ort files",
            hint="Install the onnxruntime that the journal asks for: pip install -U onnxruntime",
        ) from error
    finally:
        for added in (folder, above):
            sys.path.remove(added)


def _text(raw: bytes | None) -> str:
    return raw.decode() if raw is not None else ""


class _Reader:
    """Turns the parts of a flatbuffer graph into ONNX parts."""

    def __init__(self, fbs: Any) -> None:
        self.fbs = fbs
        self.kinds = fbs.AttributeType.AttributeType

    def graph(self, flat: Any, name: str) -> Any:
        from onnx import TensorProto, helper

        nodes = [
            self._node(flat.Nodes(i), f"{name}_{i}")
            for i in sorted(range(flat.NodesLength()), key=lambda i: int(flat.Nodes(i).Index()))
        ]
        weights = [self._tensor(flat.Initializers(i)) for i in range(flat.InitializersLength())]
        values = {}
        for i in range(flat.NodeArgsLength()):
            if (value := self._value(flat.NodeArgs(i))) is not None:
                values[value.name] = value
        weight_names = {weight.name for weight in weights}

        def described(value_name: str) -> Any:
            return values.get(value_name) or helper.make_tensor_value_info(value_name, TensorProto.FLOAT, None)

        inputs = [_text(flat.Inputs(i)) for i in range(flat.InputsLength())]
        outputs = [_text(flat.Outputs(i)) for i in range(flat.OutputsLength())]
        return helper.make_graph(
            _in_running_order(nodes),
            name,
            [described(n) for n in inputs if n not in weight_names],
            [described(n) for n in outputs],
            weights,
        )

    def _node(self, flat: Any, fallback_name: str) -> Any:
        from onnx import helper

        node = helper.make_node(
            _text(flat.OpType()),
            [_text(flat.Inputs(k)) for k in range(flat.InputsLength())],
            [_text(flat.Outputs(k)) for k in range(flat.OutputsLength())],
            name=_text(flat.Name()) or fallback_name,
            domain=_text(flat.Domain()),
        )
        node.attribute.extend(self._attribute(flat.Attributes(k)) for k in range(flat.AttributesLength()))
        return node

    def _attribute(self, flat: Any) -> Any:
        from onnx import AttributeProto, helper

        kind, name, kinds = flat.Type(), _text(flat.Name()), self.kinds
        if kind == kinds.FLOAT:
            return helper.make_attribute(name, flat.F())
        if kind == kinds.INT:
            return helper.make_attribute(name, flat.I())
        if kind == kinds.STRING:
            return helper.make_attribute(name, _text(flat.S()))
        if kind == kinds.TENSOR:
            return helper.make_attribute(name, self._tensor(flat.T()))
        if kind == kinds.GRAPH:
            return helper.make_attribute(name, self.graph(flat.G(), name))
        if kind == kinds.FLOATS:
            floats = [flat.Floats(i) for i in range(flat.FloatsLength())]
            return helper.make_attribute(name, floats, attr_type=AttributeProto.FLOATS)
        if kind == kinds.INTS:
            whole = [flat.Ints(i) for i in range(flat.IntsLength())]
            return helper.make_attribute(name, whole, attr_type=AttributeProto.INTS)
        if kind == kinds.STRINGS:
            return helper.make_attribute(name, [_text(flat.Strings(i)) for i in range(flat.StringsLength())])
        raise ValueError(f"attribute {name} is of kind {kind}")

    def _tensor(self, flat: Any) -> Any:
        from onnx import TensorProto, helper

        dims, kind, name = [flat.Dims(i) for i in range(flat.DimsLength())], flat.DataType(), _text(flat.Name())
        if kind == TensorProto.STRING:
            return helper.make_tensor(name, kind, dims, [flat.StringData(i) for i in range(flat.StringDataLength())])
        raw = flat.RawDataAsNumpy()
        tensor = TensorProto(name=name, data_type=kind, raw_data=b"" if isinstance(raw, int) else raw.tobytes())
        tensor.dims.extend(dims)
        return tensor

    def _value(self, flat: Any) -> Any:
        from onnx import helper

        info = flat.Type()
        if info is None or info.ValueType() != self.fbs.TypeInfoValue.TypeInfoValue.tensor_type:
            return None
        typed = self.fbs.TensorTypeAndShape.TensorTypeAndShape()
        typed.Init(info.Value().Bytes, info.Value().Pos)
        dims: list[int | str | None] | None = None
        if (shape := typed.Shape()) is not None:
            dims = []
            for i in range(shape.DimLength()):
                dim = shape.Dim(i).Value()
                if dim is None:
                    dims.append(None)
                elif dim.DimType() == self.fbs.DimensionValueType.DimensionValueType.VALUE:
                    dims.append(dim.DimValue())
                else:
                    dims.append(_text(dim.DimParam()) or None)
        return helper.make_tensor_value_info(_text(flat.Name()), typed.ElemType(), dims)


def _in_running_order(nodes: list[Any]) -> list[Any]:
    """The nodes so that each stands after those that make what it uses, as ONNX wants them."""
    made = {output for node in nodes for output in node.output if output}
    ready: set[str] = set()
    ordered: list[Any] = []
    while nodes:
        waiting = []
        for node in nodes:
            if all(used in ready or used not in made for used in _uses(node)):
                ordered.append(node)
                ready.update(node.output)
            else:
                waiting.append(node)
        if len(waiting) == len(nodes):
            raise ValueError("its graph runs in a circle")
        nodes = waiting
    return ordered


def _uses(node: Any) -> list[str]:
    """The values that a node reads, those of the graphs inside it included."""
    from onnx import AttributeProto

    used = [name for name in node.input if name]
    for attribute in node.attribute:
        if attribute.type == AttributeProto.GRAPH:
            inner = attribute.g
            local = {output for n in inner.node for output in n.output} | {weight.name for weight in inner.initializer}
            used += [name for n in inner.node for name in _uses(n) if name not in local]
            used += [output.name for output in inner.output if output.name not in local]
    return used
