"""The folder that a plan fills: pictures, tables and plan.json."""

import os
from pathlib import Path

from drawcord.app.answers import inputs
from drawcord.app.circuits import plan_of
from drawcord.app.needed import needed
from drawcord.app.printing import as_json, progress, say
from drawcord.coach.lacking import lacking
from drawcord.files.home import shared
from drawcord.files.writing import expect_folder, write_folder
from drawcord.plan.plan import Plan
from drawcord.sheets.bundles_sheet import bundles_sheets
from drawcord.sheets.candidates_sheet import candidates_sheets
from drawcord.sheets.cautions import powered
from drawcord.sheets.circuit_report import circuits_document
from drawcord.sheets.circuit_spoken import circuits_glance
from drawcord.sheets.figures_sheet import figures_sheets
from drawcord.sheets.holes import holes_table
from drawcord.sheets.joint_sheet import joint_sheets
from drawcord.sheets.one_line_sheet import one_line_sheets
from drawcord.sheets.render import pictures
from drawcord.sheets.report import cautions_of, plan_document
from drawcord.sheets.rig_sheet import rig_sheets
from drawcord.sheets.route_sheet import route_sheets
from drawcord.sheets.spoken import cautions_text, log_text, plan_text
from drawcord.sheets.tables import candidates_table, csv_bytes, figures_table, findings_table, legs_table
from drawcord.sheets.together import together_text


def write_plan(job: Path, out: Path, take: list[str], shop: Path | None) -> bool:
    """Write the plan of a job and say where it is; whether it has every route and circuit. Raises Fault."""
    expect_folder(out)
    loaded, found, plan = plan_of(job, shop, take)
    units = loaded.coach.units
    files = pictures("rig", rig_sheets(loaded.coach, units))
    for _, answer in found:
        name = answer.cable
        if not answer.candidates:
            continue
        progress(f"drawing {name}")
        power = powered(plan.circuits, [name])
        files |= pictures(f"{name}-candidates", candidates_sheets(loaded.coach, answer, units, power))
        files[f"{name}-candidates.csv"] = csv_bytes(candidates_table(answer))
        if name not in plan.chosen:
            continue
        chosen = plan.chosen[name]
        files |= pictures(f"{name}-route", route_sheets(loaded.coach, chosen, units, power))
        files[f"{name}-legs.csv"] = csv_bytes(legs_table(chosen.route))
        files[f"{name}-holes.csv"] = csv_bytes(holes_table(loaded.coach, chosen.route.holes))
        files[f"{name}-findings.csv"] = csv_bytes(findings_table(chosen.route))
        files[f"{name}-figures.csv"] = csv_bytes(figures_table(chosen.route))
    progress("drawing all cables together")
    files |= pictures("together", joint_sheets(plan, units))
    files |= pictures("bundles", bundles_sheets(plan, units))
    files |= pictures("figures", figures_sheets(plan, units))
    files |= needed(plan)
    drawn, why = _one_line(plan)
    files |= drawn
    document = plan_document(plan, [order for order, _ in found], inputs(loaded))
    document["circuits"] = plan.circuits and circuits_document(loaded.coach, plan.circuits, inputs(loaded))
    places = {"job_file": job, "shop_folder": shop or shared()}
    document |= {key: _seen_from(out, path) for key, path in places.items()}
    files["plan.json"] = (as_json(document) + "\n").encode()
    job_id = loaded.coach.job.job if loaded.coach.job else ""
    write_folder(out, files, mark=f"plan of {job_id}")
    circuits = plan.circuits.circuits if plan.circuits else ()
    drops = {one.cable: one.chosen.drop.percent.value for one in circuits if one.chosen and one.chosen.drop}
    said = [plan_text(loaded.coach, plan.answers, plan.chosen, drops)]
    said += [together_text(plan.together, len(plan.chosen), units)] if plan.together else []
    said += [circuits_glance(loaded.coach, plan.circuits)] if plan.circuits else []
    said += [past + "\n"] if (past := log_text(loaded.coach)) else []
    said.append(cautions_text(cautions_of(found, plan.circuits)))
    said += ["".join(f"No one-line diagram: {sentence}\n" for sentence in why)] if why else []
    say("\n".join(said))
    say(f"\nThe plan of {job_id} is in {out}: {len(files)} files.")
    for name in sorted(files):
        if name.endswith(".png"):
            say(f"  {out / name}")
    return len(plan.chosen) == len(found) and (plan.circuits is None or plan.circuits.whole)


def _one_line(plan: Plan) -> tuple[dict[str, bytes], list[str]]:
    """The pictures of the circuits, or why there are none."""
    if plan.circuits is None:
        missing = lacking(plan.coach.job) if plan.coach.job else []
        return {}, [problem.sentence for problem in missing]
    progress("drawing the circuits")
    sheets = one_line_sheets(plan.coach, plan.circuits, plan.coach.units)
    return pictures("one-line", sheets), [] if sheets else [finding.sentence for finding in plan.circuits.findings]


def _seen_from(folder: Path, path: Path) -> str:
    """The relative path from a folder to a file or folder, with `/`."""
    return Path(os.path.relpath(os.path.realpath(path), os.path.realpath(folder))).as_posix()
