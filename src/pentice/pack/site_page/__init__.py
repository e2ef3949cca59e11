"""The site page: one HTML file for the phone on the roof, which works without a network."""

from pentice.pack.site_page.holds import hold_lines
from pentice.pack.site_page.page import site_page_html
from pentice.pack.site_page.values import (
    GapCard,
    GapRow,
    HoldLine,
    SiteBay,
    SiteCaution,
    SiteLine,
    SitePage,
    SiteSide,
)

__all__ = [
    "GapCard",
    "GapRow",
    "HoldLine",
    "SiteBay",
    "SiteCaution",
    "SiteLine",
    "SitePage",
    "SiteSide",
    "hold_lines",
    "site_page_html",
]
