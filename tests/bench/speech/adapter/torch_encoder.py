"""The encoder of Moonshine base in plain PyTorch, its weights read out of the shipped graph, with low-rank adapters.

Its states equal onnxruntime's to 1e-4. Torch is for training only.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
import torch
import torch.nn.functional as F  # noqa: N812 - torch's own way to name it
from onnx import numpy_helper
from torch import Tensor, nn
from torch_decoder import HEADS, Linear

from journal.speech.adapter.merge import encoder_matrices, plain_weights

PARTS = ("self_attn.q_proj", "self_attn.k_proj", "self_attn.v_proj", "self_attn.dense", "mlp.up_proj", "mlp.down_proj")
_BIASES = {"mlp.up_proj": "mlp.fc1.bias", "mlp.down_proj": "mlp.fc2.bias"}
_NORMS = ("input_layernorm", "post_attention_layernorm")


class Encoder(nn.Module):
    """Samples in, a state each 24 ms out."""

    def __init__(self, graph: Any) -> None:
        super().__init__()
        stored = {tensor.name: numpy_helper.to_array(tensor) for tensor in graph.initializer}
        self.layers = 0
        self.linear = nn.ModuleDict()
        for name, value in encoder_matrices(graph).items():
            layer, part = name.removeprefix("encoder.layers.").split(".", 1)
            bias = stored.get(f"layers.{layer}.{_BIASES.get(part, '')}")
            self.linear[f"{layer}_{part.replace('.', '_')}"] = Linear(plain_weights(graph, value).T.copy(), bias)
            self.layers = max(self.layers, 1 + int(layer))
        norms = {f"{n}_{norm}": stored[f"layers.{n}.{norm}.weight"] for n in range(self.layers) for norm in _NORMS}
        norms["last"] = stored["layer_norm.weight"]
        self.norms = nn.ParameterDict({name: nn.Parameter(torch.tensor(w), False) for name, w in norms.items()})
        self.width = len(norms["last"])
        for number in (1, 2, 3):
            self.register_buffer(f"conv{number}", torch.tensor(plain_weights(graph, f"conv{number}.weight_add_tensor")))
        self.register_buffer("bias2", torch.tensor(stored["conv2.bias"]))
        self.register_buffer("bias3", torch.tensor(stored["conv3.bias"]))
        nodes = {node.name: node for node in graph.node}
        self.register_buffer("scale", torch.tensor(stored[nodes["/groupnorm/Mul"].input[1]]))
        self.register_buffer("shift", torch.tensor(stored[nodes["/groupnorm/Add"].input[1]]))
        self.register_buffer("frequencies", torch.tensor(stored["/rotary_emb/Cast_1_output_0"].reshape(-1)))
        self.epsilon = float(stored["/layers.0/input_layernorm/Constant_1_output_0"])

    def adapt(self, rank: int) -> list[nn.Parameter]:
        """Adapters of this rank on the matrices of every layer; the numbers to train."""
        for matrix in self.linear.values():
            matrix.adapt(rank)
        return [p for p in self.parameters() if p.requires_grad]

    def adapters(self) -> dict[str, np.ndarray]:
        """What merge_adapter reads: "encoder.layers.0.self_attn.q_proj.A" and ".B" for each matrix, as float16."""
        packed: dict[str, np.ndarray] = {}
        for layer in range(self.layers):
            for part in PARTS:
                matrix: Any = self.linear[f"{layer}_{part.replace('.', '_')}"]
                if matrix.up is not None:
                    packed[f"encoder.layers.{layer}.{part}.A"] = matrix.down.detach().numpy().astype(np.float16)
                    packed[f"encoder.layers.{layer}.{part}.B"] = matrix.up.detach().numpy().astype(np.float16)
        return packed

    def load_adapters(self, packed: Any) -> None:
        """Set the adapters to those of a file of the same rank; as they are where it has none."""
        with torch.no_grad():
            for layer in range(self.layers):
                for part in PARTS:
                    name = f"encoder.layers.{layer}.{part}"
                    matrix: Any = self.linear[f"{layer}_{part.replace('.', '_')}"]
                    if matrix.up is not None and f"{name}.A" in packed:
                        matrix.down.copy_(torch.from_numpy(packed[f"{name}.A"].astype(np.float32)))
                        matrix.up.copy_(torch.from_numpy(packed[f"{name}.B"].astype(np.float32)))

    @torch.no_grad()
    def front(self, samples: np.ndarray) -> Tensor:
        """What the convolutions make of a sound, (frames, width); never adapted."""
        x = F.conv1d(torch.from_numpy(samples)[None, None], self.conv1, stride=64).tanh()
        x = (x - x.mean()) / torch.sqrt(x.var(correction=0) + 1e-5) * self.scale + self.shift
        x = F.gelu(F.conv1d(x, self.conv2, self.bias2, stride=3))
        return F.gelu(F.conv1d(x, self.conv3, self.bias3, stride=2))[0].T

    def forward(self, fronts: Sequence[Tensor]) -> tuple[Tensor, Tensor]:
        """States of several sounds side by side, and where they are no padding."""
        rows, length = len(fronts), max(len(front) for front in fronts)
        x = torch.zeros(rows, length, self.width)
        heard = torch.zeros(rows, length, dtype=torch.bool)
        for row, front in enumerate(fronts):
            x[row, : len(front)] = front
            heard[row, : len(front)] = True
        mask = None if bool(heard.all()) else heard[:, None, None, :]
        angle = torch.arange(length, dtype=torch.float32)[:, None] * self.frequencies[None]
        cos, sin = (f.repeat_interleave(2, -1) for f in (angle.cos(), angle.sin()))

        def split(y: Tensor) -> Tensor:
            return y.view(rows, length, HEADS, self.width // HEADS).transpose(1, 2)

        def turned(y: Tensor) -> Tensor:
            size = cos.shape[-1]
            coded, rest = y[..., :size], y[..., size:]
            half = torch.stack((-coded[..., 1::2], coded[..., 0::2]), -1).flatten(-2)
            return torch.cat([coded * cos + half * sin, rest], -1)

        for layer in range(self.layers):

            def times(part: str, y: Tensor, layer: int = layer) -> Tensor:
                return self.linear[f"{layer}_{part}"](y)

            y = self._norm(x, f"{layer}_input_layernorm")
            query, key = (turned(split(times(f"self_attn_{p}_proj", y))) for p in "qk")
            mixed = F.scaled_dot_product_attention(query, key, split(times("self_attn_v_proj", y)), attn_mask=mask)
            x = x + times("self_attn_dense", mixed.transpose(1, 2).reshape(rows, length, self.width))
            y = self._norm(x, f"{layer}_post_attention_layernorm")
            x = x + times("mlp_down_proj", F.gelu(times("mlp_up_proj", y)))
        return self._norm(x, "last"), heard

    def _norm(self, x: Tensor, name: str) -> Tensor:
        return F.layer_norm(x, (self.width,), self.norms[name], None, self.epsilon)
