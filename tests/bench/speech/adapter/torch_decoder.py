"""The decoder of a Moonshine model in plain PyTorch, its weights read out of the shipped graph, with low-rank adapters.

Teacher-forced scores equal onnxruntime's to 2e-5 (base); tiny's products round to int8, these do not. Torch is for
training only.
"""

from __future__ import annotations

import math
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import numpy as np
import torch
import torch.nn.functional as F  # noqa: N812 - torch's own way to name it
from onnx import numpy_helper
from torch import Tensor, nn

from journal.speech.adapter.merge import SAME_AS, decoder_matrices, plain_weights

HEADS = 8
CROSS = ("encoder_attn.q_proj", "encoder_attn.k_proj", "encoder_attn.v_proj", "encoder_attn.dense")
SELF = ("self_attn.q_proj", "self_attn.k_proj", "self_attn.v_proj", "self_attn.dense")
MLP = ("mlp.up_proj", "mlp.down_proj")
SETS = {"all": (*SELF, *CROSS, *MLP), "cross": CROSS, "attention": (*SELF, *CROSS)}
_NORMS = ("input_layernorm", "post_attention_layernorm", "final_layernorm")
_PREFIX = "model.decoder."


class Linear(nn.Module):
    """A frozen matrix with, once adapted, B A added to it."""

    plain = threading.local()
    """Its `now` is true while the model is asked what it says without its adapters."""

    def __init__(self, weight: np.ndarray, bias: np.ndarray | None) -> None:
        super().__init__()
        self.register_buffer("weight", torch.tensor(weight))
        self.register_buffer("bias", None if bias is None else torch.tensor(bias))
        self.down: nn.Parameter | None = None
        self.up: nn.Parameter | None = None

    def adapt(self, rank: int) -> None:
        """Add matrices of this rank, which change nothing yet."""
        out, width = self.weight.shape
        self.down = nn.Parameter(torch.randn(rank, width) / math.sqrt(width))
        self.up = nn.Parameter(torch.zeros(out, rank))

    def forward(self, x: Tensor) -> Tensor:
        """X times the matrix, the adapter's part added."""
        y = F.linear(x, self.weight, self.bias)
        if self.up is not None and self.down is not None and not getattr(Linear.plain, "now", False):
            y = y + F.linear(F.linear(x, self.down), self.up)
        return y


@contextmanager
def without_adapters() -> Iterator[None]:
    """The unadapted model, without gradients."""
    Linear.plain.now = True
    try:
        with torch.no_grad():
            yield
    finally:
        Linear.plain.now = False


