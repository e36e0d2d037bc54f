#!/usr/bin/env python3
"""Packs a network (ONNX) and how far its answers are to be trusted (JSON) into the program's model file.
The form is described in README.md beside this; vision/wood/propose/mark_model.cpp reads it."""
import json
import struct
import sys

import numpy as np
import onnx

VERSION = 1
LEAST_WEIGHTS = 64  # shorter rows of numbers are kept as they are


def fnv1a(data):
    h = 2166136261
    for b in data:
        h = ((h ^ b) * 16777619) & 0xFFFFFFFF
    return h


def packed_weights(values, rows):
    """8-bit codes, each row by its own scale."""
    w = values.reshape(rows, -1)
    scale = np.maximum(np.abs(w).max(1) / 127, 1e-12).astype("<f4")
    codes = np.clip(np.round(w / scale[:, None]), -127, 127).astype(np.int8)
    return b"\x01" + struct.pack("<II", *w.shape) + scale.tobytes() + codes.tobytes()


def main():
    if len(sys.argv) != 4:
        sys.exit("usage: pack.py NET.onnx TRUST.json OUT.model")
    network = onnx.load(sys.argv[1])
    network.doc_string = ""
    for node in network.graph.node:
        node.doc_string = ""
    whole = network.SerializeToString()
    pieces, at = [], 0
    found = []
    for t in network.graph.initializer:
        if t.data_type == onnx.TensorProto.FLOAT and len(t.dims) == 4 and len(t.raw_data) >= 4 * LEAST_WEIGHTS:
            found.append((whole.index(t.raw_data), t))
    for start, t in sorted(found, key=lambda f: f[0]):
        pieces.append(b"\x00" + struct.pack("<I", start - at) + whole[at:start])
        pieces.append(packed_weights(np.frombuffer(t.raw_data, "<f4"), t.dims[0]))
        at = start + len(t.raw_data)
    pieces.append(b"\x00" + struct.pack("<I", len(whole) - at) + whole[at:])
    said = json.dumps(json.load(open(sys.argv[2])), separators=(",", ":")).encode()
    body = struct.pack("<I", len(said)) + said + b"".join(pieces)
    with open(sys.argv[3], "wb") as out:
        out.write(b"RSMARKS\n" + struct.pack("<III", VERSION, len(body), fnv1a(body)) + body)
    print("%s: %d bytes" % (sys.argv[3], len(body) + 20))


if __name__ == "__main__":
    main()
