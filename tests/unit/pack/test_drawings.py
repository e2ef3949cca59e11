"""The drawings of a pack say what the design says: marks, sizes, cuts, holes."""

from __future__ import annotations

import io
import re
from collections.abc import Iterable, Iterator
from xml.etree import ElementTree as ET

import pytest
from ezdxf.document import Drawing as Document
from ezdxf.entities.dimension import Dimension
from ezdxf.filemanagement import read

from pentice.cutting.followed import followed
from pentice.design import Design
from pentice.drawing.dxf import render_dxf
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.page import View
from pentice.drawing.placed import on_paper
from pentice.drawing.scene import Area, Circle, Group, Pinned, Primitive, Running, Scene, Text
from pentice.drawing.sketch import extent
from pentice.drawing.svg import render_svg
from pentice.pack.cutting import stock_row
from pentice.pack.drawings import drawings, roof_picture
from pentice.pack.drawings.cut_rows import alike_sheets, cut_rows, rests
from pentice.pack.drawings.plan import plan_model
from pentice.pack.drawings.section import section_model
from pentice.pack.drawings.sheet import setting_out_sheets
from pentice.pack.drawings.tickets import alike_bars, bar_ticket_scene
from pentice.pack.drawings.values import half
from pentice.pack.paper import A3_CAUTIONS, A3_FRAME, A3_TITLE_BLOCK
from tests.designs import EXAMPLES, design_of


def flat(primitives: Iterable[Primitive]) -> Iterator[Primitive]:
    """Every primitive, groups and symbols opened."""
    for p in primitives:
        if isinstance(p, Group | Pinned):
            yield from flat(p.content)
        else:
            yield p


def sizes(doc: Document) -> list[Dimension]:
    """The true dimensions of a file."""
    return [e for e in doc.modelspace() if isinstance(e, Dimension)]


def words(scene: Scene) -> list[str]:
    """All lettering, as it is drawn on paper."""
    return [p.text for p in flat(on_paper(scene.primitives)) if isinstance(p, Text)]


@pytest.fixture(params=EXAMPLES)
def design(request: pytest.FixtureRequest) -> Design:
    """Each example, solved."""
    return design_of(request.param)


def test_the_plan_marks_every_rafter_from_one_end(design: Design) -> None:
    """As many stops as rafters, each to the nearest half mm, and the last plus half a rafter is the width."""
    plan = plan_model(design, 25.0)
    marks = next(p for p in flat(plan.primitives) if isinstance(p, Running) and p.noun == "marks")
    rafters = design.setting_out.plane.rafters
    assert [text for _, text in marks.stops] == [half(r.centre_head_mm) for r in rafters]
    # 1 mm: the overall width is rounded to whole mm on paper.
    assert marks.stops[-1][0] + rafters[-1].width_mm / 2 == pytest.approx(design.shape.width_mm, abs=1.0)


def test_the_plan_gives_each_bay_its_number_and_its_sheet(design: Design) -> None:
    """Width and length are those that are cut: as the sheet lies on its stock."""
    said = words(plan_model(design, 20.0))
    lying = {p.piece: p for plan in design.cutting.sheets for p in plan.placements}
    sheets = {piece.bay: lying[piece.id] for piece in design.pieces if piece.name.startswith("Sheet")}
    for bay in design.setting_out.plane.bays:
        assert str(bay.number) in said
        wide, long = str(sheets[bay.number].width_mm), str(sheets[bay.number].length_mm)
        assert (wide in said and long in said) or f"{wide} × {long}" in said


def test_the_section_names_heights_pitch_and_clear_height(design: Design) -> None:
    """Whole mm over the datum mark."""
    said = " ".join(words(section_model(design, 20.0)))
    clear = design.setting_out.clear_height_mm
    assert clear is not None
    assert f"{clear:.0f} clear" in said
    assert f"{design.shape.head_height_mm:.0f} " in said
    assert "°" in said


def test_nothing_on_the_sheet_leaves_the_frame_or_enters_the_title_block(design: Design) -> None:
    """The cautions and the title block are set over the drawing, so the drawing must leave them free."""
    for sheet in setting_out_sheets(design):
        drawn = [p for p in sheet.scene.primitives]
        box = extent(drawn)
        assert box.left >= A3_FRAME.left - 0.01
        assert box.top >= A3_FRAME.top
        assert box.right <= A3_FRAME.right
        assert box.bottom <= A3_FRAME.bottom
        for view in (p for p in drawn if isinstance(p, Group)):
            inner = extent([view])
            over = inner.right > A3_TITLE_BLOCK.left and inner.bottom > A3_CAUTIONS.top
            marks = inner.top >= A3_TITLE_BLOCK.top
            assert marks or not over, view.part


