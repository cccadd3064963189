"""What can be typed after `python3 -m kit`, and what it means."""

import argparse
from pathlib import Path

from kit.bootstrap.places import CHECKOUT, own_folder

ABOUT = "Twin Vessels: two vessels, one lamp, CO2 in one. How much warmer did it get, and how sure are you?"
INTO = {"pool": "pooled", "guide": "pages/guide.html"}  # where a command writes in the teacher's folder, unless told


def read(words):
    """The typed words as options; those after a `--` are kept in `rest` for JupyterLab or pytest as they are."""
    if not words:
        parser().print_help()
        raise SystemExit(2)
    cut = words.index("--") if "--" in words else len(words)
    options = parser().parse_args(words[:cut])
    if getattr(options, "work", CHECKOUT) is None and not getattr(options, "course", None):  # a course has a place of its own
        options.work = own_folder() / ("my-class" if getattr(options, "teacher", False) else "my-work")
    if getattr(options, "into", CHECKOUT) is None:
        options.into = own_folder() / "my-class" / INTO[options.command]
    if options.command == "serve":
        settle_serve(options)
    options.rest = words[cut + 1 :]
    return options


def parser():
    whole = argparse.ArgumentParser(prog="python3 -m kit", description=ABOUT, epilog="Begin with: python3 -m kit lab")
    commands = whole.add_subparsers(dest="command", metavar="COMMAND", required=True)
    for add in (add_lab, add_serve, add_prepare, add_copy, add_course, add_guide, add_pool, add_test, add_check, add_lock):
        add(commands)
    return whole


def add_lab(commands):
    lab = command(commands, "lab", "open the lessons in JupyterLab; the first time, set the kit up", "Words after -- go to JupyterLab.")
    lab.add_argument("--no-browser", dest="browser", action="store_false", help="only print the address")
    lab.add_argument("--port", type=port, metavar="N", help="serve at this port (without it: 8888 or the next free one)")
    lab.add_argument("--teacher", action="store_true", help="open the teacher's pages instead: the desk for what a class handed in (folder: my-class)")
    lab.add_argument("--course", type=Path, metavar="FOLDER", help="open a course of your own: its folder, to write it, or its zip, to learn with it")
    add_work(lab)


ACTIONS = ("list", "stop", "collect", "withdraw", "new-term")
SERVE_AFTER = (
    "While a class is served, in another window: serve list (who is in), serve collect (how far the class is; for the desk), serve stop, "
    "serve withdraw NUMBER (or a ticket; --anew gives another); and between terms serve new-term (new tickets; the work stays). "
    "Each takes the class's folder last where it is not my-served-class."
)


def add_serve(commands):
    serve = command(commands, "serve", "serve the lessons to a class from this computer; prints a page with a ticket for each learner", SERVE_AFTER)
    serve.add_argument("words", nargs="*", metavar="FOLDER", help="where tickets and the learners' work are kept (without it: my-served-class)")
    serve.add_argument("--learners", type=learners, metavar="N", help="how many tickets (without it: 30, or one for each name)")
    serve.add_argument("--names", type=Path, metavar="FILE", help="a text file with the learners' names, one a line")
    serve.add_argument("--port", type=port, default=8000, metavar="N", help="serve at this port (without it: 8000)")
    serve.add_argument("--course", type=Path, metavar="FOLDER", help="serve a course of your own: its folder or its zip")
    serve.add_argument("--trusted", action="store_true", help="serve also where learners' folders can't be kept apart")
    serve.add_argument("--together", action="store_true", help="don't keep folders apart although this computer could; with --trusted")
    serve.add_argument("--as-root", action="store_true", help="serve although you are root, whose every file learners' code may then change")
    serve.add_argument("--only-here", action="store_true", help="let nobody in but this computer, to try it out")
    serve.add_argument("--anew", action="store_true", help="with withdraw: give the number another ticket")


def settle_serve(options):
    """Words after `serve`: an action or none, what `withdraw` takes back, and the folder."""
    words = list(options.words)
    options.action = words.pop(0) if words and words[0] in ACTIONS else "start"
    options.whom = words.pop(0) if options.action == "withdraw" and words else None
    if len(words) > 1 or (options.action == "withdraw" and options.whom is None):
        ways = ("", "list ", "stop ", "collect ", "withdraw NUMBER ", "new-term ")
        raise SystemExit(f"Type one of: {', '.join(f'serve {way}[FOLDER]' for way in ways)}")
    options.into = own_folder() / "my-class" / "class"
    options.folder = Path(words[0]) if words else own_folder() / "my-served-class"


def learners(text):
    """How many may get a ticket."""
    number = int(text)
    if not 1 <= number <= 99:
        raise argparse.ArgumentTypeError("learners are 1 to 99")
    return number


