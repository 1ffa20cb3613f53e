"""Pictures of the steps."""

from patterns.engine.steps import Recipe


def illustrate(recipe: Recipe) -> Recipe:
    """Add pictures."""
    return recipe
