#!/usr/bin/env python3
"""kill -9 at random moments: afterwards the old results are whole or the new ones are, and the next run cleans up.

By hand, 200 kills of `compare` and 40 of each other command: tests/hardship/killed.py build-release/src/cli/quartercut
Half of the moments lie anywhere in a run, half in its second half, where files are written.
"""
import random
import shutil
import sys
import time

import hardship
from hardship import DONE, NEXT_YEAR, SEASON, SmallSeason, contents, need

program = None
given = None
draw = None


def moment(seconds):
    return draw.uniform(0.0, 1.05) * seconds if draw.random() < 0.5 else draw.uniform(0.5, 1.05) * seconds


def kill_at_random(command, seconds):
    """True if the run was still alive."""
    running = program.start(*command)
    time.sleep(moment(seconds))
    alive = running.poll() is None
    running.kill()
    running.wait()
    return alive


def timed(command):
    began = time.monotonic()
    said = program.run(*command)
    need(said.code == DONE, f"{command}: {said!r}")
    return time.monotonic() - began


def hidden_leftovers(folder):
    return sorted(p.name for p in folder.rglob(".*quartercut-*") if p.name != ".quartercut-results")


def kill_many(folder, commands, results, kills):
    """`commands`: two that write the same results folder from seasons that differ."""
    whole, seconds = [], 0.0
    for command in commands:
        shutil.rmtree(results, ignore_errors=True)
        seconds = max(seconds, timed(command))
        whole.append(contents(results))
    need(whole[0] != whole[1], "the two seasons write the same")
    before, struck, new, left = set(p.name for p in folder.iterdir()), 0, 0, 0
    for turn in range(kills):
        alive = kill_at_random(commands[turn % 2], seconds)
        struck += alive
        if not alive:
            seconds *= 0.8  # the machine has less to do than when the runs were timed
        there = contents(results)
        need(there in whole, f"after kill {turn + 1} the results are neither the old nor the new ones; of the new ones "
                             f"these differ: {hardship.differing(there, whole[turn % 2])[:5]}")
        new += there == whole[turn % 2]
        left += bool(hidden_leftovers(folder))
        strays = {p.name for p in folder.iterdir()} - before - set(hidden_leftovers(folder))
        need(not strays, f"stray files after kill {turn + 1}: {strays}")
    timed(commands[0])
    need(contents(results) == whole[0], "the run after the kills wrote something else")
    need(not hidden_leftovers(folder), f"left behind after a whole run: {hidden_leftovers(folder)}")
    need(struck > kills // 6, f"only {struck} of {kills} runs were alive when killed")
    return f"{kills} kills, {struck} of a living run; {left} left something hidden, {new} times the new results stood"


def two_seasons(folder, words=SEASON):
    first = SmallSeason().write(folder, words)
    second = first.with_name("other.toml")
    second.write_text(words.replace("Invented farm", "Another title"))
    return first, second


def compare(folder):
    seasons = two_seasons(folder)
    return kill_many(folder, [["compare", s, "--out", folder / "results"] for s in seasons], folder / "results",
                     given.kills)


def plans(command, old, new, *options):
    """`old` and `new`: what differs between the two seasons."""
    def check(folder):
        first, second = two_seasons(folder, SEASON + NEXT_YEAR)
        second.write_text((SEASON + NEXT_YEAR).replace(old, new))
        return kill_many(folder, [[command, s, *options, "--out", folder / "out"] for s in (first, second)],
                         folder / "out", given.others)
    check.__name__ = command
    return check


def report(folder):
    """Draws the page of earlier results again: any other file stays, the page is the old one or the new one."""
    season = SmallSeason().write(folder)
    results = folder / "results"
    timed(["compare", season, "--out", results])
    whole = contents(results)
    (results / "report.html").write_text("an older page")
    old = contents(results)
    seconds = timed(["report", results])
    need(contents(results) == whole, "the page is drawn otherwise")
    for turn in range(given.others):
        (results / "report.html").write_text("an older page")
        kill_at_random(["report", results], seconds)
        there = contents(results)
        there.pop("report.html-new", None)
        need(there in (old, whole), f"after kill {turn + 1} something else stands there")
    timed(["compare", season, "--out", results])
    need(contents(results) == whole, "leftovers of killed runs are in the way of the next comparison")
    return f"{given.others} kills"


def demo(folder):
    """A season that is there is whole; half of one is hidden, and the next run removes it."""
    seconds = timed(["demo", folder / "season", "--interval", "10"])
    whole = contents(folder / "season")
    there = 0
    for turn in range(given.others // 2):
        shutil.rmtree(folder / "season")
        kill_at_random(["demo", folder / "season", "--interval", "10"], seconds)
        if (folder / "season").exists():
            there += 1
            need(contents(folder / "season") == whole, f"after kill {turn + 1} half a season stands there")
        else:
            (folder / "season").mkdir()
    shutil.rmtree(folder / "season")
    timed(["demo", folder / "season", "--interval", "10"])
    need(not hidden_leftovers(folder), f"left behind: {hidden_leftovers(folder)}")
    return f"{given.others // 2} kills, {there} after the season was there"


def start(folder):
    """The draft is whole or not there; no other file changes."""
    SmallSeason().write(folder)
    (folder / "season.toml").unlink()
    before = contents(folder)
    seconds = timed(["start", folder])
    whole = contents(folder)
    for turn in range(given.others):
        (folder / "season.toml").unlink(missing_ok=True)
        kill_at_random(["start", folder], seconds)
        there = contents(folder)
        there.pop(".season.toml.quartercut-new", None)
        need(there in (before, whole), f"after kill {turn + 1}: {hardship.differing(there, whole)}")
    (folder / "season.toml").unlink(missing_ok=True)
    timed(["start", folder])
    need(contents(folder) == whole, f"left behind: {hardship.differing(contents(folder), whole)}")
    return f"{given.others} kills"


def limit_files():
    import resource
    resource.setrlimit(resource.RLIMIT_FSIZE, (20000, 20000))


def stepped_aside(folder):
    """Where folders cannot be exchanged the old results step aside; killed then, the next run brings them back."""
    season = SmallSeason().write(folder)
    results = folder / "results"
    command = ["compare", season, "--out", results]
    seconds = timed(command)
    whole = contents(results)
    for _ in range(200):
        kill_at_random(command, seconds)
        if hidden_leftovers(folder):
            break
    need(hidden_leftovers(folder), "no kill left a hidden folder")
    kept = hidden_leftovers(folder)[0]
    shutil.rmtree(folder / kept)
    results.rename(folder / (kept + "-old"))
    said = program.run(*command, preexec_fn=limit_files)  # a run that cannot finish: no file may grow
    need(said.code == hardship.CANNOT_WRITE, f"{said!r}")
    need(contents(results) == whole, "the results that had stepped aside did not come back")


def main():
    global program, given, draw
    given = hardship.arguments(__doc__, kills=200, others=40)
    if given.short:
        given.kills, given.others = 12, 4
    program = hardship.Program(given.program)
    draw = random.Random(given.seed)
    return hardship.run_checks([compare, plans("choose", '"33 %"\nshare_high = "50 %"', '"20 %"\nshare_high = "80 %"'),
                                plans("stake", "Invented farm", "Another title"),
                                plans("layout", "13.00", "15.00", "--field", "Field 1"), report, demo, start, stepped_aside])


if __name__ == "__main__":
    sys.exit(main())
