"""The back office: one import a slice. How it is arranged stands in `back_office.py`."""

from catalogue.accounts import admin as accounts_admin
from catalogue.reference import admin as reference_admin

__all__ = ["accounts_admin", "reference_admin"]
