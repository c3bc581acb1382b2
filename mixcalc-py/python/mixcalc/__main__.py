"""``python -m mixcalc``: plan and check job documents, and print their schemas.

Ends with 0 where all went well, 1 where a plan has a stop, 2 where a job cannot be planned, 3 on a fault of the program.
"""

import argparse
import contextlib
import io
import json
import signal
import sys
import traceback

import mixcalc

OK, STOPPED, REFUSED, FAULT = 0, 1, 2, 3


def main(arguments=None):
    """Runs a command; returns the exit status."""
    parser = _parser()
    options = parser.parse_args(arguments)
    if getattr(options, "jobs", []).count("-") > 1:
        parser.error("standard input can be read once")
    if getattr(options, "working", False) and options.lines:
        parser.error("--working is for load sheets, and --lines gives plan documents")
    return options.run(options)


def _parser():
    parser = argparse.ArgumentParser(
        prog="python -m mixcalc",
        description="Arithmetic of mixing and loading for crop sprayers. The label in force where you are decides.",
        epilog="Ends with 0 where all went well, 1 where a plan has a stop, 2 where a job cannot be planned, 3 on a fault of the program.",
    )
    parser.add_argument("--version", action="version", version=mixcalc.__version__)
    commands = parser.add_subparsers(required=True, metavar="COMMAND")

    plan = commands.add_parser("plan", help="plan jobs and print the load sheet", description="Plans job documents.")
    _takes_jobs(plan)
    how = plan.add_mutually_exclusive_group()
    how.add_argument("--json", action="store_true", help="print each plan document, one a line")
    how.add_argument("--working", action="store_true", help="end the load sheet with how every number was reached")
    plan.set_defaults(run=_plan)

    check = commands.add_parser("check", help="check jobs and print what is found", description="Checks job documents.")
    _takes_jobs(check)
    check.set_defaults(run=_check)

    schema = commands.add_parser("schema", help="print the JSON Schema of jobs or of plans")
    schema.add_argument("document", choices=["job", "plan"])
    schema.set_defaults(run=lambda options: print(getattr(mixcalc, f"{options.document}_schema")(), end="") or OK)
    return parser


def _takes_jobs(command):
    command.add_argument("jobs", nargs="+", metavar="JOB", help="a file with a job in JSON or TOML; - is standard input")
    command.add_argument(
        "--lines", action="store_true", help="each file holds one JSON job a line; one JSON result a line comes out, errors in place"
    )


def _documents(options):
    """The job documents, each with a name for messages; an error in place of one that cannot be read."""
    for name in options.jobs:
        try:
            if options.lines:
                with contextlib.nullcontext(sys.stdin.buffer) if name == "-" else open(name, "rb") as file:
                    for number, line in enumerate(file, 1):
                        if line.strip():
                            yield f"{name}:{number}", line
            elif name == "-":
                yield name, sys.stdin.buffer.read()
            else:
                with open(name, "rb") as file:
                    yield name, file.read()
        except OSError as error:
            yield name, error


def _planned(document):
    if isinstance(document, OSError):
        raise document
    return mixcalc.plan(mixcalc.Job.from_json(document))


def _each(options, show):
    """Shows each plan; the worst exit status of all."""
    worst = OK
    for name, document in _documents(options):
        try:
            plan = _planned(document)
        except (mixcalc.MixcalcError, OSError) as error:
            worst = REFUSED
            print(f"{name}: {error}", file=sys.stderr)
            if options.lines:
                _print_error(error)
            continue
        worst = max(worst, OK if plan.usable else STOPPED)
        show(name, plan)
    return worst


def _print_error(error):
    fields = {name: getattr(error, name) for name in ("code", "name", "path", "given", "allowed") if hasattr(error, name)}
    print(json.dumps({"error": {"message": str(error), **fields}}, ensure_ascii=False))


def _plan(options):
    def show(name, plan):
        if options.json or options.lines:
            print(plan.to_json())
        elif plan.usable:
            print(plan.sheet(working=options.working), end="")
        else:
            print(plan.findings_page(), end="", file=sys.stderr)

    return _each(options, show)


def _check(options):
    def show(name, plan):
        if options.lines:
            keys = ("severity", "code", "path", "load", "message")
            findings = [{key: getattr(finding, key) for key in keys} for finding in plan.findings]
            print(json.dumps({"usable": plan.usable, "findings": findings}, ensure_ascii=False))
        else:
            if len(options.jobs) > 1:
                print(f"{name}:")
            print(plan.findings_page(), end="")

    return _each(options, show)


def _as_a_program():
    if hasattr(signal, "SIGPIPE"):
        signal.signal(signal.SIGPIPE, signal.SIG_DFL)  # a reader that has seen enough is no error
    for stream in (sys.stdout, sys.stderr):  # documents are UTF-8, whatever the locale
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8", newline="\n")
    try:
        return main()
    except KeyboardInterrupt:
        return 130
    except Exception:
        traceback.print_exc()
        return FAULT  # not 1, which says that a plan has a stop


if __name__ == "__main__":
    sys.exit(_as_a_program())
