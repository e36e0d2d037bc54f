"""What the network learns from: labelled photographs and painted faces, worn by chance on the way in.

Every picture is divided by the median colour of its wood before the network sees it, here and in the
program alike: species, exposure and tint of the light then matter little."""
import glob
import os
from concurrent.futures import ProcessPoolExecutor

import cv2
import numpy as np
import torch
import torch.nn.functional as F

KINDS = ["none", "sound knot", "loose knot", "knot with check", "check", "gum", "pith", "streak", "hole", "stain",
         "bark pocket", "worm hole"]
# From the labels of the photographs (10: an overgrown knot) and of the painter (11, 12; 254: no wood).
KIND_OF_LABEL = np.zeros(256, np.uint8)
KIND_OF_LABEL[:13] = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 1, 10, 11]
MEDIAN = 0.55  # the wood's median, of 1, once it is even
WEIGHT_STEPS, FULL_AREA = 40, 100  # marks smaller than this (pixels) count for more
PHOTO = (112, 304)  # columns (along the fibres) and rows of a photograph at 0.5 mm a pixel


def wood_median(bgr, wood):
    return np.maximum(np.median(bgr[wood], axis=0), 8) if wood.any() else np.array([128.0] * 3)


def pixel_weights(kinds):
    """How much each pixel counts, in WEIGHT_STEPS to 1: a small mark's pixels for more than a large one's,
    so that finding it counts."""
    out = np.full(kinds.shape, WEIGHT_STEPS, np.uint8)
    for kind in np.unique(kinds[kinds > 0]):
        count, pieces, stats, _ = cv2.connectedComponentsWithStats((kinds == kind).astype(np.uint8))
        for i in range(1, count):
            out[pieces == i] = WEIGHT_STEPS * np.clip((FULL_AREA / stats[i, cv2.CC_STAT_AREA]) ** 0.5, 1, 3)
    return out


def load_photo(path):
    """Fibres along x, at 0.5 mm a pixel; (picture, kinds, weights of the pixels, median of the wood)."""
    folder, name = os.path.split(path)
    bgr = cv2.imread(path)
    labels = cv2.imread(os.path.join(os.path.dirname(folder), "masks", name[:-4] + "_l.png"), 0)
    if bgr.shape[1] > 400:
        bgr = cv2.resize(bgr, None, fx=0.5, fy=0.5, interpolation=cv2.INTER_AREA)
        labels = cv2.resize(labels, bgr.shape[1::-1], interpolation=cv2.INTER_NEAREST)
    bgr, labels = bgr.transpose(1, 0, 2), labels.T
    median = wood_median(bgr, cv2.GaussianBlur(bgr.max(axis=2), (0, 0), 1.5) > 70)
    rows, cols = PHOTO[1], PHOTO[0]
    bgr, kinds = bgr[:rows, :cols], KIND_OF_LABEL[labels[:rows, :cols]]
    pad = ((0, rows - bgr.shape[0]), (0, cols - bgr.shape[1]))
    kinds = np.pad(kinds, pad, mode="edge")
    return np.pad(bgr, pad + ((0, 0),), mode="edge"), kinds, pixel_weights(kinds), median


def load_painted(path):
    """A pair of the painter's, through JPEG as any photograph."""
    bgr, labels = cv2.imread(path), cv2.imread(path[:-4] + ".pgm", 0)
    median = wood_median(bgr, labels != 254)
    quality = 78 + int(os.path.basename(path)[:-4]) % 18
    bgr = cv2.imdecode(cv2.imencode(".jpg", bgr, [cv2.IMWRITE_JPEG_QUALITY, quality])[1], cv2.IMREAD_COLOR)
    kinds = KIND_OF_LABEL[labels]
    return bgr, kinds, pixel_weights(kinds), median


def load(paths, reader):
    """Pictures, kinds and weights as bytes, medians."""
    with ProcessPoolExecutor() as pool:
        parts = list(pool.map(reader, paths, chunksize=16))
    bgr, kinds, weights, medians = (np.stack(column) for column in zip(*parts))
    return [torch.from_numpy(bgr).permute(0, 3, 1, 2).contiguous(), torch.from_numpy(kinds),
            torch.from_numpy(weights), torch.from_numpy(medians.astype(np.float32))]


def split(names, seed, share):
    """The same names always fall the same way: (learning, tuning)."""
    order = np.random.RandomState(seed).permutation(len(names))
    names, cut = sorted(names), int(round(share * len(names)))
    return [names[i] for i in order[cut:]], [names[i] for i in order[:cut]]


def gathered(photos, painted, surfaces, settings):
    """All lessons: of photographs, of painted faces, of painted clear wood."""
    names = [os.path.basename(n) for n in glob.glob(os.path.join(photos, "images", "*.jpg"))]
    learning, _ = split(names, settings["split_seed"], settings["tuning_share"])
    faces, clear = (sorted(glob.glob(os.path.join(folder, "*.ppm"))) for folder in (painted, surfaces))
    return [load([os.path.join(photos, "images", n) for n in learning], load_photo),
            load(faces, load_painted), load(clear, load_painted)]


