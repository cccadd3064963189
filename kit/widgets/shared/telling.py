"""A view shows its own faults: what a callback raises would otherwise only reach a log that no learner reads."""

from functools import wraps

from kit.faults import Fault


def told(answer):
    """`answer`, made safe for a view: a Fault becomes its own text; anything else a sentence that names it and what to do."""

    @wraps(answer)
    def safe(*given, **named):
        try:
            return answer(*given, **named)
        except Fault as fault:
            return str(fault)
        except Exception as surprise:
            return f"The kit met something it did not expect ({type(surprise).__name__}: {surprise}). Your work is kept. Load this page again."

    return safe
