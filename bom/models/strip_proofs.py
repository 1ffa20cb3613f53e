"""What is known of strip plans that were shown before they were proven."""

from __future__ import annotations

from django.db import models


class StripProof(models.Model):
    """One list of pieces on one width: the row says what is to prove, and what was found.

    `demands` are [width, length, count, may turn] with lengths as text; `bound` and `found` inches as
    text: no layout is shorter than the bound, and `found` is the shortest one known.
    """

    key = models.CharField(max_length=64, unique=True)  # hash of demands, width and mode
    demands = models.JSONField()
    usable_width = models.CharField(max_length=40)
    mode = models.CharField(max_length=8)
    bound = models.CharField(max_length=40)
    found = models.CharField(max_length=40)
    is_tried = models.BooleanField(default=False)

    class Meta:
        ordering = ("pk",)

    def __str__(self) -> str:
        """Give the key."""
        return self.key