def test_every_drawing_is_well_formed_and_its_dxf_is_clean(design: Design) -> None:
    """SVG parsed back with all its text; DXF read back, audited, no error and no fix."""
    names = [d.name for d in drawings(design)]
    assert len(set(names)) == len(names)
    for drawing in drawings(design):
        assert re.fullmatch(r"[A-Za-z0-9-]+", drawing.name)
        root = ET.fromstring(render_svg(drawing.scene, drawing.page))
        assert root.get("viewBox") is not None
        doc = read(io.StringIO(render_dxf(drawing.model).decode()))
        audit = doc.audit()
        assert (len(audit.errors), len(audit.fixes)) == (0, 0), drawing.name
        assert len(doc.modelspace()) > 3
        for size in sizes(doc):  # what readers draw it from, one without a value too
            assert list(size.virtual_entities()), drawing.name


def test_the_plan_as_dxf_is_as_wide_as_the_roof() -> None:
    """True size: the overall DIMENSION measures the width. To 1e-6: coordinates carry more digits."""
    design = design_of("potting-bay")
    plan = next(d for d in drawings(design) if d.name == "plan")
    doc = read(io.StringIO(render_dxf(plan.model).decode()))
    overall = next(e for e in sizes(doc) if "outer rafters" in e.dxf.text)
    assert overall.get_measurement() == pytest.approx(design.shape.width_mm, abs=1e-6)
    ordinates = [e for e in sizes(doc) if e.dimtype == 6]
    assert len(ordinates) >= len(design.setting_out.plane.rafters)


def test_names_of_rafter_and_beam_keep_apart_in_the_section(design: Design) -> None:
    """The rafter's words end before the beam's begin, along the level; at scales that give the roof 45 mm of paper."""
    for n in (n for n in (20.0, 25.0, 50.0) if design.shape.projection_mm / n >= 45.0):
        made = on_paper(section_model(design, n).primitives, View(scale=n, origin=(0.0, 0.0)))
        texts = [p for p in flat(made) if isinstance(p, Text)]
        size = " × ".join(f"{mm:g}" for mm in design.job.frame.rafter_mm or (0.0, 0.0))
        rafters = [t for t in texts if size in t.text and "beam" not in t.text and "post" not in t.text]
        for beam in (t for t in texts if t.text.startswith("beam ")):
            begins = beam.at[0] - text_width_mm(beam.text, beam.h_mm, beam.weight)
            for t in rafters:
                half_word = text_width_mm(t.text, t.h_mm, t.weight) / 2 * design.shape.cos_pitch
                assert t.at[0] + half_word <= begins - 0.5, (n, t.text)


def test_no_number_of_a_cut_hides_the_size_of_a_left_over(design: Design) -> None:
    """Discs and words of the stock sheets on their page: their boxes share no more than half a mm."""
    made = [p for p in flat(stock_row(design, alike_sheets(design)[:3])[0].primitives)]
    discs = [p for p in made if isinstance(p, Circle)]
    words = [p for p in made if isinstance(p, Text) and p.text.endswith("scrap")]
    assert discs
    for text in words:
        wide, tall = text_width_mm(text.text, text.h_mm, text.weight), text.h_mm
        x, y = (text.at[0] - tall / 2, text.at[1]) if text.turn_deg else (text.at[0], text.at[1] - tall / 2)
        half_box = (tall / 2, wide / 2) if text.turn_deg else (wide / 2, tall / 2)
        for d in discs:
            apart = (abs(d.centre[0] - x) - half_box[0], abs(d.centre[1] - y) - half_box[1])
            assert max(apart) >= d.radius - 0.5, text.text


def test_stops_and_left_overs_add_up_to_the_stock(design: Design) -> None:
    """Pieces, what is left, and kerfs fill a sheet: nothing is lost. To a kerf: the last cut may end at the edge."""
    kerf = design.job.stock.sheet_kerf_mm
    for group in alike_sheets(design):
        plan = group.plan
        for row_y in {p.y_mm for p in plan.placements}:
            row = [p for p in plan.placements if p.y_mm == row_y]
            foot = row_y + row[0].length_mm
            left = [r for r in rests(design, group) if r.top <= row_y and r.bottom >= foot]
            used = sum(p.width_mm for p in row) + sum(r.right - r.left for r in left)
            gaps = len(row) + len(left) - 1
            assert used + gaps * kerf == pytest.approx(plan.width_mm, abs=kerf + 1e-9)


