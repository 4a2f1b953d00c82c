"""Proves the best plan of every generated build with CP-SAT (OR-tools), for comparison.

    node test/exact/write-builds.ts 215 > /tmp/builds.json
    python3 -m venv /tmp/prover && /tmp/prover/bin/pip install ortools==9.15.6755
    /tmp/prover/bin/python test/exact/prove.py /tmp/builds.json > test/exact/proven.json

The model shares nothing with the engine: ends are tables over starts, resources are cumulative
constraints, and the parts of the score are minimised one after another (all in slots of 30 min).
A build without any plan is listed with null. Only proven results are written.
"""

import json
import sys
import time

from ortools.sat.python import cp_model

DAY = 48


def cure_end(start, dose):
    reached, slot = 0, start
    while reached < dose:
        reached += 3 if 14 <= slot % DAY < 38 else 2
        slot += 1
    return slot


def end_table(mode, calendars, horizon):
    """End by start slot; None where the mode cannot begin or does not end in time."""
    kind, amount = mode["kind"], mode["amount"]
    ends = []
    is_open = None
    if mode["calendar"] is not None:
        is_open = [False] * horizon
        for a, b in calendars[mode["calendar"]]:
            for t in range(a, min(b, horizon)):
                is_open[t] = True
    for start in range(horizon + 1):
        end = None
        if kind == "cure":
            end = cure_end(start, amount)
        elif kind == "elapsed" or is_open is None:
            end = start + amount
        elif start < horizon and is_open[start]:
            if kind == "unbroken":
                run = start
                while run < horizon and is_open[run] and run - start < amount:
                    run += 1
                end = run if run - start == amount else None
            else:
                done, t = 0, start
                while t < horizon and done < amount:
                    done += is_open[t]
                    t += 1
                end = t if done == amount else None
        ends.append(end if end is not None and end <= horizon else None)
    return ends


def prove(build):
    horizon = build["horizon"]
    model = cp_model.CpModel()
    start, end, chosen = {}, {}, {}
    uses = {name: [] for name, _ in build["resources"]}
    late, overtime, repairs = [], [], []
    for stage in build["stages"]:
        sid = stage["id"]
        start[sid] = model.new_int_var(stage["release"], horizon, f"start {sid}")
        end[sid] = model.new_int_var(0, horizon, f"end {sid}")
        length = model.new_int_var(0, horizon, f"length {sid}")
        model.add(start[sid] + length == end[sid])
        flags = []
        for mode in stage["modes"]:
            flag = model.new_bool_var(f"{sid} {mode['id']}")
            flags.append(flag)
            chosen[sid, mode["id"]] = flag
            pairs = [
                (s, e)
                for s, e in enumerate(end_table(mode, build["calendars"], horizon))
                if e is not None and s >= stage["release"]
            ]
            if not pairs:
                model.add(flag == 0)
                continue
            if mode["kind"] in ("elapsed", "unbroken"):
                domain = cp_model.Domain.from_values([s for s, _ in pairs])
                model.add_linear_expression_in_domain(start[sid], domain).only_enforce_if(flag)
                model.add(length == mode["amount"]).only_enforce_if(flag)
            else:
                table = model.add_allowed_assignments([start[sid], end[sid]], pairs)
                table.only_enforce_if(flag)
            for name, amount in mode["uses"]:
                part = model.new_optional_interval_var(
                    start[sid], length, end[sid], flag, f"{sid} {mode['id']} {name}"
                )
                uses[name].append((part, amount))
            if mode["repair"]:
                repairs.append(flag)
            if mode["overtime"]:
                overtime.append((flag, mode["overtime"] // 30))
        model.add_exactly_one(flags)
        due = build["due"] if stage["due"] is None else min(stage["due"], build["due"])
        tardy = model.new_int_var(0, horizon, f"late {sid}")
        model.add(tardy >= end[sid] - due)
        late.append(tardy)
    for r in build["relations"]:
        anchor = end[r["from"]] if r["anchor"] == "end" else start[r["from"]]
        target = start[r["to"]]
        bound = (
            model.add(target >= anchor + r["lag"])
            if r["type"] == "at-least"
            else model.add(target <= anchor + r["lag"])
        )
        if r["onlyIf"]:
            bound.only_enforce_if(chosen[tuple(r["onlyIf"])])
    for name, first, last in build["holds"]:
        span = model.new_int_var(0, horizon, "span")
        hold = model.new_interval_var(start[first], span, end[last], f"hold {name}")
        uses[name].append((hold, 1))
    for name, capacity in build["resources"]:
        parts = uses[name]
        model.add_cumulative([p for p, _ in parts], [a for _, a in parts], capacity)
    airy = [s for s in build["stages"] if s["air"] is not None]
    for k, a in enumerate(airy):
        for b in airy[k + 1 :]:
            if a["air"] == b["air"]:
                continue
            first = model.new_bool_var("first")
            settle = build["settle"]
            model.add(start[b["id"]] >= end[a["id"]] + settle).only_enforce_if(first)
            model.add(start[a["id"]] >= end[b["id"]] + settle).only_enforce_if(first.negated())
    last = model.new_int_var(0, horizon, "last")
    model.add_max_equality(last, list(end.values()))
    parts = {
        "late": sum(late),
        "repairs": sum(repairs),
        "overtime": sum(f * a for f, a in overtime),
        "end": last,
        "sum": sum(end.values()),
    }
    best, seconds = {}, 0.0
    for name, part in parts.items():
        if isinstance(part, int):
            best[name] = part
            continue
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.max_time_in_seconds = 30
        model.minimize(part)
        began = time.perf_counter()
        status = solver.solve(model)
        seconds += time.perf_counter() - began
        if status == cp_model.INFEASIBLE:
            return {"seed": build["seed"], "best": None, "seconds": round(seconds, 3)}
        if status != cp_model.OPTIMAL:
            return None
        best[name] = round(solver.objective_value)
        model.add(part <= best[name])
        model.clear_hints()
        for variable in [*start.values(), *end.values(), *chosen.values()]:
            model.add_hint(variable, solver.value(variable))
    return {"seed": build["seed"], "best": best, "seconds": round(seconds, 3)}


def main():
    with open(sys.argv[1], encoding="utf8") as file:
        builds = json.load(file)
    rows = []
    for build in builds:
        row = prove(build)
        print(build["seed"], row, file=sys.stderr)
        if row is not None:
            rows.append(row)
    print("[\n" + ",\n".join("  " + json.dumps(row) for row in rows) + "\n]")


main()
