# Each line below the imports is a mistake that a type checker must find.
from mixcalc import Area, Length, LiquidDose, Sprayer, Tank, Temperature, Volume, VolumeRate

LiquidDose("1 L/ha") + VolumeRate("200 L/ha")
Tank(nominal=16.0)
v: Volume = VolumeRate("300 L/ha") * Length("12 m")
Temperature("20 °C") * 2
Sprayer(kind="bom")
Volume("1 L") < Area("1 ha")
