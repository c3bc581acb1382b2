// A dose where a volume rate is due, though both are L/ha.
#include "mixcalc.hpp"
using namespace mixcalc;
using namespace mixcalc::literals;

Volume tried()
{
#ifdef WRONG
    return mix(LiquidDose{2.5_L_per_ha}, 12.4_ha); // says: LiquidDose.* to .*VolumeRate
#else
    return mix(VolumeRate{2.5_L_per_ha}, 12.4_ha);
#endif
}
