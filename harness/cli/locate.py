"""`ringout locate`: from what was heard to what is wrong, test by test."""

from __future__ import annotations

import sys

import click

from harness.cli.screen import Refused, complain, say


@click.command("locate", no_args_is_help=True)
@click.argument("job")
@click.option(
    "--symptom", "symptoms", multiple=True, metavar="TEXT", help='What is wrong, "FL silent"; may be given again.'
)
@click.option(
    "--answer",
    "answers",
    multiple=True,
    metavar="TEXT",
    help="The answer to the next test, its word or number; may be given again.",
)
@click.option(
    "--since", metavar="WHEN", default="", help="When it was first so; earlier records are left aside. 2026-03-02."
)
@click.option("--without-records", is_flag=True, help="Leave the job's records aside.")
@click.option("--double", is_flag=True, help="Look for two faults at once as well.")
@click.option("--json", "as_json", is_flag=True, help="Give the suspects and the next test as JSON, for a script.")
def command(
    job: str,
    symptoms: tuple[str, ...],
    answers: tuple[str, ...],
    since: str,
    without_records: bool,
    double: bool,
    as_json: bool,
) -> int:
    """Find a fault in the car: symptoms in, the next best test out.

    A symptom is a speaker (or a unit, for all its speakers) and one of: silent, reversed, wrong place, weak, noise,
    intermittent, protects; or a unit and: stays on. In a terminal it asks, and number keys answer; - takes an answer
    back, . stops. Exit code: 0, or 2 where something can't be read or is misused.

    Records of the job that hold count as answers given: what a tone, ohms or volts found good is cleared, what they
    found wrong is suspected. Not those older than the symptom: taken before --since, or before an output was last heard
    from that speaker. Of what comes and goes nothing is cleared by a reading, for it was good at times.

    \b
    Example:
      ringout locate larch.yaml
      ringout locate larch.yaml --symptom "FL silent"
      ringout locate larch.yaml --symptom "FL RL silent" --answer nothing --answer 1
      ringout locate larch.yaml --symptom "FL silent" --since 2026-03-02
    """
    from harness.cli import locate_text, report_text
    from harness.locate.session import Session
    from harness.locate.symptoms import Unreadable, read_since, read_symptoms
    from harness.locate.telling import Told
    from harness.prove import prove

    proof = prove(job, mends=False)
    if proof.wiring is None:
        say("\n".join(report_text.lines(proof)))
        complain("nothing can be located in a job that can’t be read")
        return 2
    asks = not as_json and _is_terminal()
    try:
        if not symptoms:
            if not asks:
                raise Refused('say what is wrong: --symptom "FL silent"')
            symptoms = locate_text.ask_symptoms(proof.wiring)
        read = read_symptoms(proof.wiring, symptoms)
        progress = _progress if double else None
        power = proof.report.verdict != "stop"
        session = Session(
            proof.wiring, read, double=double, progress=progress, power=power,
            records=not without_records, since=read_since(since),
        )  # fmt: skip
        if double:
            _progress(0, 0)
        told = Told(session)
        for each in answers:
            test = session.next_test() or session.confirming()
            session.answer(each if test is None else told.result(test, each))
    except Unreadable as error:
        raise Refused(str(error)) from None
    except (EOFError, KeyboardInterrupt) as error:
        say("")
        say("Stopped; nothing is known yet.")
        return 130 if isinstance(error, KeyboardInterrupt) else 0
    if as_json:
        from harness.cli import locate_json

        say(locate_json.text(session, proof.report.verdict))
        return 0
    say("\n".join(locate_text.opening(session, proof)))
    if asks:
        return locate_text.converse(session)
    say("\n".join(locate_text.standing(session)))
    return 0


def _is_terminal() -> bool:
    return sys.stdin is not None and sys.stdin.isatty() and sys.stdout.isatty()


def _progress(done: int, whole: int) -> None:
    """One line on stderr that is written over, in a terminal only; an empty call wipes it."""
    stream = sys.stderr
    if stream is None or not stream.isatty():
        return
    stream.write(f"\rtrying {done} of {whole}   " if whole else "\r" + " " * 40 + "\r")
    stream.flush()
