"""Cameras that never were: photos of a made-up plane, with every error that a real one has."""

from __future__ import annotations

import numpy as np

from pavewright import rulebook
from pavewright.job.on_site import PhotoPlaneKind
from pavewright.photo_survey import Mark, Picture, limits_of, photo_figures

FIGURES = photo_figures(rulebook.load(rulebook.NEUTRAL))
FLOOR = FIGURES.trust(PhotoPlaneKind.FLOOR)
LIMITS = limits_of(FIGURES)
SIZE = np.array([1600.0, 1200.0])
HALF = float(np.hypot(*SIZE)) / 2.0
SPREAD = np.array(
    [(0.12, 0.3), (0.88, 0.3), (0.9, 0.92), (0.1, 0.92), (0.5, 0.6), (0.3, 0.75), (0.7, 0.45), (0.55, 0.9)]
)
"""Where marks lie in the picture, as shares of it."""


class Camera:
    """A camera over a plane, looking down at it."""

    def __init__(self, rng, pitch_deg=None, height_mm=None, focal=None):
        self.focal = HALF * (rng.uniform(1.08, 1.32) if focal is None else focal)
        pitch = np.radians(rng.uniform(30.0, 60.0) if pitch_deg is None else pitch_deg)
        turn = rng.uniform(0.0, 2.0 * np.pi)
        ahead = np.array([np.cos(turn) * np.cos(pitch), np.sin(turn) * np.cos(pitch), -np.sin(pitch)])
        right = np.cross(ahead, (0.0, 0.0, 1.0))
        right /= np.linalg.norm(right)
        self.axes = np.array([right, np.cross(ahead, right), ahead])
        height = rng.uniform(1300.0, 2200.0) if height_mm is None else height_mm
        self.stood = np.array([*rng.uniform(0.0, 8000.0, 2), height])

    def seen(self, places, lens=(0.0, 0.0)):
        """Where places in space are seen."""
        turned = (places - self.stood) @ self.axes.T
        at = turned[:, :2] / turned[:, 2:] * self.focal / HALF
        square = np.sum(at**2, axis=1)
        return at * (1.0 + lens[0] * square + lens[1] * square**2)[:, None] * HALF + SIZE / 2.0

    def on_plane(self, pixels):
        """The places of the plane that are seen there."""
        rays = np.column_stack(((pixels - SIZE / 2.0) / self.focal, np.ones(len(pixels)))) @ self.axes
        return self.stood - rays * (self.stood[2] / rays[:, 2])[:, None]


def photo(rng, marks, trust=FLOOR, known_sd_mm=5.0, wanted=1, camera=None):
    """Return a photo with errors as they are trusted, and where the wanted things truly are."""
    camera = Camera(rng) if camera is None else camera
    spread = SPREAD[:marks] + rng.uniform(-0.07, 0.07, (marks, 2))
    pixels = np.vstack((spread, rng.uniform((0.2, 0.4), (0.8, 0.85), (wanted, 2)))) * SIZE
    true = camera.on_plane(pixels)
    true[:, 2] = rng.normal(0.0, trust.flat_sd_mm, len(true))
    lens = rng.normal(0.0, 1.0, 2) * trust.lens_sd
    seen = camera.seen(true, lens) + rng.normal(0.0, trust.mark_sd_px, (len(true), 2))
    known = true[:marks, :2] + rng.normal(0.0, known_sd_mm, (marks, 2))
    named = tuple(
        Mark(f"M{number}", tuple(seen[number].tolist()), tuple(known[number].tolist()), known_sd_mm)
        for number in range(marks)
    )
    things = tuple((f"T{number}", tuple(seen[marks + number].tolist())) for number in range(wanted))
    return Picture("made up", named, things, tuple(SIZE.tolist()), True), true[marks:, :2]  # noqa: FBT003 - as it is kept


def how_far(place, true):
    """How far the truth lies from a place, squared, in deviations of its ellipse."""
    turned = np.radians(place.ellipse.bearing_deg)
    along = np.array([np.sin(turned), np.cos(turned)])
    off = np.asarray(true) - place.at_mm
    across = np.array([along[1], -along[0]])
    return (off @ along / place.ellipse.major_mm) ** 2 + (off @ across / place.ellipse.minor_mm) ** 2
