"""What the hardship checks share: running the program, small invented seasons, and comparing folders byte by byte."""
import argparse
import datetime
import hashlib
import json
import math
import os
import pathlib
import random
import subprocess
import sys
import tempfile

ORIGIN_LON, ORIGIN_LAT = -106.5, 52.1
M_PER_DEG_LON, M_PER_DEG_LAT = 68507.0, 111266.0  # at the origin; good to centimetres over one field

BEGIN = datetime.datetime(2025, 9, 10)

DONE, INPUT, USAGE, CANNOT_WRITE, DEFECT = 0, 1, 2, 74, 70


class Fault(Exception):
    """Something the program must not do."""


class Said:
    """What one run of the program said and how it ended."""

    def __init__(self, code, out, err):
        self.code, self.out, self.err = code, out, err

    def __repr__(self):
        return f"exit {self.code}: {self.err.strip()[-600:] or self.out.strip()[-300:]}"


class Program:
    def __init__(self, path):
        self.path = str(pathlib.Path(path).resolve())

    def run(self, *words, timeout=120, memory_mib=None, **how):
        command = [self.path, *map(str, words)]
        if memory_mib:
            command = ["/bin/sh", "-c", f'ulimit -v {memory_mib * 1024}; exec "$@"', "sh", *command]
        try:
            done = subprocess.run(command, capture_output=True, timeout=timeout, check=False, **how)
        except subprocess.TimeoutExpired:
            return Said("timeout", "", f"not done after {timeout} s")
        return Said(done.returncode, done.stdout.decode("utf-8", "replace"), done.stderr.decode("utf-8", "replace"))

    def start(self, *words, **how):
        return subprocess.Popen([self.path, *map(str, words)], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                                **how)


def need(condition, words):
    if not condition:
        raise Fault(words)


def clearly_refused(said, code, *words):
    """One message of the program, the exit code the contract names, and the words a reader needs."""
    need(said.code == code, f"expected exit {code}, got {said!r}")
    need("quartercut: " in said.err or "fault" in said.err + said.out, f"no clear message: {said!r}")
    for word in words:
        need(word in said.err + said.out, f"the message does not say '{word}': {said!r}")


def contents(folder):
    """Every file below a folder with the hash of its bytes."""
    folder = pathlib.Path(folder)
    return {str(p.relative_to(folder)): hashlib.sha256(p.read_bytes()).hexdigest()
            for p in sorted(folder.rglob("*")) if p.is_file() and not p.is_symlink()}


def read_json(folder, program, season):
    """comparison.json of a season, compared into a folder of its own."""
    said = program.run("compare", season, "--out", folder / "asked", timeout=300)
    need(said.code == DONE, f"{said!r}")
    return json.loads((folder / "asked" / "comparison.json").read_text())


def differing(a, b):
    return sorted(name for name in a.keys() | b.keys() if a.get(name) != b.get(name))


def lon(x_m):
    return f"{ORIGIN_LON + x_m / M_PER_DEG_LON:.8f}"


def lat(y_m):
    return f"{ORIGIN_LAT + y_m / M_PER_DEG_LAT:.8f}"


def rectangle(x0, x1, y0, y1, **properties):
    corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0)]
    ring = ",".join(f"[{lon(x)},{lat(y)}]" for x, y in corners)
    return ('{"type":"Feature","properties":' + json.dumps(properties, ensure_ascii=False) +
            ',"geometry":{"type":"Polygon","coordinates":[[' + ring + "]]}}")


def collection(features):
    return '{"type":"FeatureCollection","features":[\n' + ",\n".join(features) + "\n]}\n"


SEASON = """# An invented season, small enough to be run thousands of times.
title    = "Invented farm"
year     = 2025
crop     = "canola"
baseline = "swathed"
units    = "bu/ac"

[fields]
file = "fields.geojson"
name = "name"

[points]
files = ["yield.csv"]
crs   = "EPSG:4326"
[points.columns]
time     = { column = "time" }
flow     = { column = "flow_kg_s", unit = "kg/s" }
moisture = { column = "moisture_pct", unit = "%" }
distance = { column = "dist_m", unit = "m" }
duration = { column = "dur_s", unit = "s" }
width    = { column = "width_m", unit = "m" }
machine  = { column = "combine" }

[methods]
file   = "methods.geojson"
column = "method"
[[method]]
name      = "swathed"
cut_width = "10 m"
[[method]]
name      = "standing"
cut_width = "10 m"

[tickets]
file = "tickets.csv"

[trial]
randomised = true
pairs      = "block"
"""

NEXT_YEAR = """
[money]
as_of  = "2025-11-01"
source = "elevator bid"
price  = "14.20 $/bu"
[[money.cost]]
kind = "swathing"
method = "swathed"
amount = "13.00 $/ac"
[next_year]
trial_cost = "250 $"
[[next_year.method]]
name = "standing"
share_low = "33 %"
share_high = "50 %"
"""


