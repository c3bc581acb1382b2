// A literal in L/ha where a volume rate is due: nobody has said that it is one.
#include "mixcalc.hpp"
using namespace mixcalc;
using namespace mixcalc::literals;

Volume tried()
{
#ifdef WRONG
    return mix(200.0_L_per_ha, 12.4_ha); // says: VolumePerArea.* to .*VolumeRate
#else
    return mix(VolumeRate{200.0_L_per_ha}, 12.4_ha);
#endif
}
