"""A small plan's folder among a desk's plans, its solids as the plan's own writer writes them, and its piece."""

from __future__ import annotations

from hashlib import sha256
from io import BytesIO
from pathlib import Path

from conftest import Job
from job_meshes import meshes_of

from moldwright.log.ids import PieceId, PlanId
from moldwright.making.files.strain_file import write_strain
from moldwright.making.plan_folders import plan_home
from moldwright.records.clock import BenchClock
from moldwright.records.files.scans import keep_scan
from moldwright.records.pieces.write import planned, take_in
from moldwright.records.shop import Shop
from moldwright.sheets.model_files import stl_bytes, write_stl
from moldwright.sheets.plan_text import plan_text

COMMISSION = '[original]\nfile = "figure.stl"\nunit = "mm"\nup = "+z"\n[mold]\nthickness = "4 mm"\n'
NAME = "Figure on a stem"


def plan_in(data: Path, job: Job) -> PlanId:
    """The job's plan as a folder among those of a desk."""
    text = plan_text(job.planned.plan)
    id_ = PlanId(sha256(text.encode()).hexdigest())
    folder = plan_home(data, id_)
    for name, mesh in meshes_of(job.planned).items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        write_stl(mesh, folder / name)
    write_strain(job.planned.solids.strained.value.field, folder)
    (folder / "plan.json").write_text(text, encoding="utf-8")
    return id_


def piece_in(shop: Shop, job: Job) -> PieceId:
    """A piece that the job's plan was made for, in the records."""
    clock = BenchClock("test")
    scan = keep_scan(shop, BytesIO(stl_bytes(meshes_of(job.planned)["mold/original.stl"])), "figure.stl")
    piece = take_in(shop, clock, COMMISSION, {"figure.stl": scan}, NAME)
    planned(shop, clock, piece, plan_text(job.planned.plan), "0.1.0")
    return piece
