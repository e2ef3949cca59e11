"""The key strip: this roof from above, wall or head a thick line on top, bays numbered from the left."""

from __future__ import annotations

from xml.etree import ElementTree as ET

WIDTH_PX = 360
HEIGHT_PX = 62
MOST_IN_ONE_WIDTH = 7
CELL_PX = 52


def key_strip(numbers: tuple[int, ...]) -> str:
    """The strip as SVG; every bay is a group that names its number, so that a page can blacken one.

    Parameters
    ----------
    numbers
        Bay numbers from left to right.

    Returns
    -------
    str
        SVG without outside addresses. Up to seven bays share the width of a phone, more keep their size.

    Examples
    --------
    >>> key_strip((1, 2, 3)).count('class="bay"')
    3
    """
    count = max(len(numbers), 1)
    is_wide = count > MOST_IN_ONE_WIDTH
    width = count * CELL_PX if is_wide else WIDTH_PX
    svg = ET.Element(
        "svg",
        {"viewBox": f"0 0 {width} {HEIGHT_PX}", "role": "img", "class": "wide" if is_wide else "fits"},
    )
    if is_wide:
        svg.set("width", str(width))
        svg.set("height", str(HEIGHT_PX))
    ET.SubElement(
        svg, "title"
    ).text = f"The roof from above, its head on top, bays 1 to {count} from the left"
    for i, number in enumerate(numbers):
        _bay(svg, number, i * width / count, width / count)
    ET.SubElement(svg, "line", {"class": "wall", "x1": "0", "y1": "2", "x2": str(width), "y2": "2"})
    return ET.tostring(svg, encoding="unicode")


def _bay(svg: ET.Element, number: int, left: float, width: float) -> None:
    group = ET.SubElement(svg, "g", {"class": "bay", "data-bay": str(number)})
    inset = 1.0
    size = {"width": f"{width - 2 * inset:.1f}", "height": str(HEIGHT_PX - 4)}
    ET.SubElement(group, "rect", {"x": f"{left + inset:.1f}", "y": "3", **size})
    middle = f"{left + width / 2:.1f}"
    ET.SubElement(group, "text", {"class": "number", "x": middle, "y": "29"}).text = str(number)
    ET.SubElement(group, "text", {"class": "read", "x": middle, "y": "51"}).text = ""
