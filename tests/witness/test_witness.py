"""The witness is itself on trial: by numbers worked out by hand, by faults planted in right plans, by its own jobs.

    python -m unittest discover tests/witness
"""

import copy
import json
import math
import subprocess
import sys
import tempfile
import unittest
from fractions import Fraction
from pathlib import Path

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE))

from jobs import Draw, job as random_job  # noqa: E402
from quantities import Unreadable, down, nearest, over, quantity, up  # noqa: E402
from reckoning import NoAnswer  # noqa: E402
from witness import check, expected, promises  # noqa: E402

JOB = {
    "format": "mixcalc-job/1", "area": "1000 m2", "volume_rate": "300 L/ha",
    "sprayer": {"kind": "knapsack"}, "tank": {"nominal": "16 L", "brim": "18 L", "graduation": "1 L"},
    "products": [
        {"name": "example product A", "formulation": "SC", "dose": "1.5 L/ha", "stock": "1 L"},
        {"name": "example product B", "formulation": "WG", "dose": "2.05 kg/ha", "particle_density": "1.6 kg/L",
         "label": {"max_dose": "2.05 kg/ha"}}],
    "measures": [{"name": "jug", "kind": "vessel", "capacity": "100 mL", "graduation": "2 mL"},
                 {"name": "scale", "kind": "scale", "capacity": "500 g", "graduation": "1 g"}]}


def changed(document, *changes):
    """A copy with other values at some paths, a path being text such as "loads 0 mix value"."""
    document = copy.deepcopy(document)
    for path, new in changes:
        at = document
        *keys, last = [int(key) if key.isdigit() else key for key in path.split()]
        for key in keys:
            at = at[key]
        at[last] = new(at[last]) if callable(new) else new
    return document


class ByHand(unittest.TestCase):
    def test_a_knapsack_job(self):
        # Safe fill: min(16, 0.9 x 18) = 16 L. Mix: 300 L/ha x 0.1 ha = 30 L = 16 + 14.
        # A: 1.5 / 300 of 16 L is 80 mL, of 14 L 70 mL. B: 2.05 / 300 kg/L gives 109.33 g and 95.67 g; down to 109 g
        # (nearest), and the second to 95 g, because 96 g is over the maximum.
        plan = expected(JOB)
        first, second = plan["loads"]
        self.assertEqual((plan["safe_fill"]["value"], first["mix"]["value"], second["mix"]["value"]), (16, 16, 14))
        self.assertEqual([p["graduations"] for load in (first, second) for p in load["products"]], [40, 109, 35, 95])
        self.assertEqual([line["drawn"][0]["count"] for line in plan["totals"]["products"]], [75, 204])
        # The tank: half of 16 L; 80 mL, three rinses of 25 mL; 109 g displace 68.125 mL, premixed with 218 mL.
        tank = [(step["do"], round(step["in_tank"]["value"], 9)) for step in first["steps"]]
        self.assertEqual(tank, [("fill", 8), ("measure", 8.08), ("rinse", 8.155), ("measure", 8.155),
                                ("premix", 8.441125), ("agitate", 8.441125), ("top-up", 16), ("agitate", 16)])
        self.assertEqual(check(JOB, plan), [])

    def test_shares_by_carrier(self):
        # 180 L/ha of carrier, 1 % of it product and 2 L/ha on top: 180 x 1.01 + 2 = 183.8 L/ha of mix.
        products = [{"name": "a", "dose": "1 % v/v", "basis": "carrier-volume"}, {"name": "b", "dose": "2 L/ha"}]
        job = changed(JOB, ("area", "1 ha"), ("products", products), ("carrier_rate", "180 L/ha"))
        del job["volume_rate"]
        plan = expected(job)
        self.assertAlmostEqual(plan["volume_rate"]["value"], 183.8, 12)
        self.assertAlmostEqual(plan["carrier_rate"]["value"], 180, 12)
        self.assertAlmostEqual(plan["totals"]["products"][0]["exact"]["value"], 1.8, 12)

    def test_a_maximum_on_carrier_holds_for_the_carrier_that_is_there(self):
        # Of 200 L, 16 L/ha in cans of 10 L are two cans, 20 L; 0.5 % of carrier is 0.915 L, 91 steps of 10 mL by itself.
        # Beside 20.91 L there are 179.09 L, and 0.5 % of that is 89 steps. With bottles of 0.9 L it is less than one.
        can = {"kind": "pack", "graduation": "10 L"}
        products = [{"name": "a", "dose": "16 L/ha", "label": {"max_dose": "20 L/ha"}, "measure": can},
                    {"name": "b", "dose": "0.5 % v/v", "basis": "carrier-volume"}]
        job = changed(JOB, ("area", "1 ha"), ("volume_rate", "200 L/ha"), ("products", products),
                      ("sprayer kind", "boom"), ("tank", {"nominal": "200 L", "brim": "220 L"}),
                      ("measures 0", {"name": "jug", "kind": "vessel", "capacity": "1 L", "graduation": "10 mL"}))
        plan = expected(job)
        self.assertEqual([part["graduations"] for part in plan["loads"][0]["products"]], [2, 89])
        self.assertEqual(check(job, plan), [])
        over = changed(plan, ("loads 0 products 1 measured value", 0.9))
        self.assertTrue(any("over the maximum" in wrong for wrong in check(job, over)))
        products[1]["measure"] = {"kind": "pack", "graduation": "0.9 L"}
        plan = expected(changed(job, ("products", products)))
        self.assertEqual([(f["code"], f["path"]) for f in plan["findings"] if f["severity"] == "stop"],
                         [("amount-below-graduation", "products[1]")])

    def test_marks_are_shared_evenly(self):
        # 30.5 L in two loads with marks of 1 L: 15, and 15 with the rest on top.
        plan = expected(changed(JOB, ("volume_rate", "305 L/ha"), ("products", []), ("loading", {"split": "even"})))
        self.assertEqual([(load["count"], load["mix"]["value"]) for load in plan["loads"]], [(1, 15), (1, 15.5)])

    def test_a_small_part_is_shared(self):
        # 33 L = 16 + 16 + 1; 1 L is under 4 L, so that 17 L are shared: 9 and 8.
        job = changed(JOB, ("volume_rate", "330 L/ha"), ("products", []), ("tank least_working_volume", "4 L"))
        self.assertEqual([load["mix"]["value"] for load in expected(job)["loads"]], [16, 9, 8])

    def test_closeness(self):
        tenth = Fraction(1, 10)
        self.assertEqual([nearest(Fraction(t)) for t in ("2.5", "2.50000000001", "2.5000000000001")], [2, 3, 2])
        self.assertEqual([down(3 - tenth**13), down(3 - tenth**11), up(3 + tenth**13), up(3 + tenth**11)], [3, 2, 3, 4])
        self.assertEqual([over(1 + tenth**13, 1), over(1 + tenth**11, 1)], [False, True])

    def test_units(self):
        for text, si in {"6 US fl oz/1000 ft2": Fraction("0.0000295735295625") * 6 / (1000 * Fraction("0.3048") ** 2),
                         "150 mL/100 L": Fraction("0.0015"), "1 % w/v": Fraction(10), "20 mL/15 L": Fraction(2, 1500),
                         "1 ac": Fraction("4046.8564224"), "1 imp fl oz": Fraction("0.0000284130625")}.items():
            self.assertEqual(quantity(text)[0], si, text)
        for text in ("1 gal", "2 fl oz", "1 oz", "3", "1,5 L", "5 x"):
            self.assertRaises(Unreadable, quantity, text)


