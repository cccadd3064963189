"""The learner's own words in the report, and the questions that a reader would still have."""

import re

from kit.report.pieces import paragraphs, said, section, table

CLAIM, LIMIT = "claim", "limit"
NUMBER = re.compile(r"\d")
A_RANGE = re.compile(r"\d[\d.,]*\s*(?:°C|°F|K)?\s*(?:to|and|–|-|…|±)\s*[−-]?\d")
LIMIT_WORDS = re.compile(r"\b(?:don't know|not know|can't say|cannot|can't tell|only if|as long as|not shown?|limit|unless|holds? (?:if|for|only))", re.I)
KEPT = "kept it"


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
    """What a reader of this report would ask next, as questions."""
    claim, effects = claim_of(material), [found.of("effect") for found in findings]
    questions = [f"Run {each.run.name}: the kit cannot tell. Which run would settle it?" for each in effects if each and each.verdict == "cannot tell"]
    if not claim:
        return ["What do you claim? One sentence, in lesson 00 or 12.", *questions]
    if not NUMBER.search(claim):
        questions.append("By how much? The claim names no number.")
    elif not A_RANGE.search(claim):
        questions.append("How sure are you? The claim has no range.")
    if not LIMIT_WORDS.search(claim):
        questions.append("What does the run not show? The claim names no limit.")
    if findings and all(found.of("comparison") is None for found in findings):
        questions.append("Is that what others find? No comparison was made: it needs a margin, chosen beforehand (lesson 08).")
    return questions


def learner_said(material):
    """Predictions with what was said of them later, and every note, lesson by lesson."""
    return "".join(_lesson(lesson, kept) for lesson, kept in material.written)


def _lesson(lesson, kept):
    told = [row for prediction in lesson.predictions if (row := _prediction(lesson, prediction, kept))]
    notes = [(note.prompt, latest.content["text"]) for note in lesson.notes if (latest := kept.latest(f"{lesson.number}.{note.key}", "note"))]
    if not told and not notes:
        return ""
    predicted = table("Predicted before, and said later", told, ("question", "predicted", "how sure", "later")) if told else ""
    written = "".join(said("h3", prompt) + paragraphs(text, cls="note") for prompt, text in notes if text.strip())
    head = f"Lesson {lesson.number}: {lesson.title}" if lesson.number.isdigit() else lesson.title
    return section(head, predicted, written)


def _prediction(lesson, prediction, kept):
    card = f"{lesson.number}.{prediction.key}"
    first, later = kept.latest(card, "prediction"), kept.latest(card, "second look")
    if first is None:
        return None
    return prediction.stem, _with_because(first.content), first.content.get("sure", ""), _second(later) if later else "not looked at again"


def _second(answer):
    return _with_because(answer.content) if answer.content.get("words") else _with_because({**answer.content, "words": KEPT})


def _with_because(content):
    because = content.get("because", "")
    return f"{content.get('words', '')}{f' (because: {because})' if because else ''}"
