"""What a notebook shows. No colours: a finding says in words how much it weighs."""

from html import escape


def quantity(value):
    """`Quantity._repr_html_`."""
    return f'<span title="{escape(value.kind)}">{escape(str(value))}</span>'


def _table(head, rows):
    cells = "".join(f"<th>{escape(name)}</th>" for name in head)
    body = "".join("<tr>" + "".join(f"<td>{escape(str(cell))}</td>" for cell in row) + "</tr>" for row in rows)
    return f"<table><thead><tr>{cells}</tr></thead><tbody>{body}</tbody></table>"


def _people(plan, quantity):
    return quantity.to_people(plan.job.units)


def plan(plan):
    """`Plan._repr_html_`: a summary; the load sheet is what goes to the field."""
    people = lambda quantity: "" if quantity is None else quantity.to_people(plan.job.units)  # noqa: E731
    totals = plan.totals
    title = escape(plan.job.title or "Plan")
    facts = f"{totals.loads} load{'s' if totals.loads != 1 else ''}, {people(totals.mix)} of mix for {people(totals.area)}; "
    facts += f"safe fill {people(plan.safe_fill)}"
    parts = [f"<p><strong>{title}</strong><br>{escape(facts)}</p>"]
    if not plan.usable:
        parts.append("<p><strong>This plan must not be mixed.</strong> It has no measured amounts and no steps.</p>")
    if plan.findings:
        parts.append(_table(["finding", "what"], [[finding.severity, finding.message] for finding in plan.findings]))
    head = ["loads", "mix", "carrier"] + [portion.name for portion in totals.products]
    amount = lambda portion: people(portion.measured if plan.usable else portion.exact)  # noqa: E731
    rows = []
    for load in plan.loads:
        loads = f"{load.first}" if load.count == 1 else f"{load.first} to {load.last}"
        rows.append([loads, people(load.mix), people(load.carrier)] + [amount(portion) for portion in load.products])
    rows.append(["all", people(totals.mix), people(totals.carrier)] + [amount(total) for total in totals.products])
    note = "measured amounts" if plan.usable else "what the doses ask for: not to be measured"
    parts.append(f"<p>Per load, {note}:</p>" + _table(head, rows))
    cautions = "".join(f"<li>{escape(caution.text)}</li>" for caution in plan.cautions)
    parts.append(f"<details><summary>Cautions</summary><ul>{cautions}</ul></details>")
    return "".join(parts)
