#!/usr/bin/env python3
"""Trains the network that proposes marks, and writes it as an ONNX file. See README.md beside this."""
import argparse
import glob
import json
import os
import time

import numpy as np
import torch
import torch.nn.functional as F

import lessons
from net import WoodNet, export


def arguments():
    p = argparse.ArgumentParser(description=__doc__)
    p.add_argument("--photos", required=True, help="folder with images/ and masks/ to learn from")
    p.add_argument("--painted", required=True, help="folder of the painter's marks")
    p.add_argument("--surfaces", required=True, help="folder of the painter's clear wood")
    p.add_argument("--settings", default=os.path.join(os.path.dirname(__file__), "settings.json"))
    p.add_argument("--net", default="student", help="which net of the settings")
    p.add_argument("--teacher", help="weights of the net 'teacher' to learn from besides the labels")
    p.add_argument("--start", help="weights to start from")
    p.add_argument("--seconds", type=float, required=True, help="how long to learn")
    p.add_argument("--lowest", type=float, default=0.0, help="share of the schedule already run when starting")
    p.add_argument("--seed", type=int, default=1)
    p.add_argument("--out", required=True, help="without its ending: .pt and .onnx are written")
    return p.parse_args()


def loss_of(logits, kinds, weights):
    """Cross-entropy, and half the soft Dice of each kind that is present or claimed."""
    logits = F.interpolate(logits.float(), scale_factor=2, mode="bilinear", align_corners=False)
    ce = F.cross_entropy(logits, kinds, weight=weights)
    p = logits.softmax(1)
    truth = kinds.unsqueeze(1) == torch.arange(p.shape[1], device=p.device).view(1, -1, 1, 1)
    both, present, claimed = (p * truth).sum((0, 2, 3)), truth.sum((0, 2, 3)), p.sum((0, 2, 3))
    dice = 1 - (2 * both + 50) / (present + claimed + 50)
    return ce + 0.5 * dice[1:].mean()


def distilled(logits, wanted, temperature=2.0):
    kl = F.kl_div((logits.float() / temperature).log_softmax(1), (wanted.float() / temperature).softmax(1),
                  reduction="none").sum(1)
    # Clear wood is most of every picture: where the teacher sees something counts as much as all of it.
    something = 1 - wanted.float().softmax(1)[:, 0]
    return temperature ** 2 * (kl.mean() + (kl * something).sum() / (something.sum() + 1))


class Lessons:
    """Batches of photographs and of painted faces, at random out of all that was loaded."""

    def __init__(self, a, settings, device):
        names = glob.glob(os.path.join(a.photos, "images", "*.jpg"))
        learning, _ = lessons.split([os.path.basename(n) for n in names], settings["split_seed"],
                                    settings["tuning_share"])
        self.settings, self.device = settings, device
        photos = [os.path.join(a.photos, "images", n) for n in learning]
        self.photos = lessons.load(photos, lessons.load_photo, device)
        self.painted, self.surfaces = [
            lessons.load(sorted(glob.glob(os.path.join(folder, "*.ppm"))), lessons.load_painted, device)
            for folder in (a.painted, a.surfaces)]
        # Rare kinds are shown more often.
        self.share = torch.ones(len(learning), device=device)
        for kind, times in settings["oversample"].items():
            has = (self.photos[1] == lessons.KINDS.index(kind)).flatten(1).any(1)
            self.share = torch.where(has, self.share.clamp(min=times), self.share)

    def drawn(self, of, count, size):
        at = torch.randint(0, len(of[0]), (count,), device=self.device)
        return lessons.placed(lessons.evened(of[0][at], of[2][at]), of[1][at], size, self.device)

    def batch(self):
        s = self.settings
        at = torch.multinomial(self.share, s["photos"], replacement=True)
        x, kinds = lessons.evened(self.photos[0][at], self.photos[2][at]), self.photos[1][at]
        x = lessons.other_wood(x, self.drawn(self.surfaces, s["photos"], x.shape[2:])[0])
        x, kinds = lessons.placed(x, kinds, s["size"], self.device)
        y, painted = self.drawn(self.painted, s["painted"], s["size"])
        x = torch.cat([lessons.worn(x, s["softest_photo_px"], s["gentle"]),
                       lessons.worn(y, s["softest_painted_px"], 0)])
        return x.contiguous(memory_format=torch.channels_last), torch.cat([kinds, painted])


