"""The page itself: claim, evidence, what could have caused it, the writer's own words, and how each number came about."""

from pathlib import Path

from kit.report.page.evidence import evidence_section
from kit.report.page.overall import glance, methods, together_sections
from kit.report.page.pieces import bullets, element, paragraphs, said, section, table
from kit.report.page.words import claim_of, learner_said, questions_open, rubric_said
from kit.report.version import versions

LOOK = Path(__file__).with_name("look.css")
TITLE = "How much warmer, and how sure?"
NO_RUN = "No run has marked windows yet. Mark them in lesson 00 or in your own run, then make the report again."
SAFETY = (
    "A heat lamp and its cage burn skin and scorch paper and plastic: fixed stand, nothing flammable near, never left alone.",
    "Glass may crack when heated unevenly or splashed while hot.",
    "A vessel in which gas is made or let in is never closed. CO2 displaces air: air the room, and nobody leans over the vessels.",
    "Eye protection with acids. Local rules come first, and a qualified adult decides.",
)


def page(material, findings, together, made_at):
    """The whole report as one HTML text that needs nothing else: no network, no fonts, no scripts."""
    return document(
        TITLE,
        said("p", f"Made on {made_at.day} {made_at:%B %Y at %H:%M} with Twin Vessels.", cls="quiet"),
        _claim(material),
        _gaps(material, findings),
        glance(findings),
        *map(evidence_section, findings),
        "" if findings else section("Evidence", said("p", NO_RUN)),
        together_sections(together, material),
        learner_said(material),
        rubric_said(material),
        methods(findings, together),
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
    return section("Claim", element("div", paragraphs(claim), cls="claim") if claim else said("p", "No claim is written yet.", cls="gap"), id_="claim")


def _gaps(material, findings):
    gaps = questions_open(material, findings)
    return section("What a reader will still ask", bullets(gaps), id_="gaps") if gaps else ""


def _origins(material):
    files = [(f"{each.file} ({each.run.kind})", each.run.source.sha256) for each in material.evidence]
    hashes = table("Files", files, ("file", "SHA-256 of its bytes")) if files else ""
    unread = section("What could not be taken in", bullets(material.faults), level=3) if material.faults else ""
    return section("Where the numbers come from", hashes, table("Versions", versions().items(), ("package", "version")), unread, id_="origins")
