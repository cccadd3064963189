"""The class page, and a sheet for each group's bench: pages that print, and that need no network."""

from datetime import datetime
from pathlib import Path

from kit.charts import chart, marked_run
from kit.charts.still import svg
from kit.coursework import LESSONS
from kit.desk.pooling import next_runs, open_points, suspect_runs
from kit.estimate import rounded
from kit.report import bullets, document, element, from_markdown, paragraphs, SAFETY, said, section, table, write_whole

FOLDER, PAGE, SHEETS = "pages", "class-page.html", "bench-sheets.html"
GOOD_BENCH = "![A good bench](pictures/good-bench.svg)"
TITLE = "Our class: how much warmer, and how sure?"
NO_NUMBER = "This run gives no number. {}"


def write_class_page(collected, effect, folder="."):
    """Write the class page of a `Collected` and its `ClassEffect` into the folder `pages` in `folder`; gives its path."""
    return _written(folder, PAGE, class_page(collected, effect, datetime.now()))


def write_bench_sheets(cards, folder="."):
    """Write one sheet for each `BenchCard` into the folder `pages` in `folder`; gives its path."""
    return _written(folder, SHEETS, bench_sheets(cards))


def class_page(collected, effect, made_at):
    """The class page as one HTML text: all groups, the pooled range, what is open, the next run, and each run's chart."""
    return document(
        TITLE,
        said("p", f"Made on {made_at:%Y-%m-%d at %H:%M} with Twin Vessels. {collected}", cls="quiet"),
        section("What we found", said("p", effect, cls="claim")),
        section("All groups", element("figure", svg(chart(effect), str(effect), headed=False)), _groups(effect), _method(effect)),
        _open(collected, effect),
        section("The next run to do", bullets(next_runs(collected, effect))),
        section("Each run", *(_run(made, made.name in suspect_runs(collected, effect)) for made in collected.runs)),
        section("Safety", bullets(SAFETY)),
    )


def _groups(effect):
    rows = [(share.name, share.warming.text, f"{rounded(100 * share.weight, 0)} %") for share in effect.shares]
    side = [("place and vessel alone", effect.side.text, "")] if effect.side else []
    spread = [("groups differ by", effect.spread.text, ""), ("one more group", effect.next_group.text, "")]
    rows = [*rows, ("class mean", effect.mean.text, "100 %"), *side, *spread]
    return table("Extra warming of the treated vessel", rows, ("group", "extra warming", "weight"))


def _method(effect):
    return element("div", said("h4", "How this was worked out"), paragraphs(effect.explain()), cls="method")


def _open(collected, effect):
    """What keeps the result open. Whose file is damaged or came twice is for the desk alone: this page goes to all."""
    open_ = [*open_points(effect), *(f"{made.name} gives no number. {made.why}" for made in collected.runs if made.effect is None)]
    return section("What is open", bullets(open_))


def _run(made, suspect):
    """A run with its windows; what to keep in mind about it."""
    whose = "marked by the group" if made.marked else "suggested by the kit"
    head = f"{made.name}{' (look again)' if suspect else ''}"
    told = said("p", made.effect or NO_NUMBER.format(made.why), cls=None if made.effect else "gap")
    windows = said("p", f"Windows {whose}: {made.windows}", cls="quiet") if made.windows else ""
    picture = element("figure", svg(marked_run(made.run, made.windows), str(made.effect or made.run)))
    return section(head, picture, told, windows, bullets(made.effect.cautions if made.effect else ()), level=3)


def bench_sheets(cards):
    """A sheet for each group, each on a page of its own: its card and its record."""
    drawing = element("figure", from_markdown(GOOD_BENCH, LESSONS))
    pages = [section(f"Group {card.group}", drawing, card._repr_html_(), id_=f"group-{place}") for place, card in enumerate(cards)]
    breaks = "".join(f"#group-{place} {{ break-before: page; }}" for place in range(1, len(pages)))
    return document("Bench sheets", element("style", f"@media print {{ main > h1 {{ display: none; }} {breaks} }}"), *pages)


def _written(folder, name, html):
    path = Path(folder) / FOLDER / name
    write_whole(path, html)
    return path