class InHalf(torch.nn.Module):
    """The net in bfloat16; on a GPU as one recorded graph, since its kernels are small and many."""

    def __init__(self, net, device):
        super().__init__()
        self.net, self.device = net, device

    def forward(self, x):
        with torch.autocast(self.device.type, torch.bfloat16, enabled=self.device.type == "cuda", cache_enabled=False):
            return self.net(x)


def recorded(net, device, sample):
    run = InHalf(net, device)
    if device.type != "cuda":
        return run
    if net.training:
        return torch.cuda.make_graphed_callables(run, (sample,))
    still, graph = sample.clone(), torch.cuda.CUDAGraph()
    with torch.no_grad():
        side = torch.cuda.Stream()
        with torch.cuda.stream(side):
            for _ in range(3):
                run(still)
        torch.cuda.current_stream().wait_stream(side)
        with torch.cuda.graph(graph):
            answer = run(still)

    def replay(x):
        still.copy_(x)
        graph.replay()
        return answer

    return replay


def main():
    a = arguments()
    settings = json.load(open(a.settings))
    torch.manual_seed(a.seed)
    np.random.seed(a.seed)
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    begun = time.time()
    data = Lessons(a, settings, device)
    print("%.0f s: %d photographs, %d painted" % (time.time() - begun, len(data.photos[0]),
                                                  len(data.painted[0])), flush=True)
    net = WoodNet(len(lessons.KINDS), **settings["nets"][a.net]).to(device)
    if a.start:
        net.load_state_dict(torch.load(a.start, map_location=device))
    net = net.to(memory_format=torch.channels_last).train()
    x, kinds = data.batch()
    teacher = None
    if a.teacher:
        teacher = WoodNet(len(lessons.KINDS), **settings["nets"]["teacher"]).to(device).eval()
        teacher.load_state_dict(torch.load(a.teacher, map_location=device))
        teacher = recorded(teacher.to(memory_format=torch.channels_last), device, x)
    run = recorded(net, device, x)
    state = net.state_dict()
    names = [k for k, v in state.items() if v.is_floating_point()]
    mean = [state[k].detach().clone() for k in names]  # of the weights, as they go
    weights = torch.tensor([settings["class_weights"][k] for k in lessons.KINDS], device=device)
    optimiser = torch.optim.AdamW(net.parameters(), lr=settings["rate"], weight_decay=settings["decay"])
    begun, step, told = time.time(), 0, 0.0
    while time.time() - begun < a.seconds:
        t = a.lowest + (1 - a.lowest) * (time.time() - begun) / a.seconds
        rate = settings["rate"] * min(1, t / 0.04 + 0.02) * 0.5 * (1 + np.cos(np.pi * t))
        for g in optimiser.param_groups:
            g["lr"] = rate
        optimiser.zero_grad(set_to_none=True)
        logits = run(x)
        loss = loss_of(logits, kinds, weights)
        if teacher is not None:
            loss = 0.5 * loss + settings["distil"] * distilled(logits, teacher(x))
        loss.backward()
        torch.nn.utils.clip_grad_norm_(net.parameters(), 2.0)
        optimiser.step()
        step += 1
        keep = min(0.999, (1 + step) / (10 + step))
        with torch.no_grad():
            state = net.state_dict()
            torch._foreach_mul_(mean, keep)
            torch._foreach_add_(mean, [state[k] for k in names], alpha=1 - keep)
        if time.time() - told > 15:
            told = time.time()
            print("%5.0f s  step %6d  rate %.5f  loss %.4f" % (told - begun, step, rate, float(loss)), flush=True)
        x, kinds = data.batch()
    net.load_state_dict(dict(net.state_dict(), **dict(zip(names, mean))))
    torch.save({k: v.half() if v.is_floating_point() else v for k, v in net.state_dict().items()}, a.out + ".pt")
    fresh = WoodNet(len(lessons.KINDS), **settings["nets"][a.net])
    fresh.load_state_dict(net.state_dict())
    export(fresh, a.out + ".onnx")
    print("%d steps, %s.onnx" % (step, a.out), flush=True)


if __name__ == "__main__":
    main()
