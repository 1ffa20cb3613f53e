"""What every page knows."""

from __future__ import annotations

import pytest
from django.test import RequestFactory

from bom.web.context import site


@pytest.mark.parametrize("demo", [True, False])
def test_pages_know_whether_everything_is_invented(settings: object, demo: bool) -> None:
    settings.DEMO = demo
    assert site(RequestFactory().get("/")) == {"demo": demo}
