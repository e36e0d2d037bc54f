#!/usr/bin/env python3
"""Trains the network that proposes marks, and writes it as an ONNX file. See README.md beside this."""
import argparse
import json
import math
import os
import time

import torch
import torch.nn.functional as F

import lessons
from net import WoodNet, export


def arguments():
    p = argparse.ArgumentParser(description=__doc__)
    p.add_argument("--photos", required=True, help="folder with images/ and masks/ to learn from")
    p.add_argument("--painted", required=True, help="folder of the painter's marks")
    p.add_argument("--surfaces", required=True, help="folder of the painter's clear wood")
    p.add_argument("--kept", help="file that keeps the lessons as they were read, for the next run")
    p.add_argument("--settings", default=os.path.join(os.path.dirname(os.path.abspath(__file__)), "settings.json"))
    p.add_argument("--net", default="student", help="which net of the settings")
    p.add_argument("--teachers", nargs="*", default=[], help="weights to learn from besides the labels")
    p.add_argument("--start", help="weights to start from")
    p.add_argument("--seconds", type=float, required=True, help="how long to learn")
    p.add_argument("--highest", type=float, default=1.0, help="share of the learning rate to begin with")
    p.add_argument("--seed", type=int, default=1)
    p.add_argument("--out", required=True, help="without its ending: .pt and .onnx are written")
    return p.parse_args()


def loss_of(logits, truth, pixel_weights, class_weights):
    """Cross-entropy, and half the soft Dice of each kind that is present or claimed. `truth`: shares of the
    kinds at each place of the answer."""
    weight = pixel_weights * (truth * class_weights.view(1, -1, 1, 1)).sum(1)
    ce = -((truth * logits.log_softmax(1)).sum(1) * weight).sum() / weight.sum()
    p = logits.softmax(1)
    both, present, claimed = (p * truth).sum((0, 2, 3)), truth.sum((0, 2, 3)), p.sum((0, 2, 3))
    dice = 1 - (2 * both + 12) / (present + claimed + 12)
    return ce + 0.5 * dice[1:].mean()


def distilled(logits, wanted, temperature=2.0):
    """How far the answer is from the teachers'."""
    kl = F.kl_div((logits / temperature).log_softmax(1), (wanted / temperature).softmax(1), reduction="none").sum(1)
    # Clear wood is most of every picture: where the teachers see something counts as much as all of it.
    something = 1 - wanted.softmax(1)[:, 0]
    return temperature ** 2 * (kl.mean() + (kl * something).sum() / (something.sum() + 1))


def at_half_size(kinds, weights):
    """Shares of the kinds and weights of the pixels, for the 2 × 2 pixels that one answer stands for."""
    all_kinds = torch.arange(len(lessons.KINDS), device=kinds.device).view(1, -1, 1, 1)
    shares = sum((kinds[:, None, y::2, x::2] == all_kinds).float() for y in (0, 1) for x in (0, 1)) / 4
    return shares, F.avg_pool2d(weights.unsqueeze(1), 2).squeeze(1)


class Lessons:
    """Batches of photographs and of painted faces, at random out of all that was loaded."""

    def __init__(self, a, settings, device):
        if a.kept and os.path.exists(a.kept):
            parts = torch.load(a.kept)
        else:
            parts = lessons.gathered(a.photos, a.painted, a.surfaces, settings)
            if a.kept:
                torch.save(parts, a.kept)
        self.settings = settings
        self.photos, self.painted, self.clear = [[t.to(device) for t in part] for part in parts]
        # Rare kinds are shown more often; "none": photographs without any mark.
        self.share = torch.ones(len(self.photos[0]), device=device)
        for kind, times in settings["oversample"].items():
            k = lessons.KINDS.index(kind)
            has = (self.photos[1] == k).flatten(1)
            has = has.any(1) if k else has.all(1)
            self.share = torch.where(has, self.share.clamp(min=times), self.share)

    def drawn(self, of, at, zoom):
        s = self.settings
        return lessons.placed(lessons.evened(of[0][at], of[3][at]), of[1][at], of[2][at], s["size"], s[zoom])

    def any_of(self, of, count, zoom):
        return self.drawn(of, torch.randint(0, len(of[0]), (count,), device=of[0].device), zoom)

    def batch(self):
        """Pictures, kinds as shares, weights: the last two at half size."""
        s = self.settings
        x, kinds, weights = self.drawn(self.photos, torch.multinomial(self.share, s["photos"], replacement=True),
                                       "zoom_photo")
        x = lessons.other_wood(x, self.any_of(self.clear, s["photos"], "zoom_painted")[0], s["other_wood"])
        painted = [torch.cat(p) for p in zip(self.any_of(self.painted, s["painted"], "zoom_painted"),
                                             self.any_of(self.clear, s["clear"], "zoom_painted"))]
        x = torch.cat([lessons.worn(x, s["softest_photo_px"], s["gentle"]),
                       lessons.worn(painted[0], s["softest_painted_px"], 0)])
        truth, weights = at_half_size(torch.cat([kinds, painted[1]]), torch.cat([weights, painted[2]]))
        return x.contiguous(memory_format=torch.channels_last), truth, weights


