"""Every table of the site, one import a slice. A slice left out here would be read as dropped tables."""

from catalogue.accounts.models import *  # noqa: F403
from catalogue.member_examples.models import *  # noqa: F403
from catalogue.reference.models import *  # noqa: F403
from catalogue.review.models import *  # noqa: F403
