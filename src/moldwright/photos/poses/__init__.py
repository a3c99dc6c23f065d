"""Where each photo was taken from: markers found, one lens for all photos, a pose for each, and gates on both."""

from __future__ import annotations

from moldwright.photos.poses.poses import Poses, PoseWarning

__all__ = ["PoseWarning", "Poses"]
