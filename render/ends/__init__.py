"""Faces of plugs: geometry first (`shape`), then shapes to draw (`drawing`)."""

from render.ends.shape import FaceShape, grid_shape, mirrored, seen_from

__all__ = ["FaceShape", "grid_shape", "mirrored", "seen_from"]
