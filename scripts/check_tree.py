#!/usr/bin/env python3
"""Checks of the tracked files: fixed top level, no path or host of a machine, sizes the house allows."""
import pathlib
import re
import subprocess
import sys

TOP_LEVEL = {"CMakeLists.txt", "CMakePresets.json", "DEVELOPERS.md", "LICENSE", "README.md", "include", "sample_geo",
             "scripts", "src", "tests"}
# Spelled in pieces so that this file does not find itself.
MACHINE = re.compile("|".join(["/" + "home/", "/" + "root/", "/" + "work/", "/" + "tmp/[a-z]", "regis" + "try\\.",
                               "C:" + r"\\\\Users"]))
TEXT = {".cpp", ".hpp", ".md", ".txt", ".toml", ".json", ".py", ".sh", ".cmake", ".yml", ".csv", ".html", ".js", ".R", ""}
MAX_LINES = 500
MAX_BYTES = 6_000_000


def tracked(root):
    listing = subprocess.run(["git", "ls-files", "-z"], cwd=root, check=True, capture_output=True).stdout
    return [root / name for name in listing.decode().split("\0") if name and (root / name).is_file()]


def main():
    root = pathlib.Path(__file__).resolve().parent.parent
    faults = []
    for path in tracked(root):
        name = path.relative_to(root)
        if not name.parts[0].startswith(".") and name.parts[0] not in TOP_LEVEL:
            faults.append(f"{name}: not on the fixed list of the top level")
        if path.stat().st_size > MAX_BYTES:
            faults.append(f"{name}: larger than {MAX_BYTES} bytes")
        if path.suffix not in TEXT:
            continue
        lines = path.read_text(encoding="utf-8", errors="replace").splitlines()
        if path.suffix in {".cpp", ".hpp"} and len(lines) > MAX_LINES:
            faults.append(f"{name}: {len(lines)} lines, at most {MAX_LINES}: split it")
        for number, line in enumerate(lines, 1):
            if MACHINE.search(line):
                faults.append(f"{name}:{number}: names a path or host of a machine")
    for fault in faults:
        print(fault, file=sys.stderr)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
