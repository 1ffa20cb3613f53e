"""Records of the patterns app."""

from patterns.models.cloth import Collection, Fabric
from patterns.models.quilts import Block, Colorway, ColorwayFabric, PlacedBlock, Quilt, QuiltLetter
from patterns.models.user import User

__all__ = (
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