def evened(bgr, medians):
    """Bytes to what the network takes."""
    return (bgr.float() * (MEDIAN / medians.float()).view(-1, 3, 1, 1)).clamp(0, 1.6) - MEDIAN


def uniform(n, low, high, device):
    return torch.rand(n, 1, 1, 1, device=device) * (high - low) + low


def some(n, share, device):
    return (torch.rand(n, 1, 1, 1, device=device) < share).float()


def placed(x, kinds, weights, size, zoom):
    """Cut to size at random: flipped, scaled by up to exp(±zoom), turned a little, sheared."""
    n, _, h, w = x.shape
    device = x.device
    rows, cols = size
    scale = torch.exp(torch.empty(n, device=device).uniform_(-zoom, zoom))  # > 1: seen from farther away
    turn = torch.empty(n, device=device).uniform_(-0.12, 0.12)
    shear = torch.empty(n, device=device).uniform_(-0.1, 0.1)
    fx = torch.randint(0, 2, (n,), device=device) * 2.0 - 1
    fy = torch.randint(0, 2, (n,), device=device) * 2.0 - 1
    sx, sy = scale * cols / w, scale * rows / h
    theta = torch.zeros(n, 2, 3, device=device)
    theta[:, 0, 0] = torch.cos(turn) * sx * fx
    theta[:, 0, 1] = -(torch.sin(turn) + shear) * scale * rows / w
    theta[:, 1, 0] = torch.sin(turn) * scale * cols / h * fx
    theta[:, 1, 1] = torch.cos(turn) * sy * fy
    # As far as the picture goes; smaller pictures stay about the middle.
    theta[:, 0, 2] = torch.empty(n, device=device).uniform_(-1, 1) * (1 - sx).clamp(min=0.05)
    theta[:, 1, 2] = torch.empty(n, device=device).uniform_(-1, 1) * (1 - sy).clamp(min=0.05)
    grid = F.affine_grid(theta, [n, 3, rows, cols], align_corners=False)
    x = F.grid_sample(x, grid, mode="bilinear", padding_mode="reflection", align_corners=False)
    labels = F.grid_sample(torch.stack([kinds, weights], 1).float(), grid, mode="nearest",
                           padding_mode="reflection", align_corners=False)
    return x, labels[:, 0].long(), labels[:, 1] / WEIGHT_STEPS


def blurred(x, sigma):
    """Each picture by its own Gaussian (pixels)."""
    n = x.shape[0]
    at = torch.arange(-5, 6, device=x.device).view(1, -1).float()
    k = torch.exp(-0.5 * (at / sigma.view(-1, 1).clamp(min=0.05)) ** 2)
    k = (k / k.sum(1, keepdim=True)).repeat_interleave(3, 0)
    y = x.reshape(1, n * 3, *x.shape[2:])
    y = F.conv2d(F.pad(y, (5, 5, 0, 0), mode="reflect"), k.view(-1, 1, 1, 11), groups=n * 3)
    y = F.conv2d(F.pad(y, (0, 0, 5, 5), mode="reflect"), k.view(-1, 1, 11, 1), groups=n * 3)
    return y.reshape(x.shape)


def worn(x, softest, gentle):
    """Light, colour, blur and noise, as telephones and halls give them; a share `gentle` of the (evened)
    pictures keeps its sharpness and most of its colour."""
    n, d = x.shape[0], x.device
    hard = 1 - some(n, gentle, d)
    x = (x + MEDIAN).clamp(min=0.01)
    x = x / MEDIAN
    x = x ** torch.exp(uniform(n, -0.35, 0.37, d) * (0.4 + 0.6 * hard))
    x = x * torch.exp(uniform(n, -0.2, 0.2, d) + 0.06 * torch.randn(n, 3, 1, 1, device=d))
    grey = x.mean(1, keepdim=True)
    x = x + (grey - x) * some(n, 0.5, d) * uniform(n, 0, 1, d) * hard
    ramp = torch.linspace(-1, 1, x.shape[3], device=d).view(1, 1, 1, -1) * uniform(n, -0.2, 0.2, d) + \
        torch.linspace(-1, 1, x.shape[2], device=d).view(1, 1, -1, 1) * uniform(n, -0.2, 0.2, d)
    x = x * (1 + ramp)
    x = blurred(x, uniform(n, 0, 1, d) * softest * hard)
    noise = torch.randn_like(x)
    soft = some(n, 0.5, d)
    noise = noise * (1 - soft) + 1.8 * blurred(noise, torch.ones(n, device=d) * 0.7) * soft
    x = x + noise * uniform(n, 0, 1, d) ** 2 * 0.06 * (0.3 + 0.7 * hard)
    return (x * MEDIAN).clamp(0, 1.6) - MEDIAN


def other_wood(x, surfaces, share):
    """Lays the figure of a painted surface (pores, saw marks, grey) over a share of the pictures."""
    n, d = x.shape[0], x.device
    ratio = (surfaces + MEDIAN) / MEDIAN
    ratio = ratio / ratio.mean((2, 3), keepdim=True).clamp(min=0.05)
    strength = uniform(n, 0.4, 1.2, d) * some(n, share, d)
    return (x + MEDIAN) * (1 + strength * (ratio - 1)).clamp(min=0.1) - MEDIAN