class RunningMean:
    """Of the weights, as they go."""

    def __init__(self, net):
        self.now = [v for v in net.state_dict().values() if v.is_floating_point()]
        self.mean = [v.detach().clone() for v in self.now]
        self.steps = 0

    @torch.no_grad()
    def add(self):
        self.steps += 1
        keep = min(0.999, (1 + self.steps) / (10 + self.steps))
        torch._foreach_mul_(self.mean, keep)
        torch._foreach_add_(self.mean, [v.detach() for v in self.now], alpha=1 - keep)

    @torch.no_grad()
    def install(self):
        for v, m in zip(self.now, self.mean):
            v.copy_(m)


def saved(file, settings, device):
    kept = torch.load(file, map_location=device)
    net = WoodNet(len(lessons.KINDS), **settings["nets"][kept["net"]]).to(device)
    net.load_state_dict(kept["weights"])
    return net.to(memory_format=torch.channels_last)


def save(net, name, out):
    halves = {k: v.half() if v.is_floating_point() else v for k, v in net.state_dict().items()}
    torch.save({"net": name, "weights": halves}, out + ".pt")
    export(net, out + ".onnx")


def learn(net, teachers, data, settings, a, device):
    mean = RunningMean(net)
    class_weights = torch.tensor([float(settings["class_weights"][k]) for k in lessons.KINDS], device=device)
    optimiser = torch.optim.AdamW(net.parameters(), lr=settings["rate"], weight_decay=settings["decay"])
    half = torch.autocast(device.type, torch.bfloat16, enabled=device.type == "cuda")
    begun, told = time.time(), 0.0
    while (passed := time.time() - begun) < a.seconds:
        t = passed / a.seconds
        rate = settings["rate"] * a.highest * min(1, t / 0.04 + 0.02) * 0.5 * (1 + math.cos(math.pi * t))
        for g in optimiser.param_groups:
            g["lr"] = rate
        x, truth, weights = data.batch()
        with half:
            logits = net(x)
        loss = loss_of(logits.float(), truth, weights, class_weights)
        if teachers:
            with torch.no_grad(), half:
                wanted = sum(teacher(x).float() for teacher in teachers) / len(teachers)
            loss = 0.5 * loss + settings["distil"] * distilled(logits.float(), wanted)
        optimiser.zero_grad(set_to_none=True)
        loss.backward()
        torch.nn.utils.clip_grad_norm_(net.parameters(), 2.0)
        optimiser.step()
        mean.add()
        if passed - told > 20:
            told = passed
            print("%5.0f s  step %6d  rate %.5f  loss %.4f" % (passed, mean.steps, rate, float(loss.detach())),
                  flush=True)
    mean.install()
    return mean.steps


def main():
    a = arguments()
    settings = json.load(open(a.settings))
    torch.manual_seed(a.seed)
    torch.backends.cudnn.benchmark = True
    torch.backends.cuda.matmul.allow_tf32 = torch.backends.cudnn.allow_tf32 = True
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    data = Lessons(a, settings, device)
    print("%d photographs, %d painted" % (len(data.photos[0]), len(data.painted[0])), flush=True)
    if a.start:
        net = saved(a.start, settings, device)
    else:
        net = WoodNet(len(lessons.KINDS), **settings["nets"][a.net]).to(device, memory_format=torch.channels_last)
    teachers = [saved(file, settings, device).eval() for file in a.teachers]
    steps = learn(net.train(), teachers, data, settings, a, device)
    save(net, a.net, a.out)
    print("%d steps, %s.onnx" % (steps, a.out), flush=True)


if __name__ == "__main__":
    main()
