"""All that a record leaves open, at once; and the answers as keywords and as a line of code."""

from pathlib import PurePath

from kit.faults import IntakeFault
from kit.intake.given import added

MOST = 12  # questions at once; a record that leaves more open is asked about in two turns


def with_all_questions(fault, settle):
    """The fault with every question that is open, those behind its own included.

    To see what comes behind a question it is answered for a trial, by the first choice that leads on: `settle(answers)` reads the
    record with {keyword: value} and raises what is then open.
    """
    questions, waiting, answers = [], list(fault.questions), {}
    while waiting and len(questions) < MOST:
        question, *waiting = waiting
        questions.append(question)
        answers, behind = on_trial(question, answers, settle, bool(waiting))
        waiting += [each for each in behind if each not in (*questions, *waiting)] if not waiting else []
    return fault.asking(questions, answers) if len(questions) > 1 else fault


def on_trial(question, answers, settle, more_waiting):
    """(answers with one to `question`, the questions behind it). The first choice that does not end in a refusal is taken."""
    taken = list(answers.values())
    free = [choice for choice in question.choices if choice.value not in taken] or list(question.choices)
    trials = [{**answers, question.keyword: added(answers.get(question.keyword), question.keyword, choice.value)} for choice in free]
    for trial in trials if not more_waiting else ():
        try:
            settle(trial)
            return trial, ()
        except IntakeFault as behind:
            if behind.questions:
                return trial, behind.questions
    return trials[0], ()


def asked_further(asked, questions):
    """What a form shows next, (question, place of the answer or None) pairs: all that is answered, and of the rest what is still open."""
    kept = [(question, place) for question, place in asked if place is not None or question in questions]
    shown = [question for question, _ in kept]
    return (*kept, *((question, None) for question in questions if question not in shown))


def with_answers(keywords, asked):
    """The keywords of `read_run` with the answers of a form, as in `asked_further`."""
    for question, place in asked:
        if place is not None:
            keywords = with_answer(keywords, question.keyword, question.choices[place].value)
    return keywords


def with_answer(keywords, keyword, value):
    """The keywords of `read_run` with one more answer; a second word on clocks or units is added to the first."""
    return {**keywords, keyword: added(keywords.get(keyword), keyword, value)}


def code_for(source, keywords):
    """The line of code that reads the same run: 'run = read_run("a.csv", treated="Probe 1")'."""
    named = [f"{name}={_written(value)}" for name, value in keywords.items() if value is not None]
    return f"run = read_run({', '.join([_written(source), *named])})"


def _written(value):
    if isinstance(value, (list, tuple)):
        return f"[{', '.join(map(_written, value))}]"
    if isinstance(value, PurePath):
        value = value.as_posix()
    plain = isinstance(value, str) and value.isprintable() and not set(value) & {'"', "\\"}
    return f'"{value}"' if plain else repr(value)