def add_prepare(commands):
    command(commands, "prepare", "only set the kit up, so that lab starts at once and needs no network later")


def add_copy(commands):
    copy = command(commands, "copy", "put a fresh copy of a lesson beside the old one, which stays as it is")
    which = copy.add_mutually_exclusive_group(required=True)
    which.add_argument("lesson", nargs="?", help="its number or a part of its name, such as 00")
    which.add_argument("--all", type=Path, metavar="FOLDER", help="put every lesson into that folder instead, for a Jupyter that the kit did not start")
    add_work(copy)


def add_course(commands):
    course = command(commands, "course", "make a course of your own from the lessons, check it, pack it for learners")
    actions = course.add_subparsers(dest="action", metavar="ACTION", required=True)
    new = command(actions, "new", "make a folder with lessons that you may change, and a template")
    new.add_argument("folder", type=Path, help="a folder that does not exist yet")
    new.add_argument("--lessons", nargs="+", default=[], metavar="LESSON", help="which, in this order: numbers or parts of names (without it: all)")
    new.add_argument("--run", type=Path, action="append", default=[], metavar="FILE", help="a run of your own to bring along; may be repeated")
    new.add_argument("--title", default="Our course", help="the heading of its contents page")
    add = command(actions, "add", "begin a lesson of your own as a copy of the template")
    add.add_argument("folder", type=Path, help="the course's folder")
    add.add_argument("name", help="its number and name, such as 20-our-lamp")
    for name, text in (("check", "say what each lesson lacks, and run its cells"), ("pack", "make one zip of it for learners")):
        command(actions, name, text).add_argument("folder", type=Path, help="the course's folder")


def add_guide(commands):
    guide = command(commands, "guide", "write the teacher's guide and sheets as one page to print, and open it")
    guide.add_argument("--into", type=Path, default=None, metavar="FILE", help="file or folder for it (without it: my-class/pages/guide.html)")
    guide.add_argument("--no-browser", dest="browser", action="store_false", help="only print where it is")


def add_pool(commands):
    pool = command(commands, "pool", "read thousands of records, write a table of their effects and one pooled result; stopped, it goes on later")
    pool.add_argument("folders", nargs="+", type=Path, metavar="FOLDER", help="a folder with records; files in a subfolder of it are one group's")
    by = pool.add_mutually_exclusive_group()
    by.add_argument("--workers", type=workers, default=1, metavar="N", help="read with so many processes (without it: 1)")
    by.add_argument("--dask", metavar="ADDRESS", help="read with the workers of this dask scheduler, such as tcp://10.0.0.5:8786")
    pool.add_argument("--say", type=said, action="append", default=[], metavar="KEYWORD=VALUE", help="what every file leaves open, such as unit=degC")
    pool.add_argument("--into", type=Path, default=None, metavar="FOLDER", help="where table and result go (without it: my-class/pooled)")


def workers(text):
    """How many processes may share the work."""
    number = int(text)
    if not 1 <= number <= 64:
        raise argparse.ArgumentTypeError("workers are 1 to 64")
    return number


def said(text):
    """A keyword of `read_run` and its value, also as a fault writes it: unit='degC'."""
    keyword, _, value = text.partition("=")
    if not keyword.isidentifier() or not value.strip("'\""):
        raise argparse.ArgumentTypeError("write a keyword of read_run and its value, such as unit=degC")
    return keyword, value.strip("'\"")


def add_test(commands):
    test = command(commands, "test", "run the kit's own tests", "Words after -- go to pytest.")
    test.add_argument("words", nargs="*", help="a path narrows where to look, any other word which tests by name (without words: all)")


def add_check(commands):
    check = command(commands, "check", "run a long study that the tests hold only a part of", "Words after -- go to the study.")
    which = check.add_mutually_exclusive_group(required=True)
    which.add_argument("--coverage", action="store_true", help="how often the kit's ranges hold the truth")
    which.add_argument("--causes", action="store_true", help="how often the bounds of weighed causes do, a part of the first")
    which.add_argument("--class", dest="whole_class", action="store_true", help="a class served on this computer, everybody at once; -- --learners N")
    which.add_argument("--predictions", action="store_true", help="compute anew what each cause predicts for each kind of run")


def add_lock(commands):
    command(commands, "lock", "for developers: fix the newest versions that fit the requirements, with their hashes, for every computer")


def command(commands, name, text, after=None):
    return commands.add_parser(name, help=text, description=text[0].upper() + text[1:] + ".", epilog=after)


def add_work(command):
    command.add_argument("--work", type=Path, metavar="FOLDER", help="your folder (without it: my-work)")


def port(text):
    """A port number that a program may ask for."""
    number = int(text)
    if not 1 <= number <= 65535:
        raise argparse.ArgumentTypeError("a port is a number from 1 to 65535")
    return number