class Decoder(nn.Module):
    """Pieces so far and encoder states in, states before the output matrix out."""

    def __init__(self, graph: Any) -> None:
        super().__init__()
        stored = {tensor.name: tensor for tensor in graph.initializer}
        weights = {name: plain_weights(graph, output).T for name, output in decoder_matrices(graph).items()}
        small = {
            _one_name(name.removeprefix(_PREFIX).replace("_merged_0", "")): numpy_helper.to_array(tensor)
            for name, tensor in stored.items()
            if name.startswith(_PREFIX) and ("norm" in name or "bias" in name)
        }
        self.layers = 1 + max(int(name.split(".")[1]) for name in weights)
        self.linear = nn.ModuleDict(
            {name.replace(".", "_"): Linear(w.copy(), small.get(f"{name}.bias")) for name, w in weights.items()}
        )
        self.norms = nn.ParameterDict(
            {
                f"{layer}_{norm}": nn.Parameter(torch.tensor(small[f"layers.{layer}.{norm}.weight"]), False)
                for layer in range(self.layers)
                for norm in _NORMS
            }
        )
        self.norms["norm"] = nn.Parameter(torch.tensor(small["norm.weight"]), False)
        embedding, out = _embedding(graph, stored)
        self.register_buffer("embedding", torch.tensor(embedding))
        self.register_buffer("out", self.embedding if out is None else torch.tensor(out))
        self.register_buffer("frequencies", torch.tensor(_frequencies(graph, stored)))
        self.epsilon = _epsilon(graph, stored)
        self.width = self.embedding.shape[1]

    def adapt(self, rank: int, parts: tuple[str, ...]) -> list[nn.Parameter]:
        """Adapters of this rank on these matrices of every layer; the numbers to train."""
        for layer in range(self.layers):
            for part in parts:
                self.linear[f"layers_{layer}_{part.replace('.', '_')}"].adapt(rank)
        return [p for p in self.parameters() if p.requires_grad]

    def adapters(self) -> dict[str, np.ndarray]:
        """What merge_adapter reads: "layers.0.self_attn.q_proj.A" and ".B" for each adapted matrix, as float16."""
        packed: dict[str, np.ndarray] = {}
        for layer in range(self.layers):
            for part in SETS["all"]:
                matrix: Any = self.linear[f"layers_{layer}_{part.replace('.', '_')}"]
                if matrix.up is not None:
                    packed[f"layers.{layer}.{part}.A"] = matrix.down.detach().numpy().astype(np.float16)
                    packed[f"layers.{layer}.{part}.B"] = matrix.up.detach().numpy().astype(np.float16)
        return packed

    def load_adapters(self, file: Path) -> None:
        """Set the adapters to those of a file of the same rank and parts."""
        with np.load(file) as saved, torch.no_grad():
            for layer in range(self.layers):
                for part in SETS["all"]:
                    matrix: Any = self.linear[f"layers_{layer}_{part.replace('.', '_')}"]
                    if matrix.up is not None:
                        matrix.down.copy_(torch.from_numpy(saved[f"layers.{layer}.{part}.A"].astype(np.float32)))
                        matrix.up.copy_(torch.from_numpy(saved[f"layers.{layer}.{part}.B"].astype(np.float32)))

    def _norm(self, x: Tensor, name: str) -> Tensor:
        return F.layer_norm(x, (self.width,), self.norms[name], None, self.epsilon)

    def _turned(self, x: Tensor, start: int) -> Tensor:
        """The rotary position code, interleaved, on the first 2 * len(frequencies) numbers of each head."""
        size = 2 * len(self.frequencies)
        angle = torch.arange(start, start + x.shape[2], dtype=torch.float32)[:, None] * self.frequencies[None]
        cos, sin = (f.repeat_interleave(2, -1).to(x.dtype) for f in (angle.cos(), angle.sin()))
        coded, rest = x[..., :size], x[..., size:]
        half = torch.stack((-coded[..., 1::2], coded[..., 0::2]), -1).flatten(-2)
        return torch.cat([coded * cos + half * sin, rest], -1)

    def forward(self, pieces: Tensor, sound: Tensor, heard: Tensor, past: dict[str, Tensor] | None = None) -> Tensor:
        """`heard` is True where `sound` is no padding; with `past` (filled here) the pieces go on from earlier ones."""
        x = F.embedding(pieces, self.embedding)
        rows, length = pieces.shape
        start = past["0_k"].shape[2] if past else 0

        def split(y: Tensor) -> Tensor:
            return y.view(rows, -1, HEADS, self.width // HEADS).transpose(1, 2)

        def join(y: Tensor) -> Tensor:
            return y.transpose(1, 2).reshape(rows, length, self.width)

        for layer in range(self.layers):

            def times(part: str, y: Tensor, layer: int = layer) -> Tensor:
                return self.linear[f"layers_{layer}_{part}"](y)

            y = self._norm(x, f"{layer}_input_layernorm")
            query, key = (self._turned(split(times(f"self_attn_{p}_proj", y)), start) for p in "qk")
            value = split(times("self_attn_v_proj", y))
            if past is not None:
                if start:
                    key, value = (torch.cat([past[f"{layer}_{p}"], new], 2) for p, new in (("k", key), ("v", value)))
                past[f"{layer}_k"], past[f"{layer}_v"] = key, value
            mixed = F.scaled_dot_product_attention(query, key, value, is_causal=start == 0)
            x = x + times("self_attn_dense", join(mixed))
            y = self._norm(x, f"{layer}_post_attention_layernorm")
            if past is None or f"{layer}_ck" not in past:
                key, value = (split(times(f"encoder_attn_{p}_proj", sound)) for p in "kv")
                if past is not None:
                    past[f"{layer}_ck"], past[f"{layer}_cv"] = key, value
            else:
                key, value = past[f"{layer}_ck"], past[f"{layer}_cv"]
            query = split(times("encoder_attn_q_proj", y))
            mixed = F.scaled_dot_product_attention(query, key, value, attn_mask=heard[:, None, None, :])
            x = x + times("encoder_attn_dense", join(mixed))
            y = self._norm(x, f"{layer}_final_layernorm")
            up, gate = times("mlp_up_proj", y).chunk(2, -1)
            x = x + times("mlp_down_proj", F.silu(gate) * up)
        return self._norm(x, "norm")

    def scores(self, states: Tensor) -> Tensor:
        """Logits over all pieces."""
        return F.linear(states, self.out)


def _one_name(name: str) -> str:
    """A tensor's name with the matrix called as in SETS."""
    return ".".join(SAME_AS.get(part, part) for part in name.split("."))


def _inner_nodes(graph: Any) -> Iterator[Any]:
    return (node for outer in graph.node if outer.op_type == "If" for a in outer.attribute for node in a.g.node)


def _embedding(graph: Any, stored: dict[str, Any]) -> tuple[np.ndarray, np.ndarray | None]:
    """A row for each piece; and the output matrix where it is kept apart."""
    rounded = f"{_PREFIX}embed_tokens.weight_merged_0_quantized"
    out = next((n for n in _inner_nodes(graph) if n.name == "/proj_out/MatMul_quant"), None)
    if out is None:
        return plain_weights(graph, f"{_PREFIX}embed_tokens.weight_merged_0_add_tensor"), None
    scale, zero = (
        numpy_helper.to_array(stored[rounded.replace("quantized", part)]) for part in ("scale", "zero_point")
    )
    whole = numpy_helper.to_array(stored[rounded]).astype(np.float32)
    return (whole - zero.astype(np.float32)) * scale, plain_weights(graph, out.input[1]).T.copy()


def _frequencies(graph: Any, stored: dict[str, Any]) -> np.ndarray:
    """The angle a place of each pair of numbers that the rotary code turns."""
    if (kept := stored.get("/model/decoder/rotary_emb/Cast_1_output_0")) is None:
        expand = next(n for n in _inner_nodes(graph) if n.op_type == "Expand" and "rotary_emb" in n.output[0])
        inner = {t.name: t for n in graph.node for a in n.attribute if a.HasField("g") for t in a.g.initializer}
        kept = inner[expand.input[0]]
    return numpy_helper.to_array(kept).reshape(-1).copy()


def _epsilon(graph: Any, stored: dict[str, Any]) -> float:
    """What the norms add to a variance."""
    for node in _inner_nodes(graph):
        if node.op_type == "LayerNormalization":
            return float(next(a.f for a in node.attribute if a.name == "epsilon"))
    kept = next(t for n, t in stored.items() if n.endswith("input_layernorm/Constant_1_output_0"))
    return float(numpy_helper.to_array(kept))