def csv_cell(text):
    return '"' + text.replace('"', '""') + '"'


class SmallSeason:
    """Fields in strips of two passes each; each pair of strips holds both methods, a coin says which comes first."""

    def __init__(self, fields=2, strips=6, length_m=200.0, step_m=10.0, seed=1, names=None):
        self.fields, self.strips, self.length_m, self.step_m = fields, strips, length_m, step_m
        self.names = names or [f"Field {i + 1}" for i in range(fields)]
        self.draw = random.Random(seed)
        self.width_m = strips * 20.0

    def place(self, field):
        """South-west corner of a field, metres."""
        across = math.ceil(math.sqrt(self.fields))
        return (field % across) * (self.width_m + 40.0), (field // across) * (self.length_m + 40.0)

    def write(self, folder, text=SEASON):
        folder = pathlib.Path(folder)
        folder.mkdir(parents=True, exist_ok=True)
        areas, methods, rows, tickets = [], [], [], []
        for field in range(self.fields):
            self.add_field(field, areas, methods, rows, tickets)
        (folder / "fields.geojson").write_text(collection(areas))
        (folder / "methods.geojson").write_text(collection(methods))
        head = "time,lon,lat,flow_kg_s,moisture_pct,dist_m,dur_s,width_m,combine\n"
        (folder / "yield.csv").write_text(head + "".join(rows))
        (folder / "tickets.csv").write_text("ticket,field,machine,method,net_kg,moisture_pct,dockage_pct\n" +
                                            "".join(tickets))
        (folder / "season.toml").write_text(text)
        return folder / "season.toml"

    def add_field(self, field, areas, methods, rows, tickets):
        x0, y0 = self.place(field)
        areas.append(rectangle(x0, x0 + self.width_m, y0, y0 + self.length_m, name=self.names[field]))
        mass = {"swathed": 0.0, "standing": 0.0}
        first = "standing"
        for strip in range(self.strips):
            if strip % 2 == 0:
                first = self.draw.choice(["standing", "swathed"])
            method = first if strip % 2 == 0 else ({"standing": "swathed", "swathed": "standing"}[first])
            left = x0 + strip * 20.0
            methods.append(rectangle(left, left + 20.0, y0, y0 + self.length_m, method=method, block=strip // 2 + 1))
            for half in range(2):
                mass[method] += self.add_pass(field, strip * 2 + half, method, rows)
        for method, kg in mass.items():
            tickets.append(f"{len(tickets) + 1},{csv_cell(self.names[field])},A,{method},"
                           f"{kg * 1.02:.0f},{8.0 if method == 'swathed' else 9.0},0.5\n")

    def add_pass(self, field, number, method, rows):
        x0, y0 = self.place(field)
        x, moisture = x0 + number * 10.0 + 5.0, 9.0 if method == "standing" else 8.0
        records, kg = int(self.length_m / self.step_m), 0.0
        seconds = self.step_m / 2.0  # a record; at 2 m/s
        for i in range(records):
            along = (i + 0.5) * self.step_m
            y = y0 + (along if number % 2 == 0 else self.length_m - along)
            dry_t_ha = (2.3 if method == "standing" else 2.1) + 0.0004 * (x - x0) + self.draw.uniform(-0.1, 0.1)
            flow = dry_t_ha / 10.0 * 10.0 * self.step_m / seconds * 90.0 / (100.0 - moisture)
            kg += flow * seconds
            at = int(field * 3600 + number * (records * seconds + 60) + i * seconds)
            clock = (BEGIN + datetime.timedelta(seconds=at)).strftime("%Y-%m-%dT%H:%M:%SZ")
            rows.append(f"{clock},{lon(x)},{lat(y)},{flow:.4f},{moisture:.1f},{self.step_m:.2f},"
                        f"{seconds:.1f},10.0,A\n")
        return kg


def arguments(description, **options):
    parser = argparse.ArgumentParser(description=description)
    parser.add_argument("program", help="the quartercut to try")
    parser.add_argument("--short", action="store_true", help="the form that runs with the other tests")
    parser.add_argument("--seed", type=int, default=20251126)
    for name, default in options.items():
        parser.add_argument("--" + name, type=type(default), default=default)
    return parser.parse_args()


def run_checks(checks):
    """Runs each check in a folder of its own; every fault is told, one is enough to fail."""
    faults = 0
    for check in checks:
        with tempfile.TemporaryDirectory(prefix="quartercut-hardship-") as folder:
            name = getattr(check, "__name__", str(check))
            try:
                words = check(pathlib.Path(folder))
                print(f"ok    {name}" + (f": {words}" if words else ""), flush=True)
            except Fault as fault:
                faults += 1
                print(f"FAULT {name}: {fault}", flush=True)
    return 1 if faults else 0
