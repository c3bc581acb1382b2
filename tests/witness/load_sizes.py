"""How often another size of loads helps with an amount that is hard to measure: python load_sizes.py COUNT SEED PLAN_LINES.

Draws random jobs (jobs.py) until COUNT of them may be carried out and have an amount that is uncertain by over 5 %, and counts what
would help. PLAN_LINES is the example of that name. `make load-sizes` builds it and runs this.
"""

from __future__ import annotations

import json
import subprocess
import sys

BATCH = 500


def hard(plan):
    """What would help with each amount that is hard to measure, with whether its load is a part load; none where a stop stands."""
    if not plan or not plan["usable"]:
        return []
    first = plan["loads"][0]["mix"]["value"]
    part = {load["first"]: load["mix"]["value"] < first for load in plan["loads"]}
    return [(part[f["load"]], f.get("help", [])) for f in plan["findings"] if f["code"] == "amount-hard-to-measure"]


def main(count: int, seed: str, plan_lines: str) -> int:
    found, drawn, batch = [], 0, 0
    while len(found) < count:
        batch += 1
        jobs = subprocess.run([sys.executable, __file__.replace("load_sizes", "jobs"), str(BATCH), f"{seed}.{batch}"], check=True, capture_output=True)
        plans = subprocess.run([plan_lines], input=jobs.stdout, check=True, capture_output=True)
        for line in plans.stdout.splitlines():
            if len(found) < count:
                drawn += 1
                if helps := hard(json.loads(line).get("plan")):
                    found.append(helps)

    def share(what, of):
        print(f"{what}: {sum(map(of, found))} of {len(found)}, {100 * sum(map(of, found)) / len(found):.1f} %")
    says = {"a load size": "loads of ", "a measure at hand": "which measures it to", "a premix": "a premix: ", "a finer scale": "which weighs it to"}

    def helped(one, phrase):
        return any(phrase in text for text in one[1])
    print(f"{drawn} jobs drawn, {len(found)} of them with an amount that is hard to measure and no stop")
    share("a load size brings every amount under 5 %", lambda helps: all(helped(one, says["a load size"]) for one in helps))
    share("hard to measure in a part load alone", lambda helps: all(one[0] for one in helps))
    both = [helps for helps in found if all(one[0] for one in helps)]
    sized = sum(all(helped(one, says["a load size"]) for one in helps) for helps in both)
    print(f"  of these, a load size does: {sized} of {len(both)}, {100 * sized / max(1, len(both)):.1f} %")
    share("a finer vessel or scale does, at hand or to be had", lambda helps: all(helped(one, "to ") and (helped(one, says["a measure at hand"]) or helped(one, says["a finer scale"])) for one in helps))
    share("a premix does", lambda helps: all(helped(one, says["a premix"]) for one in helps))
    share("something does", lambda helps: all(one[1] for one in helps))
    return 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), *sys.argv[2:]))
