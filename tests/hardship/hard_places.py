#!/usr/bin/env python3
"""Full disks, folders that may not be written, inputs that change, clocks and locales that are odd, strange names.

In every case earlier results stay as they were to the byte, and the message says what is wrong.
By hand: tests/hardship/hard_places.py build-release/src/cli/quartercut
A small disk needs the right to mount one, another clock the package faketime, another locale `localedef`; what is not to
be had is told and left out.
"""
import contextlib
import os
import pathlib
import shutil
import subprocess
import sys
import threading
import time

import hardship
from hardship import CANNOT_WRITE, DONE, INPUT, NEXT_YEAR, SEASON, SmallSeason, clearly_refused, contents, need

program = None
given = None
NO_ROOM = "No space left"


@contextlib.contextmanager
def small_disk(folder, kib):
    folder.mkdir(exist_ok=True)
    subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={kib}k", "none", str(folder)], check=True)
    try:
        yield folder
    finally:
        subprocess.run(["umount", str(folder)], check=True)


def can_mount(folder):
    try:
        with small_disk(folder / "probe", 64):
            return True
    except (subprocess.CalledProcessError, FileNotFoundError):
        return False


def steps(low, high, count):
    return [low + (high - low) * i // (count - 1) for i in range(count)]


def room_of(folder):
    """KiB that a small disk needs for a folder: files begin on pages of their own."""
    return sum(4 + (p.stat().st_size + 4095) // 4096 * 4 for p in folder.rglob("*") if p.is_file())


def disk_full(folder):
    """Small disks of many sizes, so that each file is once the one that does not fit."""
    if not can_mount(folder):
        return "left out: no small disk can be mounted here"
    season = SmallSeason().write(folder / "season", SEASON + NEXT_YEAR)
    commands = {"compare": [], "stake": [], "choose": []}  # a layout writes by the same way as these
    told = []
    for command, options in commands.items():
        probe = folder / ("whole-" + command)
        need(program.run(command, season, *options, "--out", probe).code == DONE, command)
        size = room_of(probe)
        failed = 0
        for kib in steps(size + 16, 2 * size + 16, given.sizes):
            failed += full_once(folder, [command, season, *options], kib, probe)
        need(failed > 0, f"{command}: no disk was too small")
        told.append(f"{command} {failed} of {given.sizes}")
    return "too small: " + ", ".join(told)


def full_once(folder, command, kib, earlier):
    with small_disk(folder / "disk", kib) as disk:
        shutil.copytree(earlier, disk / "out")
        before = contents(disk)
        said = program.run(*command, "--out", disk / "out")
        need(said.code in (DONE, CANNOT_WRITE), f"{command[0]}, {kib} KiB: {said!r}")
        need(contents(disk) == before, f"{command[0]}, {kib} KiB: {hardship.differing(contents(disk), before)[:4]}")
        if said.code == CANNOT_WRITE:
            clearly_refused(said, CANNOT_WRITE)
            need("room" in said.err and len(said.err) < 600, f"not clear: {said!r}")
        return said.code == CANNOT_WRITE


def disk_full_for_the_rest(folder):
    """`report`, `start` and `demo` on a disk without room."""
    if not can_mount(folder):
        return "left out: no small disk can be mounted here"
    season = SmallSeason().write(folder / "season")
    need(program.run("compare", season, "--out", folder / "out").code == DONE, "compare")
    size = room_of(folder / "out")
    with small_disk(folder / "disk", size + 60) as disk:
        shutil.copytree(folder / "out", disk / "out")
        before = contents(disk)
        clearly_refused(program.run("report", disk / "out"), CANNOT_WRITE, NO_ROOM)
        need(contents(disk) == before, f"report left {hardship.differing(contents(disk), before)}")
        clearly_refused(program.run("demo", disk / "demo", "--interval", "10"), CANNOT_WRITE)
        need(contents(disk) == before, f"demo left {hardship.differing(contents(disk), before)}")
    inputs = room_of(folder / "season")
    with small_disk(folder / "disk", inputs + 12) as disk:
        shutil.copytree(folder / "season", disk / "farm")
        (disk / "farm" / "season.toml").unlink()
        with contextlib.suppress(OSError), open(disk / "filler", "wb", buffering=0) as filler:
            while filler.write(b"x" * 4096):
                pass
        before = contents(disk)
        clearly_refused(program.run("start", disk / "farm"), CANNOT_WRITE)
        need(contents(disk) == before, f"start left {hardship.differing(contents(disk), before)}")


def folder_that_may_not_be_written(folder):
    """As another user, for root may write anywhere; and on a disk that is read-only for all."""
    season = SmallSeason().write(folder / "season")
    out = folder / "season" / "results"
    need(program.run("compare", season).code == DONE, "compare")
    before = contents(folder)
    if os.geteuid() == 0:
        os.chmod(folder, 0o755)
        said = program.run("compare", season, preexec_fn=lambda: os.setuid(65534))
        clearly_refused(said, CANNOT_WRITE, "results")
    else:
        os.chmod(folder / "season", 0o555)
        clearly_refused(program.run("compare", season), CANNOT_WRITE, "results")
        os.chmod(folder / "season", 0o755)
    need(contents(folder) == before, "files have changed")
    if can_mount(folder):
        with small_disk(folder / "disk", 20000) as disk:
            shutil.copytree(folder / "season", disk / "season")
            subprocess.run(["mount", "-o", "remount,ro", str(disk)], check=True)
            before = contents(disk)
            clearly_refused(program.run("compare", disk / "season" / "season.toml"), CANNOT_WRITE, "Read-only")
            need(contents(disk) == before, "files have changed")
    return str(out.name)


def input_that_changes(folder):
    """A file rewritten while it is read stops the run; one that only starts its reading late is read as it is then."""
    season = SmallSeason(fields=4, step_m=2.0).write(folder)
    said = program.run("compare", season)
    need(said.code == DONE, f"{said!r}")
    before = contents(folder / "results")
    text = (folder / "yield.csv").read_bytes()
    stopped = 0
    for _ in range(given.changes):
        stop = threading.Event()
        thread = threading.Thread(target=keep_changing, args=(folder / "yield.csv", text, stop))
        thread.start()
        said = program.run("compare", season)
        stop.set()
        thread.join()
        need(said.code in (DONE, INPUT), f"{said!r}")
        if said.code == INPUT and "changed" in said.err:
            stopped += 1
            need(contents(folder / "results") == before, "results of a run that stopped")
        shutil.rmtree(folder / "results")
        (folder / "yield.csv").write_bytes(text)
        need(program.run("compare", season).code == DONE, "compare")
    need(stopped == given.changes, f"only {stopped} of {given.changes} runs saw that the file was changing")
    return f"{stopped} of {given.changes} runs stopped"


def keep_changing(file, text, stop):
    """Appends a copy of the last line, over and over: each state is a season of its own."""
    last = text.splitlines(keepends=True)[-1]
    while not stop.is_set():
        with open(file, "ab") as out:
            out.write(last)
        time.sleep(0.005)


def odd_clocks(folder):
    """A clock that stands still, long ago, or runs backwards changes no byte."""
    if not shutil.which("faketime"):
        return "left out: no faketime here"
    season = SmallSeason().write(folder)
    need(program.run("compare", season, "--out", folder / "a").code == DONE, "compare")
    for words in (["-f", "1990-01-01 00:00:00"], ["-f", "@2040-01-01 00:00:00 x-3"], ["2000-02-29 12:00:00"]):
        done = subprocess.run(["faketime", *words, program.path, "compare", season, "--out", folder / "b"],
                              capture_output=True, timeout=120, check=False)
        need(done.returncode == 0, f"{words}: {done.stderr[-300:]}")
        need(contents(folder / "a") == contents(folder / "b"), f"{words}: other bytes")


def decimal_commas(folder):
    """A locale whose numbers have commas, built for this test alone."""
    if not shutil.which("localedef") or not pathlib.Path("/usr/share/i18n/locales/de_DE").exists():
        return "left out: no sources of locales here"
    (folder / "locales").mkdir()
    subprocess.run(["localedef", "-i", "de_DE", "-f", "UTF-8", folder / "locales" / "de_DE.UTF-8"], check=True,
                   capture_output=True)
    commas = dict(os.environ, LOCPATH=str(folder / "locales"), LC_ALL="de_DE.UTF-8", LANG="de_DE.UTF-8")
    shown = subprocess.run(["locale", "decimal_point"], env=commas, capture_output=True, text=True, check=True).stdout
    need(shown.strip() == ",", "the locale was not built")
    season = SmallSeason().write(folder, SEASON + NEXT_YEAR)
    for command, options in (("compare", []), ("choose", []), ("layout", ["--field", "Field 1"]), ("stake", [])):
        plain = program.run(command, season, *options, "--out", folder / command)
        other = program.run(command, season, *options, "--out", folder / command, env=commas)
        need(plain.code == other.code == DONE, f"{command}: {other!r}")
        need(plain.out == other.out, f"{command}: other words")
    need(contents(folder / "compare") == results_in(folder, season, commas), "other bytes")


def results_in(folder, season, environment):
    need(program.run("compare", season, "--out", folder / "commas", env=environment).code == DONE, "compare")
    return contents(folder / "commas")


def odd_paths(folder):
    """Blanks, accents, a line end, quotes, braces, a leading dash: the same bytes from each."""
    season = SmallSeason().write(folder / "plain")
    need(program.run("compare", season).code == DONE, "compare")
    whole = contents(folder / "plain" / "results")
    convert = ["ogr2ogr", "-f", "GPKG"]
    for name in ("with blanks", "Äcker – été", "line\nend", "-dash", "it's \"so\"", "{brace} b}{", "100 %s %n", "*?[star]"):
        there = folder / name
        shutil.copytree(folder / "plain", there, ignore=shutil.ignore_patterns("results"))
        for words in (["compare", there / "season.toml"], ["compare", "./" + name + "/season.toml", "--out=" + name + "/o"]):
            said = program.run(*words, cwd=folder)
            need(said.code == DONE, f"{words}: {said!r}")
        need(contents(there / "results") == whole and contents(there / "o") == whole, f"{name!r}: other bytes")
        if not given.short:
            zipped_under(there, convert)


def zipped_under(there, convert):
    subprocess.run([*convert, str(there / "fields.gpkg"), str(there / "fields.geojson")], check=True,
                   capture_output=True)
    shutil.make_archive(str(there / "land"), "zip", there, "fields.gpkg")
    (there / "z.toml").write_text(SEASON.replace("fields.geojson", "land.zip"))
    said = program.run("check", there / "z.toml")
    need(said.code == DONE, f"a zip under {there.name!r}: {said!r}")


def names_of_no_length(folder):
    """Fields, methods, columns and files called "" are refused where they stand."""
    SmallSeason(names=["", "Field 2"]).write(folder)
    clearly_refused(program.run("compare", folder / "season.toml"), INPUT, "no name")
    SmallSeason().write(folder)
    for old, new in (('"standing"', '""'), ('name = "name"', 'name = ""'), ('column = "method"', 'column = ""'),
                     ('"fields.geojson"', '""'), ('["yield.csv"]', '[""]'), ('"tickets.csv"', '""'),
                     ('baseline = "swathed"', 'baseline = ""'), ('column = "time"', 'column = ""'),
                     ('pairs      = "block"', 'pairs = ""'), ('crop     = "canola"', 'crop = ""')):
        need(old in SEASON, old)
        (folder / "season.toml").write_text(SEASON.replace(old, new))
        clearly_refused(program.run("compare", folder / "season.toml"), INPUT)
    methods = (folder / "methods.geojson").read_text()
    (folder / "methods.geojson").write_text(methods.replace('"standing"', '""', 1))
    (folder / "season.toml").write_text(SEASON)
    clearly_refused(program.run("compare", folder / "season.toml"), INPUT)
    need(not (folder / "results").exists(), "results of a season that was refused")


def main():
    global program, given
    given = hardship.arguments(__doc__, sizes=30, changes=10)
    if given.short:
        given.sizes, given.changes = 4, 1
    program = hardship.Program(given.program)
    return hardship.run_checks([disk_full, disk_full_for_the_rest, folder_that_may_not_be_written, input_that_changes,
                                odd_clocks, decimal_commas, odd_paths, names_of_no_length])


if __name__ == "__main__":
    sys.exit(main())
