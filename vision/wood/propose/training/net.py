"""The network: a U-Net that reads the picture and answers at half its size.

Widths grow as the picture shrinks, so that most of the work is done on few pixels: OpenCV's DNN module
runs it on two plain cores. Only plain convolutions, ReLU, addition and nearest upsampling are used; every
batch norm is folded into its convolution before export."""
import copy

import torch
import torch.nn as nn
import torch.nn.functional as F


class ConvBn(nn.Module):
    def __init__(self, cin, cout, k=3, stride=1, relu=True):
        super().__init__()
        self.conv = nn.Conv2d(cin, cout, k, stride, k // 2, bias=False)
        self.bn = nn.BatchNorm2d(cout)
        self.relu = relu

    def forward(self, x):
        x = self.bn(self.conv(x))
        return F.relu(x) if self.relu else x


class Residual(nn.Module):
    """Two convolutions beside a straight way."""

    def __init__(self, width):
        super().__init__()
        self.way = nn.Sequential(ConvBn(width, width), ConvBn(width, width, relu=False))

    def forward(self, x):
        return F.relu(x + self.way(x))


class WoodNet(nn.Module):
    """`widths`: channels at 1/2, 1/4, … of the picture's size; `down`, `up`: residual blocks there on the
    way in and out; `fine`: channels of a block at full size before them, 0 for none."""

    def __init__(self, classes, widths, down, up, fine=0):
        super().__init__()
        self.stem = ConvBn(3, widths[0], 5, 2) if not fine else nn.Sequential(
            ConvBn(3, fine), Residual(fine), ConvBn(fine, widths[0], 3, 2))
        self.down, self.enter = nn.ModuleList(), nn.ModuleList()
        for i, w in enumerate(widths):
            self.enter.append(nn.Identity() if i == 0 else ConvBn(widths[i - 1], w, 3, 2))
            self.down.append(nn.Sequential(*[Residual(w) for _ in range(down[i])]))
        self.side, self.up = nn.ModuleList(), nn.ModuleList()
        for i in range(len(widths) - 1):
            self.side.append(ConvBn(widths[i + 1], widths[i], 1))
            self.up.append(nn.Sequential(*[Residual(widths[i]) for _ in range(up[i])]))
        self.head = nn.Conv2d(widths[0], classes, 1)

    def forward(self, x):
        x = self.stem(x)
        kept = []
        for enter, down in zip(self.enter, self.down):
            x = down(enter(x))
            kept.append(x)
        for i in reversed(range(len(self.up))):
            x = self.up[i](kept[i] + F.interpolate(self.side[i](x), scale_factor=2, mode="nearest"))
        return self.head(x)


def folded(net):
    """A copy without batch norms, for export."""
    net = copy.deepcopy(net).eval()
    for m in net.modules():
        if isinstance(m, ConvBn):
            scale = m.bn.weight / torch.sqrt(m.bn.running_var + m.bn.eps)
            m.conv.weight = nn.Parameter((m.conv.weight * scale.reshape(-1, 1, 1, 1)).detach())
            m.conv.bias = nn.Parameter((m.bn.bias - m.bn.running_mean * scale).detach())
            m.bn = nn.Identity()
    return net


def export(net, path, rows=256, cols=256):
    net = folded(net).cpu().float()
    kw = {} if torch.__version__.startswith("1.") else {"dynamo": False}
    torch.onnx.export(net, torch.zeros(1, 3, rows, cols), path, opset_version=11, input_names=["picture"],
                      output_names=["kinds"], **kw)
