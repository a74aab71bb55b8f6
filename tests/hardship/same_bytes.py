#!/usr/bin/env python3
"""One season, one answer: the same bytes in every file for any number of threads, and again for every repetition.

By hand, on a season of 14 fields: tests/hardship/same_bytes.py build-release/src/cli/quartercut
"""
import sys

import hardship
from hardship import DONE, NEXT_YEAR, SEASON, SmallSeason, contents, differing, need

program = None
given = None


def season_of(folder):
    if given.short:
        return SmallSeason(fields=5).write(folder / "season", SEASON + NEXT_YEAR)
    need(program.run("demo", folder / "season").code == DONE, "demo")
    season = folder / "season" / "season.toml"
    season.write_text(season.read_text() + NEXT_YEAR)
    return season


def any_number_of_threads(folder):
    season = season_of(folder)
    if given.short:
        commands = {"compare": [], "choose": [], "stake": []}
    else:
        names = [f["name"] for f in hardship.read_json(folder, program, season)["fields"]]
        commands = {"compare": [], "choose": [], "stake": [], "layout": ["--field", names[0]]}
    files = 0
    for command, options in commands.items():
        seen = None
        for jobs in (1, 2, 8, 8, 1):
            out = folder / "out"
            said = program.run(command, season, *options, "--jobs", jobs, "--out", out, timeout=300)
            need(said.code == DONE, f"{command} --jobs {jobs}: {said!r}")
            there = contents(out)
            there["what it said"] = said.out
            need(seen in (None, there), f"{command} --jobs {jobs}: other bytes in {differing(seen or there, there)}")
            seen = there
            for path in out.iterdir():
                path.unlink()
            out.rmdir()
        files += len(seen) - 1
    return f"{files} files of {len(commands)} commands"


def main():
    global program, given
    given = hardship.arguments(__doc__)
    program = hardship.Program(given.program)
    return hardship.run_checks([any_number_of_threads])


if __name__ == "__main__":
    sys.exit(main())
