# What a type checker must accept.
from mixcalc import Area, LiquidDose, Product, Quantity, Ratio, Sprayer, Tank, Volume, VolumeFraction, VolumeRate
import mixcalc
v: Volume = VolumeRate("300 L/ha") * Area("12 ha")
f: VolumeFraction = LiquidDose("1 L/ha") / VolumeRate("200 L/ha")
r: VolumeRate = VolumeRate("200 L/ha") * 1.1
r2: VolumeRate = 2 * r
r3: VolumeRate = r + r2
q: Quantity = Quantity("1 L") * Quantity("2 ha")
x: Ratio = Volume("1 L") / Volume("2 L")
t = Tank(nominal="16 L", headspace=0.1)
s: Volume = sum([Volume("1 L")], Volume("0 L"))
job = mixcalc.Job(area="1 ha", volume_rate=r, products=[Product(name="A", dose="1 L/ha")], measures=[{"kind": "vessel", "capacity": "1 L", "graduation": "10 mL"}], sprayer=Sprayer(kind="boom"), tank=t)
planned = mixcalc.plan(job)
m: Volume = planned.loads[0].mix
d = mixcalc.plan({"area": "1 ha"})
b: bool = r < r2
