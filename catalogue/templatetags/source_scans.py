"""Scans of sources in templates."""

from django import template

from catalogue.reference.models import SourceScan
from catalogue.review.scans.pictures import picture_of_scan

register = template.Library()


@register.inclusion_tag("review/scans/picture.html")
def scan_picture(scan: SourceScan, *, whole: bool = False):
    """The picture with what it shows and whose it is; as large as the page is wide where `whole`."""
    return {"scan": scan, "at": picture_of_scan(scan), "whole": whole}