class Planted(unittest.TestCase):
    """Each fault in a right plan is reported; the promises see those that need no second reckoning."""

    def setUp(self):
        self.plan = expected(JOB)

    def finds(self, words, *changes, promised=False):
        plan = changed(self.plan, *changes)
        self.assertNotEqual(plan, self.plan)
        found = list(promises(JOB, plan)) if promised else check(JOB, plan)
        self.assertTrue(any(words in sentence for sentence in found), f"{words!r} is not among {found}")

    def test_a_graduation_more(self):
        self.finds("loads hold", ("loads 0 products 0 graduations", 41), promised=True)
        self.finds("loads[0].products[0].graduations: expected 40, got 41", ("loads 0 products 0 graduations", 41))

    def test_over_the_maximum(self):
        more = [("loads 1 products 1 graduations", 96), ("loads 1 products 1 measured value", 0.096),
                ("loads 1 products 1 fillings 0 amount value", 0.096), ("totals products 1 drawn 0 count", 205),
                ("totals products 1 measured value", 0.205), ("ledger products 1 drawn value", 0.205),
                ("ledger products 1 in_loads value", 0.205)]
        self.finds("is over the maximum", *more, promised=True)
        self.finds("loads[1].products[1].graduations: expected 95, got 96", *more)

    def test_a_count_off_by_one(self):
        self.finds("count 2", ("loads 0 count", 2), promised=True)
        self.finds("although the last load is 2", ("totals loads", 3), promised=True)

    def test_a_load_over_the_safe_fill_by_one_ulp(self):
        self.finds("is over the safe fill", ("loads 0 mix value", math.nextafter(16, 17)), promised=True)

    def test_the_tank(self):
        self.finds("loads[0].steps[2].in_tank", ("loads 0 steps 2 in_tank value", 8.16))
        self.finds("falls", ("loads 0 steps 3 in_tank value", 8.0), promised=True)
        self.finds("carrier of the steps", ("loads 0 steps 6 carrier value", lambda x: x + 0.001), promised=True)

    def test_the_order_of_steps(self):
        steps = self.plan["loads"][0]["steps"]
        self.finds("loads[0].steps[1].do", ("loads 0 steps", [steps[0], steps[2], steps[1], *steps[3:]]))

    def test_a_mark(self):
        self.finds("steps[0].mark", ("loads 0 steps 0 mark value", 7.0))
        self.finds("steps[0].rest", ("loads 0 steps 0 rest", {"value": 1.0, "unit": "L"}))

    def test_the_ledger(self):
        self.finds("drawn and in loads + spilled", ("ledger products 0 spilled value", 0.001), promised=True)
        self.finds("stock and drawn + left", ("ledger products 0 left value", 0.86), promised=True)
        self.finds("carrier: drawn and used", ("ledger carrier rinses value", 0.2), promised=True)
        self.finds("sprayed + residual", ("ledger mix sprayed value", 29.9), promised=True)

    def test_a_unit(self):
        self.finds("totals.mix", ("totals mix unit", "mL"))
        self.finds("totals.mix", ("totals mix", {"value": 0.03, "unit": "m3"}))
        self.finds("volume_rate", ("volume_rate unit", "kg/ha"))

    def test_a_digit(self):
        for path in ("safe_fill value", "area value", "carrier_rate value", "totals area value", "loads 1 area value",
                     "loads 1 products 1 exact value", "totals products 0 gap percent", "totals carrier value",
                     "loads 1 products 1 gap dose value", "ledger carrier first value",
                     "loads 0 steps 4 carrier value"):
            self.finds(path.split()[-2], (path, lambda x: (x or 1) * (1 + 1e-10) + 1e-10))

    def test_fillings(self):
        self.finds("fillings", ("loads 0 products 0 fillings 0 count", 2), promised=True)

    def test_the_measure(self):
        self.finds("loads[0].products[0].measure", ("loads 0 products 0 measure", "scale"))

    def test_findings(self):
        self.finds("findings: caution stock-short (products[0], load None) is not due",
                   ("findings", [{"severity": "caution", "code": "stock-short", "path": "products[0]", "load": None,
                                  "message": "text"}]))
        job = changed(JOB, ("products 0 stock", "149 mL"))
        plan = expected(job)
        self.assertEqual(check(job, plan), [])
        found = check(job, changed(plan, ("findings", [])))
        self.assertIn("findings: caution stock-short for products[0] is missing", found)

    def test_a_stop(self):
        job = changed(JOB, ("products 1 label max_dose", "2 kg/ha"))
        stopped = expected(job)
        self.assertEqual(check(job, stopped), [])
        self.assertIs(stopped["usable"], False)
        missing = check(job, changed(stopped, ("findings", []), ("usable", True)))
        self.assertIn("findings: stop over-maximum-dose for products[1] is missing", missing)
        for path, new in (("ledger", self.plan["ledger"]), ("loads 0 steps", self.plan["loads"][0]["steps"]),
                          ("loads 0 products 0 measured", {"value": 0.08, "unit": "L"})):
            found = list(promises(job, changed(stopped, (path, new))))
            self.assertEqual(found, ["usable: a plan with a stop holds measured amounts, a ledger or steps"], path)

    def test_the_job_is_kept(self):
        self.finds("job.products[0].dose", ("job products 0 dose value", 1.6))
        self.finds("job.area", ("job area", "1000 m2"))

    def test_another_form(self):
        self.finds("not of the form", ("totals", {}))
        self.finds("ledger", ("ledger", None))


