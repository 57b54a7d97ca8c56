"""Tables of the reference: what the society says about garments, and on what evidence."""

from catalogue.reference.models.companions import Companion
from catalogue.reference.models.corrections import Correction
from catalogue.reference.models.evidence import Citation, Issuer, Maker, Source
from catalogue.reference.models.garments import (
    Feature,
    FeaturePlace,
    FeatureState,
    GarmentType,
    OwnSilhouette,
    TypeFeature,
    TypeName,
)
from catalogue.reference.models.marked_photographs import MarkedPhotograph
from catalogue.reference.models.numbers import NumberForm, StockNumber
from catalogue.reference.models.open_questions import OpenQuestion, QuestionView
from catalogue.reference.models.reference_state import ReferenceState
from catalogue.reference.models.scans import SourceScan
from catalogue.reference.models.sizes import SizeLength
from catalogue.reference.models.versions import (
    Colourway,
    Cut,
    IssueVersion,
    ProfileCell,
    VersionAncestor,
    VersionName,
    VersionRecord,
    VersionSuccessor,
)

__all__ = [
    "Citation",
    "Colourway",
    "Companion",
    "Correction",
    "Cut",
    "Feature",
    "FeaturePlace",
    "FeatureState",
    "GarmentType",
    "IssueVersion",
    "Issuer",
    "Maker",
    "MarkedPhotograph",
    "NumberForm",
    "OpenQuestion",
    "OwnSilhouette",
    "ProfileCell",
    "QuestionView",
    "ReferenceState",
    "SizeLength",
    "Source",
    "SourceScan",
    "StockNumber",
    "TypeFeature",
    "TypeName",
    "VersionAncestor",
    "VersionName",
    "VersionRecord",
    "VersionSuccessor",
]
