"""The learner's own words in the report, and the questions that a reader would still have."""

import re

from kit.coursework import Kept, level_of, RUBRIC, ticks
from kit.report.findings import LIKE_THE_REFERENCE
from kit.report.page.pieces import element, paragraphs, said, section, table
from kit.words import listed

CLAIM, LIMIT = "claim", "limit"
NUMBER = re.compile(r"\d")
A_RANGE = re.compile(r"\d[\d.,]*\s*(?:°C|°F|K)?\s*(?:to|and|–|-|…|±)\s*[−-]?\d")
LIMIT_WORDS = re.compile(r"\b(?:don't know|not know|can't say|cannot|can't tell|only if|as long as|not shown?|limit|unless|holds? (?:if|for|only))", re.I)
KEPT = "kept it"
WHO = {"learner": "ticked by the writer", "reader": "ticked by a reader"}


def claim_of(material):
    """The learner's claim: what was written last as one, lesson 12's before that of an earlier lesson; else the newest note on an own run."""
    written = _notes(material, CLAIM)
    return written[max(written)] if written else _note_on_own_run(material)


def _note_on_own_run(material):
    notes = [answer for piece in material.evidence for answer in piece.decisions if answer.kind == "note"]
    written = [note for note in notes if note.content["text"].strip()]
    return max(written, key=lambda note: note.at).content["text"].strip() if written else ""


def _notes(material, key):
    """{lesson's number: the newest note with that key}, the empty ones left out."""
    notes = {lesson.number: kept.latest(f"{lesson.number}.{key}", "note") for lesson, kept in material.written}
    return {number: note.content["text"].strip() for number, note in notes.items() if note and note.content["text"].strip()}


def questions_open(material, findings):
    """What a reader of this report would ask next, as questions; first the one that a reader did ask."""
    asked = [f"A reader asked: {words}" for words in _reader_asked(material)]
    if not claim_of(material):
        return [*asked, "What do you claim? One sentence, in lesson 00 or 12.", *_about_runs(findings)]
    return [*asked, *_about_claim(claim_of(material)), *_about_runs(findings), *_about_others(findings)]


def _about_claim(claim):
    if not NUMBER.search(claim):
        yield "By how much? The claim names no number."
    elif not A_RANGE.search(claim):
        yield "How sure are you? The claim has no range."
    if not LIMIT_WORDS.search(claim):
        yield "What does the run not show? The claim names no limit."


def _about_runs(findings):
    if not findings:
        yield "Where are the readings? No run has marked windows yet: mark one in lesson 00, or bring your own."
    open_ = [found for found in findings if found.evidence.kind in LIKE_THE_REFERENCE and found.of("effect")]
    undecided = [found.evidence.run.name for found in open_ if found.of("effect").verdict == "cannot tell"]
    if undecided:
        yield f"{'Run' if len(undecided) == 1 else 'Runs'} {listed(undecided)}: the kit cannot tell. Which run would settle it?"
    own = [found.evidence for found in findings if found.evidence.own]
    unsaid = [evidence.run.name for evidence in own if not evidence.kind]
    if len(own) > 1 and unsaid:
        yield f"What was done in {'run' if len(unsaid) == 1 else 'the runs'} {listed(unsaid)}? Say it in your own run, Step 10; then causes can be weighed."


def _about_others(findings):
    alike = [found for found in findings if found.evidence.kind in LIKE_THE_REFERENCE]
    if alike and all(found.of("comparison") is None for found in alike):
        yield "Is that what others find? No comparison was made: it needs a margin, chosen beforehand (lesson 08)."


def _ticks(material):
    return next((ticks(kept) for lesson, kept in material.written if lesson.number == "12"), {})


def _reader_asked(material):
    question = str(_ticks(material).get("reader", {}).get("question", "")).strip()
    return [question] if question else []


def rubric_said(material):
    """The rubric as it was ticked last by writer and reader; nothing where nobody ticked."""
    told = _ticks(material)
    if not told:
        return ""
    rows = [(part.capitalize(), *(_level(told[who], part, levels) for who in WHO if who in told)) for part, levels in RUBRIC.items()]
    total = ("Together", *(_points(told[who]) for who in WHO if who in told))
    return section("How far the page goes", table("Ticked from 0 to 3", [*rows, total], ("part", *(WHO[who] for who in WHO if who in told))))


def _level(ticked, part, levels):
    level = level_of(ticked, part)
    return "not ticked" if level is None else f"{level}: {levels[level]}"


def _points(ticked):
    return f"{sum(level_of(ticked, part) or 0 for part in RUBRIC)} of {3 * len(RUBRIC)} points"


def learner_said(material):
    """Predictions with what was said of them later, and every note, lesson by lesson; then the notes on own runs."""
    lessons = "".join(_lesson(lesson, kept) for lesson, kept in material.written)
    runs = "".join(section(f"On run {piece.run.name}", paragraphs(text, cls="note"), level=3) for piece in material.evidence if (text := _note_on(piece)))
    return section("Predictions and notes, in the writer's own words", lessons, runs) if lessons or runs else ""


def _note_on(piece):
    note = Kept(piece.decisions).latest("note", "note")
    return str(note.content.get("text", "")).strip() if note else ""


def _lesson(lesson, kept):
    told = [row for prediction in lesson.predictions if (row := _prediction(lesson, prediction, kept))]
    notes = [(note.prompt, text) for note in lesson.notes if note.key != CLAIM and (text := _text(lesson, note, kept))]
    if not told and not notes:
        return ""
    predicted = table("", told, ("question", "predicted before", "said later")) if told else ""
    written = "".join(said("h4", prompt) + element("div", paragraphs(text), cls="note") for prompt, text in notes)
    head = f"{lesson.label}: {lesson.title}" if lesson.label != lesson.title else lesson.title
    return section(head, predicted, written, level=3)


def _text(lesson, note, kept):
    latest = kept.latest(f"{lesson.number}.{note.key}", "note")
    return latest.content["text"].strip() if latest else ""


def _prediction(lesson, prediction, kept):
    card = f"{lesson.number}.{prediction.key}"
    first, later = kept.latest(card, "prediction"), kept.latest(card, "second look")
    if first is None:
        return None
    sure = first.content.get("sure", "")
    return prediction.stem, f"{_with_because(first.content)}{f' ({sure})' if sure else ''}", _second(later) if later else "not looked at again"


def _second(answer):
    return _with_because(answer.content) if answer.content.get("words") else _with_because({**answer.content, "words": KEPT})


def _with_because(content):
    because = content.get("because", "").strip().rstrip(".")
    return f"{content.get('words', '')}{f', because: {because}.' if because else '.'}"
