"""The encoder of a Moonshine model as it is shipped, run by onnxruntime and never adapted, in the place of torch_encoder's."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
import onnxruntime
import torch
from torch import Tensor, nn
from torch.nn.utils.rnn import pad_sequence


class ShippedEncoder:
    """Samples in, a state each 24 ms out: the journal's own run of the graph, one sound at a time."""

    def __init__(self, model: Any) -> None:
        options = onnxruntime.SessionOptions()
        options.intra_op_num_threads = 1
        options.log_severity_level = 3
        self.session = onnxruntime.InferenceSession(
            model.SerializeToString(), options, providers=["CPUExecutionProvider"]
        )
        self.masked = any(given.name == "attention_mask" for given in self.session.get_inputs())

    def adapt(self, _rank: int) -> list[nn.Parameter]:
        """Nothing to train."""
        return []

    def adapters(self) -> dict[str, np.ndarray]:
        """Nothing that merge_adapter could add."""
        return {}

    def load_adapters(self, _packed: Any) -> None:
        """Stays as it is."""

    def front(self, samples: np.ndarray) -> Tensor:
        """The states of one sound, (frames, width); its products round to int8, so that none may be heard beside another."""
        feed = {"input_values": samples[None].astype(np.float32)}
        if self.masked:
            feed["attention_mask"] = np.ones((1, len(samples)), np.int64)
        return torch.from_numpy(self.session.run(None, feed)[0][0])

    def __call__(self, fronts: Sequence[Tensor]) -> tuple[Tensor, Tensor]:
        """States of several sounds side by side, and where they are no padding."""
        lengths = torch.tensor([len(front) for front in fronts])
        heard = torch.arange(int(lengths.max()))[None] < lengths[:, None]
        return pad_sequence(list(fronts), batch_first=True), heard
