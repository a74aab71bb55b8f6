#!/usr/bin/env python3
"""Checks that the arrows between rooms run one way, and that big libraries stay in their rooms.

A file of a room may include its own private headers, public headers of rooms before it, and private headers of base.
"""
import pathlib
import re
import sys

ROOMS = ["base", "season", "read", "standardise", "clean", "zone", "compare", "plan", "write", "report", "demo", "job",
         "cli"]
# Public headers that are shared words rather than a room's door.
SHARED = {"error": "base", "issue": "base", "geometry": "base", "units": "base", "crop": "base", "land": "base",
          "history": "read", "season_plan": "season", "plan_inputs": "read", "results": "plan", "plan_layout": "plan",
          "plan_choose": "plan", "write_plan": "write", "report_plan": "report", "job_plan": "job"}
ENGINES = {
    "GDAL": (re.compile(r"^(gdal|ogr|cpl_)"), {"read", "write"}),
    "GEOS": (re.compile(r"^geos"), {"zone", "clean"}),
    "Boost.Geometry": (re.compile(r"^boost/geometry"), {"zone", "clean"}),
    "Eigen": (re.compile(r"^Eigen/"), {"compare"}),
    "PROJ": (re.compile(r"^(proj\.h|geodesic\.h)"), {"standardise"}),
    "toml++": (re.compile(r"^toml"), {"season"}),
    "CLI11": (re.compile(r"^CLI/"), {"cli"}),
}
INCLUDE = re.compile(r'^\s*#\s*include\s*[<"]([^>"]+)[>"]')


def room_of_header(header):
    """Room that owns `quartercut/NAME.hpp` or `ROOM/NAME.hpp`, or None for a library's header."""
    parts = header.split("/")
    if parts[0] == "quartercut":
        name = parts[1].removesuffix(".hpp")
        return SHARED.get(name, name)
    return parts[0] if parts[0] in ROOMS and len(parts) > 1 else None


def faults_of(path, room, public):
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        found = INCLUDE.match(line)
        if not found:
            continue
        header = found.group(1)
        owner = room_of_header(header)
        if owner in ROOMS and ROOMS.index(owner) > ROOMS.index(room):
            yield f"{path}:{number}: room '{room}' may not include '{header}' of the later room '{owner}'"
        private = owner in ROOMS and not header.startswith("quartercut/")
        if private and (public or owner not in (room, "base")):
            yield f"{path}:{number}: '{header}' is private to the room '{owner}'"
        for engine, (pattern, homes) in ENGINES.items():
            if pattern.match(header) and (public or room not in homes):
                yield f"{path}:{number}: {engine} belongs to {', '.join(sorted(homes))}"


def main():
    root = pathlib.Path(__file__).resolve().parent.parent
    faults = []
    for path in sorted((root / "include/quartercut").glob("*.hpp")):
        room = room_of_header(f"quartercut/{path.name}")
        if room not in ROOMS:
            faults.append(f"{path.relative_to(root)}: no room of that name")
            continue
        faults += faults_of(path, room, public=True)
    for path in sorted((root / "src").rglob("*.[ch]pp")):
        faults += faults_of(path, path.relative_to(root / "src").parts[0], public=False)
    for fault in faults:
        print(fault.replace(f"{root}/", ""), file=sys.stderr)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
