"""Records of the patterns app."""

from patterns.models.cloth import Collection, Fabric
from patterns.models.quilts import (
    QUILT_BLOCKS,
    QUILT_BORDERS,
    QUILT_CHOICES,
    QUILT_LETTERS,
    Block,
    Colorway,
    ColorwayFabric,
    PlacedBlock,
    Quilt,
    QuiltLetter,
)
from patterns.models.user import User

__all__ = (
    "QUILT_BLOCKS",
    "QUILT_BORDERS",
    "QUILT_CHOICES",
    "QUILT_LETTERS",
    "Block",
    "Collection",
    "Colorway",
    "ColorwayFabric",
    "Fabric",
    "PlacedBlock",
    "Quilt",
    "QuiltLetter",
    "User",
)
