"""The page itself: claim, evidence, reasoning, limits, and how each number came about."""

from pathlib import Path

from kit.report.pieces import bullets, element, paragraphs, said, section, table
from kit.report.version import versions
from kit.report.words import claim_of, learner_said, questions_open
from kit.words import clock

LOOK = Path(__file__).with_name("look.css")
TITLE = "How much warmer, and how sure?"
SAFETY = (
    "A heat lamp and its cage burn skin and scorch paper and plastic: fixed stand, nothing flammable near, never left alone.",
    "Glass may crack when heated unevenly or splashed while hot.",
    "A vessel in which gas is made or let in is never closed. CO2 displaces air: air the room, and nobody leans over the vessels.",
    "Eye protection with acids. Local rules come first, and a qualified adult decides.",
)
INVENTED = "This run is simulated by the kit's vessel model, and says so. It shows how the work is done, not what a real vessel does."


def page(material, findings, made_at):
    """The whole report as one HTML text that needs nothing else: no network, no fonts, no scripts."""
    runs = [_run_section(each) for each in findings]
    return document(
        TITLE,
        said("p", f"Made on {made_at:%Y-%m-%d at %H:%M} with Twin Vessels.", cls="quiet"),
        _claim(material),
        _gaps(material, findings),
        *(runs or [section("Evidence", said("p", "No run has marked windows yet. Mark them in lesson 00 or in your own run, then make the report again."))]),
        learner_said(material),
        section("Safety", bullets(SAFETY)),
        _origins(material),
    )


def document(title, *inside):
    """A page of these pieces under its title, as HTML that needs nothing from outside."""
    head = element("head", '<meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">', said("title", title), _look())
    body = element("body", element("main", said("h1", title), *inside))
    return f'<!DOCTYPE html>\n<html lang="en">{head}{body}</html>\n'


def _look():
    return element("style", LOOK.read_text(encoding="utf-8"))


def _claim(material):
    claim = claim_of(material)
    return section("Claim", paragraphs(claim, cls="claim") if claim else said("p", "No claim is written yet.", cls="gap"), id_="claim")


def _gaps(material, findings):
    gaps = questions_open(material, findings)
    return section("What a reader will still ask", bullets(gaps), id_="gaps") if gaps else ""


def _run_section(found):
    evidence, run = found.evidence, found.evidence.run
    simulated = [said("p", INVENTED, cls="gap")] if run.kind == "simulated" else []
    parts = [_finding(each) for each in found.findings]
    odd = section("Odd places that were kept", bullets(map(str, run.odd_places())), level=3) if run.odd_places() else ""
    return section(f"Evidence: run {run.name}", *simulated, said("p", run), _windows(evidence), *parts, odd)


def _windows(evidence):
    seconds = evidence.windows.seconds
    rows = [(name, clock(seconds[2 * at]), clock(seconds[2 * at + 1])) for at, name in enumerate(("baseline", "perturbation", "response"))]
    return table("The windows, marked by the writer", rows, ("window", "from", "to"))


def _finding(finding):
    if finding.result is None:
        return section(finding.heading, said("p", finding.missing, cls="gap"), level=3)
    account = finding.result.explain() if hasattr(finding.result, "explain") else ""
    method = element("div", said("h4", "How this was worked out"), paragraphs(account), cls="method") if account else ""
    numbers = finding.result._repr_html_()  # the result's own small table, escaped by the result itself
    return section(finding.heading, element("figure", finding.picture), numbers, method, level=3)


def _origins(material):
    files = [(f"{each.file} ({each.run.kind})", each.run.source.sha256) for each in material.evidence]
    hashes = element("div", table("Files", files, ("file", "SHA-256 of its bytes")), cls="long") if files else ""
    unread = section("What could not be taken in", bullets(material.faults), level=3) if material.faults else ""
    return section("Where the numbers come from", hashes, table("Versions", versions().items(), ("package", "version")), unread, id_="origins")
