"""The little CSS that a first screen needs: one fixed inline block, the only inline style there is."""

import base64
import hashlib
from functools import cache

from django.conf import settings


@cache
def style_text() -> str:
    """The text of the block, as it stands between the style tags of every page."""
    path = settings.BASE_DIR / "static" / "css" / "first_screen.css"
    return path.read_text(encoding="utf-8")


@cache
def style_hash() -> str:
    """Its source expression for the content policy: sha256- and the digest in base64 (CSP Level 3, section 2.3.1)."""
    digest = hashlib.sha256(style_text().encode("utf-8")).digest()
    return f"sha256-{base64.b64encode(digest).decode('ascii')}"
