"""Finds the head of three-views.json with SciPy's least_squares and writes
three-views-scipy.json: a second opinion on the minimum that the Go program finds.

    go test ./body/photo -run TestSciPy -write-views    (only to make other views)
    /usr/bin/python3 body/photo/testdata/solve.py       (Debian: python3-scipy)

The problem is written down here from its description, not translated: the
subject as points in head axes (x to the wearer's left, y up, z forward), a
pinhole camera a view, derivatives by differences.
"""

import json
import os

import numpy as np
from scipy.optimize import brentq, least_squares
from scipy.spatial.transform import Rotation

HERE = os.path.dirname(os.path.abspath(__file__))
data = json.load(open(os.path.join(HERE, "three-views.json")))
marks = data["Landmarks"]
shots = data["Shots"]
names = [m["Name"] for m in marks]
mean = np.array([[m["Mean"]["X"], m["Mean"]["Y"], m["Mean"]["Z"]] for m in marks])
n = len(names)
DEG = np.pi / 180

# nominal yaw by view: front, left side, right side, left and right quarter
YAW = [0, -90 * DEG, 90 * DEG, -45 * DEG, 45 * DEG]
FILM = 43.2666  # mm, diagonal of 36 x 24 mm film
CAUCHY = 2.5
SLACK = 10  # mm along an outline
WIDEST = -16  # mm in front of the ears: where skulls are broadest


def ix(name):
    return names.index(name)


LEFT, RIGHT = ix("left side of the head"), ix("right side of the head")
BROW, BACK, CROWN = ix("brow middle"), ix("back of the head"), ix("crown")


def rotation(yaw, pitch, roll):
    """From head to camera (x right, y down, z along the view)."""
    half_turn = Rotation.from_euler("x", 180, degrees=True)  # diag(1, -1, -1)
    return (Rotation.from_euler("z", roll) * Rotation.from_euler("x", pitch) * half_turn
            * Rotation.from_euler("y", yaw)).as_matrix()


class Shot:
    def __init__(self, s):
        self.centre = np.array([s["Width"] / 2, s["Height"] / 2])
        self.diagonal = np.hypot(s["Width"], s["Height"])
        self.focal = s["F35"] / FILM * self.diagonal
        self.yaw = YAW[s["View"]]
        r = s["Ruler"]
        self.ends = np.array([[r["From"]["X"], r["From"]["Y"]], [r["To"]["X"], r["To"]["Y"]]])
        self.length = r["Length"]
        self.distance = self.focal * self.length / np.linalg.norm(self.ends[1] - self.ends[0])
        scale = self.focal / self.distance  # px per mm
        self.ruler_sd = np.hypot(0.5 * scale, 0.5)
        # a ruler is held level with the ears in front views, in the mid-plane in
        # side views, as far away as the head in the others
        self.plane = {0: np.array([0, 0, 1.0]), 1: np.array([1.0, 0, 0]), 2: np.array([1.0, 0, 0])}.get(s["View"])
        self.seen = []
        for m in s["Marks"]:
            i = ix(m["Name"])
            sharp = np.hypot(marks[i]["Click"] * scale, 0.5)
            along = max(sharp, np.hypot(SLACK * scale, 0.5))
            rim = marks[i]["Rim"]
            sd = {0: [sharp, sharp], 1: [sharp, along], 2: [along, sharp]}[rim]
            self.seen.append((i, rim, np.array([m["At"]["X"], m["At"]["Y"]]), np.array(sd)))
        start = rotation(self.yaw, 0, 0)
        off = [(at - self.centre) / self.focal - (start @ mean[i])[:2] / self.distance for i, _, at, _ in self.seen]
        self.ab = np.mean(off, axis=0)
        self.start = start


shots = [Shot(s) for s in shots]
# unknowns: points, size, then for each shot pose (yaw, pitch, roll, log distance,
# a, b) and ruler (a, b, log of its distance over the head's, angle, tilt), then the
# logarithm of the one lens's focal length
x0 = list(mean.ravel()) + [1.0]
for s in shots:
    mid = (s.ends.mean(axis=0) - s.centre) / s.focal
    way = s.ends[1] - s.ends[0]
    x0 += [s.yaw, 0, 0, np.log(s.distance), *s.ab, *mid, 0, np.arctan2(way[1], way[0]), 0]
x0 += [np.log(shots[0].focal / shots[0].diagonal)]


def support(w, half, back):
    """How far the skull reaches from its centre in direction w: nested
    superellipses with exponents 2.3 (level) and 2.23 (upright), an egg whose
    back is as long as `back`."""
    p, q = 2.3 / 1.3, 2.23 / 1.23
    long = half[2] if w[2] >= 0 else back
    level = (abs(half[0] * w[0]) ** p + abs(long * w[2]) ** p) ** (1 / p)
    return (level ** q + abs(half[1] * w[1]) ** q) ** (1 / q)


