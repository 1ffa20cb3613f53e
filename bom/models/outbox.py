"""Mail that waits to be sent, and the record of what was done."""

from __future__ import annotations

from django.conf import settings
from django.db import models

from bom.enums import OutboxState


class Outbox(models.Model):
    """One mail.  The row is the lock and the queue; its key makes a second queueing harmless."""

    key = models.CharField(max_length=200, unique=True)
    to = models.EmailField()
    subject = models.CharField(max_length=200)
    text = models.TextField()
    html = models.TextField(blank=True)
    language = models.CharField(max_length=8, default="en")
    state = models.CharField(max_length=6, choices=OutboxState, default=OutboxState.TODO)
    attempts = models.PositiveSmallIntegerField(default=0)
    lease_until = models.DateTimeField(null=True, blank=True)
    message_id = models.CharField(max_length=200, unique=True)
    last_error = models.TextField(blank=True)
    made_at = models.DateTimeField()
    sent_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ("pk",)
        indexes = (models.Index(fields=("state", "lease_until"), name="outbox_due"),)

    def __str__(self) -> str:
        """Give the key."""
        return self.key


class AuditEntry(models.Model):
    """One domain verb that was carried out: who, what, on which record, with which facts."""

    verb = models.CharField(max_length=60)
    actor = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    subject = models.CharField(max_length=120)  # "installment:demo/3"
    facts = models.JSONField(default=dict)
    at = models.DateTimeField()

    class Meta:
        ordering = ("-at", "-pk")
