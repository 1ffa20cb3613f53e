"""The person who signs in, by e-mail and a mailed code."""

from __future__ import annotations

from typing import Any, ClassVar

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.contrib.auth.models import PermissionsMixin
from django.db import models
from django.utils.translation import gettext_lazy as _


class UserManager(BaseUserManager["User"]):
    """Makes users without a username or a password."""

    def create_user(self, email: str, name: str = "", **fields: Any) -> User:
        """Make a person who signs in by a mailed code."""
        user = self.model(email=self.normalize_email(email).lower(), name=name, **fields)
        user.set_unusable_password()
        user.save(using=self._db)
        return user

    def create_superuser(self, email: str, password: str | None = None, **fields: Any) -> User:
        """Make a person who may enter the admin."""
        user = self.create_user(email, is_staff=True, is_superuser=True, **fields)
        user.set_password(password)
        user.save(using=self._db)
        return user


class User(AbstractBaseUser, PermissionsMixin):
    """One person; what somebody may do follows from rows elsewhere, so one person may hold several roles."""

    email = models.EmailField(_("e-mail"), unique=True)
    name = models.CharField(_("name"), max_length=120, blank=True)
    language = models.CharField(_("language"), max_length=8, default="en")
    zone = models.CharField(_("time zone"), max_length=60, default="UTC")
    is_staff = models.BooleanField(default=False)
    is_active = models.BooleanField(default=True)
    joined_at = models.DateTimeField(auto_now_add=True)

    objects: ClassVar[UserManager] = UserManager()
    USERNAME_FIELD = "email"
    EMAIL_FIELD = "email"

    def __str__(self) -> str:
        """Give the name, or the address up to the @: readers of a page get nobody's whole address."""
        return self.name or self.email.partition("@")[0]