def outline(i, axis, points, R, t, start):
    """Where the skull's outline is in the picture, in focal lengths: at its
    landmark i, along axis 0 (u) or 1 (v)."""
    half = np.array([(points[LEFT, 0] - points[RIGHT, 0]) / 2,
                     points[CROWN, 1] - (points[LEFT, 1] + points[RIGHT, 1]) / 2, points[BROW, 2] - WIDEST])
    back = WIDEST - points[BACK, 2]
    centre = points[i].copy()
    centre += {LEFT: [-half[0], 0, 0], RIGHT: [half[0], 0, 0], BACK: [0, 0, back], CROWN: [0, -half[1], 0]}[i]
    m = R @ centre + t
    side = np.sign((start @ mean[i])[axis])

    def beyond(at):  # > 0 where the plane through the lens cuts the skull
        l = np.zeros(3)
        l[axis], l[2] = side, -side * at
        return support(R.T @ l, half, back) + l @ m

    middle = m[axis] / m[2]
    return brentq(beyond, middle, middle + side * 0.5, xtol=1e-15, rtol=1e-14)


def residuals(x):
    points, size = x[: 3 * n].reshape(n, 3), x[3 * n]
    focal = np.exp(x[-1])
    out = list((points / size - mean).ravel() / 20)
    out.append((size - 1) / 0.3)
    out.append((x[-1] - x0[-1]) / 0.02)
    for i, m in enumerate(marks):
        p = points[i] / size
        if m["Pair"] == "":
            out.append(p[0] / 1.5)
        elif m["Name"].startswith("left"):
            q = points[ix(m["Pair"])] / size
            out += [(p[0] + q[0]) / 1.5, (p[1] - q[1]) / 1.5, (p[2] - q[2]) / 1.5]
    for i in (LEFT, RIGHT):
        out.append((points[i, 2] / size - WIDEST) / 10)
    ear = (points[ix("left tragion")] + points[ix("right tragion")]) / 2 / size
    eye = (points[ix("left outer eye corner")] + points[ix("right outer eye corner")]) / 2 / size
    out += [ear[1] / 0.02, ear[2] / 0.02, (eye[1] - 17.4 / 76 * eye[2]) / 0.02]
    for k, s in enumerate(shots):
        yaw, pitch, roll, log_d, a, b, ra, rb, rd, angle, tilt = x[3 * n + 1 + 11 * k: 3 * n + 12 + 11 * k]
        R, d, f = rotation(yaw, pitch, roll), np.exp(log_d), focal * s.diagonal
        t = d * np.array([a, b, 1])
        out += [(yaw - s.yaw) / (6 * DEG), pitch / (5 * DEG), roll / (5 * DEG), log_d - np.log(s.distance)]
        for i, rim, at, sd in s.seen:
            c = R @ points[i] + t
            uv = c[:2] / c[2]
            if rim:
                uv[rim - 1] = outline(i, rim - 1, points, R, t, s.start)
            r = (s.centre + f * uv - at) / sd
            square = r @ r
            if square > 0:
                r = r * np.sqrt(CAUCHY ** 2 * np.log1p(square / CAUCHY ** 2) / square)
            out += list(r)
        z = d * np.exp(rd)
        middle = z * np.array([ra, rb, 1])
        off = middle - t
        out.append((off[2] if s.plane is None else (R @ s.plane) @ off) / 20)
        way = s.ends[1] - s.ends[0]
        out += [(angle - np.arctan2(way[1], way[0])) / np.pi, tilt / (5 * DEG)]
        stick = s.length / 2 * np.array([np.cos(tilt) * np.cos(angle), np.cos(tilt) * np.sin(angle), np.sin(tilt)])
        for end, sign in zip(s.ends, (-1, 1)):
            c = middle + sign * stick
            out += list((s.centre + f * c[:2] / c[2] - end) / s.ruler_sd)
    return np.array(out)


best = least_squares(residuals, np.array(x0), jac="3-point", method="trf", x_scale="jac",
                     ftol=1e-15, xtol=1e-12, gtol=1e-12, max_nfev=200)
print(best.message, best.nfev, "evaluations, cost", best.cost)
pose = [best.x[3 * n + 1 + 11 * k: 3 * n + 12 + 11 * k] for k in range(len(shots))]
with open(os.path.join(HERE, "three-views-scipy.json"), "w") as f:
    json.dump({
        "Cost": best.cost,
        "Points": {name: list(best.x[3 * i: 3 * i + 3]) for i, name in enumerate(names)},
        "Distances": [float(np.exp(p[3])) for p in pose],
        "Yaws": [float(p[0]) for p in pose],
    }, f, indent=1)
    f.write("\n")
