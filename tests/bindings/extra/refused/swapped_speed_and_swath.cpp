// Inputs in each other's place.
#include "mixcalc.hpp"
using namespace mixcalc;
using namespace mixcalc::literals;

VolumeRate tried()
{
#ifdef WRONG
    return volume_rate(1.2_L_per_min, 1_m, 4_km_per_h); // says: Length.* to .*Speed
#else
    return volume_rate(1.2_L_per_min, 4_km_per_h, 1_m);
#endif
}