class Answers(unittest.TestCase):
    def test_random_jobs_agree_with_themselves(self):
        usable = stopped = errors = 0
        for i in range(400):
            job = json.loads(json.dumps(random_job(Draw(f"test:{i}"))), parse_float=Fraction)
            try:
                plan = expected(job)
            except NoAnswer as error:
                self.assertEqual(check(job, None, str(error)), [])
                self.assertNotEqual(check(job, None, "unit-ambiguous"), [])
                errors += 1
                continue
            self.assertEqual(check(job, plan), [], job)
            usable += plan["usable"]
            stopped += not plan["usable"]
        self.assertTrue(usable > 200 and stopped > 30 and 0 < errors < 50, (usable, stopped, errors))

    def test_jobs_are_the_same_for_a_seed(self):
        self.assertEqual(random_job(Draw("1:7")), random_job(Draw("1:7")))

    def test_the_command(self):
        def run(*arguments, text=""):
            command = [sys.executable, HERE / "witness.py", *arguments]
            done = subprocess.run(command, input=text, capture_output=True, text=True)
            return done.returncode, done.stdout

        plan = expected(JOB)
        wrong = changed(plan, ("totals loads", 3))
        with tempfile.TemporaryDirectory() as folder:
            paths = [Path(folder) / name for name in ("job.json", "plan.json", "wrong.json")]
            for path, document in zip(paths, (JOB, plan, wrong)):
                path.write_text(json.dumps(document))
            self.assertEqual(run(paths[0], paths[1]), (0, ""))
            code, text = run(paths[0], paths[2])
            self.assertEqual((code, "totals.loads: expected 2, got 3" in text), (1, True))
            self.assertEqual(run(paths[0], Path(folder) / "none.json")[0], 2)
        lines = [json.dumps({"job": JOB, "plan": p}) for p in (plan, wrong)]
        self.assertEqual(run("--lines", text=lines[0]), (0, "1 checked, 0 disagree, 0 decided at a border\n"))
        code, text = run("--lines", text="\n".join(lines))
        self.assertEqual((code, "2 checked, 1 disagree" in text), (1, True))
        self.assertEqual(run("--lines", text="{")[0], 2)


if __name__ == "__main__":
    unittest.main()