def test_the_stop_of_a_cut_is_the_size_of_the_piece_it_gives(design: Design) -> None:
    """The operator never subtracts: a rip that frees a sheet is set to its width, a crosscut to its length."""
    sizes = {p.piece: (p.width_mm, p.length_mm) for plan in design.cutting.sheets for p in plan.placements}
    seen = 0
    for group in alike_sheets(design):
        for turn, row in zip(followed(group.plan), cut_rows(design, group), strict=True):
            if turn.gets is not None and turn.gets.name in sizes:
                assert row.stop_mm == sizes[turn.gets.name][turn.cut.kind == "crosscut"]
                seen += 1
            assert row.stop_mm > 0
    assert seen or all(not plan.cuts for plan in design.cutting.sheets)


def test_a_kept_offcut_is_one_of_the_plan(design: Design) -> None:
    """Dashed only what the cutting plan keeps."""
    kept = {(o.width_mm, o.length_mm) for o in design.cutting.offcuts if o.width_mm is not None}
    for group in alike_sheets(design):
        for rest in rests(design, group):
            size = (round(rest.right - rest.left), round(rest.bottom - rest.top))
            assert rest.kept == (size in kept)


def test_a_bar_ticket_hooks_the_tape_on_the_foot(design: Design) -> None:
    """FOOT left, HEAD right, one mark and one disc for each hole, L above the stem and R below."""
    bars = alike_bars(design)
    assert sum(len(b.bars) for b in bars) == len(design.setting_out.plane.bars)
    for alike in bars:
        scene = bar_ticket_scene(design, alike.bar)
        said = words(scene)
        assert [said.count(side) for side in "LR"] == [
            sum(h.side == s for h in alike.bar.holes) for s in "LR"
        ]
        assert {half(h.at_mm) for h in alike.bar.holes} <= set(said)
        placed = {p.text: p.at for p in flat(scene.primitives) if isinstance(p, Text)}
        assert placed["FOOT"][0] < placed["HEAD"][0]


def test_the_picture_shows_three_sizes_and_every_sheet() -> None:
    """Width, depth and clear height in metres; sheets painted after the wall."""
    design = design_of("potting-bay")
    text = roof_picture(design)
    root = ET.fromstring(text)
    said = [t.text for t in root.iter("{http://www.w3.org/2000/svg}text")]
    assert len(said) == 3
    assert any("along the wall" in (t or "") for t in said)
    parts = [g.get("data-part") for g in root.iter("{http://www.w3.org/2000/svg}g") if g.get("data-part")]
    assert parts.index("wall") < parts.index("posts") < parts.index("sheets")


def test_lettering_of_the_setting_out_never_overlaps(design: Design) -> None:
    """No text on text: upright boxes of level lettering, 0.2 mm of touch allowed for descenders."""
    for sheet in setting_out_sheets(design):
        made = [
            p
            for p in flat(on_paper(sheet.scene.primitives))
            if isinstance(p, Text) and not p.turn_deg and p.text
        ]
        boxes = [(p.text, extent([p])) for p in made]
        for k, (text, a) in enumerate(boxes):
            for other, b in boxes[k + 1 :]:
                across = min(a.right, b.right) - max(a.left, b.left)
                down = min(a.bottom, b.bottom) - max(a.top, b.top)
                assert not (across > 0.2 and down > 0.2), (text, other)


def test_white_covers_what_lies_behind_a_sheet() -> None:
    """Painter's order needs filled faces: every sheet of the picture has a fill."""
    design = design_of("potting-bay")
    scene = next(d for d in drawings(design) if d.name == "picture").scene
    sheets = next(p for p in scene.primitives if isinstance(p, Group) and p.part == "sheets")
    faces = [p for p in sheets.content if isinstance(p, Area)]
    assert len(faces) > len(design.setting_out.plane.bays)
    assert all(face.fill for face in faces)


def test_views_of_a_sheet_stand_clear_of_each_other(design: Design) -> None:
    """Plan, section and details each in their own part of the paper: no box enters another."""
    for sheet in setting_out_sheets(design):
        views = [(p.part, extent([p])) for p in sheet.scene.primitives if isinstance(p, Group)]
        for k, (name, a) in enumerate(views):
            for other, b in views[k + 1 :]:
                across = min(a.right, b.right) - max(a.left, b.left)
                down = min(a.bottom, b.bottom) - max(a.top, b.top)
                assert not (across > 0.0 and down > 0.0), (name, other)
