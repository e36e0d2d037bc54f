"""The network: a U-Net that reads at half size and answers at half size.

Widths grow as the picture shrinks, so that most of the work is done on few pixels: OpenCV's DNN module
runs it on two plain cores. Only plain convolutions (separable ones below the stem), ReLU, addition and
nearest upsampling are used; every batch norm is folded into its convolution before export."""
import torch
import torch.nn as nn
import torch.nn.functional as F


class ConvBn(nn.Module):
    def __init__(self, cin, cout, k=3, stride=1, groups=1, relu=True):
        super().__init__()
        self.conv = nn.Conv2d(cin, cout, k, stride, k // 2, groups=groups, bias=False)
        self.bn = nn.BatchNorm2d(cout)
        self.relu = relu

    def forward(self, x):
        x = self.bn(self.conv(x))
        return F.relu(x) if self.relu else x


def separable(cin, cout, k=3):
    return nn.Sequential(ConvBn(cin, cin, k, groups=cin, relu=False), ConvBn(cin, cout, 1))


class Residual(nn.Module):
    """Two convolutions beside a straight way."""

    def __init__(self, width, dense, k=3):
        super().__init__()
        if dense:
            self.way = nn.Sequential(ConvBn(width, width), ConvBn(width, width, relu=False))
        else:
            self.way = nn.Sequential(ConvBn(width, width, k, groups=width, relu=False), ConvBn(width, width, 1),
                                     ConvBn(width, width, k, groups=width, relu=False),
                                     ConvBn(width, width, 1, relu=False))

    def forward(self, x):
        return F.relu(x + self.way(x))


class WoodNet(nn.Module):
    def __init__(self, classes, widths=(16, 32, 64, 96, 128), down=(1, 1, 2, 2, 2), up=(1, 1, 1, 1), dense=True,
                 stem=5):
        super().__init__()
        self.stem = ConvBn(3, widths[0], stem, 2)
        self.down, self.enter = nn.ModuleList(), nn.ModuleList()
        for i, w in enumerate(widths):
            self.enter.append(nn.Identity() if i == 0 else ConvBn(widths[i - 1], w, 3, 2))
            self.down.append(nn.Sequential(*[Residual(w, dense) for _ in range(down[i])]))
        self.side, self.up = nn.ModuleList(), nn.ModuleList()
        for i in range(len(widths) - 1):
            self.side.append(ConvBn(widths[i + 1], widths[i], 1))
            self.up.append(nn.Sequential(*[Residual(widths[i], dense) for _ in range(up[i])]))
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
    import copy
    net = copy.deepcopy(net).eval()
    for m in net.modules():
        if isinstance(m, ConvBn) and isinstance(m.bn, nn.BatchNorm2d):
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
