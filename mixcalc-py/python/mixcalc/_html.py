"""What a notebook shows. No colours: a finding says in words how much it weighs."""

from html import escape


def quantity(value):
    """`Quantity._repr_html_`."""
    return f'<span title="{escape(value.kind)}">{escape(str(value))}</span>'


def _table(head, rows):
    cells = "".join(f"<th>{escape(name)}</th>" for name in head)
    body = "".join("<tr>" + "".join(f"<td>{escape(str(cell))}</td>" for cell in row) + "</tr>" for row in rows)
    return f"<table><thead><tr>{cells}</tr></thead><tbody>{body}</tbody></table>"


def job(value, fields):
    """`Job._repr_html_`: what was stated."""

    def shown(field):
        return ", ".join(map(str, field)) if isinstance(field, tuple) else str(field)

    return _table(["job", ""], [[key, shown(field)] for key, field in fields.items()])


def plan(plan):
    """`Plan._repr_html_`: a summary; the load sheet is what goes to the field."""

    def people(quantity):
        return quantity.to_people(plan.job.units)

    totals = plan.totals
    title = escape(plan.job.title or "Plan")
    facts = f"{totals.loads} load{'s' if totals.loads != 1 else ''}, {people(totals.mix)} of mix for {people(totals.area)}; "
    facts += f"safe fill {people(plan.safe_fill)}"
    parts = [f"<p><strong>{title}</strong><br>{escape(facts)}</p>"]
    if not plan.usable:
        parts.append("<p><strong>Do not mix this as it stands.</strong> The plan has no measured amounts and no steps.</p>")
    if plan.findings:
        parts.append(_table(["finding", "what"], [[finding.severity, finding.message] for finding in plan.findings]))

    def in_load(portion):
        # With as many digits as the load sheet has at a mark: four would show 1683.5 g as 1684 g.
        return people(portion.exact) if portion.shown is None else f"{portion.shown} ({portion.measure})"

    def in_all(total):
        if total.measured is None:
            return people(total.exact)
        return str(total.measured.in_unit(people(total.measured).partition(" ")[2]))  # graduations, with all their digits

    rows = []
    for load in plan.loads:
        loads = f"{load.first}" if load.count == 1 else f"{load.first} to {load.last}"
        rows.append([loads, people(load.mix), people(load.carrier), *map(in_load, load.products)])
    rows.append(["all", people(totals.mix), people(totals.carrier), *map(in_all, totals.products)])
    note = "what the measure shows" if plan.usable else "what the doses ask for, not to be measured"
    head = ["load", "mix", "carrier", *(total.name for total in totals.products)]
    parts.append(f"<p>For each load, {note}:</p>" + _table(head, rows))
    if plan.usable:
        parts.append("<p><code>print(plan)</code> shows the load sheet with its steps.</p>")
    parts.append("<ul>" + "".join(f"<li>{escape(caution.text)}</li>" for caution in plan.cautions) + "</ul>")
    return "".join(parts)
